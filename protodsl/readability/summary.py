"""How hard a sheet is to read, in a few numbers."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from protodsl.readability.levels import Level


@dataclass(frozen=True, slots=True)
class Summary:
    """The value by the language's first formula (None: it has none), and how many sentences are long.

    `most` is the limit of a sentence (None: there is none), `mean` its mean length: in words, or where the script puts
    no blanks between them (`in_words` is False) in characters.
    """

    level: Level | None
    sentences: int
    long: int
    most: int | None
    mean: Decimal
    in_words: bool = True
