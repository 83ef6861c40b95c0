"""The stored parse tables are a matter of time only: with none, with spoiled ones and with old ones all is the same."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from protodsl.syntax.tables import grammar_text

PROGRAM = """
import sys
from protodsl.source import Source
from protodsl.syntax import parse_protocol
outcome = parse_protocol(Source("x.protocol", "exercise x\\n  do\\n    Go.\\n"))
print(len(outcome.value.statements), len(outcome.diagnostics), "lark" in sys.modules)
"""


def run(cache: Path) -> str:
    """What a fresh interpreter makes of a small text, with this folder for caches."""
    environment = dict.fromkeys(("XDG_CACHE_HOME", "LOCALAPPDATA", "HOME"), str(cache))
    environment["PYTHONPATH"] = os.pathsep.join(sys.path)
    done = subprocess.run([sys.executable, "-c", PROGRAM], env=environment, capture_output=True, text=True, check=True)
    return done.stdout.strip()


def stored(cache: Path) -> list[Path]:
    return sorted(cache.rglob("tables-*.json"))


def test_the_second_run_needs_no_lark(tmp_path: Path) -> None:
    assert run(tmp_path) == "1 0 True"
    assert len(stored(tmp_path)) == 1
    assert run(tmp_path) == "1 0 False"


@pytest.mark.parametrize("spoiled", ["", "[]", '{"grammar": ""}', "\x00"])
def test_a_spoiled_file_is_made_anew(tmp_path: Path, spoiled: str) -> None:
    run(tmp_path)
    (file,) = stored(tmp_path)
    file.write_text(spoiled, encoding="utf-8")
    assert run(tmp_path) == "1 0 True"
    assert json.loads(file.read_text(encoding="utf-8"))["grammar"] == grammar_text()
    assert run(tmp_path) == "1 0 False"


def test_tables_of_the_right_grammar_that_are_no_tables_are_made_anew(tmp_path: Path) -> None:
    run(tmp_path)
    (file,) = stored(tmp_path)
    good = file.read_text(encoding="utf-8")
    file.write_text(good.replace('"terminals":', '"terminal":'), encoding="utf-8")
    assert run(tmp_path) == "1 0 True"


def test_a_folder_that_cannot_be_written_costs_time_only(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    assert run(tmp_path / "file") == "1 0 True"
