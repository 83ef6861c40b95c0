"""The product's own words in one language: messages by key, with placeholders and plural forms.

A catalogue is a gettext PO file; `msgctxt` is the key of the message, `msgid` its English. A placeholder `{name}` takes
a value, `{Name}` the same value with its first letter raised. Plural forms stand in the order of the CLDR categories
(zero, one, two, few, many, other) that the language has; the header `Plural-Forms` says how many they are.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from io import BytesIO

from babel import Locale, UnknownLocaleError
from babel.messages.catalog import Message as Entry
from babel.messages.pofile import read_po

from protodsl import resources
from protodsl.localise.escape import MARK_END
from protodsl.units import plain

SOURCE_LANGUAGE = "en"
_CATEGORIES = ("zero", "one", "two", "few", "many", "other")
_SLOT = re.compile(r"\{(\w+)\}")
# Where a value already ends its sentence, the full stop of the message around it is not printed again.
_ENDS = tuple(".!?…:。！？؟۔")
_STOPS = tuple(".。۔")


@dataclass(frozen=True, slots=True)
class Pattern:
    """One form of a message: literal text at even places, names of placeholders at odd places."""

    pieces: tuple[str, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """The placeholders, in lower case, in the order of the language."""
        return tuple(_lower_first(name) for name in self.pieces[1::2])

    def fill(self, values: Mapping[str, str]) -> str:
        """The text with its values; KeyError where a value is missing."""
        text = ""
        for at, piece in enumerate(self.pieces):
            if at % 2 == 0:
                text += piece[1:] if piece.startswith(_STOPS) and _is_ended(text) else piece
            elif piece[:1].isupper():
                text += raised(values[_lower_first(piece)])
            else:
                text += values[piece]
        return text


@dataclass(frozen=True, slots=True)
class Catalogue:
    """The messages of a language and the locale of its numbers, dates and lists.

    `missing` are keys that have no words in the language; the source language's stand in their place.
    """

    language: str
    locale: Locale
    messages: Mapping[str, tuple[Pattern, ...]]
    missing: frozenset[str] = frozenset()

    def say(self, key: str, values: Mapping[str, str] | None = None, count: Decimal | None = None) -> str:
        """The message, in the plural form for `count`; KeyError for an unknown key."""
        forms = self.messages[key]
        at = 0 if count is None else min(self._form(count), len(forms) - 1)
        return forms[at].fill(values or {})

    def has(self, key: str) -> bool:
        """Whether the catalogue holds the key."""
        return key in self.messages

    @property
    def direction(self) -> str:
        """`ltr` or `rtl`."""
        return self.locale.text_direction

    def _form(self, count: Decimal) -> int:
        wanted = self.locale.plural_form(Decimal(plain(abs(count))))
        tags = self.locale.plural_form.tags | {"other"}
        return [name for name in _CATEGORIES if name in tags].index(wanted)


@cache
def catalogue(language: str) -> Catalogue | None:
    """The shipped catalogue of a language (a BCP 47 tag; `es-MX` finds `es`), or None where there is none."""
    tag = language.replace("_", "-")
    while tag:
        file = resources.path("protodsl.localise", f"messages/{tag}.po")
        if file.is_file():
            return _completed(read(tag, file.read_bytes()))
        tag = tag.rpartition("-")[0]
    return None


def read(language: str, po: bytes) -> Catalogue:
    """A catalogue from a PO file; its header `Language` names the locale, the source language leaves `msgstr` empty."""
    parsed = read_po(BytesIO(po))
    locale = Locale.parse(str(parsed.locale or language).replace("-", "_"))
    messages = {str(entry.context): _forms(entry, language) for entry in parsed if entry.context}
    return Catalogue(language, locale, {key: forms for key, forms in messages.items() if forms})


def _completed(own: Catalogue) -> Catalogue:
    """The catalogue with the source language's words for those it lacks; no sheet but a draft is made with them."""
    if own.language == SOURCE_LANGUAGE:
        return own
    source = catalogue(SOURCE_LANGUAGE)
    assert source is not None
    missing = frozenset(source.messages) - frozenset(own.messages)
    return replace(own, messages={**source.messages, **own.messages}, missing=missing) if missing else own


def laid_over(language: str, words: Mapping[str, Sequence[str]]) -> Catalogue | None:
    """The shipped catalogue with other words, by key and plural form, in place of its own.

    Of a language that is not shipped it holds these words alone, over the source language's; None for no language.
    """
    base = catalogue(language) or _without_words(language)
    if base is None or not words:
        return base
    own = {key: tuple(Pattern(tuple(_SLOT.split(form))) for form in forms) for key, forms in words.items()}
    return replace(base, messages={**base.messages, **own}, missing=base.missing - frozenset(own))


def _without_words(language: str) -> Catalogue | None:
    """A language of which there are no words at all; None where it is none."""
    source, locale = catalogue(SOURCE_LANGUAGE), _locale(language)
    if source is None or locale is None:
        return None
    return Catalogue(language, locale, source.messages, frozenset(source.messages))


def _locale(language: str) -> Locale | None:
    """What CLDR knows of a tag, or of the same without its last parts."""
    try:
        return Locale.parse(language.replace("-", "_"))
    except (UnknownLocaleError, ValueError):
        shorter = language.rpartition("-")[0]
        return _locale(shorter) if shorter else None


def raised(text: str) -> str:
    """The text with its first letter raised, behind quotes and marks of emphasis; a digit or sign first stays."""
    for at, sign in enumerate(text):
        if sign.isalnum():
            return text[:at] + sign.upper() + text[at + 1 :]
        if sign not in "*“‘«„\"'([\\":
            break
    return text


def _forms(entry: Entry, language: str) -> tuple[Pattern, ...]:
    """The plural forms of an entry, one where it has none; nothing where it is not translated, or for another text."""
    source = entry.id if isinstance(entry.id, (tuple, list)) else (entry.id,)
    target = entry.string if isinstance(entry.string, (tuple, list)) else (entry.string,)
    if not all(target) or entry.fuzzy:
        if language != SOURCE_LANGUAGE:
            return ()
        target = source
    return tuple(Pattern(tuple(_SLOT.split(str(form)))) for form in target)


def _is_ended(text: str) -> bool:
    """Whether a text ends its sentence, whatever marks stand around its end."""
    return MARK_END.sub("", text).rstrip("*").endswith(_ENDS)


def _lower_first(name: str) -> str:
    return name[:1].lower() + name[1:]


def direction(language: str) -> str:
    """`ltr` or `rtl`; `ltr` for what is no language."""
    spoken = catalogue(language)
    locale = spoken.locale if spoken else _locale(language)
    return str(locale.text_direction) if locale else "ltr"


def languages() -> tuple[str, ...]:
    """The languages that are shipped, as BCP 47 tags, sorted."""
    return tuple(sorted(file.stem for file in resources.path("protodsl.localise", "messages").glob("*.po")))
