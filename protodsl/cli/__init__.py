"""The command line: the outermost layer, which reads files, prints and sets the exit status."""

import sys


def main() -> int:
    """Say that no command is there yet; returns exit status 2, wrong use."""
    print("protodsl: no command is available yet", file=sys.stderr)
    return 2
