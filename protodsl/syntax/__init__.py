"""From text to tree: what was written, with nothing inferred."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager

from protodsl.diagnostics.diagnostic import Severity, in_order
from protodsl.outcome import Outcome
from protodsl.source import Source
from protodsl.syntax import tree
from protodsl.syntax.decode import read_source
from protodsl.syntax.lines import line_of
from protodsl.syntax.print_parts import condition_text
from protodsl.syntax.printer import format_tree
from protodsl.syntax.reading import Reading
from protodsl.syntax.shape import shape

__all__ = [
    "condition_text",
    "format_source",
    "format_tree",
    "line_of",
    "parse_case",
    "parse_condition",
    "parse_protocol",
    "read_source",
]


def parse_protocol(source: Source) -> Outcome[tree.File]:
    """The tree of a protocol file or a library; the lines that could be read are there even beside errors."""
    return _parse(source, "protocol_file")


def parse_case(source: Source) -> Outcome[tree.File]:
    """The tree of a case file; the lines that could be read are there even beside errors."""
    return _parse(source, "case_file")


def parse_condition(text: str, path: str = "") -> Outcome[tree.Condition]:
    """The tree of a condition alone, as it stands behind `if`; None where it cannot be read."""
    reading = Reading(Source(path, text), "condition_text")
    return Outcome(reading.run(), in_order(reading.diagnostics))


def format_source(source: Source) -> Outcome[str]:
    """The text in its one spelling; None where there are errors, since nothing may be lost in writing it anew."""
    parsed = (parse_case if source.path.endswith(".case") else parse_protocol)(source)
    broken = any(one.severity is Severity.ERROR for one in parsed.diagnostics)
    text = None if broken or parsed.value is None else format_tree(parsed.value)
    return Outcome(text, parsed.diagnostics)


@contextmanager
def _no_collection() -> Iterator[None]:
    """No search for cycles while a tree is built: it has none, and with each search the time a line takes grows."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()


def _parse(source: Source, start: str) -> Outcome[tree.File]:
    with _no_collection():
        reading = Reading(source, start)
        statements = tuple(statement for statement in reading.run() or () if statement is not None)
    file = tree.File(
        source.path,
        statements,
        reading.layout.comments,
        tuple(reading.damaged.values()),
        reading.layout.gaps,
    )
    lost = frozenset(reading.layout.lines[line].start for line in reading.lost)
    return Outcome(file, in_order((*reading.diagnostics, *shape(statements, lost))))
