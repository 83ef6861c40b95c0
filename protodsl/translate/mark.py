"""Marking what somebody has read: every entry that is translated for today's text, and in which nothing is wrong."""

from __future__ import annotations

from dataclasses import replace

from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.outcome import Outcome
from protodsl.translate.entries import Catalogue, Entry
from protodsl.translate.judge import judge
from protodsl.translate.merge import with_headers
from protodsl.translate.review import Review, digest


def reviewed(catalogue: Catalogue, by: Review, own: str) -> Outcome[Catalogue]:
    """The catalogue with the mark `by` (its digest is made here); what is unlike its text is said, as it is read."""
    said: list[Diagnostic] = []
    entries: list[Entry] = []
    for entry in catalogue.entries:
        if not entry.is_translated or entry.is_reviewed:
            entries.append(entry)
            continue
        found = tuple(judge(entry, catalogue.language, own))
        said += found
        wrong = any(one.severity is Severity.ERROR for one in found)
        mark = replace(by, digest=digest(entry.key, entry.source, entry.target))
        entries.append(entry if wrong else replace(entry, review=mark))
    return Outcome(with_headers(replace(catalogue, entries=tuple(entries))), tuple(said))
