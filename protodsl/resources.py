"""The one door to the files that are shipped inside the packages: grammar, templates, catalogues, pages and fonts."""

from importlib import import_module
from pathlib import Path


def text(package: str, name: str) -> str:
    """The UTF-8 text of a file, with its line ends as newlines; the name may hold folders: `pages/S101.md`."""
    return path(package, name).read_text(encoding="utf-8")


def data(package: str, name: str) -> bytes:
    """The bytes of a file."""
    return path(package, name).read_bytes()


def path(package: str, name: str = "") -> Path:
    """Where a file lies, or the package's own folder; the package is always unpacked on disk, never in a zip file."""
    # `importlib.resources.files` would answer the same, and costs every start a tenth of the time of a check.
    return Path(import_module(package).__path__[0]).joinpath(*name.split("/") if name else ())
