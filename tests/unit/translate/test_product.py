"""A clinic reviews the product's own words in its own project, and that opens the gate for sheets in the language."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from protodsl.localise.catalogue import catalogue, laid_over
from protodsl.translate.entries import Catalogue, Entry
from protodsl.translate.overlay import brought_up_to_date, laid
from protodsl.translate.product import product_catalogue, product_texts
from tests.unit.cli.conftest import Cli
from tests.unit.translate.catalogues import fill, filled_entry, load, save
from tests.unit.translate.conftest import CASE
from tests.unit.translate.test_sheets import root, words

WORDS = "translations/es/protodsl.po"
PROSE = ("translations/es/tobillo.po", "translations/es/clinic.toml.po")
BUILD = ("build", "--language", "es", "--no-clinician", "--to", "html")
REVIEW = ("--by", "physiotherapist, native speaker", "--on", "2026-10-05")


@pytest.fixture
def english(project: Path) -> Path:
    """The project as one whose own language is English and that prints in Spanish, too."""
    clinic = project / "clinic.toml"
    clinic.write_text(clinic.read_text("utf-8").replace('"es", "en"', '"en", "es"'), encoding="utf-8")
    return project


@pytest.fixture
def reviewed(cli: Cli, english: Path) -> Path:
    """Prose and product words extracted, translated and reviewed."""
    assert cli("translate", "extract", "--product", "--language", "es").status == 0
    complete(english / WORDS, "es")
    for name in PROSE:
        fill(english / name, "es")
    result = cli("translate", "review", WORDS, *PROSE, *REVIEW)
    assert result.status == 0, result.err
    return english


def complete(path: Path, language: str) -> None:
    """Translate what the shipped catalogue has no words for yet."""
    held = load(path, language)
    entries = tuple(one if one.is_translated else filled_entry(one, language) for one in held.entries)
    save(path, replace(held, entries=entries))


def edit(path: Path, key: str, **change: object) -> None:
    """Change one entry as a PO editor would, which knows nothing of reviews."""
    held = load(path, "es")
    assert any(one.key == key for one in held.entries)
    entries = tuple(replace(one, **change) if one.key == key else one for one in held.entries)  # type: ignore[arg-type]
    save(path, replace(held, entries=entries))


def test_the_shipped_words_come_into_the_project(cli: Cli, english: Path) -> None:
    """Every message, with the words that are shipped, nothing fuzzy, nothing reviewed."""
    result = cli("translate", "extract", "--product", "--language", "es")
    assert (result.status, result.err) == (0, "")
    total = len(product_texts())
    made = load(english / WORDS, "es")
    shipped = product_catalogue("es")
    assert shipped is not None and shipped.value is not None
    there = {one.id: one.target for one in shipped.value.entries if one.is_translated}
    assert {one.id: one.target for one in made.entries if one.is_translated} == there and len(there) > 900
    assert f"{WORDS}: {total} strings, {len(there)} translated, 0 reviewed" in result.out
    again = cli("translate", "update")
    assert f"{WORDS}: {total} strings, {len(there)} translated, 0 reviewed, unchanged" in again.out


def test_reviewed_words_and_prose_make_a_sheet_that_is_no_draft(cli: Cli, reviewed: Path) -> None:
    result = cli(*BUILD)
    assert (result.status, result.err, result.out.splitlines()) == (0, "", ["handouts/tobillo.es.html"])
    page = root(reviewed / "handouts/tobillo.es.html")
    spoken = catalogue("es")
    assert spoken is not None and page.get("lang") == "es"
    assert spoken.say("stop.head") in words(page)
    assert spoken.say("draft.page") not in words(page) and spoken.say("draft.note") not in words(page)
    total = len(product_texts())
    rows = {line.split()[0]: line.split()[1:] for line in cli("translate", "status").out.splitlines()[1:]}
    assert rows[WORDS] == [str(total), "0", "0", "0", str(total)]


@pytest.mark.parametrize("change", ["other words", "no review", "fuzzy", "gone"])
def test_one_message_changed_closes_the_gate_again(cli: Cli, reviewed: Path, change: str) -> None:
    path = reviewed / WORDS
    if change == "other words":
        edit(path, "stop.head", target=("Alto ahí",))
    elif change == "no review":
        edit(path, "stop.head", review=None)
    elif change == "fuzzy":
        edit(path, "stop.head", fuzzy=True)
    else:
        held = load(path, "es")
        save(path, replace(held, entries=tuple(one for one in held.entries if one.key != "stop.head")))
    result = cli(*BUILD)
    assert (result.status, result.out) == (1, "") and "G104" in result.err
    # What is not to be taken from the clinic's own is taken as it is shipped, and nobody has reviewed that.
    assert "1 of the product's own words not reviewed" in result.err
    assert "G103" in cli("check").out
    cli("translate", "update")
    if change == "fuzzy":
        edit(path, "stop.head", fuzzy=False)
    assert cli("translate", "review", WORDS, *REVIEW).status == 0
    assert cli(*BUILD).status == 0


def test_the_clinics_words_are_printed(cli: Cli, reviewed: Path) -> None:
    edit(reviewed / WORDS, "stop.head", target=("Alto ahí",))
    cli("translate", "review", WORDS, *REVIEW)
    assert cli(*BUILD).status == 0
    assert "Alto ahí" in words(root(reviewed / "handouts/tobillo.es.html"))


def test_a_draft_shows_the_clinics_words_before_they_are_reviewed(cli: Cli, reviewed: Path) -> None:
    edit(reviewed / WORDS, "stop.head", target=("Alto ahí",))
    assert cli(*BUILD, "--draft").status == 0
    assert "Alto ahí" in words(root(reviewed / "handouts/tobillo.es-draft.html"))


def test_a_case_and_its_data_speak_the_clinics_words(cli: Cli, reviewed: Path) -> None:
    """Pages and formats made of data alike; and the pages are made again when the words have changed."""
    edit(reviewed / WORDS, "calendar.visit", target=("Cita aquí: {clinic}",))
    visit = CASE.replace("language en", "language es") + "  next visit 2026-11-16\n"
    (reviewed / "cases/P-0417.case").write_text(visit, encoding="utf-8")
    cli("translate", "review", WORDS, *REVIEW)
    made = cli("build", "cases", "--no-clinician", "--to", "html,ics")
    assert made.status == 0, made.err
    assert "Cita aquí" in (reviewed / "handouts/P-0417.ics").read_text("utf-8")
    page = reviewed / "handouts/P-0417.html"
    before = page.read_bytes()
    edit(reviewed / WORDS, "stop.head", target=("Alto ahí",))
    cli("translate", "review", WORDS, *REVIEW)
    assert cli("build", "cases", "--no-clinician", "--to", "html").status == 0
    assert page.read_bytes() != before and "Alto ahí" in words(root(page))


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('msgid ""\nmsgstr ""', "msgid \nmsgstr", "G120"),
        ("charset=UTF-8", "charset=ISO-8859-1", "G122"),
        ("Language: es", "Language: fr", "G127"),
        ("plural=(", "plural=(n < 9 ? 1 : ", "G124"),
    ],
)
def test_a_broken_catalogue_is_said_with_its_line_and_not_used(
    cli: Cli, reviewed: Path, old: str, new: str, code: str
) -> None:
    path = reviewed / WORDS
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    for result in (cli(*BUILD), cli("check")):
        said = result.err + result.out
        assert result.status == 1 and code in said, said
        assert re.search(rf"{re.escape(WORDS)}:\d+", said)
    # The other languages are made all the same.
    assert cli("build", "--language", "en", "--no-clinician", "--to", "html").status == 0
    assert cli(*BUILD, "--draft").status == 0


def test_bytes_that_are_no_utf_8(cli: Cli, reviewed: Path) -> None:
    path = reviewed / WORDS
    path.write_bytes(path.read_bytes().replace("é".encode(), "é".encode("latin-1")))
    result = cli(*BUILD)
    assert result.status == 1 and "G121" in result.err and re.search(rf"{WORDS}.*line \d+", result.err)


def test_a_message_with_a_mistake_is_said_and_not_used(cli: Cli, reviewed: Path) -> None:
    """A placeholder that no value fills would print itself: the shipped words stand in its place, on a draft alone."""
    edit(reviewed / WORDS, "number.range", target=("de {bajo} a {high}",))
    result = cli(*BUILD)
    assert result.status == 1 and "G113" in result.err and "own words not translated" in result.err
    refused = cli("translate", "review", WORDS, *REVIEW)
    assert refused.status == 1 and "G113" in refused.err
    assert cli(*BUILD, "--draft").status == 0


def test_a_clinic_whose_own_language_is_not_english(cli: Cli, project: Path) -> None:
    """Its prose is written in its language, the product's words are a translation all the same."""
    closed = cli("build", "--language", "es", "--no-clinician", "--to", "html")
    assert closed.status == 1 and "product's own words" in closed.err
    draft = cli("build", "--language", "es", "--draft", "--no-clinician", "--to", "html")
    assert (draft.status, draft.out.splitlines()) == (0, ["handouts/tobillo.es-draft.html"])
    made = cli("translate", "extract", "--product", "--language", "es")
    assert made.status == 0 and [line.split(":")[0] for line in made.out.splitlines()] == [WORDS]
    complete(project / WORDS, "es")
    assert cli("translate", "review", WORDS, *REVIEW).status == 0
    opened = cli("build", "--language", "es", "--to", "html")
    assert (opened.status, opened.err) == (0, "")
    assert opened.out.splitlines() == ["handouts/tobillo.html", "handouts/tobillo-clinician.html"]
    edit(project / WORDS, "stop.head", target=("Alto ahí",))
    assert cli("build", "--language", "es", "--to", "html").status == 1


def test_a_language_of_which_nothing_is_shipped(cli: Cli, english: Path) -> None:
    """A clinic makes it whole by itself; until then there are drafts, with what is missing marked."""
    clinic = english / "clinic.toml"
    clinic.write_text(clinic.read_text("utf-8").replace('"en", "es"', '"en", "it"'), encoding="utf-8")
    assert "P920" in cli("check").out
    cli("translate", "extract", "--product", "--language", "it")
    assert "P920" not in cli("check").out
    path = english / "translations/it/protodsl.po"
    assert not any(one.is_translated for one in load(path, "it").entries)
    assert cli("build", "--language", "it", "--no-clinician", "--to", "html").status == 1
    draft = cli("build", "--language", "it", "--draft", "--no-clinician", "--to", "html")
    assert draft.status == 0, draft.err
    assert root(english / "handouts/tobillo.it-draft.html").get("lang") == "it"
    others = ("translations/it/tobillo.po", "translations/it/clinic.toml.po")
    for name in ("translations/it/protodsl.po", *others):
        fill(english / name, "it")
    assert cli("translate", "review", "translations/it/protodsl.po", *others, *REVIEW).status == 0
    result = cli("build", "--language", "it", "--no-clinician", "--to", "html")
    assert (result.status, result.err) == (0, "")


def test_the_source_language_has_nothing_to_translate(cli: Cli, project: Path) -> None:
    result = cli("translate", "extract", "--product", "--language", "en")
    assert result.status == 0 and "nothing to translate" in result.err
    assert not (project / "translations/en/protodsl.po").exists()


def test_a_protocol_of_the_same_name_has_a_catalogue_of_its_own(cli: Cli, english: Path) -> None:
    (english / "tobillo.protocol").rename(english / "protodsl.protocol")
    assert cli("translate", "extract", "--product", "--language", "es").status == 0
    prose = load(english / "translations/es/protodsl.protocol.po", "es")
    assert {one.key.split("/")[0] for one in prose.entries} > {"exercise", "protocol"}
    assert not any("/" in one.key for one in load(english / WORDS, "es").entries)
    assert "G126" not in cli("check").out


def test_words_of_a_region_lie_over_those_of_the_language() -> None:
    """The nearest catalogue that has words for a message counts; what none has is taken as it is shipped."""
    texts = [text for text in product_texts() if len(text.forms) == 1 and "{" not in text.forms[0]][:3]
    region = Catalogue("", "es-MX", entries=(Entry(texts[0].key, texts[0].forms, ("aaa",)),))
    tongue = Catalogue("", "es", entries=tuple(Entry(one.key, one.forms, ("bbb",)) for one in texts[:2]))
    read = product_catalogue("es")
    assert read is not None and read.value is not None
    found = laid(texts, (region, tongue), read.value)
    assert found.own == {texts[0].key: ("aaa",), texts[1].key: ("bbb",)} and found.gaps == (0, 3)
    spoken = laid_over("es-MX", found.own)
    shipped = catalogue("es")
    assert spoken is not None and shipped is not None
    assert [spoken.say(one.key) for one in texts] == ["aaa", "bbb", shipped.say(texts[2].key)]


def test_words_that_were_mended_in_the_program_are_shown_beside_the_clinics() -> None:
    text = product_texts()[0]
    old = Catalogue("", "es", entries=(Entry(text.key, text.forms, ("aaa",)),))
    shipped = Catalogue("", "es", entries=(Entry(text.key, text.forms, ("bbb",)),))
    (entry,) = brought_up_to_date((text,), old, shipped).entries
    assert entry.target == ("aaa",) and entry.notes[-1] == "as it is shipped: bbb"
    (same,) = brought_up_to_date((text,), shipped, shipped).entries
    assert "as it is shipped" not in "".join(same.notes)
