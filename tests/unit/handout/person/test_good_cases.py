"""Each case below `tests/cases/good/person` is read and decided, and its pages are pinned word by word.

`PROTODSL_WRITE_EXPECTED=1 python -m pytest tests/unit/handout/person/test_good_cases.py` writes them anew; read the
difference before it is committed. The sheet before is that of the last date before today with answers.
"""

from __future__ import annotations

import os
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from protodsl.decide import Plan, decide
from protodsl.diagnostics.diagnostic import Severity
from protodsl.handout import Options, safety_items
from protodsl.handout.blocks import Handout, Table
from protodsl.handout.person import compose_case_page, compose_person, compose_referral
from protodsl.handout.phrase import Phrase
from protodsl.localise import localise
from protodsl.readability import Kind, level_of, total
from protodsl.resolve import Cache
from protodsl.resolve.case import Person, resolve_case
from protodsl.resolve.case_protocol import protocols_in
from protodsl.source import Source
from protodsl.syntax import parse_case
from tests.unit.handout.demo import Shelf
from tests.unit.handout.samples import CLINIC
from tests.unit.handout.shown import shown, shown_lines

PERSONS = Path(__file__).parents[3] / "cases" / "good" / "person"
FOLDERS = sorted(path for path in PERSONS.iterdir() if path.is_dir())
WRITE = bool(os.environ.get("PROTODSL_WRITE_EXPECTED"))


@cache
def _read(folder: Path) -> tuple[Person, Options]:
    """The one person of a folder, and the texts that the pages point at."""
    shelf = Shelf(folder)
    (file,) = folder.glob("*.protocol")
    (case,) = folder.glob("*.case")
    followed = protocols_in(file.name, shelf, Cache())
    source = Source(case.name, case.read_text(encoding="utf-8"))
    parsed = parse_case(source)
    assert parsed.value is not None
    read = resolve_case(parsed.value, lambda name: tuple(one for one in followed if one.protocol.name == name))
    wrong = [one.message for one in (*parsed.diagnostics, *read.diagnostics) if one.severity is Severity.ERROR]
    assert read.value is not None and not wrong, wrong
    sources = {**shelf.sources, source.path: source}
    return read.value, Options(sources=sources, digest="01234-56789", version="1.0")


@cache
def _plans(folder: Path) -> tuple[Plan, Plan | None]:
    """What is decided today, and what was for the sheet before."""
    person, _ = _read(folder)
    today = decide(person.versions, person.case, CLINIC).value
    assert today is not None
    days = {one.date for one in person.case.observations if one.date < today.as_of and not one.corrects}
    before = decide(person.versions, person.case, CLINIC, max(days)).value if days else None
    return today, before


def _pages(folder: Path) -> dict[str, Handout[Phrase]]:
    _, options = _read(folder)
    plan, before = _plans(folder)
    pages = {
        "sheet.txt": compose_person(plan, CLINIC, options, before),
        "referral.txt": compose_referral(plan, CLINIC, options),
        "case.txt": compose_case_page(plan, CLINIC, options, before),
    }
    return {name: page for name, page in pages.items() if page is not None}


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_a_case_says_what_is_pinned(folder: Path) -> None:
    """Every page there is, in words; and no page more than are pinned."""
    plan, _ = _plans(folder)
    pages = _pages(folder)
    for name, page in pages.items():
        words = localise(page, plan.protocol.scope, CLINIC, "en")
        assert words.value is not None
        said = shown(words.value)
        if WRITE:
            (folder / name).write_text(said, encoding="utf-8")
        assert said == (folder / name).read_text(encoding="utf-8")
    assert {path.name for path in folder.glob("*.txt")} == pages.keys()


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_which_pages_there_are(folder: Path) -> None:
    """A sheet only where nothing was refused, the referral page only where a flag is yes, the case page always."""
    wanted = {
        "climb-and-flare": {"sheet.txt", "case.txt"},
        "by-choice": {"sheet.txt", "case.txt"},
        "red-flag": {"referral.txt", "case.txt"},
        "unanswered": {"case.txt"},
    }
    assert _pages(folder).keys() == wanted[folder.name]


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_the_minutes_of_each_day_add_up(folder: Path) -> None:
    """Each column sums to its last row: what was decided for that day, less what is done with us only."""
    plan, _ = _plans(folder)
    page = _pages(folder).get("sheet.txt")
    if page is None:
        return
    words = localise(page, plan.protocol.scope, CLINIC, "en").value
    assert words is not None
    (week,) = (section for section in words.sections if section.id == "week")
    table = week.blocks[0]
    assert isinstance(table, Table) and table.rows
    for day in plan.week:
        column = [row[day.weekday + 1].text for row in table.rows]
        assert sum(int(cell) for cell in column if cell.isdigit()) == int(table.foot[day.weekday + 1].text)
        with_us = [item for item in plan.items if item.supervised and day.weekday in item.days]
        at_home = day.minutes - sum(item.minutes or 0 for item in with_us)
        assert str(at_home) == table.foot[day.weekday + 1].text


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_no_safety_id_stands_twice(folder: Path) -> None:
    """On no page of the case."""
    for page in _pages(folder).values():
        ids = [item.safety for item in safety_items(page)]
        assert len(ids) == len(set(ids))


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_what_a_person_reads_is_plain(folder: Path) -> None:
    """No section is above the eighth school grade by the formula of Kincaid and others, 1975 (Report 8-75).

    That eight is the most a patient should meet is common practice, no source. Sources and versions are left out.
    """
    plan, _ = _plans(folder)
    for name, page in _pages(folder).items():
        words = localise(page, plan.protocol.scope, CLINIC, "en").value
        assert words is not None
        for section in words.sections if name != "case.txt" else ():
            if section.id not in ("about", "ask"):
                assert _grade(shown_lines(section)) <= 8, (section.id, _grade(shown_lines(section)))


def _grade(lines: list[str]) -> Decimal:
    level = level_of(total((line.replace("*", "") for line in lines), "en"), "en", Kind.GRADE)
    return level.value if level else Decimal(0)
