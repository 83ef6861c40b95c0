"""Moving up and moving down are kept apart, so that a reader sees at once which of them a session leads to."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.logic.formula import TooLong
from protodsl.check.logic.possible import example_of
from protodsl.check.logic.words import as_words
from protodsl.diagnostics import chains as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.condition import Condition
from protodsl.model.protocol import Entry, Scope
from protodsl.source import Span


def up_and_down(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """An `up when` and a `down when` of one level that one session can both meet."""
    looked_at: set[tuple[Span, Span]] = set()
    for progression, scope in context.progressions:
        for level in progression.levels:
            for up in level.up:
                for down in level.down:
                    if (up.span, down.span) not in looked_at:
                        looked_at.add((up.span, down.span))
                        yield from _apart(up.condition, down.condition, scope)


def _apart(up: Condition, down: Condition, scope: Scope) -> Iterator[Diagnostic]:
    try:
        found = example_of(scope, (up, True), (down, True))
    except TooLong:
        return
    if found is not None:
        yield say.up_and_down(up.span, down.span, as_words(found, scope))
