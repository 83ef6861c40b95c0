"""The parser: it drives the tables that lark made over lines, and goes on behind a line it cannot read.

It differs from lark's own driver in three ways that make it fast and robust. Tokens are cut by a few dictionaries
and patterns for each state instead of one large pattern for each state. Where a state can only reduce, it reduces
without looking at the next token. And the state at the start of a line is kept, so that a mistake costs its line
and nothing else. A test holds it against lark's own parser.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Source, Span
from protodsl.syntax import build_case, build_conditions, build_dose, build_figure, build_findings, build_protocol
from protodsl.syntax.lexis import WORD, Lexis, keywords_of_grammar, lexis
from protodsl.syntax.tables import Tables, tables
from protodsl.syntax.tokens import MAKERS, Mistake

Builder = Callable[..., Any]
_BUILDERS = (build_conditions, build_dose, build_findings, build_figure, build_protocol, build_case)


@dataclass(frozen=True, slots=True)
class Machine:
    """The tables made ready to run: rows that only reduce are numbers, rules know their builder functions."""

    tables: Tables
    rows: tuple[dict[int, int] | int, ...]
    rules: tuple[tuple[int, int, int, tuple[int, ...], Builder | None], ...]
    spliced: dict[int, frozenset[int]]
    fixed: tuple[str | None, ...]
    makers: tuple[Callable[[Parser, int, int], Any] | None, ...]
    numbers: dict[str, int]
    lexes: list[Lexis | None]


# `2,5` is a number in many languages and two list items in this one; it must not be read as either.
DECIMAL = re.compile(r"\d,\d(?!\d*-\d\d-)")
INLINE, HELPER, GROWING, CALL, SPLICE = range(5)


@cache
def machine() -> Machine:
    """The one machine of this process."""
    made = tables()
    keywords = keywords_of_grammar()
    functions = {name: thing for module in _BUILDERS for name, thing in vars(module).items() if callable(thing)}
    rules = []
    spliced = {}
    for at, rule in enumerate(made.rules):
        if rule.helper:
            kind = GROWING if rule.recursive else HELPER
        elif rule.inline:
            kind = INLINE
        else:
            kind = SPLICE if rule.spliced else CALL
        if rule.spliced:
            spliced[at] = rule.spliced
        rules.append((kind, rule.size, rule.origin, rule.plan, functions[rule.name] if kind >= CALL else None))
    fixed = tuple(keywords[at].text if at in keywords else None for at in range(len(made.terminals)))
    return Machine(
        made,
        tuple(_row(row) for row in made.rows),
        tuple(rules),
        spliced,
        fixed,
        tuple(MAKERS.get(terminal.name) for terminal in made.terminals),
        {terminal.name: at for at, terminal in enumerate(made.terminals)},
        [None] * len(made.rows),
    )


def _row(row: dict[int, int]) -> dict[int, int] | int:
    """The one reduction of a row where it holds nothing else; else the row."""
    actions = set(row.values())
    if len(actions) == 1:
        (only,) = actions
        if only < 0:
            return only
    return row


class Parser:
    """One run over one text: stacks of states, values and starts, and the diagnostics met so far."""

    value: Any = None

    def __init__(self, source: Source, plain: str, start: str) -> None:
        self.path = source.path
        self.source = source
        self.plain = plain
        self.machine = machine()
        self.states: list[int] = [self.machine.tables.starts[start]]
        self.values: list[Any] = []
        self.starts: list[int] = []
        self.last_end = 0
        self.brackets = 0
        self.diagnostics: list[Diagnostic] = []

    def span(self, start: int, end: int) -> Span:
        """The place from `start` to `end`."""
        return Span(self.path, start, end)

    def report(self, diagnostic: Diagnostic) -> None:
        """Note something wrong and go on."""
        self.diagnostics.append(diagnostic)

    def feed(self, token: int, value: Any, start: int, end: int) -> None:
        """Take one token; Mistake where it cannot stand here."""
        machine = self.machine
        states, values = self.states, self.values
        while True:
            row = machine.rows[states[-1]]
            action = row if isinstance(row, int) else row.get(token)
            if action is None:
                raise Mistake(start, token)
            if action >= 0:
                break
            self.reduce(-action - 1)
        states.append(action)
        values.append(value)
        self.starts.append(start)
        self.last_end = end

    def finish(self) -> Any:
        """What the whole text makes; None where it stops too soon."""
        end = self.machine.tables.end
        while True:
            row = self.machine.rows[self.states[-1]]
            action = row if isinstance(row, int) else row.get(end)
            if action is None:
                return self.values[0] if len(self.values) == 1 else None
            self.reduce(-action - 1)

    def settle(self) -> None:
        """Reduce as long as the state allows nothing else."""
        rows = self.machine.rows
        while isinstance(row := rows[self.states[-1]], int):
            self.reduce(-row - 1)

    def reduce(self, number: int) -> None:
        """Put what a rule makes in place of what it is made of."""
        machine = self.machine
        kind, size, origin, plan, function = machine.rules[number]
        states = self.states
        if kind == INLINE and size == 1:
            states.pop()
        else:
            values, starts = self.values, self.starts
            if size:
                given = values[-size:]
                start = starts[-size]
                del values[-size:], starts[-size:], states[-size:]
            else:
                given = []
                start = self.last_end
            if kind == CALL:
                given.append(None)
                assert function is not None
                value = function(self, start, self.last_end, *[given[at] for at in plan])
            elif kind == INLINE:
                value = given[plan[0]]
            elif kind == HELPER:
                run = [given[at] for at in plan]
                value = (run, len(run))
            elif kind == GROWING:
                run, length = given[0]
                del run[length:]
                run.extend([given[at] for at in plan if at])
                value = (run, len(run))
            else:
                given.append(None)
                together: list[Any] = []
                spliced = machine.spliced[number]
                for at in plan:
                    if at in spliced:
                        run, length = given[at]
                        together += run[:length]
                    else:
                        together.append(given[at])
                assert function is not None
                value = function(self, start, self.last_end, *together)
            values.append(value)
            starts.append(start)
        row = machine.rows[states[-1]]
        assert isinstance(row, dict)
        states.append(row[origin])

    def first(self, at: int) -> tuple[int, int]:
        """The token at the start of a line and its end; -1 where there is none that can stand here."""
        self.settle()
        state = self.states[-1]
        return cut(self.machine.lexes[state] or self._lexis(state), self.plain, at)

    def read_line(self, at: int, end: int, token: int, stop: int, go_on: int) -> None:
        """Take the tokens of a line and its end; Mistake at the first that cannot stand there.

        The first token reaches from `at` to `stop`; reading goes on at `go_on`.
        """
        machine, plain = self.machine, self.plain
        lexes, fixed, makers, rows = machine.lexes, machine.fixed, machine.makers, machine.rows
        comma = machine.numbers["COMMA"]
        self.brackets = 0
        while True:
            value: Any = fixed[token]
            if value is None and (maker := makers[token]) is not None:
                stop = min(stop, end)
                value = maker(self, at, stop)
            self.feed(token, value, at, stop)
            at, go_on = go_on or stop, 0
            if isinstance(rows[self.states[-1]], int):
                self.settle()
            while at < end and plain[at] == " ":
                at += 1
            if at >= end:
                break
            state = self.states[-1]
            token, stop = cut(lexes[state] or self._lexis(state), plain, at)
            if token < 0 or (token == comma and DECIMAL.match(plain, at - 1)):
                raise Mistake(at)
        self.feed(machine.numbers["NL"], self.last_end, self.last_end, self.last_end)
        self.settle()

    def _lexis(self, state: int) -> Lexis:
        """What can come next in a state, made when the state is first met."""
        row = self.machine.rows[state]
        assert isinstance(row, dict)
        made = lexis(self.machine.tables, row)
        self.machine.lexes[state] = made
        return made


def cut(lex: Lexis, plain: str, at: int) -> tuple[int, int]:
    """The token at a place, where it is one that can come next, and its end; else -1."""
    sign = lex.signs.get(plain[at])
    if sign is not None:
        return sign, at + 1
    word = WORD.match(plain, at)
    if word is not None:
        for keyword in lex.words.get(word.group(), ()):
            if keyword.match is None:
                return keyword.terminal, word.end()
            if found := keyword.match(plain, at):
                return keyword.terminal, found.end()
    for match, terminal in lex.patterns:
        if found := match(plain, at):
            return terminal, found.end()
    if lex.prose_match is not None and (found := lex.prose_match(plain, at)):
        return lex.prose, found.end()
    return -1, at
