"""Quantities with their units, exact, with one table of what a clinician may write."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: its name as written, what it measures, its factor to the base of that dimension, its UCUM code."""

    name: str
    dimension: str
    factor: Decimal
    ucum: str


def _unit(name: str, dimension: str, factor: str, ucum: str) -> tuple[str, Unit]:
    return name, Unit(name, dimension, Decimal(factor), ucum)


# Factors: the international yard and pound (0.0254 m, 0.3048 m, 0.45359237 kg) are exact by definition.
UNITS: dict[str, Unit] = dict(
    (
        _unit("deg", "angle", "1", "deg"),
        _unit("mm", "length", "0.001", "mm"),
        _unit("cm", "length", "0.01", "cm"),
        _unit("m", "length", "1", "m"),
        _unit("km", "length", "1000", "km"),
        _unit("in", "length", "0.0254", "[in_i]"),
        _unit("ft", "length", "0.3048", "[ft_i]"),
        _unit("g", "mass", "0.001", "g"),
        _unit("kg", "mass", "1", "kg"),
        _unit("lb", "mass", "0.45359237", "[lb_av]"),
        _unit("s", "time", "1", "s"),
        _unit("min", "time", "60", "min"),
        _unit("hour", "time", "3600", "h"),
        _unit("hours", "time", "3600", "h"),
        _unit("day", "time", "86400", "d"),
        _unit("days", "time", "86400", "d"),
        _unit("week", "time", "604800", "wk"),
        _unit("weeks", "time", "604800", "wk"),
        _unit("month", "calendar", "1", "mo"),
        _unit("months", "calendar", "1", "mo"),
        _unit("year", "calendar", "12", "a"),
        _unit("years", "calendar", "12", "a"),
        _unit("count", "count", "1", "1"),
        _unit("reps", "count", "1", "{repetition}"),
        _unit("steps", "steps", "1", "{step}"),
        _unit("breaths", "breaths", "1", "{breath}"),
        _unit("bpm", "rate", "1", "/min"),
        _unit("mmHg", "pressure", "1", "mm[Hg]"),
        _unit("km/h", "speed", "1", "km/h"),
        _unit("W", "power", "1", "W"),
        _unit("N", "force", "1", "N"),
        _unit("%", "percent", "1", "%"),
    )
)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number as a person wrote it, with its unit or with none (a point on a scale, a count)."""

    value: Decimal
    unit: Unit | None = None

    @property
    def dimension(self) -> str:
        """What it measures; `number` where no unit was written."""
        return self.unit.dimension if self.unit else "number"

    def to(self, unit: Unit | None) -> Quantity:
        """The same amount in another unit of its dimension; ValueError where the dimensions differ."""
        if unit == self.unit:
            return self
        if unit is None or self.unit is None or unit.dimension != self.unit.dimension:
            raise ValueError(f"{self.dimension} is not {unit.dimension if unit else 'a bare number'}")
        return Quantity(self.value * self.unit.factor / unit.factor, unit)

    def __str__(self) -> str:
        """As a person writes it: the number without idle zeros, a blank, the unit."""
        return f"{plain(self.value)} {self.unit.name}" if self.unit else plain(self.value)


def plain(number: Decimal) -> str:
    """A number without exponent and without idle zeros: 10, 2.5, -3."""
    text = format(number, "f")
    return (text.rstrip("0").rstrip(".") or "0") if "." in text else text
