"""Words for left and right and for units, by language, from one data file."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from typing import Any

from protodsl import resources
from protodsl.translate.tags import chain

# Units that are written alike in every language of the table.
_EVERYWHERE = ("g", "kg", "mm", "cm", "m", "km", "lb", "ft", "s", "min", "%")


def sides_in(text: str, language: str) -> tuple[str, ...] | None:
    """`left` and `right` in the order in which they are named; None where a language's words for them are not known."""
    words = _of(language).get("sides")
    if words is None:
        return None
    plain = _without(text.lower(), tuple(words.get("neither", ())))
    found = [
        (match.start(), side)
        for side in ("left", "right")
        for stem in words[side]
        for match in _pattern(stem).finditer(plain)
    ]
    # Two stems may fit one word.
    return tuple(side for _, side in sorted(set(found)))


@cache
def unit_words(language: str) -> Mapping[str, str]:
    """The unit that each word means, in small letters."""
    units: Mapping[str, list[str]] = _of(language).get("units", {})
    found = {unit: unit for unit in _EVERYWHERE} | {"٪": "%", "°": "deg"}
    return found | {word: unit for unit, words in units.items() for word in words}


@cache
def languages_with_sides() -> tuple[str, ...]:
    """The languages whose words for left and right are known."""
    return tuple(sorted(tag for tag, words in _table().items() if "sides" in words))


def _of(language: str) -> Mapping[str, Any]:
    return next((_table()[tag] for tag in chain(language) if tag in _table()), {})


@cache
def _table() -> Mapping[str, Any]:
    return tomllib.loads(resources.text("protodsl.translate", "words.toml"))


def _without(text: str, phrases: tuple[str, ...]) -> str:
    """The text without phrases that hold a word for a side and mean none: `right away`."""
    for phrase in phrases:
        text = _pattern(f"{phrase}=").sub(" ", text)
    return text


@cache
def _pattern(stem: str) -> re.Pattern[str]:
    """A word that begins with the stem; is it, with `=` behind; a star in front lets it stand inside a word."""
    inner, whole = stem.startswith("*"), stem.endswith("=")
    word = re.escape(stem.strip("*="))
    return re.compile(("" if inner else r"(?<!\w)") + word + (r"(?!\w)" if whole and not inner else ""))
