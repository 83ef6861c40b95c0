"""`protodsl record`: lines added to a case, checked first; not one character of what stood there is changed."""

import multiprocessing
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from protodsl.cli.main import main
from protodsl.record import Addition, is_kept, record
from protodsl.source import Source
from protodsl.syntax import parse_case, tree
from tests.unit.cli.conftest import Cli
from tests.unit.cli.test_ask import ANKLE

CASE = """\
# Kept by hand, and to stay so.
case P-0417
  protocol   ankle, version 1.2.3
  started 2026-11-02

  language en
  side right
  on 2026-11-02
    no:  chest pain,swollen calf
    # asked twice
  session 2026-11-03: missed
  # the week away
  session 2026-11-10 rocks:  as given, sore 2
  next visit 2026-11-30
  note 2026-11-20 Ran for the bus
"""


@pytest.fixture
def case(project: Path) -> Path:
    """A case of the ankle protocol, in a layout of its author's own."""
    (project / "ankle.protocol").write_text(ANKLE)
    (project / "cases").mkdir()
    path = project / "cases/P-0417.case"
    path.write_text(CASE)
    return path


def added(before: str, after: str) -> list[str]:
    """The lines that are new; fails where a line of before is not there any more, or not in its place."""
    rest = iter(after.splitlines(keepends=True))
    new: list[str] = []
    for line in before.splitlines(keepends=True):
        for other in rest:
            if other == line:
                break
            new.append(other.rstrip("\n"))
        else:
            pytest.fail(f"{line!r} is lost")
    return new + [line.rstrip("\n") for line in rest]


@pytest.mark.parametrize(
    ("words", "lines", "behind"),
    [
        (("--on", "2026-11-02", "no: bad night"), ["    no: bad night"], "    # asked twice"),
        (("--on", "2026-11-05", "reach: right 9 cm"), ["  on 2026-11-05", "    reach: right 9 cm"], "  session"),
        (("--session", "2026-11-03", "rocks: 3 x 8"), ["  session 2026-11-03 rocks: 3 x 8"], "  session 2026-11-03"),
        (("--session", "2026-11-10", "missed"), ["  session 2026-11-10: missed"], "  session 2026-11-10 rocks"),
        (("--session", "2026-11-24 to 2026-11-26", "missed"), ["  session 2026-11-24 to 2026-11-26: missed"], "  note"),
        (("--note", "2026-11-04", "Called us"), ["  note 2026-11-04 Called us"], "  session 2026-11-03"),
        (
            ("--correct", "2026-11-02", "chest pain: no", "--because", "misheard"),
            ["  corrected 2026-11-02 chest pain: no", "    because misheard"],
            "    # asked twice",
        ),
    ],
)  # fmt: skip
def test_a_line_goes_where_its_date_belongs(
    cli: Cli, case: Path, words: tuple[str, ...], lines: list[str], behind: str
) -> None:
    """Behind all that is no later; nothing else in the file is another."""
    result = cli("record", case, *words)
    assert (result.status, result.err) == (0, "")
    text = case.read_text()
    assert added(CASE, text) == lines
    every = text.splitlines()
    assert every[every.index(lines[0]) - 1].startswith(behind)
    numbers = [f"{case}:{every.index(line) + 1}:{line}" for line in lines]
    assert result.out.splitlines() == [one.replace(f"{case.parent.parent}/", "") for one in numbers]


def test_several_at_once(cli: Cli, case: Path) -> None:
    """Answers of one date stand under one line, whoever is named first."""
    result = cli(
        *("record", case, "--session", "2026-11-12", "rocks: as given", "missed"),
        *("--on", "2026-11-12", "no: bad night"),
        *("--on", "2026-11-12", "site: toe", "--on", "2026-11-02", "sore: 3"),
    )  # fmt: skip
    assert (result.status, result.err) == (0, "")
    assert added(CASE, case.read_text()) == [
        "    sore: 3",
        "  on 2026-11-12",
        "    no: bad night",
        "    site: toe",
        "  session 2026-11-12 rocks: as given",
        "  session 2026-11-12: missed",
    ]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--on", "2026-11-05", "reach: 9 cm"), "error L"),
        (("--on", "2026-11-05", "rech: right 9 cm"), "error L105"),
        (("--on", "2026-11-02", "yes: chest pain"), "error L110"),
        (("--on", "2026-11-05", "reach right 9 cm"), "error T"),
        (("--session", "2026-10-31", "rocks: as given"), "error L111"),
        (("--session", "2026-11-05", "rock: as given"), "error L105"),
        (("--session", "2026-11-05", "rocks: as givn"), "error "),
        (("--correct", "2026-11-05", "sore: 3", "--because", "x"), "error L112"),
        (("--on", "2026-11-05", "no: bad night", "oops"), "error T"),
    ],
)
def test_what_is_wrong_is_shown_and_not_written(cli: Cli, case: Path, words: tuple[str, ...], code: str) -> None:
    """Values out of kind, unknown names, contradictions, sessions before the start: all found before writing."""
    result = cli("record", case, *words)
    assert (result.status, result.out) == (1, "")
    assert code in result.err
    assert result.err.endswith("Nothing was written; the file is as it was.\n")
    assert case.read_text() == CASE


@pytest.mark.parametrize(
    "words",
    [
        (),
        ("--on", "2026-11-05"),
        ("--on", "2026-11-05", ""),
        ("--on", "2026-11-05", "# no: bad night"),
        ("--on", "2026-11-05", "no: bad night\n  session 2026-11-05: as given"),
        ("--on", "2026-11-05", "no: bad night\x0b"),
        ("--on", "today", "no: bad night"),
        ("--on", "2026-11-31", "no: bad night"),
        ("--session", "2026-11-05", "# missed"),
        ("--correct", "2026-11-02", "chest pain: unknown"),
        ("--because", "misheard"),
        ("--id", "P-0418", "--note", "2026-11-05", "X"),
    ],
)
def test_what_cannot_be_meant_is_not_written(cli: Cli, case: Path, words: tuple[str, ...]) -> None:
    """A comment would be lost, a line end would smuggle in a line of another kind."""
    result = cli("record", case, *words)
    assert result.status in (1, 2) and result.out == ""
    assert case.read_text() == CASE


def test_a_case_with_an_error_is_mended_first(cli: Cli, case: Path) -> None:
    broken = CASE.replace("side right", "side rigt")
    case.write_text(broken)
    assert cli("record", case, "--note", "2026-11-05", "X").status == 1
    assert case.read_text() == broken


def test_a_dry_run_writes_nothing(cli: Cli, case: Path) -> None:
    result = cli("record", case, "--note", "2026-11-05", "X", "--dry-run")
    assert result.status == 0
    assert "  note 2026-11-05 X" in result.out
    assert case.read_text() == CASE


@pytest.mark.parametrize(
    "text",
    [
        CASE.replace("\n", "\r\n"),
        "\ufeff" + CASE,
        CASE.rstrip("\n"),
        CASE.replace("\n", "\r\n").rstrip("\r\n"),
        "\n".join(" " * (len(line) - len(line.lstrip())) + line for line in CASE.split("\n")),
    ],
    ids=["crlf", "byte order mark", "no line end", "crlf, no line end", "four blanks"],
)
@pytest.mark.parametrize("day", ["2026-11-02", "2026-11-05", "2026-11-29"])
def test_bytes_are_kept(cli: Cli, case: Path, text: str, day: str) -> None:
    """Whatever its line ends: taken out again, the new lines leave the file as it was, byte for byte."""
    case.write_bytes(text.encode())
    assert cli("record", case, "--on", day, "no: bad night").status == 0
    data = case.read_bytes()
    end = b"\r\n" if "\r\n" in text else b"\n"
    parts = data.split(end)
    fresh = [part for part in parts if part.strip() in (b"no: bad night", f"on {day}".encode())]
    for line in fresh:
        if line.strip() != b"on 2026-11-02":
            parts.remove(line)
    assert end.join(parts) == text.encode()
    assert cli("check", case).status == 0


def test_a_link_stays_a_link(cli: Cli, case: Path, project: Path) -> None:
    kept = project / "kept.case"
    case.rename(kept)
    case.symlink_to(kept)
    assert cli("record", case, "--note", "2026-11-05", "X").status == 0
    assert case.is_symlink()
    assert "note 2026-11-05 X" in kept.read_text()


def test_one_case_of_several(cli: Cli, case: Path) -> None:
    second = CASE.replace("P-0417", "P-0418").removeprefix("# Kept by hand, and to stay so.\n")
    case.write_text(CASE + "\n" + second)
    assert cli("record", case, "--note", "2026-11-05", "X").status == 2
    assert cli("record", case, "--id", "P-0417", "--note", "2026-11-25", "X").status == 0
    lines = case.read_text().splitlines()
    assert lines[lines.index("  note 2026-11-25 X") + 1 :] == ["", *second.splitlines()]


def test_two_writers_lose_nothing(case: Path) -> None:
    """Each of many that record at once finds its line in the file at the end."""
    context = multiprocessing.get_context("spawn")
    running = [context.Process(target=_note, args=(str(case), number)) for number in range(6)]
    for one in running:
        one.start()
    for one in running:
        one.join()
    assert [one.exitcode for one in running] == [0] * 6
    assert sorted(added(CASE, case.read_text())) == [f"  note 2026-11-05 Number {number}" for number in range(6)]


def _note(case: str, number: int) -> None:
    raise SystemExit(main(["record", case, "--note", "2026-11-05", f"Number {number}"]))


LINES = st.lists(
    st.sampled_from(
        [
            "  on 2026-11-02\n    no: chest pain\n",
            "  on 2026-11-09\n",
            "  session 2026-11-03 to 2026-11-08 rocks: as given\n",
            "  session 2026-11-12: missed\n    # deep\n",
            "  # shallow\n",
            "\n",
            "  from 2026-11-10 leave out rocks\n    because tired\n",
            "  note 2026-11-01 early\n",
            "  next visit 2026-11-30\n",
        ]
    ),
    max_size=8,
)
ADDITIONS = st.lists(
    st.builds(
        lambda day, joins: Addition(
            day,
            f"on {day}" if joins else f"note {day} n",
            (f"yes: x{day:%d}",) if joins else (),
            joins,
        ),
        st.dates(min_value=date(2026, 10, 30), max_value=date(2026, 11, 15)),
        st.booleans(),
    ),
    min_size=1,
    max_size=4,
)


@settings(deadline=None, max_examples=200)
@given(LINES, ADDITIONS, st.booleans())
def test_any_layout_keeps_every_line(lines: list[str], additions: list[Addition], ended: bool) -> None:
    """Every line that was there still stands there, in the same order, and the text says what it said and no more."""
    text = "# top\ncase P-1\n  side left\n" + "".join(lines)
    text = text if ended else text.rstrip("\n")
    before = parse_case(Source("a.case", text)).value
    assert before is not None
    (case,) = before.statements
    assert isinstance(case, tree.CaseDeclaration)
    made = record(text, before, case, tuple(additions))
    kept = [line for at, line in enumerate(made.text.split("\n"), 1) if at not in made.lines]
    assert kept == text.split("\n")
    after = parse_case(Source("a.case", made.text)).value
    assert after is not None
    assert is_kept(before, after, sum(one.facts for one in additions))


WAITING = "    # How far?\n    unknown: reach\n    unknown: bad night, site\n    unknown: sore\n"
STARTED = CASE.replace("    # asked twice\n", WAITING)


@pytest.mark.parametrize(
    ("answers", "line", "was"),
    [
        (("sore: 3",), "    sore: 3", "unknown: sore"),
        (("reach: left 8 cm, right 9 cm",), "    reach: left 8 cm, right 9 cm", "unknown: reach"),
        (("reach: right 9 cm",), "    reach: left unknown, right 9 cm", "unknown: reach"),
    ],
)
def test_an_unknown_answered_on_its_own_date_gives_its_place(
    cli: Cli, case: Path, answers: tuple[str, ...], line: str, was: str
) -> None:
    """Language 5.2: two values of one date are an error, so the line goes, and it is said; the other side stays so."""
    case.write_text(STARTED)
    result = cli("record", case, "--on", "2026-11-02", *answers)
    assert result.status == 0
    assert case.read_text() == STARTED.replace(f"    {was}\n", f"{line}\n")
    assert f"stands in the place of `{was}`" in result.err
    assert line in result.out
    assert cli("check", case).status == 0


def test_the_other_side_is_answered_later_the_same_day(cli: Cli, case: Path) -> None:
    case.write_text(STARTED)
    assert cli("record", case, "--on", "2026-11-02", "reach: right 9 cm").status == 0
    assert cli("record", case, "--on", "2026-11-02", "reach: left 8 cm").status == 0
    assert "    reach: left 8 cm, right 9 cm\n" in case.read_text()
    assert cli("record", case, "--on", "2026-11-02", "reach: left 7 cm").status == 1


def test_an_unknown_of_several_or_of_another_date_is_its_authors_own(cli: Cli, case: Path) -> None:
    """No line of an author goes: the contradiction is shown, and `--correct` puts it right."""
    case.write_text(STARTED)
    result = cli("record", case, "--on", "2026-11-02", "no: bad night")
    assert result.status == 1 and "error L110" in result.err
    assert case.read_text() == STARTED
    assert cli("record", case, "--on", "2026-11-04", "sore: 3").status == 0
    assert added(STARTED, case.read_text()) == ["  on 2026-11-04", "    sore: 3"]
    assert cli("record", case, "--correct", "2026-11-02", "bad night: no", "--because", "asked again").status == 0


MORE = """\
progression more
  level toes
  level rocks
exercise toes
  title Toes
  dose 2 x 10, daily
  do
    Toes.
exercise walk
  title Walk
  do
    Walk.
"""


@pytest.mark.parametrize(
    ("words", "lines"),
    [
        (
            ("--place", "2026-11-04", "more: toes", "--because", "seen"),
            ["  place 2026-11-04 more: toes", "    because seen"],
        ),
        (
            ("--from", "2026-11-04 to 2026-11-06", "leave out rocks", "--because", "travelling"),
            ["  from 2026-11-04 to 2026-11-06 leave out rocks", "    because travelling"],
        ),
        (
            ("--from", "2026-11-04", "give walk", "dose 1 x 5, daily", "--because", "asked for"),
            ["  from 2026-11-04 give walk", "    dose 1 x 5, daily", "    because asked for"],
        ),
        (
            ("--from", "2026-11-04", "change rocks", "do", "  Rock slowly.", "--because", "asked for"),
            ["  from 2026-11-04 change rocks", "    do", "      Rock slowly.", "    because asked for"],
        ),
        (
            ("--from", "2026-11-04", "version 1.2.4", "--place", "2026-11-04", "more: toes", "--because", "the same"),
            ["  from 2026-11-04 version 1.2.4", "  place 2026-11-04 more: toes", "    because the same"],
        ),
        (
            (
                *("--from", "2026-11-12", "leave out rocks", "--correct", "2026-11-10", "sore: 4"),
                *("--place", "2026-11-04", "more: toes"),
                *("--because", "first", "--because", "second", "--because", "third"),
            ),
            [
                "  place 2026-11-04 more: toes",
                "    because third",
                "  corrected 2026-11-10 sore: 4",
                "    because second",
                "  from 2026-11-12 leave out rocks",
                "    because first",
            ],
        ),
    ],
)
def test_a_placing_and_a_change_for_this_person(
    cli: Cli, case: Path, project: Path, words: tuple[str, ...], lines: list[str]
) -> None:
    """Each with its reason, in the order the options were written; checked like what stands there."""
    (project / "ankle.protocol").write_text(ANKLE + "  give more\n" + MORE)
    result = cli("record", case, *words)
    assert (result.status, result.err) == (0, "")
    assert added(CASE, case.read_text()) == lines
    assert cli("check", case).status == 0


@pytest.mark.parametrize(
    ("words", "status"),
    [
        (("--place", "2026-11-04", "more: toes"), 2),
        (("--place", "2026-11-04 to 2026-11-05", "more: toes", "--because", "x"), 2),
        (("--place", "2026-11-04", "more: tos", "--because", "x"), 1),
        (("--from", "2026-11-04", "--because", "x"), 2),
        (("--from", "2026-11-04, 2026-11-05", "leave out rocks", "--because", "x"), 2),
        (("--from", "2026-11-04", "leave out rock", "--because", "x"), 1),
        (("--from", "2026-11-04", "leave rocks out", "--because", "x"), 1),
        (("--from", "2026-11-04", "version 1.3.0"), 1),
        (("--from", "2026-11-04", "version 1.2.4"), 1),
        (("--from", "2026-11-04", "version 1.2.4", "--because", "x"), 2),
        (("--from", "2026-11-04", "give toes", "dose 3 x 20, daily", "--because", "x"), 1),
    ],
)
def test_a_change_that_cannot_be_is_not_written(
    cli: Cli, case: Path, project: Path, words: tuple[str, ...], status: int
) -> None:
    """The last one gives an exercise twice with two doses: that shows only when the case is decided."""
    (project / "ankle.protocol").write_text(ANKLE + "  give more\n" + MORE)
    result = cli("record", case, *words)
    assert (result.status, result.out) == (status, "")
    assert case.read_text() == CASE


def test_a_changed_dose_that_leaves_the_days_out_is_said_at_once(cli: Cli, case: Path, project: Path) -> None:
    """It is the whole dose: without days it counts as daily, which may be more than before."""
    (project / "ankle.protocol").write_text(ANKLE)
    result = cli("record", case, "--from", "2026-11-12", "change rocks", "dose 2 x 5", "--because", "tired")
    assert result.status == 0
    assert "warning D705" in result.err
    result = cli("record", case, "--from", "2026-11-13", "change rocks", "dose 2 x 5, daily", "--because", "better")
    assert (result.status, result.err.count("warning D705")) == (0, 1), result.err
