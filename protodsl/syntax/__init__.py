"""From text to tree: what was written, with nothing inferred."""

from __future__ import annotations

from protodsl.diagnostics.diagnostic import Severity, in_order
from protodsl.outcome import Outcome
from protodsl.source import Source
from protodsl.syntax import tree
from protodsl.syntax.lines import line_of
from protodsl.syntax.print_parts import condition_text
from protodsl.syntax.printer import format_tree
from protodsl.syntax.reading import Reading

__all__ = [
    "condition_text",
    "format_source",
    "format_tree",
    "line_of",
    "parse_case",
    "parse_condition",
    "parse_protocol",
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


def _parse(source: Source, start: str) -> Outcome[tree.File]:
    reading = Reading(source, start)
    statements = reading.run() or ()
    file = tree.File(
        source.path,
        tuple(statement for statement in statements if statement is not None),
        reading.layout.comments,
        tuple(reading.damaged.values()),
        reading.layout.gaps,
    )
    return Outcome(file, in_order(reading.diagnostics))
