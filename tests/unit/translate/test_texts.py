"""Everything a patient reads of what was written is found, under a key that no line number is part of."""

from __future__ import annotations

from pathlib import Path

import pytest

from protodsl.handout import Options, compose_clinician, compose_questions, compose_sheet
from protodsl.localise import speak
from protodsl.model.text import is_translated
from protodsl.translate.notes import notes_of
from protodsl.translate.texts import clinic_texts, texts_of
from tests.support import entry
from tests.unit.handout import samples
from tests.unit.handout.demo import PROTOCOLS, demo
from tests.unit.translate.conftest import ANKLE


def _keys(text: str) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for one in texts_of(entry(text), "input.protocol"):
        found.setdefault(one.key, []).append(one.forms[0])
    return found


def test_the_keys_of_a_file() -> None:
    """Made of names: kind, name and keyword; names themselves where they are read."""
    assert _keys(ANKLE) == {
        "question/dolor/question": ["¿Cuánto le duele, de 0 a 10?"],
        "question/dolor/means": ["su dolor"],
        "question/dolor/name": ["dolor"],
        "question/dolor en el pecho/question": ["¿Tiene dolor en el pecho?"],
        "question/dolor en el pecho/yes means": ["tiene dolor en el pecho"],
        "question/lugar/question": ["¿Dónde le duele?"],
        "question/lugar/answer": ["delante", "detrás"],
        "exercise/elevar los talones/title": ["Elevación de talones"],
        "exercise/elevar los talones/do": ["Suba despacio.", "Mantenga 2 segundos."],
        "exercise/elevar los talones/feel": ["la pantorrilla"],
        "exercise/elevar los talones/stop": ["un dolor agudo"],
        "exercise/elevar los talones/caution if": ["Apoye las dos manos."],
        "exercise/andar/title": ["Andar y correr"],
        "activity/andar/name": ["andar"],
        "activity/correr/name": ["correr"],
        "exercise/andar/do": ["Empiece despacio."],
        "exercise/andar/stop": ["un dolor agudo"],
        "protocol/tobillo/title": ["Después de un esguince"],
        "protocol/tobillo/for": ["adultos"],
    }


def test_moving_a_declaration_changes_no_key_and_no_text() -> None:
    head, *parts = ANKLE.split("\n\n")
    moved = "\n\n".join((*parts[:-1], head, parts[-1]))
    assert _keys(moved) == _keys(ANKLE)


def test_a_name_stands_for_a_title_that_was_not_written() -> None:
    text = ANKLE.replace("  title Elevación de talones\n", "")
    assert _keys(text)["exercise/elevar los talones/title"] == ["elevar los talones"]


def test_the_label_of_a_step_has_a_key() -> None:
    text = ANKLE + "\nprogression fuerza\n  level suave: elevar los talones\n  level andar\n"
    assert _keys(text)["level/suave/name"] == ["suave"]
    assert "level/andar/name" not in _keys(text)


def test_a_reference_is_not_translated() -> None:
    assert not any(key.endswith("/source") for key in _keys(ANKLE))


def test_the_clinics_words_have_keys() -> None:
    keys = [one.key for one in clinic_texts(samples.CLINIC, "clinic.toml", entry(ANKLE).protocols[0].span)]
    assert keys[:2] == ["clinic/emergency/text", "clinic/contact/text"]


def test_every_text_has_a_note_that_says_what_it_is() -> None:
    for one in texts_of(entry(ANKLE), "input.protocol"):
        first = notes_of(one)[0]
        assert len(first) > 10 and "{" not in first, (one.key, first)


@pytest.mark.parametrize("path", PROTOCOLS, ids=lambda path: path.stem)
def test_every_word_of_a_sheet_can_be_translated(path: Path) -> None:
    """All prose that any page of the demo's protocols asks for is extracted from some file: no page is out of reach."""
    sources, protocols = demo(path)
    clinic, options = samples.CLINIC, Options(sources=sources)
    for protocol in protocols:
        known = {one.id for file in sources for one in texts_of(protocol, file)}
        known |= {(prose.key, prose.text) for prose in clinic.proses()}
        for page in (
            compose_sheet(protocol, clinic, options),
            compose_questions(protocol, clinic, options),
            compose_clinician(protocol, clinic, (), options),
        ):
            spoken = speak(page, protocol.scope, clinic, "en", {}, "de").value
            assert spoken is not None and spoken.used
            assert [one for one in spoken.used if is_translated(one.key) and (one.key, one.text) not in known] == []
            assert all(one.key for one in spoken.used)


def test_no_demo_file_has_a_text_without_a_key() -> None:
    for path in PROTOCOLS:
        sources, protocols = demo(path)
        found = [one for protocol in protocols for file in sources for one in texts_of(protocol, file)]
        assert found and all("/" in one.key and one.forms[0].strip() for one in found)
