"""From a handout of phrases to a handout of words: the same blocks, every phrase a string of inline Markdown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

from protodsl.diagnostics import project as say
from protodsl.handout.blocks import Handout
from protodsl.handout.phrase import Phrase
from protodsl.localise.catalogue import catalogue, languages
from protodsl.localise.phrases import WRITERS, phrase
from protodsl.localise.voice import Voice
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Scope
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
    spoken = catalogue(language)
    if spoken is None:
        return Outcome(None, (say.no_such_language(language, languages()),))
    voice = Voice(spoken, scope, clinic.lengths, {} if translations is None else translations)
    words: Handout[str] = _worded(voice, handout)
    return Outcome(words)


def _worded(voice: Voice, node: Any) -> Any:
    """The same tree of blocks with its phrases put into words."""
    kind: Any = type(node)
    if kind in WRITERS:
        return phrase(voice, node)
    if kind is tuple:
        return tuple([_worded(voice, one) for one in node])
    names = _fields(kind)
    return kind(*[_worded(voice, getattr(node, name)) for name in names]) if names else node


@cache
def _fields(kind: type) -> tuple[str, ...]:
    """The fields of a block in the order of its constructor; none for a plain value."""
    return tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()
