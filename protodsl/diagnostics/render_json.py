"""Diagnostics as JSON for other programs; the keys are stable within one `format`."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

from protodsl.diagnostics.diagnostic import Diagnostic, Label, Severity
from protodsl.diagnostics.render_text import NAMES
from protodsl.source import Source, Span

FORMAT = 1


def render_json(diagnostics: Iterable[Diagnostic], sources: Mapping[str, Source], version: str) -> str:
    """One object with every diagnostic in the order given and how many there are of each severity."""
    listed = tuple(diagnostics)
    counted = {
        f"{NAMES[severity]}s": sum(one.severity is severity for one in listed) for severity in reversed(Severity)
    }
    document = {
        "format": FORMAT,
        "product": "protodsl",
        "version": version,
        "diagnostics": [_diagnostic(one, sources) for one in listed],
        "summary": counted,
    }
    return json.dumps(document, ensure_ascii=False, indent=2, default=_plain) + "\n"


def place(span: Span, sources: Mapping[str, Source]) -> dict[str, Any] | None:
    """File, line and column from 1 (in characters, the end exclusive), offsets from 0; None where there is no file."""
    if not span.path:
        return None
    if span.path not in sources:
        return {"file": span.path}
    line, column = sources[span.path].position(span.start)
    end_line, end_column = sources[span.path].position(span.end)
    return {
        "file": span.path,
        "line": line,
        "column": column,
        "endLine": end_line,
        "endColumn": end_column,
        "start": span.start,
        "end": span.end,
    }


def _diagnostic(one: Diagnostic, sources: Mapping[str, Source]) -> dict[str, Any]:
    return {
        "code": one.code.id,
        "slug": one.code.slug,
        "severity": NAMES[one.severity],
        "message": one.message,
        "place": place(one.primary.span, sources),
        "words": one.primary.words,
        "labels": [_label(label, sources) for label in one.secondary],
        "notes": list(one.notes),
        "help": one.help,
        "fix": one.fix and {"place": place(one.fix.span, sources), "replacement": one.fix.replacement},
        "data": dict(one.args),
    }


def _label(label: Label, sources: Mapping[str, Source]) -> dict[str, Any]:
    return {"place": place(label.span, sources), "words": label.words}


def _plain(value: object) -> object:
    """Decimals, dates and the like as their text, collections as lists."""
    return sorted(value, key=str) if isinstance(value, (set, frozenset)) else str(value)
