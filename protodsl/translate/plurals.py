"""The plural forms of a language as the header of a PO file, in the order of the CLDR categories.

The forms stand as zero, one, two, few, many, other, as far as the language has them (Unicode CLDR, Language Plural
Rules; UTS #35 part 3). The expression is for whole numbers, as gettext reads it; Babel's own may name an operand that
gettext does not know.
"""

from __future__ import annotations

import re
from typing import Any

from babel import Locale

CATEGORIES = ("zero", "one", "two", "few", "many", "other")
_EQUALITY = re.compile(r"n(?: % \d+)? == \d+")
_HEADER = re.compile(r"\s*nplurals\s*=\s*(\d+)\s*;\s*plural\s*=\s*(.+?);?\s*", re.DOTALL)


def categories(locale: Locale) -> tuple[str, ...]:
    """The categories of a language, in their order."""
    tags = locale.plural_form.tags | {"other"}
    return tuple(name for name in CATEGORIES if name in tags)


def plural_header(locale: Locale) -> str:
    """`nplurals=N; plural=EXPRESSION;` with forms in CLDR order."""
    names = categories(locale)
    expression = str(len(names) - 1)
    for tag, rule in sorted(locale.plural_form.abstract, key=lambda one: names.index(one[0]), reverse=True):
        condition = _compiled(rule)
        if condition is True:
            expression = str(names.index(tag))
        elif condition is not False:
            expression = f"{condition} ? {names.index(tag)} : {expression}"
    return f"nplurals={len(names)}; plural=({expression});"


def count_of(header: str) -> int | None:
    """How many forms a header says there are; None where it cannot be read."""
    found = _HEADER.fullmatch(header)
    return int(found[1]) if found else None


def expression_of(header: str) -> str:
    """The expression in C of a header; empty where it cannot be read."""
    found = _HEADER.fullmatch(header)
    return found[2] if found else ""


def _compiled(node: Any) -> str | bool:
    """A rule as an expression in C over a whole number n; True or False where that does not depend on n."""
    kind, of = node
    if kind == "not":
        inner = _compiled(of[0])
        if isinstance(inner, bool):
            return not inner
        return inner.replace("==", "!=") if _EQUALITY.fullmatch(inner) else f"!({inner})"
    if kind in ("and", "or"):
        return _joined(kind, [_compiled(one) for one in of])
    _, subject, ranges = of
    operand = _operand(subject)
    found = [_within(operand, low[1][0], high[1][0]) for low, high in ranges[1]]
    return _joined("or", found)


def _joined(by: str, parts: list[str | bool]) -> str | bool:
    decides = by == "or"
    if any(part is decides for part in parts):
        return decides
    open_parts = [str(part) for part in parts if not isinstance(part, bool)]
    if not open_parts:
        return not decides
    sign = " || " if decides else " && "
    return open_parts[0] if len(open_parts) == 1 else f"({sign.join(open_parts)})"


def _operand(node: Any) -> str | int:
    """n and i are the number itself; a whole number has no decimals (v, w, f, t) and no exponent (c, e)."""
    kind, of = node
    if kind == "mod":
        inner, by = _operand(of[0]), of[1][1][0]
        return inner % by if isinstance(inner, int) else f"{inner} % {by}"
    return "n" if kind in ("n", "i") else 0


def _within(operand: str | int, low: int, high: int) -> str | bool:
    if isinstance(operand, int):
        return low <= operand <= high
    if low == high:
        return f"{operand} == {low}"
    return f"({operand} >= {low} && {operand} <= {high})" if low > 0 else f"{operand} <= {high}"
