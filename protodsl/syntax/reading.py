"""A whole text: its lines one after the other, every mistake noted and passed, so that each costs its line only."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, NamedTuple

from protodsl.diagnostics import text as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Source, Span
from protodsl.syntax import tree
from protodsl.syntax.keywords import OPENS, OVER_TEXT, TOP, places
from protodsl.syntax.layout import Line, lay_out
from protodsl.syntax.lexis import compiled
from protodsl.syntax.met import Met, Repair, leading
from protodsl.syntax.mistakes import explain
from protodsl.syntax.parser import Parser
from protodsl.syntax.tokens import Mistake, name, plain

# The guards under which no text stands, and what a row of `pain zones` looks like.
WITHOUT_TEXT = frozenset(("avoid if", "allow if", "until"))
ZONE = re.compile(r"\d+ *(?:to *\d+ *)?:")
NAMED = frozenset(
    {"question", "test", "finding", "exercise", "progression", "level", "protocol", "phase"}
    | {"setting", "equipment", "target"}
)


class Kept(NamedTuple):
    """The state of the parser at the start of a line."""

    states: list[int]
    values: list[Any]
    starts: list[int]
    last_end: int
    depth: int
    said: int
    open: list[Open]


class Open(NamedTuple):
    """The last line read at a depth: its keyword (None where it is not known), its number, the state before it."""

    keyword: str | None
    line: int
    kept: Kept


class Reading:
    """One run over one text."""

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
        # The lines under which something was lost, and the names of declarations that are not whole.
        self.lost: set[int] = set()
        self.damaged: dict[str, tree.Name] = {}
        # Width and depth of the line before, where it stood at a wrong indent: the next of its kind is not told again.
        self.shift: tuple[int, int] | None = None

    @property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        """What was noted."""
        return tuple(self.parser.diagnostics)

    def run(self) -> Any:
        """What the text makes, without what could not be read."""
        self._tabs()
        lines, step = self.layout.lines, self.layout.step
        at = 0
        while at < len(lines):
            kept = self._keep()
            depth, odd = divmod(lines[at].width, step)
            try:
                if odd:
                    raise Mistake(lines[at].start)
                self._line(at, depth, kept)
                self.shift = None
                at += 1
            except Mistake as mistake:
                at = self._recover(at, mistake, kept)
        return self._finish()

    def _recover(self, at: int, mistake: Mistake, kept: Kept) -> int:
        """Say what is wrong with a line and read on; the number of the line to go on with."""
        expected = self._expected()
        self._restore(kept)
        if self._lacks_block(at, kept):
            self._drop_head()
            return at
        if self._elsewhere(at, mistake, kept):
            return at + 1
        met = self._met(at, mistake, expected)
        diagnostic, repair = (mistake.diagnostic, None) if mistake.diagnostic else self._explain(at, met)
        self.shift = None
        self._restore(kept)
        if repair is not None:
            try:
                self._line(at, min(self._nearest_depth(at), self.depth + 1), kept, repair)
                self.parser.report(diagnostic)
                return at + 1
            except Mistake:
                self._restore(kept)
        self.parser.report(diagnostic)
        return self._drop(at, met.keyword, kept)

    def _explain(self, at: int, met: Met) -> tuple[Diagnostic, Repair | None]:
        """What is wrong with a line that fits at no depth."""
        line, step = self.layout.lines[at], self.layout.step
        if line.width % step:
            meant = self._nearest_depth(at) * step
            return say.crooked_indent(self._indent_span(at), line.width, step, meant), None
        if line.width // step > self.depth and not self._takes_block():
            above = self.open[-1].keyword if self.open else ""
            if not met.keyword:
                return say.no_block(met.span(line.start, line.end - line.start), above or ""), None
        return explain(met)

    def _line(self, at: int, depth: int, kept: Kept, repair: Repair | None = None) -> None:
        """Read one line at a depth; Mistake where that does not go."""
        line, parser = self.layout.lines[at], self.parser
        if depth > self.depth + 1:
            raise Mistake(line.start)
        self._enter(depth, line.start)
        if repair is None:
            (token, stop), go_on = parser.first(line.start), 0
            if token < 0:
                raise Mistake(line.start)
        else:
            token, stop, go_on = self._number(repair.token), repair.stop, repair.go_on
        keyword = parser.machine.fixed[token]
        if keyword is not None and (where := self.places.get(keyword)) is not None:
            parent = self.open[depth - 1].keyword if depth else TOP
            if parent is not None and parent not in where:
                raise Mistake(line.start)
        elif token == self.sentence and depth and self._no_text(line, depth):
            raise Mistake(line.start)
        parser.read_line(line.start, line.end, token, stop, go_on)
        del self.open[depth:]
        self.open.append(Open(keyword or "", at, kept))

    def _no_text(self, line: Line, depth: int) -> bool:
        """Whether a line of text cannot be one: under `avoid if`, or a row of `pain zones` too far to the right."""
        if self.open[depth - 1].keyword in WITHOUT_TEXT:
            return True
        zones = depth > 1 and self.open[depth - 2].keyword == "pain zones"
        return zones and ZONE.match(self.plain, line.start) is not None

    def _enter(self, depth: int, start: int) -> None:
        """Take the change of indent in front of a line."""
        parser = self.parser
        if depth > self.depth:
            parser.feed(self.numbers["_INDENT"], None, start, parser.last_end)
        else:
            dedent = self.numbers["_DEDENT"]
            for _ in range(self.depth - depth):
                parser.feed(dedent, None, start, parser.last_end)
        self.depth = depth

    def _finish(self) -> Any:
        """The value of the whole text, after the last line."""
        while True:
            kept = self._keep()
            try:
                self._enter(0, len(self.plain))
                value = self.parser.finish()
            except Mistake:
                value = None
            if value is not None or not self.open:
                return value
            self._restore(kept)
            self._drop_head()

    def _keep(self) -> Kept:
        """The state as it is now."""
        p = self.parser
        return Kept(p.states[:], p.values[:], p.starts[:], p.last_end, self.depth, len(p.diagnostics), self.open[:])

    def _restore(self, kept: Kept) -> None:
        """Back to a state, as often as needed."""
        p = self.parser
        p.states, p.values, p.starts = kept.states[:], kept.values[:], kept.starts[:]
        p.last_end, self.depth, self.open = kept.last_end, kept.depth, kept.open[:]
        del p.diagnostics[kept.said :]

    def _expected(self) -> frozenset[int]:
        """The terminals that could stand where the parser is."""
        row = self.parser.machine.rows[self.parser.states[-1]]
        terminals = len(self.parser.machine.tables.terminals)
        return frozenset(symbol for symbol in row if symbol < terminals) if isinstance(row, dict) else frozenset()

    def _takes_block(self) -> bool:
        """Whether lines may stand under the line before."""
        return self.numbers["_INDENT"] in self._expected()

    def _lacks_block(self, at: int, kept: Kept) -> bool:
        """Whether the line before needs lines under it, and this line is none of them."""
        if self._expected() != {self.numbers["_INDENT"]} or self._nearest_depth(at) > self.depth:
            return False
        if leading(self.plain, self.layout.lines[at])[0]:
            return True
        reads = self._reads(at, self.depth + 1, kept)
        self._restore(kept)
        return not reads

    def _reads(self, at: int, depth: int, kept: Kept) -> bool:
        """Whether a line can be read at a depth; it is then read."""
        try:
            self._line(at, depth, kept)
        except Mistake:
            self._restore(kept)
            return False
        return True

    def _elsewhere(self, at: int, mistake: Mistake, kept: Kept) -> bool:
        """Read a line at another depth, where it can be read at one, and say so."""
        line = self.layout.lines[at]
        keyword, _ = leading(self.plain, line)
        for depth in self._depths(at, mistake, keyword):
            expects_text = "SENTENCE" in self._names(self._expected())
            if not self._reads(at, depth, kept):
                continue
            if self.shift != (line.width, depth):
                parent = self.open[depth - 1].keyword if depth else TOP
                word = keyword or self.plain[line.start : line.end].split()[0]
                self.parser.report(self._misindented(at, word, depth, parent or "", expects_text and not keyword))
            self.shift = line.width, depth
            return True
        return False

    def _misindented(self, at: int, word: str, depth: int, parent: str, text: bool) -> Diagnostic:
        """What is wrong with the indent of a line that belongs at a depth."""
        line, step = self.layout.lines[at], self.layout.step
        span, meant = self._indent_span(at), depth * step
        if line.width % step:
            return say.crooked_indent(span, line.width, step, meant)
        if text and line.width > meant:
            return say.deeper_prose(span, meant)
        return say.wrong_indent(span, word, line.width, meant, parent)

    def _depths(self, at: int, mistake: Mistake, keyword: str) -> Iterator[int]:
        """The depths at which a line could be meant to stand, the likeliest first."""
        line, step = self.layout.lines[at], self.layout.step
        written, odd = divmod(line.width, step)
        here = self.depth
        if keyword:
            fitting = [depth for depth in range(len(self.open) + 1) if self._belongs(keyword, depth)]
            if not odd and mistake.at > line.start and written in fitting:
                return
            if keyword not in OVER_TEXT and self._among_text(at):
                return
            yield from sorted(fitting, key=lambda depth: (*self._fits(at, keyword, depth), -depth))
        if self.shift and self.shift[0] == line.width:
            yield self.shift[1]
        if odd:
            yield from dict.fromkeys(depth for depth in (written + 1, written, here + 1, here) if depth <= here + 1)
        elif not keyword:
            yield from self._depths_of_text(at, written)

    def _depths_of_text(self, at: int, written: int) -> Iterator[int]:
        """The depths at which a line without a keyword could be meant to stand."""
        line, here = self.layout.lines[at], self.depth
        if written > here + self._takes_block():
            yield from (here + 1, here)
        elif written and ZONE.match(self.plain, line.start):
            yield written - 1
        elif self._expected() == {self.numbers["_INDENT"]}:
            yield here + 1
        elif written <= here and self.plain[line.start].isupper() and not self._capital_keyword(at):
            if self._takes_block():
                yield here + 1
            yield here

    def _capital_keyword(self, at: int) -> bool:
        """Whether a line begins with a keyword in capital letters."""
        line = self.layout.lines[at]
        lowered = self.plain[line.start : line.end].lower()
        return bool(leading(lowered, Line(0, len(lowered), 0))[0])

    def _belongs(self, keyword: str, depth: int) -> bool:
        """Whether a keyword may stand at a depth, under what is open there."""
        return (self.open[depth - 1].keyword if depth else TOP) in self.places.get(keyword, frozenset())

    def _among_text(self, at: int) -> bool:
        """Whether a line stands in a block of text, with a line of text after it."""
        lines = self.layout.lines
        if "SENTENCE" not in self._names(self._expected()) or at + 1 == len(lines):
            return False
        return lines[at + 1].width == lines[at].width and not leading(self.plain, lines[at + 1])[0]

    def _fits(self, at: int, keyword: str, depth: int) -> tuple[bool, int]:
        """How badly a depth suits a line: whether the next line would have no place then, and how far it is moved."""
        lines, step = self.layout.lines, self.layout.step
        moved = abs(depth * step - lines[at].width)
        if at + 1 == len(lines):
            return False, moved
        after = self._nearest_depth(at + 1)
        word = leading(self.plain, lines[at + 1])[0]
        if after > depth + 1 or not word:
            return after != depth + 1, moved
        if after == depth + 1:
            return keyword not in self.places.get(word, frozenset()), moved
        return not self._belongs(word, after), moved

    def _nearest_depth(self, at: int) -> int:
        """The depth of a line, rounded up where it stands between two steps; 0 behind the last line."""
        if at >= len(self.layout.lines):
            return 0
        return -(-self.layout.lines[at].width // self.layout.step)

    def _indent_span(self, at: int) -> Span:
        """The blanks before a line."""
        line = self.layout.lines[at]
        start = self.plain.rfind("\n", 0, line.start) + 1
        return Span(self.source.path, start, line.start)

    def _met(self, at: int, mistake: Mistake, expected: frozenset[int]) -> Met:
        """A mistake with all that its explanation needs."""
        line = self.layout.lines[at]
        depth = min(self._nearest_depth(at), len(self.open))
        parent = self.open[depth - 1].keyword if depth else TOP
        fixed = self.parser.machine.fixed
        words = tuple(text for number in sorted(expected) if (text := fixed[number]))
        keyword, stop = leading(self.plain, line)
        allowed = tuple(word for word, where in self.places.items() if parent is None or parent in where)
        return Met(
            self.source.path, self.plain, line, min(mistake.at, line.end), self._names(expected), words,
            parent, allowed, keyword, stop, self.case, self._nearest_depth(at + 1) > self._nearest_depth(at),
        )  # fmt: skip

    def _names(self, terminals: frozenset[int]) -> frozenset[str]:
        """The names of terminals."""
        known = self.parser.machine.tables.terminals
        return frozenset(known[number].name for number in terminals)

    def _number(self, word: str) -> int:
        """The terminal of a repair: a keyword as written, or the name of a terminal."""
        if word in self.numbers:
            return self.numbers[word]
        fixed, terminals = self.parser.machine.fixed, self.parser.machine.tables.terminals
        return next(at for at, text in enumerate(fixed) if text == word and terminals[at].kept)

    def _drop_head(self) -> None:
        """Take back the last line read, which needs lines under it and has none."""
        head = self.open[-1]
        said = self.parser.diagnostics[head.kept.said :]
        self._restore(head.kept)
        self.parser.diagnostics += said
        if head.line not in self.lost:
            line = self.layout.lines[head.line]
            word = head.keyword or self.plain[line.start : line.end].split()[0]
            self.parser.report(say.missing_block(Span(self.source.path, line.start, line.end), word))
        self._damage(head.line)

    def _drop(self, at: int, keyword: str, kept: Kept) -> int:
        """Pass a line that cannot be read; the number of the line to go on with."""
        lines = self.layout.lines
        line = lines[at]
        depth = min(self._nearest_depth(at), self.depth + 1)
        self._damage(at)
        below = self._nearest_depth(at + 1) - self._nearest_depth(at)
        if below > 1:
            return at + 1
        opens = keyword in (("case", "on") if self.case else OPENS)
        if below == 1 and (opens or (not keyword and not self.case and leading(self.plain, lines[at + 1])[0])):
            said = self.parser.diagnostics[kept.said :]
            try:
                self._enter(depth, line.start)
                for token in (self.numbers["BROKEN"], self.numbers["NL"]):
                    self.parser.feed(token, line.end, line.start, line.end)
                self.parser.settle()
                del self.open[depth:]
                self.open.append(Open(keyword or None, at, kept))
                self.lost.add(at)
                return at + 1
            except Mistake:
                self._restore(kept)
                self.parser.diagnostics += said
        at += 1
        while at < len(lines) and lines[at].width > line.width:
            at += 1
        return at

    def _damage(self, at: int) -> None:
        """Remember the declaration that a line opens and those it stands in as not whole."""
        depth = min(max(self._nearest_depth(at), self.depth + 1), len(self.open))
        for line in (at, *(one.line for one in self.open[:depth])):
            if line != at:
                self.lost.add(line)
            keyword, stop = leading(self.plain, self.layout.lines[line])
            if keyword in NAMED:
                start = stop + 1
                while self.plain[start : start + 1] == " ":
                    start += 1
                terminals = self.parser.machine.tables.terminals
                if found := compiled(terminals[self.numbers["NAME"]].pattern)(self.plain, start):
                    named = name(self.parser, start, found.end())
                    self.damaged.setdefault(named.text, named)

    def _tabs(self) -> None:
        """Tabs are read as blanks, and said to be wrong once a line."""
        text = self.source.text
        at = text.find("\t")
        while at >= 0:
            end = at + 1
            while text[end : end + 1] == "\t":
                end += 1
            start = text.rfind("\n", 0, at) + 1
            count = (end - at) * self.layout.step if not text[start:at].strip() else 1
            self.parser.report(say.tab(Span(self.source.path, at, end), " " * count))
            next_line = text.find("\n", end)
            at = text.find("\t", next_line) if next_line >= 0 else -1
