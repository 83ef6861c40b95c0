"""The command line: the outermost layer, which reads files and the clock, prints and sets the exit status."""

from protodsl.cli.main import main

__all__ = ["main"]
