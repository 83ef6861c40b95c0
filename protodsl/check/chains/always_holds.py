"""A condition that decides something can fail for somebody."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.logic.settled import always
from protodsl.diagnostics import chains as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def always_holds(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A condition that holds whatever is answered."""
    for one in context.conditionals:
        if always(one.condition, one.scope):
            yield say.always_holds(one.keyword, one.condition.span, one.unless)
