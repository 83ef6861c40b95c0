"""Every safety line of a protocol stands on its sheet, in its part, with its file and line: whoever takes a part away
is told which lines are lost."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from protodsl.handout import Options, compose_sheet, safety_items, sheet
from protodsl.handout.blocks import Handout
from protodsl.handout.phrase import Phrase
from protodsl.localise import localise
from protodsl.model.protocol import Protocol
from protodsl.source import Source
from tests.unit.handout import samples
from tests.unit.handout.demo import PROTOCOLS, demo
from tests.unit.handout.lines import PLACES, safety_lines

_SAMPLE = samples.protocol()
# The parts that carry safety lines, by their name in the module that puts the sheet together.
_PARTS: dict[str, Callable[..., object]] = {
    "stop": lambda on: samples.empty_section(),
    "plan": lambda on: (),
    "pain": lambda on: None,
    "flare": lambda on: None,
    "care": lambda on: None,
    "cards": lambda on: (),
    "daily": lambda on: None,
}


def _missing(protocol: Protocol, page: Handout[Phrase], sources: dict[str, Source]) -> set[str]:
    """The safety lines that the sheet does not hold in the part where they belong."""
    there = [(item.safety, item.origin) for item in safety_items(page)]
    lost = set()
    for start, span in safety_lines(protocol):
        origin = f"{span.path}:{sources[span.path].position(span.start)[0]}"
        if not any(safety.startswith(start) and at == origin for safety, at in there):
            lost.add(f"{start} {origin}")
    return lost


def _sheet(protocol: Protocol, sources: dict[str, Source]) -> Handout[Phrase]:
    return compose_sheet(protocol, samples.CLINIC, Options(sources=sources))


def test_the_sample_holds_every_kind_of_safety_line() -> None:
    """The sample cannot prove anything about a kind of line that it does not hold."""
    held = {start for start, _ in safety_lines(_SAMPLE)}
    assert held == set(PLACES.values())
    assert len({span for _, span in safety_lines(_SAMPLE)}) == len(safety_lines(_SAMPLE))


def test_every_safety_line_is_on_the_sheet() -> None:
    """One line of every kind, each found again by its place."""
    assert _missing(_SAMPLE, _sheet(_SAMPLE, samples.SOURCES), samples.SOURCES) == set()


@pytest.mark.parametrize("part", sorted(_PARTS))
def test_a_part_that_is_left_out_is_missed(part: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The check above fails for each part of the sheet that is taken away."""
    monkeypatch.setattr(sheet, part, _PARTS[part])
    assert _missing(_SAMPLE, _sheet(_SAMPLE, samples.SOURCES), samples.SOURCES)


@pytest.mark.parametrize("path", PROTOCOLS)
def test_every_safety_line_of_the_demo_clinic_is_on_its_sheet(path: Path) -> None:
    """The demo protocols, from their text."""
    sources, protocols = demo(path)
    assert protocols
    for protocol in protocols:
        assert _missing(protocol, _sheet(protocol, sources), sources) == set()


@pytest.mark.parametrize("path", PROTOCOLS)
def test_ids_are_unique_and_every_line_has_its_place(path: Path) -> None:
    """No two lines share an id; each says where it comes from, but for the usual caution, the product's own."""
    sources, protocols = demo(path)
    for protocol in protocols:
        items = safety_items(_sheet(protocol, sources))
        names = [item.safety for item in items]
        assert len(names) == len(set(names))
        assert {item.safety for item in items if not item.origin} == {"about/only"}


@pytest.mark.parametrize("path", PROTOCOLS)
def test_no_safety_line_is_empty_in_words(path: Path) -> None:
    """In words every line still says something, and no placeholder or key is left in it."""
    sources, protocols = demo(path)
    for protocol in protocols:
        page = localise(_sheet(protocol, sources), protocol.scope, samples.CLINIC, "en").value
        assert page is not None
        for item in safety_items(page):
            assert len(item.text) > 3, item
            assert "{" not in item.text and "[" not in item.text.replace("\\[", ""), item
