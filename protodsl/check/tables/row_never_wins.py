"""Every row of a derived finding is reached in some case."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.check.logic.possible import possible
from protodsl.diagnostics import tables as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def row_never_wins(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A row that can hold, but only where a row above it holds as well."""
    for finding in context.findings:
        for at, row in enumerate(() if lost(finding.damaged, "if") else finding.rows):
            above = finding.rows[:at]
            if not above or possible(entry.scope, (row.condition, True), *((one.condition, False) for one in above)):
                continue
            if possible(entry.scope, (row.condition, True)):
                yield say.row_never_wins(row.value, row.span, [one.span for one in above])
