"""A handout of phrases becomes the same handout in words; a language that is not spoken makes none."""

from __future__ import annotations

from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from protodsl.handout import Options, compose_clinician, compose_sheet
from protodsl.handout.person.dates import dated
from protodsl.handout.phrase import Day, InWords, Listed, Literal, Measure, Message, Number, Phrase, Weekday, Written
from protodsl.localise import languages, localise
from protodsl.localise.catalogue import catalogue
from protodsl.localise.phrases import WRITERS, phrase
from protodsl.localise.voice import Voice
from protodsl.model.text import Prose
from protodsl.units import UNITS, Quantity
from tests.unit.handout import samples
from tests.unit.localise.written import english, with_calls


def _kinds(node: Any) -> Any:
    """The tree of blocks with every phrase or string turned into one mark."""
    if isinstance(node, (str, *WRITERS)):
        return "words"
    if isinstance(node, tuple):
        return tuple(_kinds(one) for one in node)
    if is_dataclass(node) and not isinstance(node, type):
        return type(node).__name__, tuple(_kinds(getattr(node, field.name)) for field in fields(node))
    return node


def test_the_blocks_stay_as_they_are() -> None:
    """Only phrases change; no block is lost, added or moved, and no phrase is left."""
    protocol = samples.protocol()
    for page in (
        compose_sheet(protocol, samples.CLINIC, Options()),
        compose_clinician(protocol, samples.CLINIC, (), Options()),
    ):
        words = localise(page, protocol.scope, samples.CLINIC, "en")
        assert words.value is not None and words.diagnostics == ()
        assert _kinds(words.value) == _kinds(page)
        assert not any(name.__name__ + "(" in str(words.value) for name in WRITERS)


def test_a_language_that_is_not_spoken() -> None:
    """No words are made up and none are taken from another language."""
    protocol = samples.protocol()
    page = compose_sheet(protocol, samples.CLINIC, Options())
    words = localise(page, protocol.scope, samples.CLINIC, "tlh")
    assert words.value is None
    (said,) = words.diagnostics
    assert said.code.id == "P920"
    assert said.message == "there are no words in the language `tlh`"
    assert ", ".join(languages()) in said.notes[0]


def test_prose_keeps_its_emphasis_and_nothing_else() -> None:
    """`*` and `**` are the author's; any other sign of Markdown stands for itself."""
    protocol = with_calls("chest pain")
    assert english(protocol, Written(Prose("press **hard** & _slowly_ <b> `x` \\"))) == (
        "press **hard** \\& \\_slowly\\_ \\<b> \\`x\\` \\\\"
    )
    assert english(protocol, Literal("a*b_[c]")) == "a\\*b\\_\\[c\\]"


def test_placeholders_in_prose() -> None:
    """Settings with their unit, sides by name where they are known; what is no placeholder stays in its brackets."""
    protocol = with_calls("chest pain")
    prose = Prose("Wear it for [weeks in brace] on your [affected side], not the [other side]. [odd]")
    assert english(protocol, Written(prose)) == (
        "Wear it for 2 weeks on your affected side, not the other side. \\[odd\\]"
    )
    assert english(protocol, Written(prose, "left")).startswith("Wear it for 2 weeks on your left side, not the right")


def test_a_side_after_its_preposition() -> None:
    """German `Seite` takes an ending after `auf der`: a translation asks for the words whole (common grammar)."""
    protocol, german = with_calls("chest pain"), catalogue("de")
    assert german is not None
    prose = Prose("Lift the foot of your [affected side].", "exercise/a/do")
    said = {(prose.key, prose.text): "Heben Sie den Fuß [on the affected side]."}
    voice = Voice(german, protocol.scope, translations=said)
    assert phrase(voice, Written(prose)) == "Heben Sie den Fuß auf der betroffenen Seite."
    assert phrase(voice, Written(prose, "left")) == "Heben Sie den Fuß auf der linken Seite."


def test_a_day_of_the_week_is_small_within_words() -> None:
    """Spanish writes the days of the week small (RAE, Ortografía, 2010; from memory); a head is raised."""
    protocol, spanish = with_calls("chest pain"), catalogue("es")
    assert spanish is not None
    voice, day = Voice(spanish, protocol.scope), date(2026, 12, 7)
    assert phrase(voice, Weekday(0)) == "Lunes"
    assert phrase(voice, Listed((Weekday(0), Weekday(2)))) == "lunes y miércoles"
    said = Message("person.visit", {"date": dated(day)})
    assert phrase(voice, said) == "Próxima visita: lunes, 7 de diciembre de 2026."


def test_a_danger_sign_as_a_sentence() -> None:
    """A German clause ends in its verb and needs its conjunction in the frame; below `wenn` it has it already."""
    protocol, german = with_calls("chest pain"), catalogue("de")
    assert german is not None
    voice = Voice(german, protocol.scope)
    clause = phrase(voice, Message("line", {"text": InWords(protocol.calls[0].condition)}))
    sign = phrase(voice, Message("stop.sign", {"text": InWords(protocol.calls[0].condition)}))
    assert sign == f"Wenn {clause[:1].lower()}{clause[1:]}"


def test_translated_prose_takes_the_place_of_what_was_written() -> None:
    """Prose is found by its key and its text together: after a change of the text the translation no longer holds."""
    protocol = samples.protocol()
    page = compose_sheet(protocol, samples.CLINIC, Options())
    title = protocol.title
    done = localise(page, protocol.scope, samples.CLINIC, "en", {(title.key, title.text): "Nach der Verletzung"})
    old = localise(page, protocol.scope, samples.CLINIC, "en", {(title.key, "Older words"): "Nach der Verletzung"})
    assert done.value is not None and done.value.title == "Nach der Verletzung"
    assert old.value is not None and old.value.title == title.text


def test_small_phrases() -> None:
    """Numbers, ranges, dates, days and lists."""
    protocol = with_calls("chest pain")
    phrases: tuple[tuple[Phrase, str], ...] = (
        (Number(Decimal("2.5")), "2.5"),
        (Number(Decimal(3), Decimal(4)), "3 to 4"),
        (Measure(Quantity(Decimal(30), UNITS["s"])), "30 seconds"),
        (Day(date(2026, 10, 5)), "5 October 2026"),
        (Weekday(6), "Sunday"),
        (Listed((Literal("a"), Literal("b"), Literal("c"))), "a, b and c"),
        (Listed((Literal("a"), Literal("b")), by="or"), "a or b"),
        (Listed((Literal("A."), Literal("B.")), by="sentences"), "A. B."),
        (Listed((Literal("a"), Literal("b")), by="comma"), "a, b"),
        (Listed((Literal("a"), Literal("b")), by="then"), "a, then b"),
    )
    for one, words in phrases:
        assert english(protocol, one) == words
