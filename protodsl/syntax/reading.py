"""A whole text: its lines one after the other, every mistake noted and passed, so that each costs its line only."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from protodsl.diagnostics import text as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Span
from protodsl.syntax import tree
from protodsl.syntax.decode import LONGEST_LINE
from protodsl.syntax.keywords import OPENS, OVER_TEXT, TOP
from protodsl.syntax.layout import Line
from protodsl.syntax.met import Met, Repair, leading
from protodsl.syntax.mistakes import explain
from protodsl.syntax.reader import ZONE, Kept, Open, Reader
from protodsl.syntax.tokens import Mistake, name
from protodsl.syntax.unseen import BREAKS, names_around, unseen

# So many mistakes, in at least every second line, and a text is not read to its end.
ENOUGH = 100
# A name as far as it can be seen, without asking what a name may be.
NAMES = re.compile(r" *([^\W\d_][^:,=#\n]*?)(?= *(?:[:,=]| like |$))", re.MULTILINE)
PLAIN_WORDS = re.compile(r"[\w'-]+(?: +[^\W\d_][\w'-]*)*")
BEFORE_CAPITAL = re.compile(r"(?:(?! +[A-Z]).)*")
NAMED = frozenset(
    {"question", "test", "finding", "exercise", "progression", "level", "protocol", "phase"}
    | {"setting", "equipment", "target"}
)


class Reading(Reader):
    """One run over one text."""

    @property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        """What was noted."""
        return tuple(self.parser.diagnostics)

    def run(self) -> Any:
        """What the text makes, without what could not be read."""
        self._tabs()
        self._unseen()
        lines, step = self.layout.lines, self.layout.step
        at = 0
        while at < len(lines):
            kept = self.keep()
            depth, odd = divmod(lines[at].width, step)
            try:
                if odd:
                    raise Mistake(lines[at].start)
                self.line(at, depth, kept)
                self.shift = None
                at += 1
            except Mistake as mistake:
                at = self._recover(at, mistake, kept)
                if self._hopeless(at):
                    break
        return self._finish()

    def _hopeless(self, at: int) -> bool:
        """Whether so much is wrong that this is no protocol; then that is said, and the rest is not read."""
        wrong = len(self.parser.diagnostics)
        if wrong < ENOUGH or wrong < at // 2 or at >= len(self.layout.lines):
            return False
        line = self.layout.lines[at]
        self.parser.report(say.hopeless(Span(self.source.path, line.start, line.end), wrong))
        for rest in range(at, len(self.layout.lines)):
            if not self.layout.lines[rest].width:
                self._damage(rest)
        return True

    def _recover(self, at: int, mistake: Mistake, kept: Kept) -> int:
        """Say what is wrong with a line and read on; the number of the line to go on with."""
        expected = self.expected()
        self.restore(kept)
        if self.before is not None and self._lacks_block(at, kept):
            self._drop_head()
            return at
        if self._elsewhere(at, mistake, kept):
            return at + 1
        met = self._met(at, mistake, expected)
        diagnostic, repair = (mistake.diagnostic, None) if mistake.diagnostic else self._explain(at, met)
        self.shift = None
        self.restore(kept)
        if repair is not None:
            try:
                self.line(at, min(self.nearest_depth(at), self.depth + 1), kept, repair)
                self._say(at, diagnostic)
                return at + 1
            except Mistake:
                self.restore(kept)
        self._say(at, diagnostic)
        return self._drop(at, met.keyword, kept)

    def _say(self, at: int, diagnostic: Diagnostic) -> None:
        """What is wrong with a line, unless unseen characters in it have been told: they are reason enough.

        Lines that go down like stairs have one mistake, and of their third step on nothing is told.
        """
        lines = self.layout.lines
        stairs = self.told == at - 1 and at > 1 and lines[at].width > lines[at - 1].width > lines[at - 2].width
        self.told = at
        if stairs:
            self._damage(at)
            self.lost.add(at)
            return
        start, end = self._indent_span(at).start, self.layout.lines[at].end
        if not any(start <= place <= end for place in self.unseen):
            self.parser.report(diagnostic)

    def _explain(self, at: int, met: Met) -> tuple[Diagnostic, Repair | None]:
        """What is wrong with a line that fits at no depth."""
        line, step = self.layout.lines[at], self.layout.step
        if line.width % step:
            meant = self.nearest_depth(at) * step
            return say.crooked_indent(self._indent_span(at), line.width, step, meant), None
        if line.width // step > self.depth and not self.takes_block():
            above = self.open[-1].keyword if self.open else ""
            if not met.keyword:
                return say.no_block(met.span(line.start, line.end - line.start), above or ""), None
        return explain(met)

    def _finish(self) -> Any:
        """The value of the whole text, after the last line."""
        while True:
            kept = self.keep()
            try:
                self.enter(0, len(self.plain))
                value = self.parser.finish()
            except Mistake:
                value = None
            if value is not None or self.before is None:
                return value
            self.restore(kept)
            self._drop_head()

    def _lacks_block(self, at: int, kept: Kept) -> bool:
        """Whether the line before needs lines under it, and this line is none of them."""
        if self.expected() != {self.numbers["_INDENT"]} or self.nearest_depth(at) > self.depth:
            return False
        if leading(self.plain, self.layout.lines[at])[0]:
            return True
        before = self.before
        reads = self._reads(at, self.depth + 1, kept)
        self.restore(kept)
        self.before = before
        return not reads

    def _reads(self, at: int, depth: int, kept: Kept) -> bool:
        """Whether a line can be read at a depth; it is then read."""
        try:
            self.line(at, depth, kept)
        except Mistake:
            self.restore(kept)
            return False
        return True

    def _elsewhere(self, at: int, mistake: Mistake, kept: Kept) -> bool:
        """Read a line at another depth, where it can be read at one, and say so."""
        line, step = self.layout.lines[at], self.layout.step
        keyword, _ = leading(self.plain, line)
        for depth in self._depths(at, mistake, keyword):
            expects_text = "SENTENCE" in self.names(self.expected())
            if not self._reads(at, depth, kept):
                continue
            moved = line.width - depth * step
            if self.shift != moved:
                parent = self.open[depth - 1].keyword if depth else TOP
                word = keyword or self.plain[line.start : line.end].split()[0]
                self._say(at, self._misindented(at, word, depth, parent or "", expects_text and not keyword))
            self.shift = moved
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
        if self.shift is not None and (line.width - self.shift) % step == 0:
            yield max((line.width - self.shift) // step, 0)
        if odd:
            yield from dict.fromkeys(depth for depth in (written + 1, written, here + 1, here) if depth <= here + 1)
        elif not keyword:
            yield from self._depths_of_text(at, written)

    def _depths_of_text(self, at: int, written: int) -> Iterator[int]:
        """The depths at which a line without a keyword could be meant to stand."""
        line, here = self.layout.lines[at], self.depth
        if written > here + self.takes_block():
            yield from (here + 1, here)
        elif written and ZONE.match(self.plain, line.start):
            yield written - 1
        elif self.expected() == {self.numbers["_INDENT"]}:
            yield here + 1
        elif written <= here and self.plain[line.start].isupper() and not self._capital_keyword(at):
            if self.takes_block():
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
        if "SENTENCE" not in self.names(self.expected()) or at + 1 == len(lines):
            return False
        return lines[at + 1].width == lines[at].width and not leading(self.plain, lines[at + 1])[0]

    def _fits(self, at: int, keyword: str, depth: int) -> tuple[bool, int]:
        """How badly a depth suits a line: whether the next line would have no place then, and how far it is moved."""
        lines, step = self.layout.lines, self.layout.step
        moved = abs(depth * step - lines[at].width)
        if at + 1 == len(lines):
            return False, moved
        after = self.nearest_depth(at + 1)
        word = leading(self.plain, lines[at + 1])[0]
        if after > depth + 1 or not word:
            return after != depth + 1, moved
        if after == depth + 1:
            return keyword not in self.places.get(word, frozenset()), moved
        return not self._belongs(word, after), moved

    def _indent_span(self, at: int) -> Span:
        """The blanks before a line."""
        line = self.layout.lines[at]
        start = self.plain.rfind("\n", 0, line.start) + 1
        return Span(self.source.path, start, line.start)

    def _met(self, at: int, mistake: Mistake, expected: frozenset[int]) -> Met:
        """A mistake with all that its explanation needs."""
        line = self.layout.lines[at]
        depth = min(self.nearest_depth(at), len(self.open))
        parent = self.open[depth - 1].keyword if depth else TOP
        fixed = self.parser.machine.fixed
        words = tuple(text for number in sorted(expected) if (text := fixed[number]))
        keyword, stop = leading(self.plain, line)
        allowed = tuple(word for word, where in self.places.items() if parent is None or parent in where)
        return Met(
            self.source.path, self.plain, line, min(mistake.at, line.end), self.names(expected), words,
            parent, allowed, keyword, stop, self.case, self.nearest_depth(at + 1) > self.nearest_depth(at),
        )  # fmt: skip

    def _drop_head(self) -> None:
        """Take back the last line read, which needs lines under it and has none."""
        head, before = self.open[-1], self.before
        assert before is not None, "only a line that was read can need lines under it"
        said = self.parser.diagnostics[before.said :]
        self.restore(before)
        self.before = None
        self.parser.diagnostics += said
        if head.line not in self.lost and not self._emptied_below(head.line):
            line = self.layout.lines[head.line]
            word = head.keyword or self.plain[line.start : line.end].split()[0]
            self.parser.report(say.missing_block(Span(self.source.path, line.start, line.end), word))
        self._damage(head.line)

    def _emptied_below(self, at: int) -> bool:
        """Whether the next line is one that was too long to be read, which has been told."""
        start = self.plain.find("\n", self.layout.lines[at].end) + 1
        end = self.plain.find("\n", start)
        return start > 0 and (end if end >= 0 else len(self.plain)) - start > LONGEST_LINE

    def _drop(self, at: int, keyword: str, kept: Kept) -> int:
        """Pass a line that cannot be read; the number of the line to go on with."""
        lines = self.layout.lines
        line = lines[at]
        depth = min(self.nearest_depth(at), self.depth + 1)
        self._damage(at)
        below = self.nearest_depth(at + 1) - self.nearest_depth(at)
        if below > 1:
            return at + 1
        opens = keyword in (("case", "on") if self.case else OPENS)
        if below == 1 and (opens or (not keyword and not self.case and leading(self.plain, lines[at + 1])[0])):
            said = self.parser.diagnostics[kept.said :]
            try:
                self.enter(depth, line.start)
                for token in (self.numbers["BROKEN"], self.numbers["NL"]):
                    self.parser.feed(token, line.end, line.start, line.end)
                self.parser.settle()
                del self.open[depth:]
                self.open.append(Open(keyword or None, at))
                self.lost.add(at)
                return at + 1
            except Mistake:
                self.restore(kept)
                self.parser.diagnostics += said
        at += 1
        while at < len(lines) and lines[at].width > line.width and not self._slipped(at, keyword):
            at += 1
        return at

    def _slipped(self, at: int, parent: str) -> bool:
        """Whether a line stands between two steps and so need not belong to a line above that was lost."""
        line = self.layout.lines[at]
        keyword, _ = leading(self.plain, line)
        return bool(line.width % self.layout.step and keyword and parent not in self.places.get(keyword, ()))

    def _damage(self, at: int) -> None:
        """Remember the declaration that a line opens and those it stands in as not whole."""
        depth = min(max(self.nearest_depth(at), self.depth + 1), len(self.open))
        for one in (Open(None, at), *self.open[:depth]):
            if one.line != at:
                self.lost.add(one.line)
            line = self.layout.lines[one.line]
            keyword, stop = leading(self.plain, line)
            if not keyword and one.keyword in NAMED:
                # The keyword was misspelt and is known all the same; the name stands behind the first word.
                keyword, stop = one.keyword, self.plain.find(" ", line.start, line.end)
            if keyword in NAMED and stop > 0 and (found := NAMES.match(self.plain, stop, line.end)):
                # Where the colon is missing, the words of a question begin with a capital.
                shorter = BEFORE_CAPITAL.match(self.plain, found.start(1), found.end())
                plain_words = PLAIN_WORDS.match(self.plain, found.start(1), found.end())
                for end in {found.end(), *(one.end() for one in (shorter, plain_words) if one)}:
                    named = name(self.parser, found.start(1), end)
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

    def _unseen(self) -> None:
        """Characters that nobody sees are read as blanks, and said to be wrong once a line."""
        for found in unseen(self.source.text):
            signs = tuple(dict.fromkeys(self.source.text[at] for at in found.places))
            span = Span(self.source.path, found.places[0], found.places[0] + 1)
            self.parser.report(say.unseen(span, signs, any(sign in BREAKS for sign in signs)))
            self.unseen.append(found.places[0])
            for text in names_around(self.source.text, found):
                self.damaged.setdefault(text, tree.Name(text, span=span))
