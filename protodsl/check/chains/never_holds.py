"""A condition that decides something can hold for somebody."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.logic.settled import contradiction, never
from protodsl.check.safety.flag_never_yes import FLAGS
from protodsl.diagnostics import chains as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def never_holds(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A condition that contradicts itself or what the finding can be; danger signs have a code of their own."""
    for one in context.conditionals:
        if one.keyword not in FLAGS and never(one.condition, one.scope):
            parts = contradiction(one.condition, one.scope)
            yield say.never_holds(one.keyword, one.condition.span, parts, one.unless)
