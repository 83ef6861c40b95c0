"""The parse tables that lark makes from grammar/*.lark, kept between runs so that most runs need no lark at all."""

from __future__ import annotations

import json
import os
import sys
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any
from zlib import crc32

from protodsl import resources

FILES = ("words", "conditions", "dose", "figure", "protocol", "case")
STARTS = ("protocol_file", "case_file", "condition_text")
FORMAT = 1


@dataclass(frozen=True, slots=True)
class Terminal:
    """A terminal: its name, its pattern with flags, and whether the builder sees it."""

    name: str
    pattern: str
    flags: str
    kept: bool


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule: what it makes, of how many symbols, and which of them its builder function gets.

    `plan` holds positions in the expansion; a position equal to `size` stands for an absent option (None).
    `spliced` are the positions whose value is a run of values; `recursive` runs start with themselves.
    """

    origin: int
    name: str
    size: int
    plan: tuple[int, ...]
    spliced: frozenset[int]
    helper: bool
    recursive: bool
    inline: bool


@dataclass(frozen=True, slots=True)
class Tables:
    """Terminals and rules by number, one row of actions a state, and the start states.

    A row maps symbol numbers to actions: shift or go to a state (>= 0), reduce by rule r (-r - 1).
    Terminals have the numbers 0 to len(terminals) - 1; the end of the text is `end`.
    """

    terminals: tuple[Terminal, ...]
    rules: tuple[Rule, ...]
    rows: tuple[dict[int, int], ...]
    starts: dict[str, int]
    end: int


def grammar_text() -> str:
    """The grammar: the files of grammar/ in order, as one text."""
    return "\n".join(resources.text("protodsl.grammar", f"{name}.lark") for name in FILES)


@cache
def tables() -> Tables:
    """The tables of the grammar as it is on disk now, from the cache of this user where it has them."""
    text = grammar_text()
    stored = _stored(text)
    with suppress(OSError, ValueError, KeyError, TypeError):
        data = json.loads(stored.read_text(encoding="utf-8"))
        if data["grammar"] == text:
            return _from_json(data)
    data = make(text)
    _store(stored, json.dumps(data, separators=(",", ":")))
    return _from_json(data)


def lark(text: str, **options: Any) -> Any:
    """Lark itself over the grammar, for making tables and for tests that compare with it."""
    from lark import Lark

    return Lark(text, parser="lalr", lexer="contextual", start=list(STARTS), maybe_placeholders=True, **options)


def make(text: str) -> dict[str, Any]:
    """The tables as plain data: what is stored."""
    parser = lark(text, postlex=_Layout())
    table = parser.parser.parser._parse_table
    names = [terminal.name for terminal in parser.terminals] + ["_INDENT", "_DEDENT", "BROKEN", "$END"]
    names = list(dict.fromkeys(names))
    kept = {name: not name.startswith("_") for name in names}
    for rule in parser.rules:
        for symbol in rule.expansion:
            if symbol.is_term and symbol.filter_out:
                kept[symbol.name] = False
    number = {name: at for at, name in enumerate(names)}
    for rule in parser.rules:
        number.setdefault(rule.origin.name, len(number))
    order = {rule: at for at, rule in enumerate(parser.rules)}
    patterns = {terminal.name: terminal.pattern for terminal in parser.terminals}
    states = {state: at for at, state in enumerate(table.states)}
    rows = []
    for actions in table.states.values():
        row: list[int] = []
        for symbol, (action, argument) in actions.items():
            if symbol not in number:
                continue
            goes = states[argument] if str(action) == "Shift" else -order[argument] - 1
            row += (number[symbol], goes)
        rows.append(row)
    return {
        "grammar": text,
        "terminals": [[n, patterns[n].to_regexp() if n in patterns else "", "", kept[n]] for n in names],
        "rules": [_rule(rule, number) for rule in parser.rules],
        "rows": rows,
        "starts": {start: states[state] for start, state in table.start_states.items()},
        "end": number["$END"],
    }


class _Layout:
    """Stands in for the layout, which the driver does itself: lark only has to know these tokens come from outside."""

    always_accept = ("NL",)

    def process(self, stream: Any) -> Any:
        return stream


def _rule(rule: Any, number: dict[str, int]) -> list[Any]:
    """One rule as plain data."""
    size = len(rule.expansion)
    plan: list[int] = []
    spliced: list[int] = []
    empty = list(rule.options.empty_indices)
    at = 0
    for gap in empty or [False] * (size + 1):
        if gap:
            plan.append(size)
            continue
        if at < size:
            symbol = rule.expansion[at]
            if not (symbol.is_term and symbol.filter_out):
                plan.append(at)
                if not symbol.is_term and symbol.name.startswith("_"):
                    spliced.append(at)
            at += 1
    origin = rule.origin.name
    helper = origin.startswith("_")
    recursive = helper and size > 0 and rule.expansion[0].name == origin
    inline = rule.options.expand1 and not rule.alias and len(plan) == 1 and plan[0] < size
    return [number[origin], rule.alias or str(origin), size, plan, spliced, helper, recursive, inline]


def _from_json(data: dict[str, Any]) -> Tables:
    """Tables from plain data; ValueError, KeyError or TypeError where it is not what `make` makes."""
    return Tables(
        tuple(Terminal(*entry) for entry in data["terminals"]),
        tuple(Rule(o, n, s, tuple(p), frozenset(x), h, r, i) for o, n, s, p, x, h, r, i in data["rules"]),
        tuple(dict(zip(row[::2], row[1::2], strict=True)) for row in data["rows"]),
        data["starts"],
        data["end"],
    )


def _stored(text: str) -> Path:
    """Where the tables of this grammar are kept; the file holds the grammar too, so that it is never misread."""
    return _cache_folder() / f"tables-{FORMAT}-{crc32(text.encode()):08x}.json"


def _cache_folder() -> Path:
    """The folder for this user's caches, by the habit of the system."""
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA")
        return Path(base) / "protodsl" / "cache" if base else Path.home() / "AppData" / "Local" / "protodsl" / "cache"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches" / "protodsl"
    base = os.environ.get("XDG_CACHE_HOME")
    return (Path(base) if base else Path.home() / ".cache") / "protodsl"


def _store(path: Path, content: str) -> None:
    """Keep the tables for the next run; a folder that cannot be written costs time, not correctness."""
    with suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        draft = path.with_name(f"{path.name}.{os.getpid()}")
        draft.write_text(content, encoding="utf-8")
        draft.replace(path)
