"""A catalogue as data: the authored prose of one file, or the product's own words, in one language."""

from __future__ import annotations

from dataclasses import dataclass, field
from unicodedata import category

from protodsl.source import NOWHERE, Span
from protodsl.translate.review import Review, digest


@dataclass(frozen=True, slots=True)
class Entry:
    """One string: `key` is its msgctxt, `source` its msgid (and plural), `target` its forms in CLDR order.

    `notes` are the extractor's comments, `comments` the translator's own, `places` the files it stands in; `previous`
    is the text that the translation was made for, where that has changed.
    """

    key: str
    source: tuple[str, ...]
    target: tuple[str, ...] = ()
    fuzzy: bool = False
    previous: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    comments: tuple[str, ...] = ()
    review: Review | None = None
    places: tuple[str, ...] = ()
    flags: tuple[str, ...] = ()
    span: Span = field(default=NOWHERE, compare=False)

    @property
    def id(self) -> tuple[str, str]:
        """What makes it one entry: its key and its text."""
        return self.key, self.source[0]

    @property
    def is_translated(self) -> bool:
        """Whether every form has words, made for this very text; blanks and signs that nobody sees are none."""
        return bool(self.target) and all(_says(form, self.source[0]) for form in self.target) and not self.fuzzy

    @property
    def is_reviewed(self) -> bool:
        """Whether somebody has read these very words against this very text."""
        mark = self.review
        return self.is_translated and mark is not None and mark.digest == digest(self.key, self.source, self.target)


@dataclass(frozen=True, slots=True)
class Catalogue:
    """A PO file: its headers in order, its entries, and those whose text is gone."""

    path: str
    language: str
    headers: tuple[tuple[str, str], ...] = ()
    entries: tuple[Entry, ...] = ()
    obsolete: tuple[Entry, ...] = ()
    head: tuple[str, ...] = ()


def _says(form: str, source: str) -> bool:
    """Whether a form holds a letter, a number or a symbol, where the text does."""
    return bool(form) and (_has_sign(form) or not _has_sign(source))


def _has_sign(text: str) -> bool:
    return any(category(sign)[0] in "LNS" for sign in text)
