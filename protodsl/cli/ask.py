"""`protodsl ask`: what has to be known of a person, as text, as a sheet to fill in, or as the start of a case."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path

from protodsl.asked import Asked
from protodsl.checking import CheckedEntry
from protodsl.cli.build import file_name
from protodsl.cli.case_start import case_text
from protodsl.cli.files import write_all, write_new
from protodsl.cli.missing import not_of_these
from protodsl.cli.page_names import QUESTIONS_PAGE
from protodsl.cli.report import from_here, say, show, wants_colour
from protodsl.cli.status import CLEAN, ERRORS, WRONG_USE
from protodsl.compiler import Checked, check_project, make_handout, protocols_by_name
from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.diagnostics.project import unwritable
from protodsl.diagnostics.suggest import nearest
from protodsl.formats import PROTOCOL, QUESTIONS, file_suffix
from protodsl.handout.questions import GROUPS, Question, questions
from protodsl.model.finding import Answer, Kind
from protodsl.model.protocol import Protocol
from protodsl.project import CASE_SUFFIX, PROTOCOL_SUFFIX, Project, open_project, shown

_CASES = "cases"
_GROUPS = {
    "flag": "Is it safe to start? Until each of these is answered no sheet is made.",
    "patient": "To ask the patient:",
    "measured": "To measure:",
    "session": "With each session:",
}


class WrongUse(Exception):
    """What was asked for on the command line cannot be meant; the words say why."""


def run(arguments: argparse.Namespace) -> int:
    """Print the questions, or write the sheet or the case that was asked for."""
    try:
        return _run(arguments)
    except WrongUse as wrong:
        say(f"protodsl ask: {wrong}")
        return WRONG_USE


def _run(arguments: argparse.Namespace) -> int:
    if arguments.start and not arguments.side:
        raise WrongUse('`--start` needs `--side`: left, right, none or "both, worse left"')
    project, path = _file(arguments.protocol)
    checked = check_project(project, (path,), date.today())
    if not arguments.sheet and not arguments.start:
        errors = tuple(one for one in checked.diagnostics if one.severity is Severity.ERROR)
        _show(errors, checked, arguments)
        if errors:
            return ERRORS
    elif any(one.severity is Severity.ERROR for one in checked.diagnostics):
        _show(checked.diagnostics, checked, arguments)
        return ERRORS
    entry, protocol = _protocol(checked, arguments.protocol)
    status = CLEAN
    if arguments.sheet:
        status = _sheet(checked, entry, protocol, arguments)
    if arguments.start and status == CLEAN:
        status = _start(checked, protocol, arguments)
    if not arguments.sheet and not arguments.start:
        print("\n".join(as_text(protocol, questions(protocol, project.clinic))))
    return status


def as_text(protocol: Protocol, asked: tuple[Question, ...]) -> Iterator[str]:
    """The questions under their heads, each with its name and what may be answered."""
    yield f"{protocol.name}, version {protocol.version}: {len(asked)} questions"
    for group in GROUPS:
        own = [one.finding for one in asked if one.group == group]
        if own:
            yield f"\n{_GROUPS[group]}"
        for finding in own:
            yield f"  {finding.name}: {answers(finding.answer)}"
            if finding.words is not None:
                yield f"      {finding.words.text}"


def answers(answer: Answer) -> str:
    """What may be answered, as it stands in a protocol."""
    sides = ", each side" if answer.sided else ""
    if answer.kind is Kind.YES_NO:
        return f"yes or no{sides}"
    if answer.kind is Kind.CHOICE:
        return f"one of {', '.join(answer.choices)}{sides}"
    if answer.kind is Kind.DATE:
        return f"a date{sides}"
    between = f"{answer.low:f} to {answer.high:f}" if answer.low is not None and answer.high is not None else "a number"
    unit = f" {answer.unit.name}" if answer.unit is not None and answer.unit.name != "count" else ""
    return f"{between}{unit}{sides}"


def _file(asked: str) -> tuple[Project, Path]:
    """The project, and the file of the protocol that a path or a name means."""
    path = Path(asked)
    if path.suffix == PROTOCOL_SUFFIX or path.is_file():
        return open_project(path), path
    project = open_project(Path())
    by_name = protocols_by_name(project)
    files = by_name.get(asked, ())
    if not files:
        meant = nearest(asked, by_name)
        hint = f"; did you mean `{meant}`?" if meant else ""
        raise WrongUse(f"no protocol named `{asked}` is declared in this project{hint}")
    if len(files) > 1:
        raise WrongUse(f"`{asked}` is declared in {' and in '.join(files)}; name the file")
    return project, project.root / files[0]


def _protocol(checked: Checked, asked: str) -> tuple[CheckedEntry, Protocol]:
    there = [(entry, one) for entry in checked.entries if entry.value for one in entry.value.protocols]
    meant = [(entry, one) for entry, one in there if one.name == asked] or there
    if len(meant) != 1:
        names = ", ".join(f"`{one.name}`" for _, one in there) or "none"
        raise WrongUse(f"name the protocol that is meant; in `{asked}` there is {names}")
    return meant[0]


def _sheet(checked: Checked, entry: CheckedEntry, protocol: Protocol, arguments: argparse.Namespace) -> int:
    clinic = checked.project.clinic
    folder: Path = arguments.output or Path(".") / checked.project.root / clinic.output
    language = arguments.language or clinic.languages[0]
    forms = arguments.to or clinic.formats
    made = make_handout(checked, entry, protocol, Asked(QUESTIONS, language, forms, clinic.paper))
    said = list(made.diagnostics)
    other = "" if language == clinic.languages[0] else f".{language}"
    stem = f"{file_name(protocol.name)}{other}{QUESTIONS_PAGE}"
    files = {folder / f"{stem}.{file_suffix(form)}": data for form, data in (made.value or {}).items()}
    if not any(one.severity is Severity.ERROR for one in said):
        try:
            write_all(files)
            for path in files:
                print(shown(path))
        except OSError as error:
            said.append(unwritable(shown(Path(error.filename or folder)), error.strerror or "It cannot be opened"))
    _show(tuple(said), checked, arguments)
    for line in not_of_these(arguments.to or (), (QUESTIONS,), (PROTOCOL,)):
        say(line)
    return ERRORS if any(one.severity is Severity.ERROR for one in said) else CLEAN


def _start(checked: Checked, protocol: Protocol, arguments: argparse.Namespace) -> int:
    project = checked.project
    path = Path(".") / project.root / _CASES / f"{arguments.start}{CASE_SUFFIX}"
    asked = questions(protocol, project.clinic)
    language = arguments.language or project.clinic.languages[0]
    text = case_text(arguments.start, protocol, arguments.started or date.today(), language, arguments.side, asked)
    if not path.is_relative_to(project.root) or path.parent.name != _CASES or ".." in path.parts:
        raise WrongUse(f"`{arguments.start}` is no id; write one such as P-0500")
    tried = check_project(project, (path,), date.today(), {project.name(path): text.encode()})
    said = tuple(one for one in tried.diagnostics if one.primary.span.path == project.name(path))
    errors = [one for one in said if one.severity is Severity.ERROR]
    _show(said, tried, arguments)
    if errors:
        say("Nothing was written.")
        return ERRORS
    try:
        write_new(path, text.encode())
    except FileExistsError:
        _show((unwritable(shown(path), "It is there already, and nothing is overwritten"),), tried, arguments)
        return ERRORS
    except OSError as error:
        _show((unwritable(shown(path), error.strerror or "It cannot be opened"),), tried, arguments)
        return ERRORS
    print(shown(path))
    return CLEAN


def _show(said: tuple[Diagnostic, ...], checked: Checked, arguments: argparse.Namespace) -> None:
    placed, sources = from_here(said, checked.sources, checked.project.root)
    show(placed, sources, "text", sys.stderr, wants_colour(sys.stderr, arguments.no_color))
