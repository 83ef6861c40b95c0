"""Numbers, quantities and ranges in FHIR, with UCUM codes (hl7.org/fhir/R5/datatypes.html#Quantity)."""

from __future__ import annotations

from decimal import Decimal

from protodsl.exchange.fhir.release import Json
from protodsl.exchange.measures import Measure
from protodsl.units import Quantity

UCUM = "http://unitsofmeasure.org"


def number(value: Decimal) -> int | float:
    """A decimal as a number of JSON, which FHIR asks for; doses have few enough digits to keep them all."""
    return int(value) if value == value.to_integral_value() else float(value)


def quantity(value: Decimal, unit: str, ucum: str) -> Json:
    """A quantity; `unit` is for a reader and may be empty."""
    named = {"unit": unit} if unit else {}
    return {"value": number(value), **named, "system": UCUM, "code": ucum}


def amount(one: Quantity) -> Json:
    """A quantity as written; a bare number counts in ones."""
    return quantity(one.value, one.unit.name, one.unit.ucum) if one.unit else quantity(one.value, "", "1")


def measured(one: Measure) -> Json:
    """The value of a measure with its type: `valueQuantity`, `valueRange` or `valueString`."""
    if one.low is None or one.high is None:
        return {"valueString": one.text}
    low, high = quantity(one.low, one.unit, one.ucum), quantity(one.high, one.unit, one.ucum)
    return {"valueQuantity": low} if one.low == one.high else {"valueRange": {"low": low, "high": high}}
