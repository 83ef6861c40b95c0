"""Printing what was found: in colour where a person looks, as data where a program reads."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import TextIO

from protodsl import __version__
from protodsl.cli.status import CLEAN, ERRORS
from protodsl.diagnostics.diagnostic import Diagnostic, Fix, Label, Severity
from protodsl.diagnostics.render_text import NAMES, render_text
from protodsl.source import Source, Span


def wants_colour(stream: TextIO, no_color: bool) -> bool:
    """Whether a stream is a terminal that shows colours and nobody declined them (https://no-color.org)."""
    declined = no_color or bool(os.environ.get("NO_COLOR")) or os.environ.get("TERM") == "dumb"
    return not declined and stream.isatty()


def from_here(
    diagnostics: Iterable[Diagnostic], sources: Mapping[str, Source], root: Path
) -> tuple[tuple[Diagnostic, ...], dict[str, Source]]:
    """The same with every path as seen from the working folder, so that it can be clicked and opened."""
    names = {path: _from_here(root, path) for path in sources}
    placed = tuple(_placed(one, root, names) for one in diagnostics)
    return placed, {names[path]: replace(source, path=names[path]) for path, source in sources.items()}


def status(diagnostics: Iterable[Diagnostic], strict: bool) -> int:
    """The exit status: with `strict` a warning counts as an error, a hint never does."""
    blocking = Severity.WARNING if strict else Severity.ERROR
    return ERRORS if any(one.severity >= blocking for one in diagnostics) else CLEAN


def show(
    diagnostics: tuple[Diagnostic, ...], sources: Mapping[str, Source], form: str, stream: TextIO, colour: bool
) -> None:
    """Print diagnostics as text (with a last line that counts them), JSON or SARIF."""
    if form == "json":
        from protodsl.diagnostics.render_json import render_json

        stream.write(render_json(diagnostics, sources, __version__))
    elif form == "sarif":
        from protodsl.diagnostics.registry import page
        from protodsl.diagnostics.render_sarif import render_sarif

        stream.write(render_sarif(diagnostics, sources, __version__, page))
    elif diagnostics:
        stream.write(render_text(diagnostics, sources, colour) + "\n" + counted(diagnostics) + "\n")


def counted(diagnostics: tuple[Diagnostic, ...]) -> str:
    """`2 errors, 1 warning`, and the code to explain: of several the first of the gravest."""
    parts = []
    for severity in sorted(Severity, reverse=True):
        count = sum(one.severity is severity for one in diagnostics)
        if count:
            parts.append(f"{count} {NAMES[severity]}{'s' if count > 1 else ''}")
    gravest = max(diagnostics, key=lambda one: one.severity)
    several = len({one.code.id for one in diagnostics}) > 1
    first = f" of the first {NAMES[gravest.severity]}" if several else ""
    return f"{', '.join(parts)}. `protodsl explain {gravest.code.id}` says more{first}."


def say(words: str) -> None:
    """A line for the person, beside the output proper."""
    print(words, file=sys.stderr)


def _placed(one: Diagnostic, root: Path, names: Mapping[str, str]) -> Diagnostic:
    def span(at: Span) -> Span:
        return at._replace(path=names.get(at.path) or _from_here(root, at.path)) if at.path else at

    def label(at: Label) -> Label:
        return replace(at, span=span(at.span))

    fix = Fix(span(one.fix.span), one.fix.replacement) if one.fix else None
    return replace(one, primary=label(one.primary), secondary=tuple(map(label, one.secondary)), fix=fix)


def _from_here(root: Path, path: str) -> str:
    absolute = os.path.normpath(root / path)
    relative = os.path.relpath(absolute, os.path.realpath("."))
    return Path(absolute if relative.startswith("../..") else relative).as_posix()
