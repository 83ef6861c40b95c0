"""What the tokens of a line are worth: names, numbers, dates and prose."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from protodsl.diagnostics import lines as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.syntax import tree
from protodsl.syntax.unseen import blanked

if TYPE_CHECKING:
    from protodsl.syntax.parser import Parser


class Mistake(Exception):
    """The parser cannot go on at `at`; `token` is the terminal it met there, or -1 where it knows none."""

    def __init__(self, at: int, token: int = -1, diagnostic: Diagnostic | None = None) -> None:
        super().__init__(at, token)
        self.at = at
        self.token = token
        self.diagnostic = diagnostic


# One character to one character, so that every offset stays true: what a word processor made of plain text.
_SIGNS = {
    "\t": " ", "\r": " ", "\u00a0": " ", "\u2007": " ", "\u2009": " ", "\u202f": " ", "\u3000": " ", "\ufeff": " ",
    "\u2018": "'", "\u2019": "'", "\u02bc": "'", "\u2010": "-", "\u2011": "-", "\u2212": "-",
}  # fmt: skip
_ANY_SIGN = re.compile(f"[{''.join(_SIGNS)}]")
_PLAIN = str.maketrans(_SIGNS)
MOST_DIGITS = 15
MOST_BRACKETS = 10
_BLANKS = re.compile(" {2,}")


def plain(text: str) -> str:
    """The text with the same length in the signs that the grammar knows."""
    return blanked(text.translate(_PLAIN) if _ANY_SIGN.search(text) else text)


def name(p: Parser, start: int, end: int) -> tree.Name:
    """A name in NFC, with one blank between its words."""
    words = p.plain[start:end]
    if "  " in words:
        words = _BLANKS.sub(" ", words)
    if not words.isascii():
        words = unicodedata.normalize("NFC", words)
    return tree.Name(words, span=p.span(start, end))


def words(p: Parser, start: int, end: int) -> tree.Words:
    """Prose as it was written."""
    text = p.source.text[start:end].rstrip()
    return tree.Words(text, span=p.span(start, start + len(text)))


def path(p: Parser, start: int, end: int) -> tree.Words:
    """A path as it was written."""
    return tree.Words(p.source.text[start:end], span=p.span(start, end))


def number(p: Parser, start: int, end: int) -> Decimal:
    """A number, exactly as written; a Mistake where it has more digits than anything a clinician counts."""
    if end - start > MOST_DIGITS:
        raise Mistake(start, diagnostic=say.long_number(p.span(start, end)))
    return Decimal(p.plain[start:end])


def day(p: Parser, start: int, end: int) -> date:
    """A date of the calendar; a Mistake where the calendar has no such day."""
    written = p.plain[start:end]
    try:
        return date.fromisoformat(written)
    except ValueError:
        raise Mistake(start, diagnostic=say.no_such_date(p.span(start, end), written)) from None


def maximum(p: Parser, start: int, end: int) -> int:
    """The 8 of 8RM."""
    return int(number(p, start, end - 2))


def opened(p: Parser, start: int, end: int) -> None:
    """A bracket opens; a Mistake where too many are open, since nobody could read that, programs included."""
    p.brackets += 1
    if p.brackets > MOST_BRACKETS:
        raise Mistake(start, diagnostic=say.many_brackets(p.span(start, end), MOST_BRACKETS))


def closed(p: Parser, start: int, end: int) -> None:
    """A bracket closes."""
    p.brackets -= 1


def comparison(p: Parser, start: int, end: int) -> str:
    """A sign of comparison in its plain form."""
    return {"≥": ">=", "≤": "<="}.get(p.plain[start:end], p.plain[start:end])


def written(p: Parser, start: int, end: int) -> str:
    """The token itself."""
    return p.plain[start:end]


MAKERS: dict[str, Callable[[Parser, int, int], Any]] = {
    "NAME": name,
    "LPAR": opened,
    "RPAR": closed,
    "SCORED": name,
    "LEVEL_NAME": name,
    "CASE_ID": name,
    "PROSE": words,
    "SENTENCE": words,
    "BODY": name,
    "STANCE": name,
    "MEASURE": written,
    "ON_SIDE": written,
    "TOWARDS": written,
    "STRAIGHT": written,
    "PATH": path,
    "NUMBER": number,
    "DATE": day,
    "RM": maximum,
    "COMPARISON": comparison,
    "UNIT": written,
    "SIGN": written,
    "VERSION_NUMBER": written,
    "LANGUAGE_TAG": written,
}
