"""From text to tree: what was written, with nothing inferred."""
