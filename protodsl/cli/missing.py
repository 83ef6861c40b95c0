"""What is done where a library is missing for one format and the others could be made."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.diagnostics.render import EXTRA_MISSING, LIBRARY_MISSING
from protodsl.formats import file_suffix


def only_libraries_missing(said: Iterable[Diagnostic]) -> bool:
    """Whether there are errors, and nothing but missing libraries is among them."""
    errors = {one.code for one in said if one.severity is Severity.ERROR}
    return bool(errors) and errors <= {LIBRARY_MISSING, EXTRA_MISSING}


def left_standing(page: Path, formats: Iterable[str], made: Iterable[Path]) -> tuple[Path, ...]:
    """Earlier files of a page (its path without suffix) in the formats not made now, which could say something else."""
    wanted = (page.with_name(f"{page.name}.{file_suffix(form)}") for form in formats)
    now = set(made)
    return tuple(path for path in wanted if path not in now and path.exists())
