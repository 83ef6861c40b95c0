"""`protodsl completion`: a script with which a shell completes commands, options and files."""

from __future__ import annotations

import argparse

import shtab

from protodsl.cli.arguments import parser
from protodsl.cli.status import CLEAN


def run(arguments: argparse.Namespace) -> int:
    """Print the script for the shell."""
    print(shtab.complete(with_files(parser()), arguments.shell))
    return CLEAN


def with_files(top: argparse.ArgumentParser) -> argparse.ArgumentParser:
    """The parser with its arguments for files and folders marked as such, down to every command."""
    for action in top._actions:
        if isinstance(action, argparse._SubParsersAction):
            for command in action.choices.values():
                with_files(command)
        elif action.metavar in ("PATH", "CASE", "PROTOCOL"):
            action.complete = shtab.FILE  # type: ignore[attr-defined]
        elif action.metavar == "FOLDER":
            action.complete = shtab.DIRECTORY  # type: ignore[attr-defined]
    return top
