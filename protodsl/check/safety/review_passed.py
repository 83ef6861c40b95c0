"""A protocol is reviewed by the date that it names."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.diagnostics import safety as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def review_passed(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A `next by` before the day of the check; without a day nothing is said."""
    if context.as_of is None:
        return
    for protocol in entry.protocols:
        if protocol.review and protocol.review.next_by < context.as_of:
            yield say.review_passed(protocol.name, protocol.review.next_by, context.as_of, protocol.review.span)
