"""A project to work in, and the command line as a function."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from protodsl import resources
from protodsl.cli.main import main


@dataclass(frozen=True)
class Result:
    """What a command came to."""

    status: int
    out: str
    err: str


Cli = Callable[..., Result]


@pytest.fixture
def cli(capsys: pytest.CaptureFixture[str]) -> Cli:
    """Runs one command in this process."""

    def run(*words: object) -> Result:
        status = main([str(word) for word in words])
        captured = capsys.readouterr()
        return Result(status, captured.out, captured.err)

    return run


def fill_in(clinic: Path) -> None:
    """Write a clinic of one's own over what the starter has there to be replaced."""
    words = clinic.read_text("utf-8").replace("Name of your clinic", "Alder Quay clinic")
    words = words.replace("Your address", "2 Harbour Steps").replace("01632 960 000", "01632 960 142")
    clinic.write_text(words, encoding="utf-8")


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The starter as a project, with its dates and the clinic filled in; it is the working folder."""
    folder = tmp_path / "clinic"
    shutil.copytree(resources.path("protodsl.starter"), folder, ignore=shutil.ignore_patterns("*.py", "__pycache__"))
    fill_in(folder / "clinic.toml")
    protocol = folder / "stronger-legs.protocol"
    text = protocol.read_text("utf-8").replace("{{today}}", "2026-11-25").replace("{{in a year}}", "2027-11-25")
    protocol.write_text(text, encoding="utf-8")
    monkeypatch.chdir(folder)
    monkeypatch.setenv("NO_COLOR", "1")
    return folder
