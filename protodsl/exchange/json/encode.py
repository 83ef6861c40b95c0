"""Any part of a protocol or of a plan as JSON: its fields by name, its words, and the file and line it stands on.

A part is an object with the fields of the model that `fields.py` lists, in camelCase. The schemas in `tests/schemas`
are the format: a key that changes or goes there needs a new one.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import dataclass, is_dataclass
from decimal import Decimal
from enum import Enum
from functools import cache
from typing import Any

from protodsl.decide.truth import Truth
from protodsl.exchange.json.expression import expression
from protodsl.exchange.json.fields import FIELDS
from protodsl.exchange.json.values import decimal, quantity
from protodsl.exchange.speech import Speech
from protodsl.handout.phrase import DoseInWords, InWords, Written
from protodsl.model.condition import All, AnyOf, AtLeast, Compare, Fact, IsOneOf, Not, Placed
from protodsl.model.dose import Dose, Intervals, Sets, SetsOf
from protodsl.model.exercise import Avoid, Caution, Give, Lifted
from protodsl.model.protocol import Choose, Part
from protodsl.model.text import Prose
from protodsl.source import Span
from protodsl.units import Quantity, Unit

_CONDITIONS = (Fact, Not, All, AnyOf, AtLeast, IsOneOf, Compare)
# Where several kinds of part can stand in one place, each says which it is.
_KINDS: dict[type, str] = {
    Give: "give",
    Choose: "choose",
    Part: "part",
    Sets: "sets",
    SetsOf: "sets-of",
    Intervals: "intervals",
    Avoid: "avoid",
    Caution: "caution",
}


@dataclass(frozen=True, slots=True)
class Encoder:
    """What puts parts into JSON; a reason written in a case is left out, for it may say who it is."""

    speech: Speech

    def of(self, node: Any) -> Any:
        """A part as objects, lists, strings, whole numbers, booleans and null."""
        if node is None or isinstance(node, (bool, str, int)):
            return node
        if isinstance(node, Decimal):
            return decimal(node)
        if isinstance(node, datetime.date):
            return node.isoformat()
        if isinstance(node, Span):
            return self.speech.place(node) or None
        if isinstance(node, Truth):
            return node.name.lower()
        if isinstance(node, Enum):
            return node.value
        return self._compound(node)

    def _compound(self, node: Any) -> Any:
        if isinstance(node, Quantity):
            return quantity(node)
        if isinstance(node, Unit):
            return {"unit": node.name, "ucum": node.ucum}
        if isinstance(node, Prose):
            return self._prose(node)
        if isinstance(node, _CONDITIONS):
            return {"expression": expression(node), "words": self.speech.words(InWords(node))}
        if isinstance(node, Mapping):
            return [self.of(one) for one in node.values()]
        if isinstance(node, (tuple, frozenset)):
            return [self.of(one) for one in node]
        assert is_dataclass(node), type(node)
        return self._part(node)

    def _part(self, node: Any) -> dict[str, Any]:
        kind: Any = type(node)
        made: dict[str, Any] = {"is": _KINDS[kind]} if kind in _KINDS else {}
        for name, key in _names(kind):
            value = getattr(node, name)
            if name == "because" and value is not None and self.speech.is_private(value.span):
                value = None
            # Of a line that was lifted its own text tells what it was; where it stood is what is left to say.
            made[key] = self.of(value.span if kind is Lifted and name == "origin" else value)
        if isinstance(node, Dose):
            made["words"] = self.speech.words(DoseInWords(node)) or None
        span = getattr(node, "span", None)
        if isinstance(span, Span) and (isinstance(node, Placed) or span.path):
            made["place"] = self.of(span)
        return made

    def _prose(self, prose: Prose) -> dict[str, Any]:
        return {"text": prose.text, "words": self.speech.words(Written(prose)), "place": self.of(prose.span)}

@cache
def _names(kind: type) -> tuple[tuple[str, str], ...]:
    """The fields of a part that are handed on, each with its key; KeyError for a part that never is."""
    return tuple((name, _camel(name)) for name in FIELDS[kind])


def _camel(name: str) -> str:
    first, *rest = name.split("_")
    return first + "".join(part.capitalize() for part in rest)
