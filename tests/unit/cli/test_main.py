"""The command line as a whole: its exit statuses, and that a person never meets a traceback."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from protodsl import __version__
from protodsl.cli import check
from protodsl.cli.arguments import COMMANDS
from tests.unit.cli.conftest import Cli


def process(*words: str, cwd: Path | None = None, **environment: str) -> subprocess.CompletedProcess[str]:
    """The command line in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "protodsl.cli", *words],
        capture_output=True,
        text=True,
        cwd=cwd,
        env=os.environ | environment,
        timeout=120,
    )


def test_the_version(cli: Cli) -> None:
    assert cli("--version").out == f"protodsl {__version__}\n"


def test_without_a_command_the_help_is_shown_and_the_use_is_wrong(cli: Cli) -> None:
    result = cli()
    assert (result.status, result.out) == (2, "")
    assert all(command in result.err for command in COMMANDS)


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_with_examples(cli: Cli, command: str) -> None:
    result = cli(command, "--help")
    assert result.status == 0
    assert f"  protodsl {command}" in result.out or f'"$(protodsl {command}' in result.out
    assert "exit status" in result.out


@pytest.mark.parametrize(("wrong", "right"), [("chekc", "check"), ("biuld", "build"), ("explian", "explain")])
def test_a_misspelled_command_is_guessed(cli: Cli, wrong: str, right: str) -> None:
    result = cli(wrong)
    assert result.status == 2
    assert f"did you mean `{right}`?" in result.err


@pytest.mark.parametrize(
    "words",
    [
        ("check", "--as-of", "yesterday"),
        ("check", "--stric"),
        ("build", "--to", "html,word"),
        ("new",),
        ("completion", "fish"),
    ],
)
def test_wrong_use_is_2_and_says_what_is_wrong(cli: Cli, words: tuple[str, ...]) -> None:
    result = cli(*words)
    assert result.status == 2
    assert "Traceback" not in result.err
    assert result.err


def test_a_fault_of_the_program_is_70_and_asks_for_a_report(
    cli: Cli, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise KeyError("a secret of the program")

    monkeypatch.setattr(check, "check_project", broken)
    result = cli("check")
    assert result.status == 70
    assert "report" in result.err
    assert "--traceback" in result.err
    assert "Traceback" not in result.err
    with pytest.raises(KeyError):
        cli("check", "--traceback")


def test_an_interrupt_is_130_without_a_word(cli: Cli, project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(check, "check_project", interrupted)
    result = cli("check")
    assert (result.status, result.out, result.err) == (130, "", "")


def test_a_reader_that_leaves_early_is_no_fault() -> None:
    """As with `protodsl reference --all | head -1`."""
    command = f'"{sys.executable}" -m protodsl.cli reference --all | head -1'
    done = subprocess.run(command, shell=True, capture_output=True, text=True, timeout=60)
    assert done.stderr == ""
    assert done.stdout.startswith("# The language")


@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_a_terminal_that_lacks_a_character_is_no_fault(tmp_path: Path, encoding: str) -> None:
    """What it cannot show is spelled out."""
    name = tmp_path / "仰向け.protocol"
    name.write_text("excercise 仰向け\n", encoding="utf-8")
    done = process("check", name.name, cwd=tmp_path, PYTHONIOENCODING=encoding, PYTHONUTF8="0")
    assert done.returncode == 1
    assert done.stderr == ""
    assert "\\u4ef0" in done.stdout


def test_check_loads_nothing_that_it_has_no_use_for(project: Path) -> None:
    """Imports are most of the time of a check: no templates, no Markdown, no page maker, no locale data."""
    code = (
        "import sys; from protodsl.cli import main; status = main(['check', '.']);"
        "print(status, sorted({name.partition('.')[0] for name in sys.modules}))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=project, timeout=60)
    status, _, modules = done.stdout.splitlines()[-1].partition(" ")
    assert status == "0", done.stdout + done.stderr
    for heavy in ("jinja2", "markdown_it", "weasyprint", "babel", "shtab", "tinycss2", "fontTools", "http", "ssl"):
        assert f"'{heavy}'" not in modules, heavy


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="a device that is always full is a thing of Linux")
def test_a_full_disk_is_no_fault_of_the_program(tmp_path: Path) -> None:
    """full(4): every write to the device fails with ENOSPC."""
    with open("/dev/full", "w") as full:
        words = [sys.executable, "-m", "protodsl.cli", "reference", "--all"]
        done = subprocess.run(words, stdout=full, stderr=subprocess.PIPE, text=True, timeout=60, check=False)
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1 and "No space left" in done.stderr
