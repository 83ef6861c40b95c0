"""`protodsl build`: each sheet whole or not at all, the same bytes for the same input."""

import os
import re
from io import BytesIO
from pathlib import Path

import pypdf
import pytest

from protodsl.cli import build
from protodsl.cli.build import file_name
from tests.unit.cli.conftest import Cli
from tests.unit.cli.test_check import Terminal

STEM = "handouts/stronger-legs"


def bytes_below(folder: Path) -> dict[str, bytes]:
    """Every file below a folder by its name."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_sheet_and_its_clinicians_page_as_html_and_pdf(cli: Cli, project: Path) -> None:
    result = cli("build")
    assert (result.status, result.err) == (0, "")
    wanted = [f"{STEM}.html", f"{STEM}.pdf", f"{STEM}-clinician.html", f"{STEM}-clinician.pdf"]
    assert result.out.splitlines() == wanted
    text = (project / f"{STEM}.html").read_text("utf-8")
    assert "Stand up with your hands" in text
    pdf = pypdf.PdfReader(BytesIO((project / f"{STEM}.pdf").read_bytes()))
    assert "Stronger legs at home" in str(pdf.metadata)
    assert any("Stand up with your hands" in page.extract_text() for page in pdf.pages)
    assert sorted(bytes_below(project / "handouts")) == sorted(Path(name).name for name in wanted)


def test_the_same_input_gives_the_same_bytes(cli: Cli, project: Path, tmp_path: Path) -> None:
    cli("build")
    first = bytes_below(project / "handouts")
    cli("build", "--output", tmp_path / "again")
    assert bytes_below(tmp_path / "again") == first


@pytest.mark.parametrize(
    ("words", "names"),
    [
        (("--to", "html"), ["stronger-legs-clinician.html", "stronger-legs.html"]),
        (("--to", "html", "--clinician"), ["stronger-legs-clinician.html"]),
        (("--to", "html", "--no-clinician"), ["stronger-legs.html"]),
        (("--to", "html", "--no-clinician", "--large-print"), ["stronger-legs-large-print.html"]),
        (("--to", "html", "--no-clinician", "--compact"), ["stronger-legs-compact.html"]),
        (("--to", "html", "--no-clinician", "--paper", "Letter"), ["stronger-legs-letter.html"]),
        (("--to", "html", "--no-clinician", "--paper", "A4"), ["stronger-legs.html"]),
        (("--to", "html", "--clinician", "--large-print", "--paper", "Letter"),
         ["stronger-legs-large-print-letter-clinician.html"]),
        (("--to", "pdf", "--no-clinician"), ["stronger-legs.pdf"]),
    ],
)
def test_what_is_asked_for_is_made_and_no_more(
    cli: Cli, project: Path, words: tuple[str, ...], names: list[str]
) -> None:
    assert cli("build", *words).status == 0
    assert sorted(bytes_below(project / "handouts")) == names


@pytest.mark.parametrize(("paper", "size"), [("A4", (595, 842)), ("Letter", (612, 792))])
def test_paper(cli: Cli, project: Path, paper: str, size: tuple[int, int]) -> None:
    """A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 inches (ANSI Y14.1); a point is 1/72 inch."""
    cli("build", "--to", "pdf", "--no-clinician", "--paper", paper)
    pages = pypdf.PdfReader(project / f"{STEM}{'' if paper == 'A4' else '-letter'}.pdf").pages
    assert {(round(page.mediabox.width), round(page.mediabox.height)) for page in pages} == {size}


def test_options_change_the_page_and_its_digest(cli: Cli, project: Path) -> None:
    pages: list[str] = []
    for words in ((), ("--large-print",), ("--compact",), ("--paper", "Letter")):
        output = project / "out" / str(len(pages))
        cli("build", "--to", "html", "--no-clinician", "--output", output, *words)
        (name,) = output.iterdir()
        pages.append(name.read_text("utf-8"))
    assert len(set(pages)) == len(pages)
    digests = {tuple(re.findall(r"\b[0-9a-f]{5}-[0-9a-f]{5}\b", page)) for page in pages}
    assert len(digests) == len(pages)
    assert all(found for found in digests)


def test_an_error_blocks_its_protocol_and_no_other(cli: Cli, project: Path) -> None:
    text = (project / "stronger-legs.protocol").read_text()
    (project / "other.protocol").write_text(text.replace("protocol stronger legs", "protocol other legs"))
    with (project / "stronger-legs.protocol").open("a") as out:
        out.write("\nexcercise x\n")
    result = cli("build", "--to", "html")
    assert result.status == 1
    assert "stronger-legs.protocol" in result.err
    assert result.out.splitlines() == ["handouts/other-legs.html", "handouts/other-legs-clinician.html"]


def test_an_error_in_the_clinic_blocks_everything(cli: Cli, project: Path) -> None:
    clinic = project / "clinic.toml"
    clinic.write_text(clinic.read_text().replace('phone = "112"', 'phone = ""'))
    result = cli("build")
    assert (result.status, result.out) == (1, "")
    assert not (project / "handouts").exists()


def test_without_a_clinic_file_nothing_is_made(cli: Cli, project: Path) -> None:
    (project / "clinic.toml").unlink()
    result = cli("build", "stronger-legs.protocol")
    assert (result.status, result.out) == (1, "")
    assert "P901" in result.err


def test_strict_blocks_on_a_warning(cli: Cli, project: Path) -> None:
    clinic = project / "clinic.toml"
    clinic.write_text(clinic.read_text().replace('# templates = "templates"', 'templates = "templates"'))
    assert cli("build", "--strict", "--to", "html").status == 1
    assert not (project / "handouts").exists()
    assert cli("build", "--to", "html").status == 0


def test_two_protocols_for_one_file(cli: Cli, project: Path) -> None:
    """P912: neither is written."""
    text = (project / "stronger-legs.protocol").read_text()
    (project / "other.protocol").write_text(text.replace("protocol stronger legs", "protocol Stronger-legs"))
    result = cli("build", "--to", "html")
    assert result.status == 1
    assert "P912" in result.err
    assert result.out == ""


@pytest.mark.parametrize(
    ("name", "clash"),
    [
        ("stronger legs clinician", True),
        ("stronger legs Compact", True),
        ("stronger legs large print letter", True),
        ("stronger legs questions", True),
        ("stronger legs later", False),
        ("strong", False),
    ],
)
def test_no_sheet_is_written_over_a_page_of_another(cli: Cli, project: Path, name: str, clash: bool) -> None:
    """P912 for a name that is a name and the ending of one of its pages, whatever pages were asked for."""
    text = (project / "stronger-legs.protocol").read_text()
    (project / "other.protocol").write_text(text.replace("protocol stronger legs", f"protocol {name}"))
    result = cli("build", "--to", "html", "--no-clinician")
    assert ("P912" in result.err) is clash
    assert len(result.out.splitlines()) == (0 if clash else 2)


def test_a_folder_that_cannot_be_read_stops_no_other(
    cli: Cli, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """P918 for a folder below, P909 for one that was asked for; the other sheets are made."""
    (project / "closed").mkdir()
    scandir = os.scandir

    def refusing(path: str) -> object:
        if Path(path).name == "closed":
            raise PermissionError(13, "Permission denied", str(path))
        return scandir(path)

    monkeypatch.setattr(os, "scandir", refusing)
    result = cli("build", "--to", "html", "--no-clinician")
    assert (result.status, result.out.splitlines()) == (0, [f"{STEM}.html"])
    assert "warning P918: the folder `closed` cannot be read" in result.err
    assert "error P909" in cli("check", "closed").out


def test_a_language_without_words_is_an_error(cli: Cli, project: Path) -> None:
    result = cli("build", "--to", "html", "--language", "tlh")
    assert (result.status, result.out) == (1, "")
    assert "`tlh`" in result.err


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("lateral ankle sprain", "lateral-ankle-sprain"),
        ("Alder's best", "alders-best"),
        ("膝 の 体操", "膝-の-体操"),
        ("pins-and-needles", "pins-and-needles"),
        ("x" * 300, "x" * 60),
    ],
)
def test_a_name_becomes_a_file_name(name: str, file: str) -> None:
    assert file_name(name) == file


def test_a_bar_is_drawn_only_on_a_terminal_and_only_for_slow_work(
    cli: Cli, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ticks = iter(range(0, 1000, 2))
    for isatty, patience, drawn in ((True, 1.0, True), (True, 1e9, False), (False, 1.0, False)):
        terminal = Terminal()
        monkeypatch.setattr(terminal, "isatty", lambda isatty=isatty: isatty)
        monkeypatch.setattr("sys.stderr", terminal)
        monkeypatch.setattr("protodsl.cli.progress.time.monotonic", lambda: next(ticks))
        monkeypatch.setattr("protodsl.cli.progress._PATIENCE", patience)
        cli("build", "--to", "html")
        assert ("[" in terminal.text) == drawn
        *_, before, last = ["", "", *terminal.text.split("\r")]
        assert (before.strip(), last) == ("", "")


def test_the_work_stops_before_writing_when_a_page_could_not_be_made(
    cli: Cli, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The sheet is there only with its clinician's page: one failure, no file."""
    from protodsl.compiler import make_handout
    from protodsl.diagnostics.render import template_fails
    from protodsl.formats import CLINICIAN
    from protodsl.outcome import Outcome

    def half(checked: object, entry: object, protocol: object, asked: object) -> object:
        if asked.kind == CLINICIAN:  # type: ignore[attr-defined]
            return Outcome({}, (template_fails("clinician.html.j2", 3, "made to fail"),))
        return make_handout(checked, entry, protocol, asked)  # type: ignore[arg-type]

    monkeypatch.setattr(build, "make_handout", half)
    result = cli("build", "--to", "html")
    assert (result.status, result.out) == (1, "")
    assert "P950" in result.err
    assert not (project / "handouts").exists()
