"""Numbers written in digits: the same ones in the translation, whatever digits and separators the language has."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from decimal import Decimal

from protodsl.diagnostics import translation as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.translate.judge.pair import Pair
from protodsl.units import plain

# Digits of any script with separators among them; the Arabic decimal and thousands separators are U+066B and U+066C.
_NUMBER = re.compile(r"\d+(?:[.,\u066b\u066c\u00a0\u202f'’]\d+)*")
_DECIMAL_SIGNS, _GROUP_SIGNS = ".,\u066b", ".,\u066c\u00a0\u202f'’"
_GROUP = 3
# Groups of three parted by a plain blank, where a no-break one belongs.
_LOOSE = re.compile(r"(?<![\d.,] )(?<![\d.,])(\d{1,3})((?: \d{3})+)(?![\d.,])")
_FRACTIONS = re.compile("[¼½¾⅐-⅞]")


def numbers_differ(pair: Pair) -> Iterator[Diagnostic]:
    """A number lost, changed or added. Each plural form is held against the text; a form may leave numbers out."""
    source = [readings(one) for one in numbers_in(pair.sources[-1])]
    for at, form in enumerate(pair.targets):
        found = numbers_in(form)
        left = list(source)
        added = []
        for written in found:
            same = next((one for one in left if one & readings(written)), None)
            if same is None:
                added.append(written)
            else:
                left.remove(same)
        lost = [plain(min(one)) for one in left]
        # A dual or a singular may say with a word what the others say in digits.
        may_leave_out = len(pair.targets) > 1 and at < len(pair.targets) - 1
        if added or (lost and not may_leave_out):
            yield say.number_differs(pair.entry.span, pair.entry.target[at], tuple(lost), tuple(added))


def numbers_in(text: str) -> tuple[str, ...]:
    """The numbers of a text as they are written, fractions such as ½ as `1/2` in two numbers."""
    spelled = _FRACTIONS.sub(lambda one: unicodedata.normalize("NFKC", one[0]).replace("\u2044", "/"), text)
    joined = _LOOSE.sub(lambda one: one[0].replace(" ", "\N{NO-BREAK SPACE}"), spelled)
    return tuple(_NUMBER.findall(joined))


def readings(written: str) -> frozenset[Decimal]:
    """What a number may mean: with its separators as groups of three, or with the last one as the decimal sign."""
    digits = "".join(str(unicodedata.decimal(sign)) if sign.isdecimal() else sign for sign in written)
    parts = re.split(r"[^0-9]", digits)
    signs = re.findall(r"[^0-9]", digits)
    found = set()
    whole = "".join(parts)
    if all(sign in _GROUP_SIGNS for sign in signs) and all(len(part) == _GROUP for part in parts[1:]):
        found.add(Decimal(whole))
    if signs and signs[-1] in _DECIMAL_SIGNS and all(len(part) == _GROUP for part in parts[1:-1]):
        found.add(Decimal(f"{''.join(parts[:-1])}.{parts[-1]}"))
    return frozenset(found or {Decimal(part) for part in parts})
