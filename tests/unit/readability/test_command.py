"""`protodsl reading`: every sheet with its values, its exercises and its hardest sentences."""

from __future__ import annotations

import re
from pathlib import Path

from tests.unit.cli.conftest import Cli


def test_a_sheet_and_its_hardest_sentences(cli: Cli, project: Path) -> None:
    """Every line of the report names a file and line that hold the words."""
    result = cli("reading", "--hardest", "8")
    assert (result.status, result.err) == (0, "")
    assert re.search(r"^stronger-legs\.protocol:\d+: stronger legs \(en\)$", result.out, re.MULTILINE)
    assert re.search(r"school grade \(Flesch-Kincaid, Kincaid et al\. 1975\), at most 8$", result.out, re.MULTILINE)
    places = re.findall(r"^    (\S+?):(\d+): -?[\d.]+ school grade, \d+ words: (.+)$", result.out, re.MULTILINE)
    assert places
    for file, line, said in places:
        written = (project / file).read_text("utf-8").splitlines()[int(line) - 1]
        # Conditions and doses are put into other words than they were written in.
        assert written.strip() and (said.split()[0] in written or not written.strip().startswith(said[:5]))


def test_every_step_with_its_place(cli: Cli, project: Path) -> None:
    out = cli("reading", "--steps").out
    found = re.findall(r"^\s+-?[\d.]+  (\S+\.protocol):(\d+): (.+?)(?: \[.*\])?$", out, re.MULTILINE)
    steps = [
        (file, int(line), said) for file, line, said in found
        if said in (project / file).read_text("utf-8").splitlines()[int(line) - 1]
    ]  # fmt: skip
    assert len(steps) > 5


def test_past_a_limit(cli: Cli, project: Path) -> None:
    """A warning, and with `--strict` an error."""
    clinic = project / "clinic.toml"
    clinic.write_text(clinic.read_text("utf-8").replace("reading-grade = 8", "reading-grade = 0.1"), encoding="utf-8")
    result = cli("reading")
    assert result.status == 0 and "W808" in result.err and ", at most 0.1" in result.out
    assert cli("reading", "--strict").status == 1


def test_a_language_without_words_is_said_to_be_one(cli: Cli, project: Path) -> None:
    result = cli("reading", "--language", "de")
    assert result.status == 0 and "lines have no words in this language" in result.out
    assert "W808" not in result.err
    assert cli("reading", "--language", "german").status == 2


def test_a_file_with_an_error_has_no_sheet(cli: Cli, project: Path) -> None:
    (project / "broken.protocol").write_text("protocol x\n  give nothing\n", encoding="utf-8")
    result = cli("reading", "broken.protocol")
    assert result.status == 1 and result.out == "" and "error" in result.err
