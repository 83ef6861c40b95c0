"""The command line and a starter project, as in the tests of the command line."""

from tests.unit.cli.conftest import cli, project

__all__ = ["cli", "project"]
