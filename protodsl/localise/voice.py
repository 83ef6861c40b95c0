"""What every rendering of words needs: the catalogue, the declarations, the unit of length, translated prose."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal

from protodsl.localise import escape, numbers
from protodsl.localise.catalogue import Catalogue
from protodsl.model.dose import Range
from protodsl.model.protocol import Scope
from protodsl.model.text import PLACED_SIDES, SIDE_PLACEHOLDERS, Prose, is_translated
from protodsl.units import Quantity, Unit

_PLACEHOLDER = re.compile(r"\[([^\[\]]*)\]")
_OPPOSITE = {"left": "right", "right": "left"}


@dataclass(frozen=True, slots=True)
class Voice:
    """A language speaking about one protocol; `translations` hold authored prose by its key and its text.

    `side` is the affected side (left or right) where it is known, else None. `written_in` is the language of the
    authored prose, "" where that is the language spoken; `used` gathers what was asked for in it, in order.
    """

    catalogue: Catalogue
    scope: Scope
    lengths: str = ""
    translations: Mapping[tuple[str, str], str] = field(default_factory=dict)
    side: str | None = None
    written_in: str = ""
    used: dict[Prose, None] = field(default_factory=dict, compare=False, repr=False)

    def about(self, side: str | None) -> Voice:
        """The same voice, speaking of a person whose affected side is known."""
        return self if side == self.side else replace(self, side=side)

    def which(self, side: str) -> str:
        """`affected` or `other` as left or right where the affected side is known; any other side as it is."""
        if self.side not in _OPPOSITE or side not in ("affected", "other"):
            return side
        return self.side if side == "affected" else _OPPOSITE[self.side]

    def say(self, key: str, count: Decimal | None = None, /, **values: str) -> str:
        """A message of the product's own; `count` chooses the plural form and fills `{count}`."""
        if count is not None:
            values.setdefault("count", self.number(count))
        return self.catalogue.say(key, values, count)

    def number(self, value: Decimal) -> str:
        """A bare number."""
        return numbers.number(self.catalogue, value)

    def quantity(self, one: Quantity) -> str:
        """A quantity with its unit."""
        return numbers.quantity(self.catalogue, one, self.lengths)

    def amount(self, of: Range, unit: Unit | None) -> str:
        """A range with its unit."""
        return numbers.amount(self.catalogue, of, unit)

    def prose(self, prose: Prose) -> str:
        """Authored prose with its placeholders filled: settings, and the affected or other side."""
        translated = self.translations.get((prose.key, prose.text))
        if self.written_in:
            self.used[prose] = None
            if translated is None:
                return escape.in_language(self._filled(prose.text), self.written_in, is_translated(prose.key))
        return self._filled(prose.text if translated is None else translated)

    def plain(self, prose: Prose) -> str:
        """Authored prose without escapes, as far as there are words for it."""
        return self.translations.get((prose.key, prose.text), prose.text)

    def _filled(self, text: str) -> str:
        if "[" not in text:
            return escape.authored(text)
        parts = _PLACEHOLDER.split(text)
        filled = [part if at % 2 == 0 else self._placeholder(part) for at, part in enumerate(parts)]
        return "".join(escape.authored(part) if at % 2 == 0 else part for at, part in enumerate(filled))

    def _placeholder(self, name: str) -> str:
        if name in SIDE_PLACEHOLDERS:
            return self.say(f"prose.{self.which(name.split()[0])}")
        if name in PLACED_SIDES:
            return self.say(f"side.{self.which(PLACED_SIDES[name].split()[0])}")
        setting = self.scope.settings.get(name)
        return escape.literal(f"[{name}]") if setting is None else self.quantity(setting.value)
