"""Six weeks of one person each: what was decided, held against what was worked out by hand.

`golden/CASE/plan.txt` was written by hand from the rules of the language before the case was decided, and no program
writes it: first every move, with the line that makes it and the dates of the values that do; then for each date named
what stands on the sheet, what does not and why, and what is asked.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from protodsl.case_compiler import decide_case
from protodsl.case_checking import CheckedCase, check_cases
from protodsl.compiler import open_run
from protodsl.run import Run
from protodsl.decide.plan import Move, NotGiven, Plan, PlannedItem
from protodsl.diagnostics.diagnostic import Severity
from protodsl.model.dose import Sets
from protodsl.project import open_project
from protodsl.source import Source
from tests.cases.running import CASES

GOLDEN = CASES / "golden"
COMMON = GOLDEN / "common"
FOLDERS = sorted(path for path in GOLDEN.iterdir() if path.is_dir() and path != COMMON)
# Where somebody stands; that an item is given or not stands in the sheets of the dates.
MOVES = ("start", "up", "down", "lowest", "place", "add", "take off", "adjust", "phase start", "phase", "phase back")
# Whose truth is told with them.
TOLD = ("avoid", "needs", "condition")
OFF = (
    *("avoid", "needs", "leave out", "personal", "forbid", "limit", "bearing", "load limit"),
    *("condition", "choice", "table ended"),
)


def opened(folder: Path, place: Path, common: Path = COMMON) -> tuple[CheckedCase, Run]:
    """The case of a folder, in a copy of the common project."""
    shutil.copytree(common, place)
    shutil.copy(folder / "input.case", place)
    run = open_run(open_project(place), date(2026, 12, 14))
    (case,) = check_cases("input.case", run)
    errors = [one for one in (*run.project.diagnostics, *case.diagnostics) if one.severity is Severity.ERROR]
    assert not errors and case.person is not None, [(one.code.id, one.message) for one in errors]
    return case, run


def plan_on(case: CheckedCase, run: Run, day: date) -> Plan:
    """What was decided as of a date."""
    assert case.person is not None
    decided = decide_case(case.person, run, day)
    assert decided.value is not None, decided.diagnostics
    return decided.value.plan


def days_of(text: str) -> list[date]:
    """The dates of the sheets in a pinned text, in its order."""
    return [date.fromisoformat(day) for day in re.findall(r"^on (\d{4}-\d\d-\d\d),", text, re.MULTILINE)]


def as_text(case: CheckedCase, run: Run, days: list[date]) -> str:
    """The moves up to the last of the dates, then the sheet of each."""
    lines = [line for move in plan_on(case, run, max(days)).moves if move.kind in MOVES for line in moved(move, run)]
    for day in days:
        lines += ["", *sheet(plan_on(case, run, day))]
    return "\n".join(lines) + "\n"


def moved(move: Move, run: Run) -> Iterator[str]:
    """The date, what moved and which way, the line that it moved by, the dates of the values that decided."""
    way = f"{move.before} -> {move.after}" if move.before and move.before != move.after else move.after
    yield f"{move.date} {move.kind} {f'{move.item}: ' if move.item else ''}{way}"
    source: Source = run.sources()[move.span.path]
    yield f"  {source.line(source.position(move.span.start)[0]).strip()}"
    days = sorted({one.date for one in move.deciding if one.date is not None})
    if days:
        yield f"  by {', '.join(map(str, days))}"


def sheet(plan: Plan) -> Iterator[str]:
    """What a person gets on that date."""
    assert plan.phase is not None
    yield f"on {plan.as_of}, in {plan.phase.name} since {plan.phase_since}"
    asked = dict.fromkeys(f"{one.finding}{f' {one.side}' if one.side else ''}" for one in plan.questions)
    if plan.refused:
        yield f"  no sheet: {plan.refused}"
        flags = {one for state in (*plan.emergencies, *plan.red_flags) for one in state.unknown}
        asked = {name: None for name in asked if name in {one.finding for one in flags}}
    yield from (f"  {given(item)}" for item in plan.items)
    if not plan.refused:
        yield from (f"  {left_out(one)}" for one in plan.not_given)
        yield from (f"  uncovered {name}" for name in plan.uncovered)
    # The diary asks for these after every session.
    yield from (f"  asked {name}" for name in sorted(asked) if name not in ("pain", "pain next morning"))
    yield from (f"  told {one.kind} {one.item}" for one in plan.told if one.kind != "lowest")
    for state in plan.red_flags:
        if state.was_yes:
            yield f"  {state.flag.line} was yes on {', '.join(map(str, state.was_yes))}"


def given(item: PlannedItem) -> str:
    """An exercise with where it comes from, its dose and load."""
    volume = item.dose.volume
    assert isinstance(volume, Sets)
    sets = "" if volume.bare else f"{volume.sets.low} x "
    unit = "" if sets and volume.unit == "reps" else f" {volume.unit}"
    dose = f"{sets}to fatigue" if volume.amount is None else f"{sets}{volume.amount.low}{unit}"
    load = f", {item.load.kilograms:f} kg" if item.load is not None and item.load.kilograms is not None else ""
    name = item.exercise.name
    instead = f" for {item.asked}" if item.asked != name else ""
    load += f", {item.takes} of {item.options}" if item.options else ""
    level = item.level
    if level is None:
        return f"{name}{instead}: {dose}{load}"
    at = f", level {level.number} of {level.of} of {level.progression} since {level.since}"
    held = f", held at {level.printed}" if level.held else ""
    return f"{name}{instead}{at}{held}: {dose}{load}"


def left_out(one: NotGiven) -> str:
    """What is not there as the protocol has it, and by which kinds of lines."""
    reasons = dict.fromkeys(
        f"{reason.kind}{f' {reason.truth.value}' if reason.truth is not None and reason.kind in TOLD else ''}"
        for reason in one.reasons
        if reason.kind in OFF
    )
    but = f" but {one.replacement}" if one.replacement else ""
    until = f", given until {one.until}" if one.until else ""
    return f"not {one.asked}{but}: {', '.join(reasons)}{until}"


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_what_was_decided_is_what_was_worked_out(folder: Path, tmp_path: Path) -> None:
    """Every move with its line and dates, every sheet with its exercises, doses and loads."""
    expected = (folder / "plan.txt").read_text("utf-8")
    case, run = opened(folder, tmp_path / "project")
    assert as_text(case, run, days_of(expected)) == expected


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_every_case_covers_six_weeks(folder: Path, tmp_path: Path) -> None:
    """Sessions in each of the six weeks from the start, to the last day of the sixth or nearly."""
    case, _ = opened(folder, tmp_path / "project")
    assert case.person is not None
    days = [(one.date - case.person.case.started).days for one in case.person.case.sessions]
    assert {day // 7 for day in days} == set(range(6))
    assert max(days) >= 40


def test_every_folder_is_whole() -> None:
    """An expectation that no test reads is no expectation."""
    assert len(FOLDERS) >= 12
    for folder in FOLDERS:
        assert sorted(path.name for path in folder.iterdir()) == ["input.case", "plan.txt"]
