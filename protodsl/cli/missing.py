"""What is done where one format cannot be made, or not of what is there, and the others can."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.diagnostics.render import EXTRA_MISSING, LIBRARY_MISSING
from protodsl.formats import CASE, CLINICIAN, FORMATS, PROTOCOL, QUESTIONS, SHEET, file_suffix, made_for

_KINDS = {SHEET: "sheets", CLINICIAN: "clinician's pages", QUESTIONS: "questions"}
_SUBJECTS = {PROTOCOL: "protocols", CASE: "cases"}


def only_libraries_missing(said: Iterable[Diagnostic]) -> bool:
    """Whether there are errors, and nothing but missing libraries is among them."""
    errors = {one.code for one in said if one.severity is Severity.ERROR}
    return bool(errors) and errors <= {LIBRARY_MISSING, EXTRA_MISSING}


def left_standing(page: Path, formats: Iterable[str], made: Iterable[Path]) -> tuple[Path, ...]:
    """Earlier files of a page (its path without suffix) in the formats not made now, which could say something else."""
    wanted = (page.with_name(f"{page.name}.{file_suffix(form)}") for form in formats)
    now = set(made)
    return tuple(path for path in wanted if path not in now and path.exists())


def not_of_these(names: Iterable[str], kinds: Sequence[str], subjects: Sequence[str]) -> Iterator[str]:
    """A line for each named format that no page of these kinds, of these subjects, comes in."""
    for name in names:
        form = FORMATS[name]
        if not any(made_for((name,), kind, one, form.made_from) for kind in kinds for one in subjects):
            pages = " and ".join(_KINDS[kind] for kind in form.kinds)
            of = " and ".join(_SUBJECTS[one] for one in form.subjects)
            yield f"no `{name}` was made: it is a format for {pages} of {of}"
