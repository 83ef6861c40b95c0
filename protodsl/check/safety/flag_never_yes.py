"""A danger sign can be shown by some answer; one that never can warns nobody."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.logic.settled import contradiction, never
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry

FLAGS = ("emergency if", "red flag if", "call if")


def flag_never_yes(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """`emergency if`, `red flag if` and `call if` whose condition contradicts itself."""
    for one in context.conditionals:
        if one.keyword in FLAGS and never(one.condition, one.scope):
            parts = contradiction(one.condition, one.scope)
            yield say.flag_never_yes(one.keyword, one.condition.span, parts)
