"""Values of a case: each of the kind, range, unit and sides of the finding it is a value of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from protodsl.diagnostics import cases as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.model.case import Observation, Value
from protodsl.model.finding import Answer, Finding, Kind
from protodsl.model.protocol import Protocol
from protodsl.model.text import Prose
from protodsl.source import Span
from protodsl.syntax import tree
from protodsl.units import UNITS, Quantity, Unit, plain

BOTH_SIDES = ("left", "right")

_WANTS = {
    Kind.YES_NO: "yes or no",
    Kind.SCALE: "a number",
    Kind.MEASURE: "a measure",
    Kind.CHOICE: "one of its choices",
    Kind.DATE: "a date",
}


@dataclass(slots=True)
class Desk:
    """The protocol that names are looked up in, and what is said on the way."""

    protocol: Protocol
    damaged: frozenset[str] = frozenset()
    said: list[Diagnostic] = field(default_factory=list)

    def finding(self, name: tree.Name) -> Finding | None:
        """The question or test of that name that can be answered; None, and it is said why."""
        findings = self.protocol.scope.findings
        found = findings.get(name.text)
        if found is None:
            self.unknown("question or test", name, findings)
        elif found.role == "finding":
            self.said.append(say.follows(found.name, name.span, found.span))
        elif "answer" not in found.damaged:
            return found
        return None

    def unknown(self, what: str, name: tree.Name, known: Iterable[str]) -> None:
        """Say that the protocol does not know a name, unless its declaration could not be read."""
        if name.text not in self.damaged:
            near = nearest(name.text, known)
            self.said.append(say.not_in_protocol(what, name.text, self.protocol.name, name.span, near))


def observations(
    name: tree.Name,
    values: tuple[tuple[str | None, tree.Value], ...],
    day: date,
    span: Span,
    desk: Desk,
    because: Prose | None = None,
    corrects: bool = False,
) -> Iterator[Observation]:
    """What was seen of a finding on a date, by side where it has sides; wrong values are left out, and it is said why.

    `unknown` and `no` without a side stand for both sides.
    """
    finding = desk.finding(name)
    if finding is None:
        return
    for side, written in values:
        if side is not None and not finding.answer.sided:
            desk.said.append(say.no_sides(finding.name, written.span, finding.span))
            continue
        value = value_of(written, finding, desk)
        if isinstance(value, _Wrong):
            continue
        sides: tuple[str | None, ...] = (side,)
        if side is None and finding.answer.sided:
            if value is not None and value is not False:
                desk.said.append(say.side_wanted(finding.name, written.span, finding.span))
                continue
            sides = BOTH_SIDES
        for one in sides:
            yield Observation(finding.name, one, value, day, corrects, because, span=span)


class _Wrong:
    """The mark of a value that cannot be taken."""


_WRONG = _Wrong()


def value_of(written: tree.Value, finding: Finding, desk: Desk) -> Value | _Wrong:
    """The value where it is of the finding's kind and in its range."""
    answer = finding.answer
    if written.form == "unknown":
        return None
    if answer.kind is Kind.YES_NO and written.form in ("yes", "no"):
        return written.form == "yes"
    if answer.kind is Kind.DATE and written.date is not None:
        return written.date
    if answer.kind is Kind.CHOICE:
        word = written.name.text if written.name else written.form
        if word in answer.choices:
            return word
    elif answer.kind in (Kind.SCALE, Kind.MEASURE) and written.amount is not None:
        return _amount(written.amount, finding, desk)
    desk.said.append(
        say.other_kind(finding.name, _wants(answer), _shown(written), _example(answer), written.span, finding.span)
    )
    return _WRONG


def _amount(amount: tree.Amount, finding: Finding, desk: Desk) -> Quantity | _Wrong:
    answer = finding.answer
    unit = UNITS[amount.unit] if amount.unit else None
    if unit is None and answer.unit is not None and answer.unit.dimension == "count":
        unit = answer.unit
    value = Quantity(amount.value, unit)
    if _dimension(unit) != _dimension(answer.unit) or not _whole_if_counted(value):
        desk.said.append(
            say.other_kind(finding.name, _wants(answer), str(value), _example(answer), amount.span, finding.span)
        )
        return _WRONG
    if not _in_range(value, answer):
        low, high = plain(answer.low or Decimal(0)), plain(answer.high or Decimal(0))
        end = f"{high} {answer.unit.name}" if answer.unit and answer.unit.name != "count" else high
        desk.said.append(say.out_of_range(finding.name, _without_count(value), low, end, amount.span, finding.span))
        return _WRONG
    return value


def _dimension(unit: Unit | None) -> str:
    return unit.dimension if unit else "number"


def _whole_if_counted(value: Quantity) -> bool:
    return value.dimension != "count" or value.value == value.value.to_integral_value()


def _in_range(value: Quantity, answer: Answer) -> bool:
    """Compared in the base unit, so that nothing is rounded."""
    number = value.value * value.unit.factor if value.unit else value.value
    factor = answer.unit.factor if answer.unit else Decimal(1)
    low, high = answer.low, answer.high
    return (low is None or low * factor <= number) and (high is None or number <= high * factor)


def _wants(answer: Answer) -> str:
    if answer.kind is Kind.MEASURE and answer.unit is not None:
        return "a whole number" if answer.unit.name == "count" else f"a number of {answer.unit.name}"
    if answer.kind is Kind.CHOICE:
        return f"one of {', '.join(f'`{choice}`' for choice in answer.choices)}"
    return _WANTS[answer.kind]


def _example(answer: Answer) -> str:
    low = plain(answer.low or Decimal(0))
    match answer.kind:
        case Kind.YES_NO:
            return "yes"
        case Kind.CHOICE:
            return answer.choices[0] if answer.choices else "..."
        case Kind.DATE:
            return "2026-11-02"
        case Kind.MEASURE if answer.unit is not None and answer.unit.name != "count":
            return f"{low} {answer.unit.name}"
        case _:
            return low


def _shown(written: tree.Value) -> str:
    if written.amount is not None:
        return f"{plain(written.amount.value)}{f' {written.amount.unit}' if written.amount.unit else ''}"
    if written.date is not None:
        return written.date.isoformat()
    return written.name.text if written.name else written.form


def _without_count(value: Quantity) -> str:
    return plain(value.value) if value.dimension == "count" else str(value)
