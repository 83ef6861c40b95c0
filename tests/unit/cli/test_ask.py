"""`protodsl ask`: the questions of a protocol as text, as a sheet to fill in, and as the start of a case."""

from io import BytesIO
from pathlib import Path

import pypdf
import pytest

from tests.unit.cli.conftest import Cli

PROTOCOL = "stronger-legs.protocol"

ANKLE = """\
question chest pain: Do you have chest pain?
question swollen calf: Is your calf swollen?
question bad night: Did you sleep badly?
question sore: How sore is it?
  answer 0 to 10
  fresh for one session
test reach: How far the knee reaches.
  answer cm from 0 to 25, each side
finding clot sign
  yes if swollen calf and bad night
  otherwise no
question site: Where does it hurt?
  answer one of heel, toe
question nobody asks: Is it asked for?
exercise rocks
  title Rocks
  position sitting
  dose 3 x 10, daily
  do
    Rock.
  avoid if site is heel
protocol ankle
  title Ankle
  version 1.2.3
  review 2026-11-01 by us, next by 2027-11-01
  source A book
  for adults
  emergency if chest pain
  red flag if clot sign
  give rocks if reach < 10 cm on the affected side and sore < 5
"""


def write(project: Path) -> None:
    """The ankle protocol beside the starter."""
    (project / "ankle.protocol").write_text(ANKLE)


def test_red_flags_come_first_and_what_is_derived_is_asked_by_its_parts(cli: Cli, project: Path) -> None:
    """Every finding that a rule looks at, once, under the gravest rule; what no rule looks at is not asked."""
    write(project)
    result = cli("ask", "ankle")
    assert (result.status, result.err) == (0, "")
    assert result.out == (
        "ankle, version 1.2.3: 6 questions\n\n"
        "Is it safe to start? Until each of these is answered no sheet is made.\n"
        "  chest pain: yes or no\n      Do you have chest pain?\n"
        "  swollen calf: yes or no\n      Is your calf swollen?\n"
        "  bad night: yes or no\n      Did you sleep badly?\n\n"
        "To ask the patient:\n"
        "  site: one of heel, toe\n      Where does it hurt?\n\n"
        "To measure:\n"
        "  reach: 0 to 25 cm, each side\n      How far the knee reaches.\n\n"
        "With each session:\n"
        "  sore: 0 to 10\n      How sore is it?\n"
    )


def test_a_protocol_by_its_file(cli: Cli, project: Path) -> None:
    write(project)
    assert cli("ask", "ankle.protocol").out == cli("ask", "ankle").out


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("stronger leg", "did you mean `stronger legs`?"),
        ("library/common.protocol", "there is none"),
        ("nothing.protocol", "P909"),
    ],
)
def test_a_protocol_that_is_not_there(cli: Cli, project: Path, asked: str, said: str) -> None:
    result = cli("ask", asked)
    assert result.status in (1, 2) and result.out == ""
    assert said in result.err


def test_two_protocols_of_one_name(cli: Cli, project: Path) -> None:
    text = (project / PROTOCOL).read_text()
    (project / "again.protocol").write_text(text)
    result = cli("ask", "stronger legs")
    assert result.status == 2
    assert "again.protocol" in result.err and PROTOCOL in result.err


def test_a_sheet_to_fill_in(cli: Cli, project: Path) -> None:
    """Every question with boxes or lines for its answer, each side where it has sides."""
    write(project)
    result = cli("ask", "ankle", "--sheet")
    assert (result.status, result.err) == (0, "")
    assert result.out.splitlines() == ["handouts/ankle-questions.html", "handouts/ankle-questions.pdf"]
    reader = pypdf.PdfReader(BytesIO((project / "handouts/ankle-questions.pdf").read_bytes()))
    text = " ".join(" ".join(page.extract_text() for page in reader.pages).split())
    asked = [text.index(words) for words in ("Do you have chest pain?", "Is your calf swollen?", "Where does it hurt?")]
    assert asked == sorted(asked)
    assert "left: ________ right: ________ (0 cm to 25 cm)" in text
    assert "□ heel □ toe" in text.replace("\u00a0", " ")
    assert text.replace("\u00a0", " ").count("□ not sure") == 3


def test_a_case_to_start_from(cli: Cli, project: Path) -> None:
    """Every question stands there as unknown, so that the case can be checked from its first day."""
    write(project)
    result = cli("ask", "ankle", "--start", "P-0500", "--side", "both, worse left", "--started", "2026-11-20")
    assert (result.status, result.err, result.out) == (0, "", "cases/P-0500.case\n")
    lines = (project / "cases/P-0500.case").read_text().splitlines()
    assert [line for line in lines if not line.lstrip().startswith("#")] == [
        "case P-0500",
        "  protocol ankle, version 1.2.3",
        "  started 2026-11-20",
        "  language en",
        "  side both, worse left",
        "  on 2026-11-20",
        "    unknown: chest pain",
        "    unknown: swollen calf",
        "    unknown: bad night",
        "    unknown: site",
        "    unknown: reach",
        "    unknown: sore",
    ]
    assert "    # Where does it hurt?" in lines
    assert cli("check", "cases").status == 0


def test_a_case_that_is_there_is_never_overwritten(cli: Cli, project: Path) -> None:
    (project / "cases").mkdir()
    case = project / "cases/P-0500.case"
    case.write_text("mine")
    result = cli("ask", "stronger legs", "--start", "P-0500", "--side", "none")
    assert (result.status, result.out) == (1, "")
    assert "P911" in result.err
    assert case.read_text() == "mine"
    assert list((project / "cases").iterdir()) == [case]


@pytest.mark.parametrize(
    "words",
    [
        ("--start", "../P-0500", "--side", "left"),
        ("--start", "P-0500"),
        ("--start", "a/b", "--side", "left"),
    ],
)
def test_a_start_that_cannot_be(cli: Cli, project: Path, words: tuple[str, ...]) -> None:
    assert cli("ask", "stronger legs", *words).status == 2
    assert not (project / "cases").exists()


@pytest.mark.parametrize(("name", "side"), [("P 0500", "left"), ("P-0500", "leftish"), ("P-0500", "both")])
def test_a_start_that_does_not_parse_writes_nothing(cli: Cli, project: Path, name: str, side: str) -> None:
    result = cli("ask", "stronger legs", "--start", name, "--side", side)
    assert (result.status, result.out) == (1, "")
    assert "Nothing was written." in result.err
    assert not (project / "cases").exists()


def test_a_started_case_is_answered_on_the_same_day(cli: Cli, project: Path) -> None:
    """What the questions stand for as `unknown` is answered in its place: nothing speaks against anything."""
    write(project)
    assert cli("ask", "ankle", "--start", "P-0500", "--side", "right", "--started", "2026-11-25").status == 0
    case = project / "cases/P-0500.case"
    result = cli(
        *("record", case, "--on", "2026-11-25", "no: chest pain, swollen calf, bad night"),
        *("site: toe", "reach: left 9 cm, right 8 cm", "sore: 2"),
    )
    assert result.status == 0
    assert "unknown:" not in case.read_text()
    assert "    # Do you have chest pain?\n    no: chest pain\n" in case.read_text()
    assert cli("build", case, "--to", "html").status == 0
