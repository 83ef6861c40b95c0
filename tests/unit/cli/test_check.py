"""`protodsl check`: every problem of every file in one run, in the form asked for."""

import json
from pathlib import Path

import jsonschema
import pytest

from tests.unit.cli.conftest import Cli
from tests.unit.cli.test_ask import ANKLE

TESTS = next(folder for folder in Path(__file__).parents if folder.name == "tests")


def test_the_starter_has_nothing_wrong(cli: Cli, project: Path) -> None:
    result = cli("check", "--strict", "--as-of", "2026-11-25")
    assert (result.status, result.out, result.err) == (0, "", "")


def test_all_problems_of_all_files_come_in_one_run(cli: Cli, project: Path) -> None:
    """The project's own, a library's and a protocol's, sorted by file."""
    (project / "clinic.toml").write_text((project / "clinic.toml").read_text().replace('"A4"', '"A3"'))
    for name in ("library/common.protocol", "stronger-legs.protocol"):
        with (project / name).open("a") as out:
            out.write("\nexcercise x\n")
    result = cli("check")
    assert result.status == 1
    heads = [line for line in result.out.splitlines() if " error " in line]
    assert list(dict.fromkeys(line.split(":")[0] for line in heads)) == [
        "clinic.toml",
        "library/common.protocol",
        "stronger-legs.protocol",
    ]
    assert f"{len(heads)} errors" in result.out


def test_the_code_to_explain_is_that_of_the_gravest(cli: Cli, project: Path) -> None:
    """An error counts before the hints and warnings that stand above it in the file or the alphabet."""
    with (project / "library/common.protocol").open("a") as out:
        out.write("\nequipment ball: a ball\n")
    assert cli("check").out.splitlines()[-1] == "1 hint. `protodsl explain N204` says more."
    with (project / "stronger-legs.protocol").open("a") as out:
        out.write("\nexcercise x\n")
    last = cli("check").out.splitlines()[-1]
    assert last.endswith("`protodsl explain T104` says more of the first error."), last


def test_a_file_alone_is_checked_with_what_it_uses(cli: Cli, project: Path) -> None:
    with (project / "library/common.protocol").open("a") as out:
        out.write("\nexcercise x\n")
    (project / "other.protocol").write_text("excercise y\n")
    result = cli("check", "stronger-legs.protocol")
    assert "library/common.protocol" in result.out
    assert "other.protocol" not in result.out


def test_a_path_that_is_not_there(cli: Cli, project: Path) -> None:
    """P909."""
    result = cli("check", "ankel.protocol", "stronger-legs.protocol")
    assert result.status == 1
    assert "error P909: `ankel.protocol` cannot be read" in result.out


def test_a_folder_with_nothing_to_check(cli: Cli, project: Path) -> None:
    """P910."""
    (project / "empty").mkdir()
    result = cli("check", "empty")
    assert result.status == 1
    assert "error P910" in result.out


def test_paths_are_shown_from_the_working_folder(cli: Cli, project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (project / "x.protocol").write_text("excercise y\n")
    monkeypatch.chdir(project.parent)
    assert cli("check", "clinic/x.protocol").out.startswith("clinic/x.protocol:1:1 error ")
    monkeypatch.chdir(project / "library")
    assert cli("check", "../x.protocol").out.startswith("../x.protocol:1:1 error ")


def test_two_projects_are_checked_each_with_its_own_clinic(cli: Cli, project: Path, tmp_path: Path) -> None:
    other = tmp_path / "other"
    other.mkdir()
    (other / "clinic.toml").write_text("format = 2\n")
    result = cli("check", ".", other)
    assert result.status == 1
    assert "../other/clinic.toml:1:1 error P906" in result.out


def test_strict_makes_warnings_count(cli: Cli, project: Path) -> None:
    clinic = project / "clinic.toml"
    clinic.write_text(clinic.read_text().replace('# templates = "templates"', 'templates = "templates"'))
    assert (cli("check").status, cli("check", "--strict").status) == (0, 1)


def test_a_review_date_that_has_passed_changes_no_status(cli: Cli, project: Path) -> None:
    """Design 6: a hint that changes neither output nor exit status."""
    result = cli("check", "--strict", "--as-of", "2031-01-01")
    assert result.status == 0
    assert "hint" in result.out


def test_the_clock_is_read_only_where_no_date_is_given(cli: Cli, project: Path) -> None:
    outputs = {cli("check", "--as-of", day).out for day in ("2026-11-25", "2026-12-25", "2027-11-25")}
    assert outputs == {""}


def test_json_and_sarif_are_all_that_stands_on_standard_output(cli: Cli, project: Path) -> None:
    (project / "x.protocol").write_text("excercise y\n")
    document = json.loads(cli("check", "--format", "json").out)
    assert document["summary"]["errors"] >= 1
    assert document["diagnostics"][0]["place"]["file"] == "x.protocol"
    log = json.loads(cli("check", "--format", "sarif").out)
    schema = json.loads((TESTS / "schemas" / "sarif-2.1.0.json").read_text("utf-8"))
    jsonschema.Draft4Validator(schema).validate(log)
    assert log["runs"][0]["results"]
    rules = log["runs"][0]["tool"]["driver"]["rules"]
    assert all("## What to do" in rule["help"]["markdown"] for rule in rules)


def test_json_and_sarif_without_a_problem(cli: Cli, project: Path) -> None:
    assert json.loads(cli("check", "--format", "json", "--as-of", "2026-11-25").out)["diagnostics"] == []
    assert json.loads(cli("check", "--format", "sarif", "--as-of", "2026-11-25").out)["runs"][0]["results"] == []


class Terminal:
    """Standard output as a terminal."""

    def __init__(self) -> None:
        self.text = ""

    def write(self, text: str) -> int:
        """Keep it."""
        self.text += text
        return len(text)

    def flush(self) -> None:
        """Nothing is held back."""

    def isatty(self) -> bool:
        """It is one."""
        return True


@pytest.mark.parametrize(
    ("words", "environment", "coloured"),
    [((), {}, True), (("--no-color",), {}, False), ((), {"NO_COLOR": "1"}, False), ((), {"TERM": "dumb"}, False)],
)
def test_colour_only_where_a_person_looks_and_nobody_declined(
    words: tuple[str, ...],
    environment: dict[str, str],
    coloured: bool,
    cli: Cli,
    project: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    (project / "x.protocol").write_text("excercise y\n")
    monkeypatch.delenv("NO_COLOR")
    monkeypatch.setenv("TERM", "xterm")
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    terminal = Terminal()
    monkeypatch.setattr("sys.stdout", terminal)
    cli("check", *words)
    assert ("\x1b[" in terminal.text) == coloured


PERSON = """\
case P-0417
  protocol ankle, version 1.2.3
  started 2026-11-02
  language en
  side right
  on 2026-11-02
    no: chest pain, swollen calf
    site: toe
    sore: 2
    reach: left 9 cm, right 8 cm
"""


def test_a_case_is_decided_as_it_is_built(cli: Cli, project: Path) -> None:
    """What only the replay finds: a date before the start (L120), and one more than ten years after it (L121)."""
    (project / "ankle.protocol").write_text(ANKLE)
    (project / "p.case").write_text(PERSON)
    for day, code in (("2026-11-01", "L120"), ("2037-01-01", "L121")):
        for command in (("check",), ("build", "--to", "html")):
            result = cli(*command, "p.case", "--as-of", day)
            assert result.status == 1
            assert f"error {code}" in result.out + result.err
    assert cli("check", "p.case").status == 0


def test_a_change_for_one_person_is_held_against_the_rules_at_build_too(cli: Cli, project: Path) -> None:
    """A day over its budget (D701) by this person's dose alone; with `--strict` no sheet is made."""
    (project / "ankle.protocol").write_text(ANKLE.replace("  give rocks", "  budget 15 min a day\n  give rocks"))
    changed = "  from 2026-11-04 change rocks\n    dose 9 x 30, daily\n    because asked for\n"
    (project / "p.case").write_text(PERSON + changed)
    for command in (("check", "--strict"), ("build", "--strict", "--to", "html")):
        result = cli(*command, "p.case")
        assert result.status == 1
        said = result.out + result.err
        assert "warning D701" in said
        assert "as changed for this person" in said
    assert not list(project.rglob("P-0417*"))
    (project / "p.case").write_text(PERSON)
    assert cli("check", "--strict", "p.case").status == 0
