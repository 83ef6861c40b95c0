"""A language is its catalogue and nothing else: with every message replaced, no English word is left on a handout."""

from __future__ import annotations

import importlib
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from io import BytesIO
from typing import Any

import pytest
from babel.messages.pofile import read_po, write_po

from protodsl import resources
from protodsl.handout import Options, compose_clinician, compose_sheet
from protodsl.handout.blocks import Handout
from protodsl.handout.phrase import Literal, Phrase
from protodsl.localise import localise
from protodsl.localise.catalogue import Catalogue, read
from protodsl.model.protocol import Protocol
from tests.unit.handout import samples
from tests.unit.handout.demo import PROTOCOLS, demo

_SLOT = re.compile(r"(\{\w+\})")
_WORD = re.compile(r"[A-Za-z]+")
# The end of a mark that says of which language a passage is.
_MARK = re.compile(r"\]\((?:lang|missing):[\w-]+\)")


class _AnyProse(dict[tuple[str, str], str]):
    """Every line of authored prose, translated by one letter."""

    def get(self, key: tuple[str, str], default: Any = None) -> Any:
        """The same for all."""
        return "ø"


def _masked(text: str) -> str:
    """A message with every letter of its own turned into one, its placeholders kept."""
    parts = _SLOT.split(text)
    return "".join(part if at % 2 else re.sub(r"[A-Za-z]", "ж", part) for at, part in enumerate(parts))


def _catalogue(language: str) -> Catalogue:
    """English with its letters masked, for a language whose own numbers, dates and units have no Latin letters."""
    po = read_po(BytesIO(resources.data("protodsl.localise", "messages/en.po")))
    po.locale = language
    for entry in po:
        if entry.context:
            forms = entry.id if isinstance(entry.id, (tuple, list)) else (entry.id,)
            said = tuple(_masked(form) for form in forms)
            entry.string = (said * po.num_plurals)[: po.num_plurals] if len(said) > 1 else said[0]
    out = BytesIO()
    write_po(out, po)
    return read(language, out.getvalue())


def _strings(node: Any) -> Iterator[str]:
    if isinstance(node, str):
        yield node
    elif isinstance(node, tuple):
        for one in node:
            yield from _strings(one)
    elif is_dataclass(node) and not isinstance(node, type):
        for field in fields(node):
            if field.name not in ("id", "safety", "origin", "mark", "role", "kind", "up", "down", "svg", "data"):
                yield from _strings(getattr(node, field.name))


def _literals(node: Any) -> Iterator[str]:
    """The words that no language changes: names, versions, telephone numbers, places."""
    if isinstance(node, Literal):
        yield from _WORD.findall(node.text)
    elif isinstance(node, dict):
        for one in node.values():
            yield from _literals(one)
    elif isinstance(node, tuple):
        for one in node:
            yield from _literals(one)
    elif is_dataclass(node) and not isinstance(node, type):
        for field in fields(node):
            yield from _literals(getattr(node, field.name))


def _pages(protocol: Protocol) -> Iterator[Handout[Phrase]]:
    options = Options(sources=samples.SOURCES, digest="0", version="1")
    yield compose_sheet(protocol, samples.CLINIC, options)
    yield compose_clinician(protocol, samples.CLINIC, (), options)


@pytest.mark.parametrize("language", ["uk", "ar"])
@pytest.mark.parametrize("name", ["sample", *(path.name for path in PROTOCOLS)])
def test_no_english_is_left(language: str, name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Conditions, doses, units, dates and all other words come from the catalogue and from CLDR."""
    module = importlib.import_module("protodsl.localise.localise")
    masked = _catalogue(language)
    monkeypatch.setattr(module, "catalogue", lambda _: masked)
    protocols = (samples.protocol(),) if name == "sample" else demo(PROTOCOLS[0].parent / name)[1]
    for protocol in protocols:
        # What is written as a name in the language itself (activities of an interval, values of a choice) has no prose.
        names = {
            word
            for finding in protocol.scope.findings.values()
            for choice in (*finding.answer.choices, *(row.value for row in finding.rows), finding.otherwise or "")
            for word in _WORD.findall(choice)
        } | {"walk", "run"}
        for page in _pages(protocol):
            done = localise(page, protocol.scope, samples.CLINIC, language, _AnyProse())
            assert done.value is not None
            allowed = names | set(_literals(page))
            left = {word for text in _strings(done.value) for word in _WORD.findall(_MARK.sub("", text))} - allowed
            assert left <= {"page", "pages"}
