"""The rules a protocol has to keep, one a file, listed in one place."""
