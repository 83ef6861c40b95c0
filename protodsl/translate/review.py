"""Who has read a translation, and of which very words: a mark that ends when the text or the translation changes.

The mark is a translator's comment, which every PO editor keeps:

    # reviewed 2026-10-05 by physiotherapist, native speaker
    # reviewed-words 3f9a1c2b7d04
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

_BY = re.compile(r"reviewed (\d{4}-\d\d-\d\d) by (.+)")
_WORDS = re.compile(r"reviewed-words ([0-9a-f]{12})")
_DIGITS = 12


@dataclass(frozen=True, slots=True)
class Review:
    """When, by whom (a role, no name), and the digest of the words that were read."""

    on: date
    by: str
    digest: str


def digest(key: str, source: Iterable[str], target: Iterable[str]) -> str:
    """The first 48 bits of a SHA-256 over key, text and translation, each form with its length before it."""
    state = hashlib.sha256()
    for part in (key, "", *source, "", *target):
        data = part.encode()
        state.update(len(data).to_bytes(8, "big"))
        state.update(data)
    return state.hexdigest()[:_DIGITS]


def read_mark(comments: Iterable[str]) -> tuple[Review | None, tuple[str, ...]]:
    """The mark among a translator's comments, None where there is no whole one, and the other comments."""
    by: re.Match[str] | None = None
    words = ""
    others: list[str] = []
    for comment in comments:
        if found := _BY.fullmatch(comment):
            by = found
        elif found := _WORDS.fullmatch(comment):
            words = found[1]
        else:
            others.append(comment)
    on = _date(by[1]) if by else None
    return (Review(on, by[2], words) if by and on and words else None), tuple(others)


def mark_lines(review: Review) -> tuple[str, str]:
    """The mark as comments."""
    return f"reviewed {review.on.isoformat()} by {review.by}", f"reviewed-words {review.digest}"


def _date(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None
