"""Numbers and quantities in JSON: decimals are strings, for a number in JSON is rounded by most that read it."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from protodsl.units import Quantity, plain


def decimal(value: Decimal | None) -> str | None:
    """A decimal as its digits: `2.5`; None for none."""
    return None if value is None else plain(value)


def quantity(one: Quantity | None) -> dict[str, Any] | None:
    """A quantity with its unit as written and in UCUM, both null for a bare number; None for none."""
    if one is None:
        return None
    unit = one.unit
    return {"value": plain(one.value), "unit": unit.name if unit else None, "ucum": unit.ucum if unit else None}
