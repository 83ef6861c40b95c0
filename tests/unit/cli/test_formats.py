"""Formats on the command line and in `clinic.toml`: which files are written, and what of a case with a danger sign."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

import pytest

from protodsl.formats import FORMATS
from tests.documents.readers import words_in
from tests.unit.cli.conftest import Cli
from tests.unit.handout.demo import ROOT

DOCUMENTS = "html,pdf,txt,md,epub,docx"


def test_each_format_has_its_file(cli: Cli, project: Path) -> None:
    result = cli("build", "--to", "txt,md,epub,docx", "--no-clinician")
    assert result.status == 0, result.err
    names = [f"stronger-legs.{form}" for form in ("docx", "epub", "md", "txt")]
    assert sorted(path.name for path in (project / "handouts").iterdir()) == names


def test_a_format_that_is_none_is_named_with_those_there_are(cli: Cli, project: Path) -> None:
    result = cli("build", "--to", "txt,word")
    assert result.status == 2
    assert all(name in result.err for name in FORMATS)


def test_the_clinic_says_what_is_made_unless_it_is_asked_otherwise(cli: Cli, project: Path) -> None:
    clinic = project / "clinic.toml"
    text = clinic.read_text("utf-8")
    assert "[sheet]" in text
    clinic.write_text(text.replace("[sheet]", '[sheet]\nformats = ["txt", "md"]'), encoding="utf-8")
    assert cli("build", "--no-clinician").status == 0
    assert cli("ask", "stronger-legs.protocol", "--sheet").status == 0
    assert cli("build", "--clinician", "--to", "html").status == 0
    made = {path.name for path in (project / "handouts").iterdir()}
    assert {name for name in made if "questions" in name} == {
        "stronger-legs-questions.md",
        "stronger-legs-questions.txt",
    }
    assert {name for name in made if "questions" not in name} == {
        "stronger-legs.md",
        "stronger-legs.txt",
        "stronger-legs-clinician.html",
    }


def test_a_format_that_nothing_here_comes_in_is_said(cli: Cli, project: Path) -> None:
    """A calendar needs a person's dates: of a protocol alone there is none, and nobody waits for it."""
    result = cli("build", "--to", "ics,txt")
    assert result.status == 0
    assert "no `ics` was made: it is a format for sheets of cases" in result.err
    assert "`txt`" not in result.err
    assert "no `csv` was made" in cli("ask", "stronger-legs.protocol", "--sheet", "--to", "csv").err
    assert "was made" not in cli("build", "--to", "txt").err


@pytest.mark.parametrize("wrong", ['["html", "word"]', '"html"', "[]", "[1]"])
def test_a_wrong_list_of_formats_is_said(cli: Cli, project: Path, wrong: str) -> None:
    clinic = project / "clinic.toml"
    text = clinic.read_text("utf-8")
    clinic.write_text(text.replace("[sheet]", f"[sheet]\nformats = {wrong}"), encoding="utf-8")
    result = cli("check")
    assert result.status == 1
    assert "P904: `formats`" in result.out


def test_a_machine_without_the_library_of_one_format(
    cli: Cli, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """P959: the others are written, unless an earlier file of that format would stand beside them and differ."""
    for name in [name for name in sys.modules if name.startswith("protodsl.render.documents.word")]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "docx", None)
    result = cli("build", "--to", "txt,docx", "--no-clinician")
    assert result.status == 1
    assert "P959" in result.err
    assert 'pip install "protodsl[docx]"' in result.err
    assert [path.name for path in (project / "handouts").iterdir()] == ["stronger-legs.txt"]
    (project / "handouts/stronger-legs.docx").write_bytes(b"of last week")
    (project / "handouts/stronger-legs.txt").unlink()
    assert cli("build", "--to", "txt,docx", "--no-clinician").status == 1
    assert not (project / "handouts/stronger-legs.txt").exists()


def test_a_case_without_the_library_of_one_format(
    cli: Cli, clinic: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """P959 for a case too, and its other pages are made."""
    for name in [name for name in sys.modules if name.startswith("protodsl.render.documents.word")]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "docx", None)
    result = cli("build", "cases/P-0417.case", "--to", "txt,docx", "--no-clinician", "--as-of", "2026-11-25")
    assert result.status == 1
    assert "P959" in result.err
    assert [path.name for path in (clinic / "handouts").glob("P-*")] == ["P-0417.txt"]


@pytest.fixture
def clinic(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the demo clinic; it is the working folder."""
    folder = tmp_path / "clinic"
    shutil.copytree(ROOT, folder, ignore=shutil.ignore_patterns("handouts"))
    monkeypatch.chdir(folder)
    monkeypatch.setenv("NO_COLOR", "1")
    return folder


def test_no_format_of_a_red_flag_holds_an_exercise(cli: Cli, clinic: Path) -> None:
    """With a danger sign there is the referral page, in every format asked for, and not one exercise in any of them."""
    options = ("cases/P-0417.case", "--to", ",".join(FORMATS))
    assert cli("build", *options).status == 0
    before = {path.name for path in (clinic / "handouts").glob("P-0417*")}
    exercises = ("Heel raise", "Turn the foot out", "Knee to the wall", "hip-width", "3 rounds")
    usual = words_in("txt", (clinic / "handouts/P-0417.txt").read_bytes())
    assert all(words in usual for words in exercises)
    case = clinic / "cases/P-0417.case"
    text = case.read_text("utf-8").rstrip() + "\n\n  on 2026-11-26\n    chest pain: yes\n"
    case.write_text(text, encoding="utf-8")
    result = cli("build", *options)
    left = {path.name: path for path in (clinic / "handouts").glob("P-0417*") if "withdrawn" not in path.name}
    for form in DOCUMENTS.split(","):
        assert f"P-0417.{form}" in left, (form, result.err)
    for name, path in left.items():
        said = words_in(path.suffix.removeprefix("."), path.read_bytes())
        assert [words for words in exercises if words.lower() in said.lower()] == [], name
    for form in DOCUMENTS.split(","):
        said = words_in(form, left[f"P-0417.{form}"].read_bytes())
        assert "112" in said, form
        assert "chest pain" in said, form
    assert {f"{name}.withdrawn" for name in before} >= {
        path.name for path in (clinic / "handouts").glob("*.withdrawn")
    }
