"""The rules of the language, each broken by hand: every clause of every row of its sections 5.1 to 5.4.

In each text file a rule is a clause, the file below `protodsl` that holds it, its lines there (`-`, found once) and the
lines that break it (`+`). `python -m tests.mutation --rules` breaks one at a time; each has to make a test fail.
"""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple


class Broken(NamedTuple):
    """One rule of a section, the file that holds it, lines of that file, and the lines that break the rule."""

    section: str
    clause: str
    file: str
    source: str
    instead: str


def _read(path: Path) -> list[Broken]:
    return [_rule(path.stem, block.split("\n")) for block in path.read_text("utf-8").strip().split("\n\n")]


def _rule(section: str, lines: list[str]) -> Broken:
    clause, file, *change = lines
    assert all(line[:1] in ("-", "+") for line in change), clause
    source, instead = ("".join(f"{line[2:]}\n" for line in change if line[0] == sign) for sign in "-+")
    return Broken(section, clause, file.strip(), source, instead)


RULES_BROKEN = tuple(rule for path in sorted(Path(__file__).parent.glob("*.txt")) for rule in _read(path))
