"""Prose that a patient reads, as data: what was written, where, and the key by which it is translated."""

from __future__ import annotations

from dataclasses import field

from protodsl.frozen import frozen
from protodsl.source import NOWHERE, Span


@frozen
class Prose:
    """One line of prose.

    `key` is made of names, never of lines (`exercise/heel raise both legs/do`), so moving a line changes no key.
    `text` holds emphasis (`*`, `**`) and placeholders `[NAME]` as written; `[affected side]` and `[other side]`
    are rendered by each language, every other placeholder is a setting.
    """

    text: str
    key: str = ""
    span: Span = field(default=NOWHERE, compare=False, repr=False)


SIDE_PLACEHOLDERS: tuple[str, ...] = ("affected side", "other side")
# In a translation alone: the same side after its preposition, for languages in which a noun changes there.
PLACED_SIDES: dict[str, str] = {f"on the {side}": side for side in SIDE_PLACEHOLDERS}

# Keywords whose lines stay as written in every language: a reference to the literature is found by its own words.
UNTRANSLATED: tuple[str, ...] = ("source", "figure")


def is_translated(key: str) -> bool:
    """Whether prose of this key has words of its own in every language."""
    return bool(key) and key.rpartition("/")[2] not in UNTRANSLATED
