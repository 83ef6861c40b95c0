"""How a handout is to look: paper, size of print, language and direction, and whose templates."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from protodsl.figure.drawn import SCALE

PAPERS = ("A4", "Letter")
# Millimetres, and points of type, as the style sheets have them.
_WIDTHS, _MARGIN = {"A4": 210.0, "Letter": 215.9}, 16.0
_USUAL_PRINT, _LARGE_PRINT = 12, 17
# Millimetres a stature on the plates beside the steps of compact print, as a share of what is drawn; in all other print
# a drawing is shown as large as it was made, and grows with the type.
_COMPACT = 22 / SCALE
_BESIDE_STEPS, _BESIDE_STEPS_WIDE = 15.8 * 4.2333 / _COMPACT, 20.6 * 4.2333 / _COMPACT

_CHINESE = frozenset(("zh", "yue", "wuu", "nan", "hak"))
_ARABIC_SCRIPT = frozenset(("ar", "ckb", "fa", "ps", "sd", "ug", "ur"))
_COUNTERS = {"٠": "arabic-indic", "۰": "persian", "०": "devanagari", "০": "bengali"}


@dataclass(frozen=True, slots=True)
class Style:
    """The choices of the person who prints; none of them changes what the handout says.

    `language` is a BCP 47 tag, `direction` ltr or rtl, `digits` the ten digits that the text is written with.
    `template_folder` is the clinic's own, looked in before the shipped one, file by file.
    `cache_folder` keeps what is the same at every start (None: the user's own).
    """

    paper: str = "A4"
    large_print: bool = False
    compact: bool = False
    language: str = "en"
    direction: str = "ltr"
    template_folder: Path | None = None
    digits: str = "0123456789"
    cache_folder: Path | None = None

    @property
    def classes(self) -> str:
        """The classes of the root element."""
        names = (
            ("large", self.large_print),
            ("compact", self.compact and not self.large_print),
            ("arabic", self.language.split("-")[0].lower() in _ARABIC_SCRIPT),
            ("chinese", self.language.split("-")[0].lower() in _CHINESE),
        )
        return " ".join(name for name, chosen in names if chosen)

    @property
    def plate(self) -> float:
        """The width that a drawing of up to two panels may have, in mm where the print is of 12 pt."""
        return self._plate(_BESIDE_STEPS)

    @property
    def wide_plate(self) -> float:
        """The same for a drawing of more panels."""
        return self._plate(_BESIDE_STEPS_WIDE)

    def _plate(self, beside: float) -> float:
        measure = _WIDTHS[self.paper] - 2 * _MARGIN
        if self.large_print:
            return measure * _USUAL_PRINT / _LARGE_PRINT
        return beside if self.compact else measure

    @property
    def enlarged(self) -> float:
        """How much larger a drawing is shown than it was made: smaller in compact print, beside its text."""
        return _COMPACT if self.compact and not self.large_print else 1.0

    @property
    def counters(self) -> str:
        """The CSS counter style that counts with these digits."""
        return _COUNTERS.get(self.digits[0], "decimal")

    def number(self, value: int) -> str:
        """A whole number in the digits of the text."""
        return str(value).translate({48 + i: digit for i, digit in enumerate(self.digits)})
