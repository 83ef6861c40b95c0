"""`protodsl format`: in place and whole, never losing a word."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.unit.cli.conftest import Cli

CROOKED = "equipment   chair:   a firm chair\ntarget  calf:  the calf\n"


@pytest.fixture
def straight(cli: Cli, project: Path) -> str:
    """The one spelling of CROOKED."""
    (project / "x.protocol").write_text(CROOKED)
    assert cli("format", "x.protocol").status == 0
    return (project / "x.protocol").read_text()


def test_a_file_is_changed_in_place_and_named(cli: Cli, project: Path) -> None:
    (project / "x.protocol").write_text(CROOKED)
    result = cli("format")
    assert (result.status, result.out) == (0, "changed x.protocol\n")
    assert (project / "x.protocol").read_text() != CROOKED
    assert cli("format").out == ""


def test_the_starter_is_written_in_the_one_way(cli: Cli, project: Path) -> None:
    result = cli("format", "--check")
    assert (result.status, result.out, result.err) == (0, "", "")


def test_check_changes_nothing_and_tells_by_its_status(cli: Cli, project: Path) -> None:
    (project / "x.protocol").write_text(CROOKED)
    result = cli("format", "--check")
    assert (result.status, result.out) == (1, "would change x.protocol\n")
    assert (project / "x.protocol").read_text() == CROOKED


def test_a_file_with_an_error_is_left_alone_and_the_others_are_not(cli: Cli, project: Path, straight: str) -> None:
    broken = "excercise   x\n" + CROOKED
    (project / "broken.protocol").write_text(broken)
    (project / "x.protocol").write_text(CROOKED)
    result = cli("format")
    assert result.status == 1
    assert "broken.protocol:1:1 error" in result.err
    assert (project / "broken.protocol").read_text() == broken
    assert (project / "x.protocol").read_text() == straight


def test_a_file_that_cannot_be_written_is_said(cli: Cli, project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (project / "x.protocol").write_text(CROOKED)

    def refused(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("tempfile.mkstemp", refused)
    result = cli("format")
    assert result.status == 1
    assert "P911" in result.err
    assert "permission denied" in result.err
    assert (project / "x.protocol").read_text() == CROOKED


def piped(data: bytes, *words: str) -> subprocess.CompletedProcess[bytes]:
    """`protodsl format -` with this on standard input."""
    command = [sys.executable, "-m", "protodsl.cli", "format", "-", *words]
    return subprocess.run(command, input=data, capture_output=True, timeout=60)


def test_standard_input_to_standard_output(straight: str) -> None:
    done = piped(CROOKED.encode())
    assert (done.returncode, done.stdout, done.stderr) == (0, straight.encode(), b"")


def test_standard_input_with_check_shows_the_difference(straight: str) -> None:
    done = piped(CROOKED.encode(), "--check")
    assert done.returncode == 1
    assert all(f"+{line}".encode() in done.stdout for line in straight.splitlines())
    assert piped(straight.encode(), "--check").stdout == b""


@pytest.mark.parametrize(
    ("data", "place"),
    [
        (b"excercise x\n", b"standard input.protocol:1:1 error"),
        (b"# a case\ncase P-0001\n  protokol x\n", b"standard input.case:3:3 error"),
        (b"exercise \xff\n", b"standard input.protocol error"),
    ],
)
def test_standard_input_with_an_error_writes_nothing(data: bytes, place: bytes) -> None:
    done = piped(data)
    assert (done.returncode, done.stdout) == (1, b"")
    assert place in done.stderr


def test_standard_input_stands_alone(cli: Cli, project: Path) -> None:
    assert cli("format", "-", "x.protocol").status == 2
