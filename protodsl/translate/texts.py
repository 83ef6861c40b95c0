"""Every line of prose that a patient may read of one file, in the order of the file, each with its key."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from typing import Any

from protodsl.model import named
from protodsl.model.clinic import Clinic
from protodsl.model.dose import Leg
from protodsl.model.exercise import Level
from protodsl.model.finding import Finding, Kind
from protodsl.model.text import Prose, is_translated
from protodsl.source import Span


@dataclass(frozen=True, slots=True)
class Text:
    """A string to be translated: its key, its forms (two where it has a plural), where it stands."""

    key: str
    forms: tuple[str, ...]
    path: str
    span: Span
    notes: tuple[str, ...] = ()

    @property
    def id(self) -> tuple[str, str]:
        """What makes it one entry of a catalogue."""
        return self.key, self.forms[0]


def texts_of(model: object, path: str) -> tuple[Text, ...]:
    """What stands in the file `path` of all that `model` (an entry, a protocol as changed for a case) holds."""
    found: dict[tuple[str, str], Text] = {}
    for prose in sorted(_proses(model, set()), key=lambda one: (one.span.start, one.key)):
        if prose.span.path == path and is_translated(prose.key) and prose.text:
            text = Text(prose.key, (prose.text,), path, prose.span)
            found.setdefault(text.id, text)
    return tuple(found.values())


def clinic_texts(clinic: Clinic, path: str, span: Span) -> tuple[Text, ...]:
    """The clinic's own words for an emergency and for contact."""
    proses = (prose for prose in clinic.proses() if prose.text)
    return tuple(Text(prose.key, (prose.text,), path, span) for prose in proses)


def _proses(node: Any, seen: set[int]) -> Iterator[Prose]:
    """Walks every field once, so that a new line of the language is looked at without being named here."""
    kind: Any = type(node)
    if kind is Prose:
        yield node
    elif kind is tuple:
        for one in node:
            yield from _proses(one, seen)
    elif isinstance(node, dict):
        for one in node.values():
            yield from _proses(one, seen)
    elif (names := _fields(kind)) and id(node) not in seen:
        seen.add(id(node))
        yield from _names(node)
        for name in names:
            yield from _proses(getattr(node, name), seen)


def _names(node: object) -> Iterator[Prose]:
    """What is read of a node besides its prose: names, where they are printed."""
    if isinstance(node, Leg):
        yield named.activity(node)
    elif isinstance(node, Level):
        if node.label or len(node.gives) != 1:
            yield named.level_name(node)
    elif isinstance(node, Finding):
        yield from (named.choice(node, value) for value in named.values(node))
        if _is_named(node):
            yield named.finding_name(node)


def _is_named(finding: Finding) -> bool:
    """Whether a sheet may print the name: over a column of the diary, or because there are no other words."""
    if finding.role == "question" and finding.one_session:
        return True
    if finding.answer.kind is Kind.YES_NO:
        return finding.words is None
    return finding.means is None and (finding.words is None or finding.role == "test" or finding.answer.sided)


@cache
def _fields(kind: type) -> tuple[str, ...]:
    """The fields of a part of the model; none for a plain value, and none for a drawing."""
    module = kind.__module__
    if not is_dataclass(kind) or not module.startswith("protodsl.model") or module == "protodsl.model.figure":
        return ()
    return tuple(field.name for field in fields(kind))
