"""Cases on the command line: each person's sheet or none, and no page that no longer holds is left standing."""

import os
import re
import signal
from pathlib import Path

import pytest

from protodsl.cli import build_cases
from tests.unit.cli.conftest import Cli
from tests.unit.cli.test_ask import ANKLE
from tests.unit.cli.test_build import bytes_below

CASE = """\
case P-0417
  protocol ankle, version 1.2.3
  started 2026-11-02
  language en
  side right
  on 2026-11-02
    no: chest pain, swollen calf, bad night
    site: toe
    reach: left 11 cm, right 7 cm
    sore: 2
"""
PAGES = ["P-0417-clinician.html", "P-0417.html"]


@pytest.fixture
def case(project: Path) -> Path:
    """A case of the ankle protocol that a sheet can be made for."""
    (project / "ankle.protocol").write_text(ANKLE)
    (project / "cases").mkdir()
    path = project / "cases/P-0417.case"
    path.write_text(CASE)
    return path


def many(case: Path, count: int) -> list[Path]:
    """The same case under as many ids."""
    paths = [case.with_name(f"P-{number:04}.case") for number in range(count)]
    for path in paths:
        path.write_text(CASE.replace("P-0417", path.stem))
    case.unlink()
    return paths


def pages(project: Path) -> list[str]:
    """The files of the output folder that a person would see."""
    return sorted(path.name for path in (project / "handouts").glob("*") if not path.name.startswith("."))


def test_a_sheet_and_the_clinicians_page(cli: Cli, case: Path, project: Path) -> None:
    """The protocol is found by its name wherever it lies below the root."""
    (project / "deep/er").mkdir(parents=True)
    (project / "ankle.protocol").rename(project / "deep/er/any.protocol")
    result = cli("build", "cases/P-0417.case")
    assert (result.status, result.err) == (0, "")
    wanted = ["P-0417.html", "P-0417.pdf", "P-0417-clinician.html", "P-0417-clinician.pdf"]
    assert result.out.splitlines() == [f"handouts/{name}" for name in wanted]
    text = (project / "handouts/P-0417.html").read_text()
    assert "P-0417" in text and "Rocks" in text


def test_the_same_case_gives_the_same_bytes(cli: Cli, case: Path, project: Path, tmp_path: Path) -> None:
    """Whatever is built beside it, in one process or several."""
    cli("build", case, "--output", tmp_path / "alone", "--to", "html")
    for number in range(12):
        other = case.with_name(f"P-{number:04}.case")
        other.write_text(CASE.replace("P-0417", other.stem))
    cli("build", "cases", "--output", tmp_path / "beside", "--to", "html")
    alone, beside = bytes_below(tmp_path / "alone"), bytes_below(tmp_path / "beside")
    assert [beside[name] for name in PAGES] == [alone[name] for name in PAGES]
    assert len(beside) == 13 * 2 + 1


def test_a_red_flag_makes_the_referral_page_and_nothing_else(cli: Cli, case: Path, project: Path) -> None:
    """P914, P915: every earlier page, of every kind and format, is moved out of the way."""
    cli("build", "cases")
    cli("build", "cases", "--to", "html", "--large-print", "--no-clinician")
    cli("build", "cases", "--to", "html", "--compact", "--paper", "Letter", "--no-clinician")
    before = bytes_below(project / "handouts")
    case.write_text(CASE + "  on 2026-11-05\n    yes: chest pain\n")
    result = cli("build", "cases", "--to", "html")
    assert result.status == 0
    assert "P914" in result.err and result.err.count("warning P915") == 5
    assert result.out.splitlines() == ["handouts/P-0417.html"]
    text = (project / "handouts/P-0417.html").read_text()
    assert "Rocks" not in text and "Rock." not in text
    withdrawn = [f"P-0417{ends}" for ends in ("-clinician.html", "-clinician.pdf", "-compact-letter.html")]
    withdrawn += ["P-0417-large-print.html", "P-0417.pdf"]
    assert pages(project) == sorted(["P-0417.html", *(f"{name}.withdrawn" for name in withdrawn)])
    after = bytes_below(project / "handouts")
    assert [after[f"{name}.withdrawn"] for name in withdrawn] == [before[name] for name in withdrawn]
    assert all(f"handouts/{name}" in result.err for name in withdrawn)


def test_the_referral_page_is_made_whatever_was_asked_for(cli: Cli, case: Path, project: Path) -> None:
    case.write_text(CASE + "  on 2026-11-05\n    yes: chest pain\n")
    assert cli("build", "cases", "--clinician", "--to", "html").out.splitlines() == ["handouts/P-0417.html"]
    assert pages(project) == ["P-0417.html"]


def test_an_unknown_red_flag_makes_no_sheet(cli: Cli, case: Path, project: Path) -> None:
    """P913: the clinician's page says what to ask; the sheet of before is no sheet any more."""
    cli("build", "cases", "--to", "html")
    old = (project / "handouts/P-0417.html").read_bytes()
    case.write_text(CASE + "  on 2026-11-05\n    unknown: chest pain\n")
    result = cli("build", "cases", "--to", "html")
    assert result.status == 0
    assert "P913" in result.err and "chest pain" in result.err and "P915" in result.err
    assert result.out.splitlines() == ["handouts/P-0417-clinician.html"]
    assert pages(project) == ["P-0417-clinician.html", "P-0417.html.withdrawn"]
    assert (project / "handouts/P-0417.html.withdrawn").read_bytes() == old
    assert "Rock." not in (project / "handouts/P-0417-clinician.html").read_text()
    case.write_text(CASE)
    cli("build", "cases", "--to", "html")
    case.write_text(CASE + "  on 2026-11-05\n    unknown: chest pain\n")
    cli("build", "cases", "--to", "html")
    assert pages(project) == ["P-0417-clinician.html", "P-0417.html.withdrawn", "P-0417.html.withdrawn-2"]


def test_a_sheet_without_an_exercise_is_told(cli: Cli, case: Path, project: Path) -> None:
    """L122: the sheet says to call before doing anything; whoever hands it out must not learn it from the paper."""
    assert "L122" not in cli("build", "cases", "--to", "html").err
    case.write_text(CASE + "  from 2026-11-02 leave out rocks\n    because sore\n")
    result = cli("build", "cases", "--to", "html")
    assert (result.status, "L122" in result.err) == (0, True)
    assert "No exercise is planned for you now." in (project / "handouts/P-0417.html").read_text()


def test_pages_of_another_case_are_left_alone(cli: Cli, case: Path, project: Path) -> None:
    other = case.with_name("P-0417-2.case")
    other.write_text(CASE.replace("P-0417", "P-0417-2"))
    cli("build", "cases", "--to", "html")
    case.write_text(CASE + "  on 2026-11-05\n    yes: chest pain\n")
    cli("build", "cases", "--to", "html")
    assert {"P-0417-2.html", "P-0417-2-clinician.html"} <= set(pages(project))


def test_pages_of_a_case_with_an_error_are_named(cli: Cli, case: Path, project: Path) -> None:
    """P917: nothing new is made, and nobody takes the old page for the new."""
    cli("build", "cases", "--to", "html")
    before = bytes_below(project / "handouts")
    case.write_text(CASE + "  on 2026-11-05\n    yes: chest pani\n")
    result = cli("build", "cases", "--to", "html")
    assert (result.status, result.out) == (1, "")
    assert "L105" in result.err and "P917" in result.err and "handouts/P-0417.html" in result.err
    after = bytes_below(project / "handouts")
    assert [after[name] for name in PAGES] == [before[name] for name in PAGES]


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("  protocol ankle,", "  protocol ankel,", "L101"),
        ("version 1.2.3", "version 1.1.0", "L103"),
        ("started 2026-11-02", "started 2026-11-09", None),
        ("language en", "language tlh", "P920"),
    ],
)
def test_a_case_that_cannot_be_built(
    cli: Cli, case: Path, project: Path, old: str, new: str, code: str | None
) -> None:
    case.write_text(CASE.replace(old, new))
    result = cli("build", "cases", "--to", "html", *([] if code else ["--as-of", "2026-11-05"]))
    assert (result.status, result.out) == (1, "")
    assert (code or "L120") in result.err
    assert pages(project) == []


def test_a_protocol_with_an_error_blocks_its_cases(cli: Cli, case: Path, project: Path) -> None:
    with (project / "ankle.protocol").open("a") as out:
        out.write("  red flagg if bad night\n")
    result = cli("build", "cases", "--to", "html")
    assert (result.status, result.out) == (1, "")
    assert "ankle.protocol" in result.err
    assert cli("check", "cases").status == 1


def test_two_protocols_of_one_name_are_an_error(cli: Cli, case: Path, project: Path) -> None:
    (project / "other.protocol").write_text(ANKLE)
    result = cli("check", "cases")
    assert result.status == 1
    assert "L102" in result.err + result.out
    assert "ankle.protocol" in result.out and "other.protocol" in result.out


def test_a_folder_with_a_clinic_of_its_own_is_another_project(cli: Cli, case: Path, project: Path) -> None:
    (project / "other").mkdir()
    (project / "other/clinic.toml").write_bytes((project / "clinic.toml").read_bytes())
    (project / "other/ankle.protocol").write_text(ANKLE)
    assert cli("check", "cases").status == 0


def test_two_files_of_one_id(cli: Cli, case: Path, project: Path) -> None:
    """P912: neither is made, also where capitals make the only difference."""
    case.with_name("other.case").write_text(CASE.replace("P-0417", "p-0417"))
    result = cli("build", "cases", "--to", "html")
    assert (result.status, result.out) == (1, "")
    assert "P912" in result.err


def test_as_of_a_date(cli: Cli, case: Path, project: Path) -> None:
    """Without a date the latest line counts, never the clock; with one, what came later is not known yet."""
    case.write_text(CASE + "  on 2026-11-05\n    yes: chest pain\n")
    result = cli("build", "cases", "--to", "html", "--as-of", "2026-11-04")
    assert (result.status, result.err) == (0, "")
    assert pages(project) == PAGES
    assert "P914" in cli("build", "cases", "--to", "html").err


def test_what_is_unchanged_is_not_made_again(cli: Cli, case: Path, project: Path) -> None:
    """Known by content: a case written anew with the same words is unchanged; one with a page touched is not."""
    paths = many(case, 6)
    first = cli("build", "cases", "--to", "html")
    assert "cases: 6 made" in first.err
    built = bytes_below(project / "handouts")
    paths[0].write_text(paths[0].read_text())
    again = cli("build", "cases", "--to", "html")
    assert (again.out, again.err) == ("", "cases: 6 unchanged\n")
    paths[1].write_text(paths[1].read_text().replace("sore: 2", "sore: 3"))
    (project / "handouts/P-0002.html").write_text("touched")
    (project / "handouts/P-0003-clinician.html").unlink()
    third = cli("build", "cases", "--to", "html")
    assert third.err == "cases: 3 made, 3 unchanged\n"
    assert {re.sub(r"(-clinician)?\.html", "", line) for line in third.out.splitlines()} == {
        f"handouts/P-{number:04}" for number in (1, 2, 3)
    }
    after = bytes_below(project / "handouts")
    assert {name for name in built if built[name] != after[name]} <= {
        ".protodsl-built.json",
        "P-0001.html",
        "P-0001-clinician.html",
    }


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("ankle.protocol", "Rock.", "Rock slowly."),
        ("library/common.protocol", "question", "# A comment.\nquestion"),
        ("clinic.toml", 'phone = "112"', 'phone = "999"'),
    ],
)
def test_what_a_case_is_made_from_makes_it_new(
    cli: Cli, case: Path, project: Path, file: str, old: str, new: str
) -> None:
    cli("build", "cases", "--to", "html")
    path = project / file
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))
    assert cli("build", "cases", "--to", "html").out.splitlines() == [f"handouts/{name}" for name in PAGES[::-1]]


def test_other_options_are_made_of_their_own(cli: Cli, case: Path, project: Path) -> None:
    cli("build", "cases", "--to", "html")
    assert cli("build", "cases", "--to", "html", "--as-of", "2026-11-03").out != ""
    assert cli("build", "cases", "--to", "html", "--large-print").out != ""
    assert cli("build", "cases", "--to", "html", "--large-print").out == ""


def test_an_earlier_page_in_another_format_is_overtaken(cli: Cli, case: Path, project: Path) -> None:
    """P919: a page of before beside pages of now is moved aside, in every format, print and language, and named."""
    assert cli("build", "cases", "--to", "html,pdf").status == 0
    assert cli("build", "cases", "--to", "html", "--large-print", "--no-clinician").status == 0
    # Made of the same in another form: all of it still holds.
    before = pages(project)
    assert cli("build", "cases", "--to", "html").err == ""
    assert pages(project) == before
    case.write_text(CASE.replace("sore: 2", "sore: 3"))
    result = cli("build", "cases", "--to", "html", "--no-clinician")
    assert result.status == 0
    out = ["P-0417-clinician.html", "P-0417-clinician.pdf", "P-0417-large-print.html", "P-0417.pdf"]
    assert result.err.count("warning P919") == len(out)
    assert pages(project) == sorted(["P-0417.html", *(f"{name}.withdrawn" for name in out)])
    for name in out:
        assert f"`handouts/{name}.withdrawn`" in result.err
    assert cli("build", "cases", "--to", "html", "--no-clinician").err == ""
    assert cli("build", "cases", "--to", "html,pdf").err == ""


def test_a_page_of_another_date_is_overtaken(cli: Cli, case: Path, project: Path) -> None:
    """The same case as of another date says something else."""
    cli("build", "cases", "--to", "html,pdf", "--no-clinician")
    result = cli("build", "cases", "--to", "html", "--no-clinician", "--as-of", "2026-11-03")
    assert result.err.count("warning P919") == 1
    assert pages(project) == ["P-0417.html", "P-0417.pdf.withdrawn"]


def test_a_case_with_a_warning_keeps_its_pages_in_other_formats(cli: Cli, case: Path, project: Path) -> None:
    """What has something to say is made each time, and is known all the same."""
    case.write_text(CASE + "  note 2026-11-03 Call 01632 960 142\n")
    cli("build", "cases", "--to", "html,pdf")
    assert "P919" not in cli("build", "cases", "--to", "html").err
    assert "P-0417.pdf" in pages(project)


def test_a_record_of_what_was_built_that_is_no_record_costs_time_alone(cli: Cli, case: Path, project: Path) -> None:
    cli("build", "cases", "--to", "html")
    for text in ("", "{}", "[1]", '{"format": 1, "cases": {"x": 1}}', '{"format": 9}'):
        (project / "handouts/.protodsl-built.json").write_text(text)
        assert cli("build", "cases", "--to", "html").status == 0


def test_a_case_with_a_warning_is_made_and_warned_of_each_time(cli: Cli, case: Path, project: Path) -> None:
    case.write_text(CASE + "  note 2026-11-03 Call 01632 960 142\n")
    for _ in range(2):
        result = cli("build", "cases", "--to", "html")
        assert result.status == 0 and "L118" in result.err
    assert cli("build", "cases", "--to", "html", "--strict").status == 1


def test_one_case_that_fails_stops_no_other(
    cli: Cli, case: Path, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """P916: a fault of the program on one case, an error in another, a killed process: the rest is there at the end."""
    paths = many(case, 14)
    paths[3].write_text(paths[3].read_text() + "  on 2026-11-05\n    yes: nonsense\n")
    whole = build_cases._done

    def failing(checked: object, *rest: object) -> object:
        name = checked.id  # type: ignore[attr-defined]
        if name == "P-0005":
            raise ZeroDivisionError
        if name == "P-0008":
            os.kill(os.getpid(), signal.SIGKILL)
        return whole(checked, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(build_cases, "_done", failing)
    monkeypatch.setattr("protodsl.batch.available", lambda: 2)
    result = cli("build", "cases", "--to", "html", "--no-clinician")
    assert result.status == 1
    assert result.err.count("error P916") == 2 and "ZeroDivisionError" in result.err and "error L105" in result.err
    assert "cases: 11 made, 3 failed" in result.err
    made = [number for number in range(14) if number not in (3, 5, 8)]
    assert pages(project) == [f"P-{number:04}.html" for number in made]


def test_progress_counts_cases(cli: Cli, case: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from tests.unit.cli.test_check import Terminal

    many(case, 6)
    terminal = Terminal()
    monkeypatch.setattr(terminal, "isatty", lambda: True)
    monkeypatch.setattr("sys.stderr", terminal)
    monkeypatch.setattr("protodsl.cli.progress._PATIENCE", -1.0)
    cli("build", "cases", "--to", "html", "--no-clinician")
    assert "3 of 6" in terminal.text


def test_check_reads_cases_too(cli: Cli, case: Path) -> None:
    case.write_text(CASE.replace("reach: left 11 cm, right 7 cm", "reach: 11 cm"))
    result = cli("check")
    assert result.status == 1
    assert "error L108" in result.out
    assert "cases/P-0417.case:9" in result.out


def test_recording_a_danger_sign_says_so(cli: Cli, case: Path) -> None:
    """Who writes it down need not build anything to be told."""
    result = cli("record", case, "--on", "2026-11-05", "yes: chest pain")
    assert result.status == 0
    assert "P914" in result.err
    assert "yes: chest pain" in case.read_text()


DEMO = Path(__file__).parents[3] / "protocols_demo"


def test_the_demo_cases_build_without_a_word(cli: Cli, tmp_path: Path) -> None:
    """Three cases at least, each under an id that says nothing, each with its sheet and its clinician's page."""
    files = sorted((DEMO / "cases").glob("*.case"))
    assert len(files) >= 3
    assert all(re.fullmatch(r"P-\d{4}", path.stem) for path in files)
    result = cli("build", DEMO / "cases", "--to", "html", "--output", tmp_path)
    assert (result.status, result.err) == (0, f"cases: {len(files)} made\n")
    wanted = {f"{path.stem}{end}.html" for path in files for end in ("", "-clinician")}
    assert {path.name for path in tmp_path.glob("*.html")} == wanted
