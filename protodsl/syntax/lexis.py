"""Which tokens can come next: for each state of the parser the keywords, signs and patterns to look for."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

from protodsl.syntax.tables import Tables, tables

Matcher = Callable[[str, int], "re.Match[str] | None"]

WORD_END = r"(?![\w'-])"
WORD = re.compile(r"[^\W\d_][\w'-]*")
PROSE = frozenset(("PROSE", "SENTENCE"))
_WORDING = re.compile(r"(?:[a-z?]|\\-)+(?: \+(?:[a-z?]|\\-)+)*")
# Where two patterns can match at one place, the first of these wins; lark orders the same ones by their priority.
_ORDER = ("SCORED", "DATE", "VERSION_NUMBER", "RM", "NUMBER", "UNIT", "COMPARISON", "LEVEL_NAME", "STANCE")


@dataclass(frozen=True, slots=True)
class Keyword:
    """A keyword terminal: its number, its words, and a pattern where more than equal words is asked for."""

    terminal: int
    words: tuple[str, ...]
    match: Matcher | None

    @property
    def text(self) -> str:
        """The words with one blank between."""
        return " ".join(self.words).replace("?", "")


@dataclass(frozen=True, slots=True)
class Lexis:
    """What can come next in one state; `prose` is the terminal that takes the rest of the line, or -1."""

    signs: dict[str, int]
    words: dict[str, tuple[Keyword, ...]]
    patterns: tuple[tuple[Matcher, int], ...]
    prose: int
    prose_match: Matcher | None


def lexis(made: Tables, row: dict[int, int]) -> Lexis:
    """What can come next where `row` holds the actions."""
    signs: dict[str, int] = {}
    words: dict[str, list[Keyword]] = {}
    patterns: list[tuple[int, str, int]] = []
    prose = -1
    keywords = keywords_of_grammar()
    for number in row:
        if number >= len(made.terminals):
            continue
        terminal = made.terminals[number]
        keyword = keywords.get(number)
        if keyword is not None:
            for first in _spellings(keyword.words[0]):
                words.setdefault(first, []).append(keyword)
            # `x` in `3x12` ends where no word ends, and `to` may be a dash: these are looked for as patterns too.
            if WORD_END not in terminal.pattern or "|" in terminal.pattern.partition(WORD_END)[2]:
                patterns.append((len(_ORDER), terminal.pattern, number))
        elif terminal.name in PROSE:
            prose = number
        elif len(terminal.pattern.removeprefix("\\")) == 1:
            signs[terminal.pattern.removeprefix("\\")] = number
        elif terminal.pattern and terminal.name != "NL":
            order = _ORDER.index(terminal.name) if terminal.name in _ORDER else len(_ORDER)
            patterns.append((order, terminal.pattern, number))
    return Lexis(
        signs,
        {first: tuple(sorted(found, key=lambda one: -len(one.words))) for first, found in words.items()},
        tuple((compiled(pattern), number) for _, pattern, number in sorted(patterns)),
        prose,
        compiled(made.terminals[prose].pattern) if prose >= 0 else None,
    )


@cache
def keywords_of_grammar() -> dict[int, Keyword]:
    """The keyword terminals of the grammar: those whose pattern is a wording and nothing else."""
    found: dict[int, Keyword] = {}
    for number, terminal in enumerate(tables().terminals):
        wording = _WORDING.match(terminal.pattern)
        if wording is None or not terminal.pattern[wording.end() :].startswith(("(?!", "(?=")):
            continue
        words = tuple(wording.group().replace("\\", "").split(" +"))
        plain = terminal.pattern == wording.group() + WORD_END and len(words) == 1 and "?" not in words[0]
        found[number] = Keyword(number, words, None if plain else compiled(terminal.pattern))
    return found


def _spellings(word: str) -> tuple[str, ...]:
    """`weeks?` is `week` or `weeks`."""
    return (word[:-2], word[:-1]) if word.endswith("?") else (word,)


@cache
def compiled(pattern: str) -> Matcher:
    """The matcher of a pattern, compiled when it is first met."""
    return re.compile(pattern).match
