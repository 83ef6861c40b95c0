"""The fonts of the sheet have every character that a patient reads."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.words.sentences import part
from protodsl.diagnostics import words as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def missing_character(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """Characters that would be printed as empty boxes."""
    if context.lacks is None:
        return
    signs = sorted(set().union(*(text.prose.text for text in context.texts)))
    lacking = frozenset(context.lacks("".join(signs)))
    for text in context.texts if lacking else ():
        prose = text.prose
        found = tuple(dict.fromkeys(sign for sign in prose.text if sign in lacking))
        if found:
            at = prose.text.index(found[0])
            yield say.missing_character(found, part(prose, at, at + 1))
