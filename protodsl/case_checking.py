"""The cases of a file: who each speaks of, what it follows, and what is wrong with it up to its sheet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from protodsl.checking import CheckedEntry, Problem, check_alone, problem_of
from protodsl.diagnostics.diagnostic import Diagnostic, Label, Severity, in_order
from protodsl.run import Run
from protodsl.source import Span
from protodsl.syntax import tree

if TYPE_CHECKING:
    from protodsl.resolve.case import Person


@dataclass(frozen=True, slots=True)
class CheckedCase:
    """One case: the person it speaks of (None where that cannot be told), the file of its protocol, what is wrong.

    `entry` is None where no protocol, or more than one, has that name. Errors of the entry are errors of the case.
    """

    path: str
    id: str
    person: Person | None
    entry: CheckedEntry | None
    diagnostics: tuple[Diagnostic, ...]


def check_cases(path: str, run: Run) -> Iterator[CheckedCase]:
    """Each case of a file; one without a person where the file holds none that can be read."""
    # A check of protocols alone has no cases.
    from protodsl.resolve.case import resolve_case

    register = run.register()
    file = run.shelf.tree(path)
    cases = [one for one in file.statements if isinstance(one, tree.CaseDeclaration)] if file else []
    if file is None or not cases:
        yield CheckedCase(path, "", None, None, run.shelf.said(path))
    for case in cases:
        assert file is not None
        resolved = resolve_case(replace(file, statements=(case,)), register.find, register.known())
        line = next((one for one in case.lines if isinstance(one, tree.CaseProtocol)), None)
        followed = register.files(line.name.text) if line else ()
        entry = run.entry(followed[0]) if len(followed) == 1 else None
        errors = tuple(one for one in entry.diagnostics if one.severity is Severity.ERROR) if entry else ()
        changed = _changed(resolved.value, path, run) if resolved.value else ()
        said = in_order(run.shelf.said(path) + resolved.diagnostics + errors + changed)
        yield CheckedCase(path, case.name.text, resolved.value, entry, said)


def decided(case: CheckedCase, run: Run, as_of: date | None) -> CheckedCase:
    """With what comes out only when the case is replayed up to its sheet, as of a date (None: its latest line)."""
    if case.person is None or any(one.severity is Severity.ERROR for one in case.diagnostics):
        return case
    from protodsl.decide import decide

    said = decide(case.person.versions, case.person.case, run.project.clinic, as_of).diagnostics
    return replace(case, diagnostics=in_order(case.diagnostics + said)) if said else case


def _changed(person: Person, path: str, run: Run) -> tuple[Diagnostic, ...]:
    """What a person's own changes make of the protocol is held against the same rules; what they bring in is said."""
    case = person.case
    if not case.changed:
        return ()
    (followed,) = run.register().find(case.protocol)
    known = run.problems(followed.protocol)
    said: dict[Problem, Diagnostic] = {}
    for start, protocol in person.versions.spans:
        if protocol is followed.protocol:
            continue
        places = [one.span for one in case.changed if one.date <= start and (one.until is None or start <= one.until)]
        for one in check_alone(protocol, run.project.clinic, run.figures):
            if problem_of(one) not in known:
                said.setdefault(problem_of(one), _at_change(one, places, path))
    return tuple(said.values())


def _at_change(one: Diagnostic, changes: list[Span], path: str) -> Diagnostic:
    """With the lines of the case that brought it about, where it points to none."""
    if any(label.span.path == path for label in (one.primary, *one.secondary)):
        return one
    return replace(one, secondary=(*one.secondary, *(Label(span, "as changed for this person") for span in changes)))
