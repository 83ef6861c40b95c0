"""Reading line by line: one line at a depth, the state before it kept, so that another reading can be tried."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from protodsl.source import Source
from protodsl.syntax import tree
from protodsl.syntax.keywords import TOP, places
from protodsl.syntax.layout import Line, lay_out
from protodsl.syntax.lexis import keywords_of_grammar
from protodsl.syntax.met import Repair
from protodsl.syntax.parser import Parser
from protodsl.syntax.tokens import Mistake, plain

# The guards under which no text stands, and what a row of `pain zones` looks like.
WITHOUT_TEXT = frozenset(("avoid if", "allow if", "until"))
ZONE = re.compile(r"\d+ *(?:to *\d+ *)?:")


class Open(NamedTuple):
    """The last line read at a depth: its keyword (None where it is not known) and its number."""

    keyword: str | None
    line: int


class Kept(NamedTuple):
    """The state of the parser at the start of a line."""

    states: list[int]
    values: list[Any]
    starts: list[int]
    last_end: int
    depth: int
    said: int
    open: list[Open]


class Reader:
    """The parser over the lines of one text, and what stands open where it is."""

    def __init__(self, source: Source, start: str) -> None:
        self.source = source
        self.plain = plain(source.text)
        self.layout = lay_out(source, self.plain)
        self.parser = Parser(source, self.plain, start)
        self.case = start == "case_file"
        self.places = places(self.case)
        self.numbers = self.parser.machine.numbers
        self.sentence = self.numbers["SENTENCE"]
        self.depth = 0
        self.open: list[Open] = []
        # The state before the last line read, to take it back where it needs lines under it and gets none.
        self.before: Kept | None = None
        # The lines under which something was lost, and the names of declarations that are not whole.
        self.lost: set[int] = set()
        self.damaged: dict[str, tree.Name] = {}
        # Where a line with characters that nobody sees has the first of them.
        self.unseen: list[int] = []
        # The last line of which something was told.
        self.told = -2
        # How far to the right of its place the line before stood: a line moved as far is not told again.
        self.shift: int | None = None

    def line(self, at: int, depth: int, kept: Kept, repair: Repair | None = None) -> None:
        """Read one line at a depth; Mistake where that does not go."""
        line, parser = self.layout.lines[at], self.parser
        if depth > self.depth + 1:
            raise Mistake(line.start)
        self.enter(depth, line.start)
        if repair is None:
            (token, stop), go_on = parser.first(line.start), 0
            if token < 0:
                raise Mistake(line.start)
        else:
            token, stop, go_on = self.number(repair.token), repair.stop, repair.go_on
        keyword = parser.machine.fixed[token]
        if keyword is not None and (where := self.places.get(keyword)) is not None:
            parent = self.open[depth - 1].keyword if depth else TOP
            if parent is not None and parent not in where:
                raise Mistake(line.start)
        elif token == self.sentence and depth and self._no_text(line, depth):
            raise Mistake(line.start)
        parser.read_line(line.start, line.end, token, stop, go_on)
        del self.open[depth:]
        self.open.append(Open(keyword or "", at))
        self.before = kept

    def _no_text(self, line: Line, depth: int) -> bool:
        """Whether a line of text cannot be one: under `avoid if`, or a row of `pain zones` too far to the right."""
        if self.open[depth - 1].keyword in WITHOUT_TEXT:
            return True
        zones = depth > 1 and self.open[depth - 2].keyword == "pain zones"
        return zones and ZONE.match(self.plain, line.start) is not None

    def enter(self, depth: int, start: int) -> None:
        """Take the change of indent in front of a line."""
        parser = self.parser
        if depth > self.depth:
            parser.feed(self.numbers["_INDENT"], None, start, parser.last_end)
        else:
            dedent = self.numbers["_DEDENT"]
            for _ in range(self.depth - depth):
                parser.feed(dedent, None, start, parser.last_end)
        self.depth = depth

    def keep(self) -> Kept:
        """The state as it is now."""
        p = self.parser
        return Kept(p.states[:], p.values[:], p.starts[:], p.last_end, self.depth, len(p.diagnostics), self.open[:])

    def restore(self, kept: Kept) -> None:
        """Back to a state, as often as needed."""
        p = self.parser
        p.states, p.values, p.starts = kept.states[:], kept.values[:], kept.starts[:]
        p.last_end, self.depth, self.open = kept.last_end, kept.depth, kept.open[:]
        del p.diagnostics[kept.said :]

    def expected(self) -> frozenset[int]:
        """The terminals that could stand where the parser is."""
        row = self.parser.machine.rows[self.parser.states[-1]]
        terminals = len(self.parser.machine.tables.terminals)
        return frozenset(symbol for symbol in row if symbol < terminals) if isinstance(row, dict) else frozenset()

    def takes_block(self) -> bool:
        """Whether lines may stand under the line before."""
        return self.numbers["_INDENT"] in self.expected()

    def nearest_depth(self, at: int) -> int:
        """The depth of a line, rounded up where it stands between two steps; 0 behind the last line."""
        if at >= len(self.layout.lines):
            return 0
        return -(-self.layout.lines[at].width // self.layout.step)

    def names(self, terminals: frozenset[int]) -> frozenset[str]:
        """The names of terminals."""
        known = self.parser.machine.tables.terminals
        return frozenset(known[number].name for number in terminals)

    def number(self, word: str) -> int:
        """The terminal of a repair: a keyword as written, or the name of a terminal."""
        if word in self.numbers:
            return self.numbers[word]
        fixed, terminals = self.parser.machine.fixed, self.parser.machine.tables.terminals
        found = [at for at, text in enumerate(fixed) if text == word and terminals[at].kept]
        # `start` alone is also a word inside conditions, where it has a pattern of its own.
        keywords = keywords_of_grammar()
        return min(found, key=lambda at: keywords[at].match is not None)
