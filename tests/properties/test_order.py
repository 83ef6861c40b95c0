"""No order of lines in a case, and no order of files, changes a sheet: whole files, shuffled as text."""

from __future__ import annotations

import shutil
from datetime import date
from itertools import permutations
from pathlib import Path
from random import Random

import pytest

from protodsl.decide import Plan, decide, latest_date
from protodsl.resolve import Cache
from protodsl.resolve.case import resolve_case
from protodsl.resolve.case_protocol import protocols_in
from protodsl.source import Source
from protodsl.syntax import parse_case
from tests.cases.test_golden import COMMON, FOLDERS, as_text, days_of, opened
from tests.properties.test_decide import CLINIC, whole
from tests.support import Shelf
from tests.unit.decide.cases import case_text, day, exercise, person, protocol_text

HEAD = ("case ", "  protocol ", "  started ", "  language ", "  side ", "  has ")
TEXT = protocol_text(
    "question torn: Torn?\nquestion sore: Sore?\n  fresh for 1 week\n"
    + exercise("low", "avoid if torn", "  instead sit", "add 1 kg when pain <= 3", dose="3 x 10, load 5 kg, daily")
    + "".join(exercise(name) for name in ("sit", "high", "walk", "ride", "swim"))
    + "progression climb\n  up when pain <= 3, 2 sessions in a row\n  down when pain > 5\n  level low\n  level high\n",
    "call if pain > 6\nphase one\n  give climb\n  choose 1\n    give walk\n    give ride\n  until pain <= 2\n"
    "phase two\n  give climb\n  back to one if pain > 7",
)
# Several lines of every kind on one date.
CASE = case_text("""\
on 2026-11-02
  no: torn, sore
  heel raises: left 5, right 6
on 2026-11-03
  no: sore
  pain next morning: 2
on 2026-11-03
  chose: walk
on 2026-11-05
  yes: torn
  unknown: sore
session 2026-11-03 climb: as given, pain 1
session 2026-11-03 walk: as given, pain 4
session 2026-11-03 climb: 3 x 10, load 5 kg, pain 2
session 2026-11-04 to 2026-11-06: as given, pain 1
session 2026-11-06 climb: part done, pain 7
corrected 2026-11-03 heel raises: left 4
  because miscounted
corrected 2026-11-05 torn: no
  because misread
corrected 2026-11-04 pain: 3
  because misread
on 2026-11-03
  heel raises: left 9, right 9
place 2026-11-06 climb: high
  because seen
from 2026-11-06 give swim
  because wants to
from 2026-11-06 give sit
  because asked for it
from 2026-11-06 leave out ride
  because no bicycle
from 2026-11-06 to 2026-11-20 leave out ride
  because away
from 2026-11-06 change high
  dose 2 x 5, daily
  because tired
from 2026-11-06 change walk
  dose 10 min, daily
  because tired
note 2026-11-06 ran for the bus
note 2026-11-06 slept badly
next visit 2026-11-20
""")


def groups(text: str) -> tuple[list[str], list[str]]:
    """The first lines of a case, and every other line with what stands under it."""
    head: list[str] = []
    body: list[str] = []
    for line in text.splitlines(keepends=True):
        if line.startswith(HEAD):
            head.append(line)
        elif line.startswith("   "):
            body[-1] += line
        else:
            body.append(line)
    return head, body


def shuffled(text: str, random: Random) -> str:
    """The lines in another order, and those under an `on` too."""
    head, body = groups(text)
    mixed = []
    for group in random.sample(body, len(body)):
        first, *below = group.splitlines(keepends=True)
        mixed.append(first + "".join(random.sample(below, len(below)) if first.startswith("  on ") else below))
    return "".join([*head, *mixed])


def because(plan: Plan) -> list[list[str]]:
    """The reasons that the clinician wrote, as they stand with what is not given."""
    return [[one.because.text for one in each.reasons if one.because is not None] for each in plan.not_given]


def test_lines_of_every_kind_in_any_order() -> None:
    someone = person(TEXT, CASE)
    days = [day(f"{number:02}") for number in (2, 3, 4, 5, 6, 9)]
    found = [decide(someone.versions, someone.case, CLINIC, on).value for on in days]
    assert {move.kind for one in found if one for move in one.moves} >= {"start", "up", "place", "phase", "given"}
    random = Random(7)
    for _ in range(60):
        text = shuffled(CASE, random)
        other = person(TEXT, text)
        assert latest_date(other.case) == latest_date(someone.case) == days[4]
        for on, before in zip(days, found, strict=True):
            after = decide(other.versions, other.case, CLINIC, on).value
            assert before is not None and after is not None
            assert whole(before) == whole(after), text
            assert because(before) == because(after), text


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_golden_cases_in_another_order(folder: Path, tmp_path: Path) -> None:
    """What was worked out by hand comes out of the file turned upside down and shuffled."""
    expected = (folder / "plan.txt").read_text("utf-8")
    text = (folder / "input.case").read_text("utf-8")
    for number in range(2):
        place = tmp_path / f"case-{number}"
        place.mkdir()
        (place / "input.case").write_text(shuffled(text, Random(number)), "utf-8")
        case, run = opened(place, tmp_path / f"project-{number}")
        assert as_text(case, run, days_of(expected)) == expected


def test_files_by_other_names_and_in_other_folders(tmp_path: Path) -> None:
    """What is read first, and where it lies, has no say."""
    (folder,) = [one for one in FOLDERS if one.name == "flare-and-return"]
    expected = (folder / "plan.txt").read_text("utf-8")
    for name in ("zz/calf.protocol", "0/0/calf.protocol", "calf-2.protocol"):
        common = tmp_path / name.replace("/", "-")
        shutil.copytree(COMMON, common / "common")
        moved = common / "common" / name
        moved.parent.mkdir(parents=True, exist_ok=True)
        (common / "common" / "calf.protocol").rename(moved)
        case, run = opened(folder, common / "project", common / "common")
        assert as_text(case, run, days_of(expected)) == expected


def test_uses_in_any_order() -> None:
    """Findings, exercises and a progression in three files, used in each of the six orders."""
    findings, rest = TEXT[: TEXT.index("exercise low")], TEXT[TEXT.index("exercise low") :]
    exercises, last = rest[: rest.index("progression climb")], rest[rest.index("progression climb") :]
    progression, protocol = last[: last.index("protocol test")], last[last.index("protocol test") :]
    used = "use findings\n"
    plans = []
    for order in permutations(("findings", "exercises", "progression")):
        files = {
            "findings.protocol": findings,
            "exercises.protocol": used + exercises,
            "progression.protocol": f"{used}use exercises\n{progression}",
            "input.protocol": "".join(f"use {one}\n" for one in order) + protocol,
        }
        (followed,) = protocols_in("input.protocol", Shelf(files), Cache())
        parsed = parse_case(Source("input.case", CASE)).value
        assert parsed is not None
        outcome = resolve_case(parsed, lambda _, one=followed: (one,)).value  # type: ignore[misc]
        assert outcome is not None
        plan = decide(outcome.versions, outcome.case, CLINIC, date(2026, 11, 6)).value
        assert plan is not None
        plans.append(whole(plan))
    assert all(one == plans[0] for one in plans)
