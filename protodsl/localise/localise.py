"""From a handout of phrases to a handout of words: the same blocks, every phrase a string of inline Markdown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from functools import cache
from typing import Any

from protodsl.diagnostics import project as say
from protodsl.handout.blocks import Handout
from protodsl.handout.phrase import Phrase
from protodsl.localise.catalogue import Catalogue, catalogue, languages
from protodsl.localise.phrases import WRITERS, phrase
from protodsl.localise.remembered import Remembered, remembered
from protodsl.localise.voice import Voice
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Scope
from protodsl.model.text import Prose
from protodsl.outcome import Outcome


def localise(
    handout: Handout[Phrase],
    scope: Scope,
    clinic: Clinic,
    language: str,
    translations: Mapping[tuple[str, str], str] | None = None,
) -> Outcome[Handout[str]]:
    """The handout in a language (a BCP 47 tag); no value and a diagnostic where the product does not speak it.

    `translations` hold authored prose by its key and its text; what is not in it stays as it was written.
    """
    made = speak(handout, scope, clinic, language, {} if translations is None else translations)
    return Outcome(made.value.page if made.value else None, made.diagnostics)


@dataclass(frozen=True, slots=True)
class Spoken:
    """A handout in words, and the authored prose it took from the translations, or would have, in the order of need."""

    page: Handout[str]
    used: tuple[Prose, ...] = ()


def speak(
    handout: Handout[Phrase],
    scope: Scope,
    clinic: Clinic,
    language: str,
    translations: Mapping[tuple[str, str], str],
    written_in: str = "",
    product: Catalogue | None = None,
) -> Outcome[Spoken]:
    """The handout in a language, of prose that was `written_in` another ("": in the same).

    `product` are the product's own words, where they are not those that are shipped.

    What there are no words for stands in the language it was written in, marked; whether such a page may be given to
    anybody is not decided here.
    """
    spoken = product or catalogue(language)
    if spoken is None:
        return Outcome(None, (say.no_such_language(language, languages()),))
    voice = Voice(spoken, scope, clinic.lengths, translations, written_in=written_in)
    words: Handout[str] = _worded(voice, remembered(voice), handout)
    return Outcome(Spoken(words, tuple(voice.used)))


def _worded(voice: Voice, known: Remembered | None, node: Any) -> Any:
    """The same tree of blocks with its phrases put into words."""
    kind: Any = type(node)
    if kind in WRITERS:
        return phrase(voice, node) if known is None else known.words(voice, node)
    if kind is tuple:
        return tuple([_worded(voice, known, one) for one in node])
    names = _fields(kind)
    return kind(*[_worded(voice, known, getattr(node, name)) for name in names]) if names else node


@cache
def _fields(kind: type) -> tuple[str, ...]:
    """The fields of a block in the order of its constructor; none for a plain value."""
    return tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()
