"""The files that `protodsl new` writes: a small commented project to start from."""
