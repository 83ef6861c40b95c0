"""The fonts of the sheet have every character that a patient reads."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.words.place import part
from protodsl.diagnostics import words as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry
from protodsl.model.text import Prose


def missing_character(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """Characters that would be printed as empty boxes; no page is made with one, so it is an error here as well."""
    if context.lacks is None:
        return
    lines = (*(text.prose for text in context.texts), *_besides(entry))
    signs = sorted(set().union(*(prose.text for prose in lines)))
    lacking = frozenset(context.lacks("".join(signs)))
    for prose in lines if lacking else ():
        found = tuple(dict.fromkeys(sign for sign in prose.text if sign in lacking))
        if found:
            at = prose.text.index(found[0])
            yield say.missing_character(found, part(prose, at, at + 1))


def _besides(entry: Entry) -> Iterator[Prose]:
    """What the other texts are not: names of equipment, targets and tests, and what only the clinician reads."""
    scope = entry.scope
    yield from (term.words for term in (*scope.equipment.values(), *scope.targets.values()))
    yield from (finding.words for finding in scope.findings.values() if finding.role == "test" and finding.words)
    for protocol in entry.protocols:
        yield from protocol.sources
        yield from (lifted.because for lifted in protocol.lifted)
        yield from (change.because for change in protocol.changes if change.because)
    for exercise in scope.exercises.values():
        yield from (line.because for line in exercise.avoid if line.because)
        yield from (lifted.because for lifted in exercise.lifted)
