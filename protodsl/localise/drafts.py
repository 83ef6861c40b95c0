"""A page that may not be given to a patient yet, and the same words in two columns for whoever reviews them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import cache
from typing import Any

from protodsl.diagnostics import project as say
from protodsl.handout.blocks import Block, Footer, Handout, Item, Masthead, Pairs, Paragraphs, Section
from protodsl.handout.phrase import Phrase
from protodsl.localise import escape
from protodsl.localise.catalogue import SOURCE_LANGUAGE, Catalogue, catalogue, languages
from protodsl.localise.localise import Spoken
from protodsl.localise.phrases import WRITERS, phrase
from protodsl.localise.voice import Voice
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Scope
from protodsl.outcome import Outcome

_FSI, _PDI = "\N{FIRST STRONG ISOLATE}", "\N{POP DIRECTIONAL ISOLATE}"


def as_draft(
    page: Handout[str], page_language: str, language: str, written_in: str, product: Catalogue | None = None
) -> Handout[str]:
    """The page with a note over everything else, and a line for the head of every page, in both languages."""
    spoken = tuple(one for one in (product or catalogue(language), _spoken(written_in)) if one is not None)
    said = {_note(one): one for one in reversed(spoken)}
    notes = [
        Item(_in(one, page_language, text), f"draft/{at}") for at, (text, one) in enumerate(reversed(said.items()), 1)
    ]
    # Isolated, so that a line of the one direction keeps its order in a page of the other.
    lines = tuple(f"{_FSI}{text}{_PDI}" for text in dict.fromkeys(one.say("draft.page") for one in spoken))
    note: Section[str] = Section("draft", None, (Paragraphs(tuple(notes)),))
    return replace(page, sections=(note, *page.sections), draft=lines)


def beside(
    handout: Handout[Phrase],
    scope: Scope,
    clinic: Clinic,
    language: str,
    translations: Mapping[tuple[str, str], str],
    written_in: str,
    product: Catalogue | None = None,
) -> Outcome[Spoken]:
    """Every phrase of a handout in the order of the page, as it was written beside how it is translated."""
    own, other = _spoken(written_in), product or catalogue(language)
    if own is None or other is None:
        return Outcome(None, (say.no_such_language(language, languages()),))
    voices = (
        Voice(own, scope, clinic.lengths),
        Voice(other, scope, clinic.lengths, translations, written_in=written_in),
    )
    around = _section(voices, "beside", own.say("beside.whole"), (handout.masthead, handout.footer))
    sections = [
        _section(voices, section.id, phrase(voices[0], section.head) if section.head else "", section)
        for section in handout.sections
    ]
    titles = tuple(phrase(voice, handout.title) for voice in voices)
    page = Handout(
        "beside",
        titles[0],
        Masthead(phrase(voices[0], handout.masthead.clinic), "", titles[0], (_in(other, written_in, titles[1]),)),
        tuple(section for section in (around, *sections) if section is not None),
        Footer((titles[0],), "", own.say("footer.page", {"page": "{page}", "pages": "{pages}"})),
        handout.digest,
    )
    return Outcome(Spoken(page, tuple(voices[1].used)))


def _section(voices: tuple[Voice, Voice], name: str, head: str, node: object) -> Section[str] | None:
    """The pairs of a part, each once; None where there is no word in it."""
    pairs = dict.fromkeys((phrase(voices[0], one), phrase(voices[1], one)) for one in _phrases(node))
    worded = tuple(pair for pair in pairs if any(sign.isalpha() for sign in pair[0] + pair[1]))
    if not worded:
        return None
    own, other = (voice.catalogue for voice in voices)
    block: Block[str] = Pairs(
        (own.say("beside.text"), other.say("beside.translation")),
        worded,
        (own.language, other.language),
        (own.direction, other.direction),
    )
    return Section(f"beside-{name}", head or own.say("beside.part"), (block,))


def _phrases(node: Any) -> Iterator[Phrase]:
    """Every phrase of a part in the order of its fields, as the templates print them."""
    kind: Any = type(node)
    if kind in WRITERS:
        yield node
    elif kind is tuple:
        for one in node:
            yield from _phrases(one)
    else:
        for name in _fields(kind):
            yield from _phrases(getattr(node, name))


@cache
def _fields(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()


def _note(spoken: Catalogue) -> str:
    """What a draft is, and what its underlined words are."""
    return spoken.say("list.sentences", {"first": spoken.say("draft.note"), "second": spoken.say("draft.missing")})


def _in(spoken: Catalogue, page: str, text: str) -> str:
    """A text marked with its language where the page is in another."""
    language = SOURCE_LANGUAGE if "draft.note" in spoken.missing else spoken.language
    return text if language == page else escape.in_language(text, language, False)


def _spoken(language: str) -> Catalogue | None:
    """The product's words in the language that the clinic writes in; in its source language where there are none."""
    return catalogue(language) or catalogue(SOURCE_LANGUAGE)
