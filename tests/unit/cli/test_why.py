"""`protodsl why`: every step from the line of a protocol to what is, or is not, on one person's sheet."""

from itertools import pairwise
from pathlib import Path

import pytest

from tests.unit.cli.conftest import Cli

PROTOCOL = """\
question chest pain: Do you have chest pain?
question sore knee: Is your knee sore?
  fresh for 2 weeks
question bad back: Is your back bad?
question pain: How sore is it?
  answer 0 to 10
  fresh for one session
test heel raises: Heel raises.
  answer count from 0 to 60, each side
target calf: the calf
equipment wall: a wall
exercise seated
  title Seated
  position sitting
  works calf
  dose 2 x 20, daily
  do
    Lift.
exercise standing
  title Standing
  position standing
  works calf
  needs wall
    instead seated
  dose 3 x 12, daily
  do
    Lift.
  avoid if sore knee
    instead seated
exercise hop
  title Hop
  position standing
  works calf
  dose 3 x 5, daily
  do
    Hop.
  avoid if bad back
progression calf strength
  works calf
  down when pain > 5
  level seated
    up when pain <= 3, 2 sessions in a row
  level standing
protocol calf
  title Calf
  version 1.0.0
  review 2026-11-01 by us, next by 2027-11-01
  source A book
  for adults
  emergency if chest pain
  phase first
    title First
    give calf strength
    give hop if heel raises >= 10 on each side
    until weeks since phase start >= 1 and pain <= 3
  phase second
    title Second
    give calf strength
"""
CASE = """\
case P-0417
  protocol calf, version 1.0.0
  started 2026-11-02
  language en
  side right
  on 2026-11-02
    no: chest pain, sore knee
    heel raises: left 12, right 11
  session 2026-11-03, 2026-11-04 calf strength: as given, pain 2
"""


@pytest.fixture
def case(project: Path) -> Path:
    """A case two days into its protocol."""
    (project / "calf.protocol").write_text(PROTOCOL)
    (project / "cases").mkdir()
    path = project / "cases/P-0417.case"
    path.write_text(CASE)
    return path


def line(text: str) -> int:
    """The number of the one line that reads so."""
    found = [at for at, one in enumerate(PROTOCOL.splitlines(), 1) if one.strip() == text]
    assert len(found) == 1, text
    return found[0]


def test_a_progression_with_its_moves(cli: Cli, case: Path) -> None:
    """Where it stands, what leads on, what was looked at, and each move with date, line and deciding values."""
    result = cli("why", case, "calf", "strength")
    assert (result.status, result.err) == (0, "")
    up, down = "up when pain <= 3, 2 sessions in a row", "down when pain > 5"
    assert result.out == (
        "P-0417 on 2026-11-04: calf, version 1.0.0\n"
        f"in the phase `first` since 2026-11-02 (calf.protocol:{line('phase first')})\n"
        "\n"
        "standing: on the sheet for calf strength, since 2026-11-04, in week 1\n"
        "  - given\n"
        f"      calf.protocol:{line('phase first') + 2}: give calf strength\n"
        "  - moved to `standing`\n"
        f"      calf.protocol:{line(up)}: {up}\n"
        "      by pain: 2 on 2026-11-03 (cases/P-0417.case:9)\n"
        "      by pain: 2 on 2026-11-04 (cases/P-0417.case:9)\n"
        "  - looked at: no\n"
        f"      calf.protocol:{line('avoid if sore knee')}: avoid if sore knee\n"
        "      by sore knee: no on 2026-11-02 (cases/P-0417.case:7)\n"
        "\n"
        "calf strength: at level 2 of 2, `standing`, since 2026-11-04\n"
        f"  - moves back: calf.protocol:{line(down)}: {down}\n"
        "      unknown now: nothing has answered it since this level began\n"
        "\n"
        "moves so far\n"
        "  - 2026-11-02 start: (nothing) -> seated\n"
        f"      calf.protocol:{line('level seated')}: level seated\n"
        "  - 2026-11-04 up: seated -> standing, 2 sessions in a row\n"
        f"      calf.protocol:{line(up)}: {up}\n"
        "      by pain: 2 on 2026-11-03 (cases/P-0417.case:9)\n"
        "      by pain: 2 on 2026-11-04 (cases/P-0417.case:9)\n"
    )


def test_what_is_left_out_says_by_which_line_and_what_nobody_knows(cli: Cli, case: Path) -> None:
    result = cli("why", case, "hop")
    assert "hop: not on the sheet; nothing stands in its place" in result.out
    assert f"calf.protocol:{line('avoid if bad back')}: avoid if bad back" in result.out
    assert "not known: bad back: nobody has said" in result.out
    given = "give hop if heel raises >= 10 on each side"
    assert f"calf.protocol:{line(given)}: {given}" in result.out
    assert "by heel raises left: 12 on 2026-11-02 (cases/P-0417.case:8)" in result.out


def test_a_value_grown_old_is_told_as_such(cli: Cli, case: Path) -> None:
    """Swapped because an answer is too old: the old one is shown, with its date and line."""
    result = cli("why", case, "standing", "--as-of", "2026-11-20")
    assert "seated: on the sheet in the place of standing for calf strength" in result.out
    assert "not known: sore knee: no on 2026-11-02, too old to count (cases/P-0417.case:7)" in result.out


def test_equipment_that_is_not_there(cli: Cli, case: Path) -> None:
    case.write_text(CASE.replace("  side right", "  side right\n  has nothing"))
    result = cli("why", case, "standing")
    assert "`standing` needs what is not there" in result.out
    assert f"calf.protocol:{line('needs wall')}: needs wall" in result.out


def test_a_finding_with_every_value_and_every_line_that_looks_at_it(cli: Cli, case: Path) -> None:
    result = cli("why", case, "pain")
    assert "pain: 2 values so far" in result.out
    for text in ("down when pain > 5", "up when pain <= 3, 2 sessions in a row"):
        assert f"  - calf.protocol:{line(text)}: {text}" in result.out
    assert "moves that it made" in result.out


def test_a_phase(cli: Cli, case: Path) -> None:
    result = cli("why", case, "first")
    until = "until weeks since phase start >= 1 and pain <= 3"
    assert "first: the phase of now" in result.out
    assert f"calf.protocol:{line(until)}: {until}" in result.out
    assert "second: not the phase of now" in cli("why", case, "second").out


def test_a_personal_change_with_its_reason(cli: Cli, case: Path) -> None:
    case.write_text(CASE + "  from 2026-11-04 leave out calf strength\n    because travelling\n")
    result = cli("why", case, "calf strength")
    assert "`calf strength` is left out for this person" in result.out
    assert "because travelling" in result.out
    assert "cases/P-0417.case:10: from 2026-11-04 leave out calf strength" in result.out


@pytest.mark.parametrize(
    ("answer", "told"),
    [("yes", "a danger sign is there"), ("unknown", "a danger sign is unanswered")],
)
def test_no_sheet(cli: Cli, case: Path, answer: str, told: str) -> None:
    """The flag that stands against every exercise is named with its line, whatever is asked about."""
    case.write_text(CASE + f"  on 2026-11-05\n    {answer}: chest pain\n")
    for words in ((), ("standing",)):
        result = cli("why", case, *words)
        assert result.status == 0
        assert f"no exercise is printed: {told}" in result.out
        assert f"calf.protocol:{line('emergency if chest pain')}: emergency if chest pain" in result.out
        assert "(cases/P-0417.case:11)" in result.out


def test_without_a_name_everything_is_listed(cli: Cli, case: Path) -> None:
    result = cli("why", case)
    assert result.status == 0
    for text in (
        "on the sheet\n  standing (calf strength, level 2 of 2)",
        "not on the sheet as the protocol has it\n  hop",
        "open questions, the gravest first\n  bad back",
        "progressions that can be asked about\n  calf strength",
        "exercises that can be asked about\n  seated, standing, hop",
        "phases that can be asked about\n  first, second",
        "findings that can be asked about\n  chest pain, sore knee, bad back, pain, heel raises",
    ):
        assert text in result.out


def test_everything_listed_can_be_asked_about(cli: Cli, case: Path) -> None:
    lines = cli("why", case).out.splitlines()
    names = [
        name
        for head, below in pairwise(lines)
        if head.endswith("that can be asked about")
        for name in below.strip().split(", ")
    ]
    assert len(names) == 11
    for name in names:
        result = cli("why", case, name)
        assert result.status == 0 and name in result.out and len(result.out.splitlines()) > 3


def test_a_name_that_is_not_there(cli: Cli, case: Path) -> None:
    result = cli("why", case, "calf strenght")
    assert (result.status, result.out) == (2, "")
    assert "did you mean `calf strength`?" in result.err


def test_a_case_with_an_error_is_not_explained(cli: Cli, case: Path) -> None:
    case.write_text(CASE.replace("pain 2", "pain 11"))
    result = cli("why", case, "pain")
    assert (result.status, result.out) == (1, "")
    assert "error L107" in result.err


def test_what_is_no_case(cli: Cli, case: Path, project: Path) -> None:
    assert cli("why", project / "calf.protocol").status == 2
    assert cli("why", project / "cases/P-9.case").status == 1


WEEKS = PROTOCOL.replace(
    "  level seated\n", "  level seated\n    dose week 1: 2 x 10, daily\n    dose week 2 on: 2 x 12, daily\n"
)


ONE_OF_TWO = "1 of 2 sessions in a row so far, the last on 2026-11-03; the next one must be so too"
HELD = "held in week 1: no further week begins while"


@pytest.mark.parametrize(
    ("sessions", "told"),
    [
        ("", "0 of 2 sessions in a row so far; the next 2 must be so"),
        ("11-03: as given, pain 2", ONE_OF_TWO),
        ("11-03: as given, pain 4", "0 of 2 sessions in a row so far; the next 2 must be so"),
        # `missed` ends no streak, an answer too many does (language 5.2).
        ("11-03: as given, pain 2|11-04: missed", ONE_OF_TWO),
        ("11-03: as given, pain 2|11-04: as given, pain 4", "0 of 2 sessions in a row so far; the next 2 must be so"),
    ],
)
def test_how_many_sessions_in_a_row_so_far(cli: Cli, case: Path, sessions: str, told: str) -> None:
    """The streak from entry to the level, as the replay has it."""
    lines = [f"  session 2026-{one.replace(':', ' calf strength:', 1)}" for one in sessions.split("|") if one]
    case.write_text(CASE.partition("  session")[0] + "".join(f"{one}\n" for one in lines))
    result = cli("why", case, "calf strength")
    assert result.status == 0
    assert f"      {told}" in result.out


@pytest.mark.parametrize(
    ("session", "held"),
    [
        ("pain 2", ""),
        ("pain 6", f"{HELD} a line that leads back holds"),
        ("pain unknown", f"{HELD} nobody knows whether a line that leads back holds"),
    ],
)
def test_whether_the_week_is_held(cli: Cli, case: Path, project: Path, session: str, held: str) -> None:
    """Week rows hold while `down when` is yes or unknown (language 5.2), and so does every line that rises."""
    (project / "calf.protocol").write_text(WEEKS)
    case.write_text(CASE.partition("  session")[0] + f"  session 2026-11-03 calf strength: as given, {session}\n")
    result = cli("why", case, "calf strength")
    assert result.status == 0
    found = [one.strip(" -") for one in result.out.splitlines() if "no further week" in one]
    assert found == ([held] if held else [])
    assert ("nothing rises until every line that leads back is a clear no" in result.out) is bool(held)


def test_steps_of_a_load_and_lines_of_a_phase_say_how_they_stand(cli: Cli, case: Path, project: Path) -> None:
    step = "  add 1 kg when pain <= 2, 3 sessions in a row, up to 5 kg\n"
    (project / "calf.protocol").write_text(PROTOCOL.replace("  dose 3 x 12, daily\n", "  dose 3 x 12, daily\n" + step))
    case.write_text(CASE + "  session 2026-11-05: as given, pain 1\n")
    result = cli("why", case, "calf strength")
    assert "1 of 3 sessions in a row so far, the last on 2026-11-05; the next 2 must be so" in result.out
    assert "ends: calf.protocol" in cli("why", case, "first").out
