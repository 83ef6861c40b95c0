"""`protodsl figures`: the page of all figures, and what may be approved."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.unit.cli.conftest import Cli
from tests.unit.figure.clinic import LIBRARY
from tests.unit.figure.clinic import project as clinic
from tests.unit.figure.test_sheets import IMPOSSIBLE

FILE = "figures-approved.toml"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project with two figures, as the working folder."""
    made = clinic(tmp_path / "clinic")
    monkeypatch.chdir(made)
    return made


def test_the_page_has_every_figure(folder: Path, cli: Cli) -> None:
    """Name, place, digest and state of each, with its drawing and its words, as HTML and as a tagged PDF."""
    done = cli("figures")
    assert done.status == 0 and done.out.split() == ["handouts/figures.html", "handouts/figures.pdf"], done.err
    page = Path("handouts/figures.html").read_text()
    assert page.count("<svg") == 2 and page.count("never approved</p>") == 2
    assert "library.protocol:6 · " in page and "2 figures: 2 never approved." in page
    assert "the right foot lifts off" in page
    assert page.count("the right one has to be the side that is treated") == 1
    reader = PdfReader(io.BytesIO(Path("handouts/figures.pdf").read_bytes()))
    text = "".join(one.extract_text() for one in reader.pages)
    assert "straighten the knee" in text and reader.metadata is not None
    assert "StructTreeRoot" in str(reader.trailer["/Root"])


def test_one_file_is_written_where_it_is_named(folder: Path, cli: Cli) -> None:
    assert cli("figures", "--output", "look.html").out.split() == ["look.html"]
    assert not Path("handouts").exists()
    assert cli("figures", "--output", "look.txt").status == 2


def test_a_figure_is_approved_by_name(folder: Path, cli: Cli) -> None:
    """Its warning is gone, the other's stays; `--strict` asks for all of them."""
    done = cli("figures", "--approve", "bend both knees", "--by", "outpatient lead", "--on", "2026-11-20")
    assert done.status == 0 and done.out.startswith("approved: bend both knees ("), done.err
    assert 'on = 2026-11-20, by = "outpatient lead"' in Path(FILE).read_text()
    assert cli("check").out.count("F501") == 2  # once where it stands, once in the last line
    assert cli("check", "--strict").status == 1
    assert cli("figures", "--approve-all", "--by", "physiotherapist").out.count("\n") == 2
    assert cli("check", "--strict").status == 0
    assert Path(FILE).read_text().count("outpatient lead") == 1
    page = Path("look.html")
    cli("figures", "--output", page)
    assert "2 figures: 2 approved." in page.read_text()
    assert "approved 2026-11-20, outpatient lead" in page.read_text()


def test_a_change_is_shown_and_approved_again(folder: Path, cli: Cli) -> None:
    """The page says who approved what stood there before; an approval of now takes its place."""
    cli("figures", "--approve-all", "--by", "lead", "--on", "2026-11-20")
    Path("library.protocol").write_text(LIBRARY.replace("end knees 60", "end knees 80"))
    assert "F502" in cli("check").out
    cli("figures", "--output", "look.html")
    assert "changed since it was approved 2026-11-20, lead" in Path("look.html").read_text()
    assert cli("figures", "--approve", "bend both knees", "--by", "lead").status == 0
    assert "F502" not in cli("check").out and Path(FILE).read_text().count("bend both knees") == 1


def test_what_may_not_be_approved(folder: Path, cli: Cli) -> None:
    """Without a role, under a name that is none, or where no body can do it; the file stays as it was."""
    assert cli("figures", "--approve", "bend both knees").status == 2
    assert cli("figures", "--by", "lead").status == 2
    done = cli("figures", "--approve", "bend both knee", "--by", "lead")
    assert done.status == 2 and "did you mean `bend both knees`" in done.err
    assert not Path(FILE).exists()
    Path("library.protocol").write_text(IMPOSSIBLE)
    done = cli("figures", "--approve", "bend both knees", "--by", "lead")
    assert done.status == 1 and "cannot be approved" in done.err and "F201" in done.err
    assert not Path(FILE).exists()


def test_an_impossible_figure_has_its_tile_with_the_reason(folder: Path, cli: Cli) -> None:
    Path("library.protocol").write_text(IMPOSSIBLE)
    assert cli("figures", "--output", "look.html").status == 1
    page = Path("look.html").read_text()
    assert "no body can do this" in page and "F201: " in page and page.count("<svg") == 1


def test_a_broken_file_of_approvals_stays_as_it_is(folder: Path, cli: Cli) -> None:
    """Nothing is approved over it."""
    Path(FILE).write_text("<<<<<<< ours\n")
    done = cli("figures", "--approve-all", "--by", "lead")
    assert done.status == 1 and "F503" in done.err
    assert Path(FILE).read_text() == "<<<<<<< ours\n"


def test_a_project_without_figures(folder: Path, cli: Cli) -> None:
    Path("library.protocol").write_text("exercise bend\n  do\n    Bend.\n  stop pain\n")
    Path("knee.protocol").unlink()
    done = cli("figures")
    assert done.status == 0 and "there is no figure here" in done.err and done.out == ""
