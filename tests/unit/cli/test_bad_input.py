"""What can be wrong with a file or a machine ends in a diagnostic; what was built before stays whole."""

import shutil
from pathlib import Path

import pytest

from protodsl import fonts
from tests.unit.cli.conftest import Cli, Result
from tests.unit.cli.test_build import bytes_below


def no_fault(result: Result, status: int = 1) -> None:
    """The status is that of errors found, and nobody saw a traceback."""
    assert result.status == status, result.err
    assert "Traceback" not in result.out + result.err
    assert "has a fault" not in result.err


@pytest.fixture
def built(cli: Cli, project: Path) -> dict[str, bytes]:
    """A project with its handouts already built; their bytes."""
    assert cli("build", "--to", "html").status == 0
    return bytes_below(project / "handouts")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", ""),
        (b"\n\n   \n", ""),
        (b"# only a comment\n", ""),
        (bytes(range(256)) * 40, "error"),
        (b"\x00" * 100, "error"),
        (b"exercise caf\xe9\n", "UTF-8"),
        ("exercise x\n".encode("utf-16"), "error"),
        (b"exercise " + b"x" * 10_000_000, "error"),
        (b"x" * 10_000_000, "error"),
        (b"\n" * 1_000_000, ""),
        (b"".join(b" " * (2 * depth) + b"do\n" for depth in range(200)), "error"),
        (b"".join(b" " * (2 * depth) + b"exercise x\n" for depth in range(200)), "error"),
        (b"exercise x\n  avoid if " + b"(" * 50_000 + b"\n", "error"),
        (b"exercise x\n  avoid if " + b"not (" * 20_000 + b"a" + b")" * 20_000 + b"\n", "error"),
        (b"exercise x\n  avoid if " + b"(" * 9_000 + b"\n", "error"),
        (b"exercise x\n  avoid if " + b"(" * 4_500 + b"a" + b")" * 4_500 + b"\n", "error"),
        (b"exercise x\n  avoid if " + b"not (" * 1_600 + b"a" + b")" * 1_600 + b"\n", "error"),
        (b"exercise x\n  avoid if a" + b" or a" * 1_900 + b"\n", "error"),
        (b"exercise x\n  dose " + b"3 x (" * 1_900 + b"\n", "error"),
        (b"exercise x\n  dose 3 x 12" + b", daily" * 1_400 + b"\n", "error"),
        (b"exercise x\n  dose " + b"3 x (" * 5_000 + b"\n", "error"),
        (b"exercise x\n  dose 9" + b"9" * 10_000 + b" x 12\n", "error"),
        ("exercise \u202eesicrexe\n".encode(), "error"),
        (b"exercise \x1b[31mx\n", "error"),
    ],
    ids=lambda value: f"{value[:12]!r}-{len(value)}" if isinstance(value, bytes) else value,
)
def test_a_file_that_is_no_protocol(data: bytes, words: str, cli: Cli, project: Path, built: dict[str, bytes]) -> None:
    (project / "bad.protocol").write_bytes(data)
    result = cli("check", "bad.protocol")
    assert result.status in (0, 1)
    no_fault(result, 1 if words else result.status)
    assert words in result.out
    assert not set(result.out) & {"\x1b", "\u202e", "\0"}
    assert all(len(line) < 600 for line in result.out.splitlines())
    cli("build", "--to", "html")
    assert bytes_below(project / "handouts") == built


def test_a_use_that_goes_round_in_a_circle(cli: Cli, project: Path) -> None:
    (project / "a.protocol").write_text("use b\n")
    (project / "b.protocol").write_text("use a\n")
    result = cli("check")
    no_fault(result)
    assert "protocol:1:5 error" in result.out
    assert "a.protocol uses b.protocol uses a.protocol" in result.out


@pytest.mark.parametrize("use", ["../secret", "/etc/passwd", "library/../../secret", "out", "away/secret"])
def test_a_use_outside_the_project_reads_nothing(use: str, cli: Cli, project: Path) -> None:
    """Nothing of what stands outside is shown, not even that it is there."""
    (project.parent / "secret.protocol").write_text("excercise SECRET\n")
    (project / "out.protocol").symlink_to(project.parent / "secret.protocol")
    (project / "away").symlink_to(project.parent)
    (project / "x.protocol").write_text(f"use {use}\n")
    result = cli("check", "x.protocol")
    no_fault(result)
    assert "x.protocol:1:" in result.out
    assert "SECRET" not in result.out


def test_a_font_that_is_missing(
    cli: Cli, project: Path, built: dict[str, bytes], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """P954; a page in another face than the one it was laid out for is not printed."""
    folder = tmp_path / "fonts"
    shutil.copytree(fonts.font_folder(), folder)
    (folder / fonts.FONTS[0].file).unlink()
    monkeypatch.setattr(fonts, "font_folder", lambda: folder)
    result = cli("build")
    no_fault(result)
    assert "P954" in result.err
    assert bytes_below(project / "handouts") == built


@pytest.mark.parametrize("place", ["handouts", "handouts/stronger-legs.html"])
def test_an_output_folder_that_cannot_be_written(place: str, cli: Cli, project: Path) -> None:
    """P911: a file where the folder should be, a folder where the file should be."""
    if place == "handouts":
        (project / place).write_text("mine")
    else:
        (project / place / "deeper").mkdir(parents=True)
        (project / place / "deeper/note").write_text("mine")
    result = cli("build", "--to", "html")
    no_fault(result)
    assert "P911" in result.err
    assert result.out == ""
    assert list(bytes_below(project).items() & {"handouts": b"mine", f"{place}/deeper/note": b"mine"}.items())
    assert not list(project.rglob("*.part"))


def test_a_folder_that_is_closed_to_us(
    cli: Cli, project: Path, built: dict[str, bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    """P911; as root no folder is closed, so the system's answer is made up."""

    def refused(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", str(project / "handouts"))

    monkeypatch.setattr("tempfile.mkstemp", refused)
    result = cli("build", "--to", "html", "--large-print")
    no_fault(result)
    assert "P911" in result.err
    assert "permission denied" in result.err
    assert bytes_below(project / "handouts") == built


def test_a_file_that_is_closed_to_us(cli: Cli, project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """P909."""

    def refused(path: Path) -> bytes:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "read_bytes", refused)
    result = cli("check", "stronger-legs.protocol")
    no_fault(result)
    assert "P909" in result.out
    assert "permission denied" in result.out


@pytest.mark.parametrize(
    "template",
    [
        "{% for %}",
        "{{ nothing_of_that_name }}",
        "{{ 1 / 0 }}",
        "{% include 'gone' %}",
        "{{ ''.__class__.__mro__ }}",
        "",
        "\x80",
    ],
)
def test_a_template_that_fails(template: str, cli: Cli, project: Path, built: dict[str, bytes]) -> None:
    """P950 to P957: also a template that leaves everything out, since what keeps somebody safe is then missing."""
    (project / "templates").mkdir()
    (project / "templates/sheet.html.j2").write_bytes(template.encode("latin-1"))
    clinic = project / "clinic.toml"
    clinic.write_text(clinic.read_text().replace('# templates = "templates"', 'templates = "templates"'))
    result = cli("build", "--to", "html")
    no_fault(result)
    assert " error P95" in result.err
    assert result.out == ""
    assert bytes_below(project / "handouts") == built


def test_a_machine_without_the_library_that_makes_pdfs(
    cli: Cli, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """P953: the HTML is written, unless an earlier PDF would stand beside it and say something else."""
    from protodsl.diagnostics.render import library_missing
    from protodsl.outcome import Outcome
    from protodsl.render import to_pdf

    monkeypatch.setattr(to_pdf, "pdf", lambda page, style: Outcome(None, (library_missing("no pango"),)))
    result = cli("build")
    no_fault(result)
    assert "P953" in result.err
    assert sorted(bytes_below(project / "handouts")) == ["stronger-legs-clinician.html", "stronger-legs.html"]
    (project / "handouts/stronger-legs.pdf").write_bytes(b"of last week")
    (project / "handouts/stronger-legs.html").unlink()
    no_fault(cli("build"))
    assert not (project / "handouts/stronger-legs.html").exists()
