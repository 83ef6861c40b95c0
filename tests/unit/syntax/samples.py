"""The texts that the tests of the parser share: the demo's files and the small ones that lie here."""

from __future__ import annotations

from pathlib import Path

from protodsl.outcome import Outcome
from protodsl.source import Source
from protodsl.syntax import parse_case, parse_protocol, tree

CHECKOUT = Path(__file__).resolve().parents[3]
DEMO = CHECKOUT / "protocols_demo"
GOOD = CHECKOUT / "tests" / "cases" / "good" / "syntax"


def sample_paths() -> list[Path]:
    """Every protocol and case file of the demo, and those that show every form of a line."""
    return sorted(path for root in (DEMO, GOOD) for path in root.rglob("*") if path.suffix in (".protocol", ".case"))


def parse(text: str, path: str = "sample.protocol") -> Outcome[tree.File]:
    """The tree of a text, by the ending of its path."""
    return (parse_case if path.endswith(".case") else parse_protocol)(Source(path, text))


def statements(text: str, path: str = "sample.protocol") -> tuple[tree.Statement, ...]:
    """The statements of a text that must have no mistakes."""
    outcome = parse(text, path)
    assert outcome.diagnostics == (), [one.message for one in outcome.diagnostics]
    assert outcome.value is not None
    return outcome.value.statements


def codes(text: str, path: str = "sample.protocol") -> list[tuple[str, int]]:
    """Code and line of all that is said about a text."""
    source = Source(path, text)
    return [(one.code.id, source.position(one.primary.span.start)[0]) for one in parse(text, path).diagnostics]
