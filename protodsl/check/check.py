"""The checks of one entry: every rule asked once, and what they say in the order of the text."""

from __future__ import annotations

import datetime
from collections.abc import Callable

from protodsl.check.context import context_of
from protodsl.check.rules import RULES
from protodsl.diagnostics.diagnostic import Diagnostic, in_order
from protodsl.model.clinic import Clinic
from protodsl.model.figure import Figure
from protodsl.model.protocol import Entry
from protodsl.model.shown import Shown


def check(
    entry: Entry,
    clinic: Clinic,
    as_of: datetime.date | None,
    lacks: Callable[[str], tuple[str, ...]] | None = None,
    shown: Callable[[Figure], tuple[Shown, ...]] | None = None,
) -> tuple[Diagnostic, ...]:
    """All that the rules have to say of an entry.

    `as_of` is looked at for review dates only; None makes no check of them. `lacks` tells which characters of a text
    no font has; None makes no check of that. `shown` are the angles of a figure as it is drawn, none where it cannot
    be; None makes no check of these.
    """
    context = context_of(entry, clinic, as_of, lacks, shown)
    return in_order(tuple(said for rule in RULES for said in rule(entry, context)))
