"""Diagnostics as SARIF 2.1.0 (OASIS standard, 2020), which code review tools read."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping
from typing import Any
from urllib.parse import quote

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.source import Source, Span

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

_LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.HINT: "note"}


def render_sarif(
    diagnostics: Iterable[Diagnostic], sources: Mapping[str, Source], version: str, page: Callable[[str], str]
) -> str:
    """A log with one run; `page` gives the Markdown page of a code, which becomes the help of its rule."""
    listed = tuple(diagnostics)
    codes = sorted({one.code for one in listed}, key=lambda code: code.id)
    index = {code.id: number for number, code in enumerate(codes)}
    log = {
        "$schema": SCHEMA,
        "version": "2.1.0",
        "runs": [
            {
                "tool": {
                    "driver": {
                        "name": "protodsl",
                        "semanticVersion": version,
                        "rules": [_rule(code, page(code.id)) for code in codes],
                    }
                },
                "columnKind": "unicodeCodePoints",
                "results": [_result(one, sources, index) for one in listed],
            }
        ],
    }
    return json.dumps(log, ensure_ascii=False, indent=2) + "\n"


def _rule(code: Code, page: str) -> dict[str, Any]:
    paragraphs = [part for part in page.split("\n\n") if part and not part.startswith("#")]
    first = " ".join((paragraphs or [code.slug])[0].split())
    return {
        "id": code.id,
        "name": code.slug,
        "shortDescription": {"text": code.slug.replace("-", " ")},
        "fullDescription": {"text": first},
        "help": {"text": page or first, "markdown": page or first},
        "defaultConfiguration": {"level": _LEVELS[code.severity]},
    }


def _result(one: Diagnostic, sources: Mapping[str, Source], index: Mapping[str, int]) -> dict[str, Any]:
    text = one.message + "".join(f"\n{note}" for note in one.notes) + (f"\n{one.help}" if one.help else "")
    result: dict[str, Any] = {
        "ruleId": one.code.id,
        "ruleIndex": index[one.code.id],
        "level": _LEVELS[one.severity],
        "message": {"text": text},
        "locations": [_location(one.primary, sources)] if one.primary.span.path else [],
    }
    related = [_location(label, sources) for label in one.secondary if label.span.path]
    if related:
        result["relatedLocations"] = [{"id": number, **place} for number, place in enumerate(related)]
    if one.fix and one.fix.span.path in sources:
        result["fixes"] = [_fix(one.fix, one.help or "replace the text", sources)]
    return result


def _location(label: Label, sources: Mapping[str, Source]) -> dict[str, Any]:
    place: dict[str, Any] = {"artifactLocation": {"uri": quote(label.span.path)}}
    if label.span.path in sources:
        place["region"] = _region(label.span, sources)
    location: dict[str, Any] = {"physicalLocation": place}
    if label.words:
        location["message"] = {"text": label.words}
    return location


def _region(span: Span, sources: Mapping[str, Source]) -> dict[str, int]:
    line, column = sources[span.path].position(span.start)
    end_line, end_column = sources[span.path].position(max(span.start, span.end))
    return {"startLine": line, "startColumn": column, "endLine": end_line, "endColumn": end_column}


def _fix(fix: Fix, words: str, sources: Mapping[str, Source]) -> dict[str, Any]:
    replacement = {"deletedRegion": _region(fix.span, sources), "insertedContent": {"text": fix.replacement}}
    change = {"artifactLocation": {"uri": quote(fix.span.path)}, "replacements": [replacement]}
    return {"description": {"text": words}, "artifactChanges": [change]}
