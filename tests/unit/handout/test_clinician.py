"""The clinician's page: what is open comes first, and every rule stands in words beside its line."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.handout import Options, compose_clinician
from protodsl.handout.blocks import Chain, Framed, Handout
from protodsl.handout.chains import roman
from protodsl.localise import localise
from protodsl.model.condition import Placed
from protodsl.model.exercise import Avoid, Caution, StartAt, Trigger
from protodsl.model.protocol import BackTo, Flag, Forbid, Limit, Protocol, Setting, Until
from protodsl.model.reach import exercises_reached, gives_of
from protodsl.source import Source, Span
from protodsl.units import Quantity
from tests.unit.handout import samples
from tests.unit.handout.demo import PROTOCOLS, demo

_RULES = (Flag, Caution, Avoid, Limit, Forbid, Until, BackTo, StartAt, Trigger)


def _page(protocol: Protocol, sources: dict[str, Source], diagnostics: tuple[Diagnostic, ...] = ()) -> Handout[str]:
    composed = compose_clinician(protocol, samples.CLINIC, diagnostics, Options(sources=sources))
    words = localise(composed, protocol.scope, samples.CLINIC, "en")
    assert words.value is not None
    return words.value


def _rules(node: Any) -> Iterator[Placed]:
    """Every rule below a node of the model."""
    if isinstance(node, tuple):
        for one in node:
            yield from _rules(one)
    elif is_dataclass(node) and not isinstance(node, type):
        if isinstance(node, _RULES):
            yield node
        for field in fields(node):
            if field.name != "scope":
                yield from _rules(getattr(node, field.name))


def _all_rules(protocol: Protocol) -> Iterator[Placed]:
    yield from _rules(protocol)
    scope = protocol.scope
    for reached in exercises_reached(protocol):
        yield from _rules(scope.exercises[reached.exercise])
    given = {give.item for phase in (None, *protocol.phases) for give in gives_of(protocol, phase)}
    for name in sorted(given & set(scope.progressions)):
        yield from _rules(scope.progressions[name])


def _places(page: Handout[str]) -> set[tuple[str, int]]:
    """Every file and line that a page names; a file is named once before its lines: `leg:12, 17`."""
    found = set()
    for file, lines in re.findall(r"([\w-]+):(\d+(?:, \d+)*)", str(page)):
        found |= {(file, int(line)) for line in lines.split(", ")}
    return found


@pytest.mark.parametrize("path", PROTOCOLS)
def test_every_rule_of_the_demo_clinic_has_its_line(path: Path) -> None:
    """Flags, cautions, avoid lines, limits, what leads on and back, and where one starts: each by file and line."""
    sources, protocols = demo(path)
    for protocol in protocols:
        assert len({Path(name).stem for name in sources}) == len(sources)
        page = _page(protocol, sources)
        for name in {rule.span.path for rule in _all_rules(protocol)}:
            assert f"{Path(name).stem} ({name})" in page.masthead.lines[1]
        said = _places(page)
        for rule in _all_rules(protocol):
            place = (Path(rule.span.path).stem, sources[rule.span.path].position(rule.span.start)[0])
            assert place in said, (rule, place)


def test_every_rule_of_the_sample_has_its_line() -> None:
    """One of every kind of rule."""
    protocol = samples.protocol()
    found = list(_all_rules(protocol))
    assert {type(rule) for rule in found} == set(_RULES)
    said = _places(_page(protocol, samples.SOURCES))
    for rule in found:
        assert (Path(samples.PATH).stem, samples.SOURCE.position(rule.span.start)[0]) in said, rule


def test_files_of_one_name_keep_their_folders() -> None:
    """A short name stands for one file only."""
    sources = {path: Source(path, "\n") for path in ("library/leg.protocol", "north/leg.protocol", "ankle.protocol")}
    protocol = samples.protocol()
    settings = {path: Setting(path, Quantity(Decimal(1)), span=Span(path, 0, 0)) for path in sources}
    moved = replace(protocol, scope=replace(protocol.scope, settings=settings))
    lines = _page(moved, {**samples.SOURCES, **sources}).masthead.lines[1]
    assert "ankle (ankle.protocol), library/leg (library/leg.protocol), north/leg (north/leg.protocol)" in lines


def test_files_that_were_read_for_something_else_are_not_named() -> None:
    """The page is the same whether a file is built alone or with its folder."""
    more = {**samples.SOURCES, "knee.protocol": Source("knee.protocol", "\n")}
    assert _page(samples.protocol(), more) == _page(samples.protocol(), samples.SOURCES)


def test_open_points_come_first() -> None:
    """Each with what to do and its line, the author's words in quotes; where nothing is open that is said."""
    protocol = samples.protocol()
    flag = protocol.red_flags[0]
    point = Diagnostic(
        Code("S999", "test", Severity.HINT), "an `avoid if` says no `instead`", Label(flag.span), help="Write one."
    )
    page = _page(protocol, samples.SOURCES, (point,))
    framed = page.sections[0].blocks[0]
    assert isinstance(framed, Framed)
    assert framed.head == "1 open point"
    (line,) = framed.lines
    assert line.text == "An “avoid if” says no “instead”. Write one."
    assert line.origin == f"{samples.PATH}:{samples.SOURCE.position(flag.span.start)[0]}"
    nothing = _page(protocol, samples.SOURCES).sections[0].blocks[0]
    assert isinstance(nothing, Framed) and nothing.head == "No open points" and not nothing.lines


def test_a_chain_marks_its_conditions() -> None:
    """A condition that stands at two steps has one mark, and is put in words once."""
    page = _page(samples.protocol(), samples.SOURCES)
    section = next(section for section in page.sections if section.id == "chains")
    chain = section.blocks[0]
    assert isinstance(chain, Chain)
    assert [(stop.name, stop.up, stop.down) for stop in chain.stops] == [
        ("Heel raise on both legs", "i", "ii"),
        ("Heel raise on one leg", "", "ii"),
    ]
    assert chain.alternative == (
        "Calf strength, from the easiest to the hardest: Heel raise on both legs, Heel raise on one leg"
    )


@pytest.mark.parametrize(("value", "text"), [(1, "i"), (4, "iv"), (9, "ix"), (14, "xiv"), (19, "xix"), (38, "xxxviii")])
def test_roman_numerals(value: int, text: str) -> None:
    """Small Roman numerals, by the usual subtractive rule."""
    assert roman(value) == text


def test_the_page_is_not_for_the_patient() -> None:
    """Its foot says so."""
    assert _page(samples.protocol(), samples.SOURCES).footer.right == "Not for the patient"
