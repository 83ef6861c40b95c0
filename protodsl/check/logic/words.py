"""An example of answers and numbers as a clinician reads it."""

from __future__ import annotations

from decimal import Decimal

from protodsl.check.logic.formula import Key
from protodsl.check.logic.search import Example
from protodsl.model.protocol import Scope
from protodsl.units import Quantity, Unit, plain

_KINDS: dict[str, str] = {"value": "", "symmetry": "symmetry of ", "difference": "difference of "}


def as_words(example: Example, scope: Scope) -> str:
    """`pain` 3 and `pain next morning` 5, in the order of the names."""
    said = [f"{_named(key)} {_answer(values)}" for key, values in sorted(example.answers.items()) if key[0] == "answer"]
    said += [f"{_named(key)} {_number(key, value, scope)}" for key, value in sorted(example.numbers.items())]
    return " and ".join(said)


def _named(key: Key) -> str:
    kind, name, side = key
    words = f"`{name}`"
    if kind.startswith("change"):
        words = f"change of `{name}` since {kind.removeprefix('change since ')}"
    elif kind == "days":
        words = f"days since {name}"
    elif kind in _KINDS:
        words = f"`{_KINDS[kind]}{name}`"
    return f"{words} on the {side} side" if side else words


def _answer(values: frozenset[str]) -> str:
    return " or ".join(sorted(values))


def _number(key: Key, value: Decimal, scope: Scope) -> str:
    kind, name, _ = key
    if kind == "symmetry":
        return f"{plain(value)} %"
    finding = scope.findings.get(name)
    unit: Unit | None = finding.answer.unit if finding and kind != "days" else None
    if unit is None or unit.name == "count":
        return plain(value)
    return str(Quantity(value / unit.factor, unit))
