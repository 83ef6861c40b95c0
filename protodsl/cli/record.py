"""`protodsl record`: dated lines of every kind written into a case file, once it was checked with them."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path

from protodsl.cli.alone import alone
from protodsl.cli.files import write_all
from protodsl.cli.record_lines import WrongUse, additions
from protodsl.cli.report import from_here, say, show, wants_colour
from protodsl.cli.status import CLEAN, ERRORS, WRONG_USE
from protodsl.compiler import Checked, check_project, parse
from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.diagnostics.project import no_sheet, referred, unreadable, unwritable
from protodsl.project import CASE_SUFFIX, Project, open_project, read_bytes, shown
from protodsl.record import Addition, is_kept, record
from protodsl.source import Source
from protodsl.syntax import tree


def run(arguments: argparse.Namespace) -> int:
    """Write the lines into the file, or say why not and leave it as it is."""
    path: Path = arguments.case
    try:
        if path.suffix != CASE_SUFFIX:
            raise WrongUse(f"`{path}` is no case: the name of a case file ends in `{CASE_SUFFIX}`")
        wanted = additions(arguments)
        with alone(path):
            return _record(path, wanted, arguments)
    except WrongUse as wrong:
        say(f"protodsl record: {wrong}")
        return WRONG_USE
    except OSError as error:
        said = unreadable(shown(path), error.strerror or "It cannot be opened")
        return _refused((said,), {}, open_project(path), arguments)


def _record(path: Path, wanted: tuple[Addition, ...], arguments: argparse.Namespace) -> int:
    project = open_project(path)
    data = read_bytes(path)
    if isinstance(data, Diagnostic):
        return _refused((data,), {}, project, arguments)
    name = project.name(path)
    source, parsed = parse(name, data)
    if source is None or parsed.value is None or _errors(parsed.diagnostics):
        return _refused(parsed.diagnostics, {name: source} if source else {}, project, arguments)
    made = record(data.decode(), parsed.value, _case(parsed.value, arguments.id), wanted)
    fresh = made.text.encode()
    checked = check_project(project, (path,), date.today(), {name: fresh})
    if _errors(checked.diagnostics):
        return _refused(checked.diagnostics, checked.sources, project, arguments)
    again = parse(name, fresh)[1].value
    if again is None or not is_kept(parsed.value, again, made.facts, made.gone):
        raise WrongUse("these words would not stand as lines of their own; nothing was written")
    if not arguments.dry_run:
        try:
            write_all({path.resolve(): fresh})
        except OSError as error:
            said = unwritable(shown(path), error.strerror or "It cannot be opened")
            return _refused((said,), {}, project, arguments)
    own = tuple(one for one in checked.diagnostics if one.primary.span.path == name and one.severity > Severity.HINT)
    _show((*own, *_danger(checked, project)), checked.sources, project, arguments)
    text = Source(name, made.text)
    for number in made.lines:
        print(f"{shown(path)}:{number}:{text.line(number)}")
    for number, was in made.answered:
        say(f"{shown(path)}:{number} stands in the place of `{was}`")
    return CLEAN


def _danger(checked: Checked, project: Project) -> Iterator[Diagnostic]:
    """A danger sign that the case now has, or that nobody knows: that is said at once, not when a sheet is built."""
    # Only now, when all is well, is there anything to decide.
    from protodsl.case_compiler import unanswered
    from protodsl.decide import decide
    from protodsl.decide.plan import REFER, UNANSWERED

    for case in checked.cases:
        if case.person is not None:
            plan = decide(case.person.versions, case.person.case, project.clinic).value
            if plan is not None and plan.refused == REFER:
                yield referred(case.id, case.person.case.span)
            if plan is not None and plan.refused == UNANSWERED:
                yield no_sheet(case.id, unanswered(plan), case.person.case.span)


def _case(file: tree.File, wanted: str | None) -> tree.CaseDeclaration:
    """The case that is meant: the only one in the file, or the one that `--id` names."""
    cases = [one for one in file.statements if isinstance(one, tree.CaseDeclaration)]
    meant = [one for one in cases if wanted in (None, one.name.text)]
    if len(meant) == 1:
        return meant[0]
    there = ", ".join(one.name.text for one in cases) or "none"
    raise WrongUse(f"name one of the cases in the file with `--id`; there is {there}")


def _errors(diagnostics: tuple[Diagnostic, ...]) -> bool:
    return any(one.severity is Severity.ERROR for one in diagnostics)


def _refused(
    diagnostics: tuple[Diagnostic, ...], sources: Mapping[str, Source], project: Project, arguments: argparse.Namespace
) -> int:
    _show(diagnostics, sources, project, arguments)
    say("Nothing was written; the file is as it was.")
    return ERRORS


def _show(
    diagnostics: tuple[Diagnostic, ...], sources: Mapping[str, Source], project: Project, arguments: argparse.Namespace
) -> None:
    placed, texts = from_here(diagnostics, sources, project.root)
    show(placed, texts, "text", sys.stderr, wants_colour(sys.stderr, arguments.no_color))
