"""A whole text: its lines one after the other, with every mistake noted and passed."""

from __future__ import annotations

from typing import Any

from protodsl.diagnostics import text as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Source
from protodsl.syntax import tree
from protodsl.syntax.parser import Mistake, Parser, gaps, split
from protodsl.syntax.tokens import plain


class Reading:
    """One run over one text."""

    def __init__(self, source: Source, start: str) -> None:
        text = plain(source.text)
        self.source = source
        self.lines, self.comments = split(source, text)
        self.parser = Parser(source, text, start, self.lines)
        self.depth = 0
        self.gaps = gaps(text)
        self.damaged: list[tree.Name] = []
        numbers = self.parser.machine.numbers
        self._indent, self._dedent = numbers["_INDENT"], numbers["_DEDENT"]

    def run(self) -> Any:
        """What the text makes."""
        parser, lines = self.parser, self.lines
        at = 0
        while at < len(lines):
            line = lines[at]
            kept = (parser.states[:], parser.values[:], parser.starts[:], parser.last_end, self.depth)
            try:
                self._enter(line.depth, line.start)
                parser.read_line(line.start, line.end)
                at += 1
            except Mistake as mistake:
                parser.states, parser.values, parser.starts, parser.last_end, self.depth = kept
                at = self._pass(at, mistake)
        self._enter(0, len(parser.plain))
        return parser.finish()

    def _enter(self, depth: int, start: int) -> None:
        """Take the change of indent in front of a line."""
        parser = self.parser
        if depth > self.depth:
            parser.feed(self._indent, None, start, parser.last_end)
        else:
            for _ in range(self.depth - depth):
                parser.feed(self._dedent, None, start, parser.last_end)
        self.depth = depth

    def _pass(self, at: int, mistake: Mistake) -> int:
        """Note a mistake and pass its line with what stands deeper below it."""
        line = self.lines[at]
        self.parser.report(
            mistake.diagnostic or say.not_understood(self.parser.span(mistake.at, line.end))
        )
        at += 1
        while at < len(self.lines) and self.lines[at].depth > line.depth:
            at += 1
        return at

    @property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        """What was noted."""
        return tuple(self.parser.diagnostics)
