"""What is printed in another language: words for all of it, reviewed; else nothing, or a draft that says so."""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

import page as page_validation
import pytest
from pypdf import PdfReader

from tests.unit.cli.conftest import Cli
from tests.unit.translate.catalogues import fill, load, save
from tests.unit.translate.conftest import CASE

CATALOGUES = ("translations/en/tobillo.po", "translations/en/clinic.toml.po")
BUILD = ("build", "--language", "en", "--no-clinician", "--to", "html")


@pytest.fixture
def translated(cli: Cli, project: Path) -> Path:
    """The project with every string translated and reviewed."""
    cli("translate", "extract")
    for name in CATALOGUES:
        fill(project / name)
    assert cli("translate", "review", *CATALOGUES, "--by", "physiotherapist", "--on", "2026-10-05").status == 0
    return project


def root(page: Path) -> Element:
    return fromstring(page.read_text("utf-8").replace("<!DOCTYPE html>", ""))


def words(element: Element) -> str:
    return " ".join("".join(element.itertext()).split())


def faults(page: Path) -> list[str]:
    """What an independent validator has against a PDF (PDF/UA-1, ISO 14289-1:2014)."""
    return [one.message for one in page_validation.validate_pdf_bytes(page.read_bytes(), profile="pdf-ua-1").failures]


def test_no_sheet_without_words_for_all_of_it(cli: Cli, project: Path) -> None:
    """G104 names what is missing, and nothing is written."""
    result = cli(*BUILD)
    assert (result.status, result.out) == (1, "") and "G104" in result.err
    assert "Después de un esguince" in result.err and not (project / "handouts").exists()


def test_a_sheet_with_words_for_all_of_it(cli: Cli, translated: Path) -> None:
    """No word of the text is left, what was never to be translated keeps its own language, and nothing is said."""
    result = cli(*BUILD)
    assert (result.status, result.err) == (0, "")
    page = root(translated / "handouts/tobillo.en.html")
    text = words(next(page.iter("body")))
    for said in ("Elevación", "talones", "pecho", "detrás", "andar", "Suba", "Pida", "Llame"):
        assert said not in text, said
    for said in ("óicavelE", "adiP aduya ay", "radna", "rerroc", "sárted"):
        assert said in text, said
    assert page.get("lang") == "en"
    marked = [one for one in page.iter("span") if one.get("lang")]
    assert {(one.get("lang"), one.get("class")) for one in marked} == {("es", None)}
    # A reference, and on the line about the sheet the name of the protocol and who reviewed it.
    assert {words(one) for one in marked} == {"common practice, no source", "tobillo", "team"}


@pytest.mark.parametrize("blank", [" ", "\u200b", "\u00a0\u2060", "-", "…"])
def test_words_that_nobody_sees_are_none(cli: Cli, translated: Path, blank: str) -> None:
    """G104: a sign to stop for would stand on the sheet as an empty line, and nothing can make it a reviewed one."""
    path = translated / CATALOGUES[0]
    catalogue = load(path)
    emptied = tuple(
        replace(one, target=(blank,)) if one.key == "exercise/elevar los talones/stop" else one
        for one in catalogue.entries
    )
    save(path, replace(catalogue, entries=emptied))
    cli("translate", "review", CATALOGUES[0], "--by", "physiotherapist", "--on", "2026-10-05")
    result = cli(*BUILD)
    assert (result.status, result.out) == (1, "") and "not translated: `un dolor agudo`" in result.err


@pytest.mark.parametrize("change", ["missing", "fuzzy", "unreviewed", "changed"])
def test_one_string_is_enough_to_stop_it(cli: Cli, translated: Path, change: str) -> None:
    path = translated / CATALOGUES[0]
    catalogue = load(path)
    at = next(n for n, one in enumerate(catalogue.entries) if one.key == "exercise/elevar los talones/stop")
    entry = catalogue.entries[at]
    other = {
        "missing": replace(entry, target=()),
        "fuzzy": replace(entry, fuzzy=True),
        "unreviewed": replace(entry, review=None),
        "changed": replace(entry, target=("other words",)),
    }[change]
    save(path, replace(catalogue, entries=(*catalogue.entries[:at], other, *catalogue.entries[at + 1 :])))
    result = cli(*BUILD)
    assert result.status == 1 and "G104" in result.err and "un dolor agudo" in result.err
    assert "not reviewed" in result.err if change in ("unreviewed", "changed") else "not translated" in result.err


def test_a_changed_text_stops_it_without_any_update(cli: Cli, translated: Path) -> None:
    protocol = translated / "tobillo.protocol"
    protocol.write_text(protocol.read_text("utf-8").replace("Mantenga 2 segundos", "Mantenga 3 segundos"), "utf-8")
    assert "G104" in cli(*BUILD).err
    assert "G102" in cli("check").out


def test_a_wrong_number_stops_it_though_it_was_reviewed(cli: Cli, translated: Path) -> None:
    path = translated / CATALOGUES[0]
    catalogue = load(path)
    entries = tuple(
        replace(one, target=("Hold for 20.",)) if one.source == ("Mantenga 2 segundos.",) else one
        for one in catalogue.entries
    )
    save(path, replace(catalogue, entries=entries))
    reviewed = cli("translate", "review", CATALOGUES[0], "--by", "team")
    assert reviewed.status == 1 and "G111" in reviewed.err
    result = cli(*BUILD)
    assert result.status == 1 and "G111" in result.err and "G104" in result.err


def test_a_draft_says_so_on_every_page(cli: Cli, project: Path) -> None:
    """G105; over everything and at the head of every page of the PDF, in both languages; what is missing is marked."""
    result = cli("build", "--language", "en", "--draft", "--no-clinician", "--to", "html,pdf")
    assert result.status == 0 and "G105" in result.err
    assert result.out.splitlines() == ["handouts/tobillo.en-draft.html", "handouts/tobillo.en-draft.pdf"]
    page = root(project / "handouts/tobillo.en-draft.html")
    notes = [one for one in page.iter() if (one.get("data-safety") or "").startswith("draft/")]
    assert notes and "Do not give this to a patient" in words(notes[0])
    missing = [one for one in page.iter("span") if one.get("class") == "untranslated"]
    assert missing and {(one.get("lang"), one.get("dir")) for one in missing} == {("es", "ltr")}
    assert "Pida ayuda ya" in {words(one) for one in missing}
    pdf = PdfReader(BytesIO((project / "handouts/tobillo.en-draft.pdf").read_bytes()))
    assert len(pdf.pages) > 2
    for printed in pdf.pages:
        assert "DRAFT of a translation. Not for patients." in printed.extract_text()
    assert faults(project / "handouts/tobillo.en-draft.pdf") == []


def test_a_draft_whose_template_drops_the_note_is_not_made(cli: Cli, project: Path) -> None:
    """A clinic's own template that leaves the note out, or the line at the head of the pages, makes no draft."""
    folder = project / "looks"
    (folder / "sections").mkdir(parents=True)
    clinic = project / "clinic.toml"
    clinic.write_text(clinic.read_text("utf-8") + '\n[folders]\ntemplates = "looks"\n', encoding="utf-8")
    (folder / "sections/draft.html.j2").write_text("<div></div>")
    result = cli("build", "--language", "en", "--draft", "--no-clinician", "--to", "html")
    assert (result.status, result.out) == (1, "") and "P951" in result.err
    (folder / "sections/draft.html.j2").unlink()
    (folder / "clinic.css").write_text("@page { @top-center { content: none !important } }")
    result = cli("build", "--language", "en", "--draft", "--no-clinician", "--to", "pdf")
    assert (result.status, result.out) == (1, "") and "P951" in result.err


def test_text_beside_translation(cli: Cli, translated: Path) -> None:
    """In the order of the sheet, each column in its language; the page is a draft, too."""
    result = cli("build", "--language", "en", "--side-by-side", "--no-clinician", "--to", "html,pdf")
    assert result.status == 0
    page = root(translated / "handouts/tobillo.en-side-by-side.html")
    assert (page.get("lang"), page.get("dir")) == ("es", "ltr")
    cells = [list(row.iter("td")) for row in page.iter("tr")]
    pairs = [(words(row[0]), words(row[1])) for row in cells if len(row) == 2]
    assert all((row[0].get("lang"), row[1].get("lang")) == ("es", "en") for row in cells if len(row) == 2)
    texts = [text for text, _ in pairs]
    for text, translation in (("Suba despacio.", "abuS oicapsed."), ("Pida ayuda ya", "adiP aduya ay")):
        assert (text, translation) in pairs
    order = ["Pida ayuda ya", "Elevación de talones", "Suba despacio.", "Mantenga 2 segundos."]
    assert [texts.index(text) for text in order] == sorted(texts.index(text) for text in order)
    assert "Do not give this to a patient" in words(page)
    assert faults(translated / "handouts/tobillo.en-side-by-side.pdf") == []


def test_from_right_to_left_the_columns_keep_their_directions(cli: Cli, project: Path) -> None:
    clinic = project / "clinic.toml"
    clinic.write_text(clinic.read_text("utf-8").replace('"es", "en"', '"en", "ar"'), encoding="utf-8")
    result = cli("build", "--language", "ar", "--side-by-side", "--draft", "--no-clinician", "--to", "html")
    assert result.status == 0, result.err
    page = root(project / "handouts/tobillo.ar-side-by-side.html")
    row = next(row for row in page.iter("tr") if row.find("td") is not None)
    assert [(cell.get("lang"), cell.get("dir")) for cell in row.iter("td")] == [("en", "ltr"), ("ar", "rtl")]


def test_the_clinicians_page_stays_in_the_clinics_language(cli: Cli, translated: Path) -> None:
    clinic = translated / "clinic.toml"
    assert cli("build", "--language", "en", "--to", "html").out.splitlines() == ["handouts/tobillo.en.html"]
    asked = cli("build", "--language", "en", "--clinician", "--to", "html")
    assert asked.out.splitlines() == ["handouts/tobillo.en-clinician.html"] and clinic.is_file()


def test_a_case_is_made_in_its_language(cli: Cli, translated: Path) -> None:
    (translated / "cases/P-0417.case").write_text(CASE, encoding="utf-8")
    result = cli("build", "cases", "--no-clinician", "--to", "html")
    assert (result.status, result.out.splitlines()) == (0, ["handouts/P-0417.html"]), result.err
    page = root(translated / "handouts/P-0417.html")
    assert page.get("lang") == "en" and "Elevación" not in words(page)
    # It is made again when a catalogue has changed, and not made when that took its review away.
    path = translated / CATALOGUES[0]
    path.write_text(path.read_text("utf-8").replace("otneimirb", "x").replace("abuS oicapsed", "abuS"), "utf-8")
    again = cli("build", "cases", "--no-clinician", "--to", "html")
    assert again.status == 1 and "G104" in again.err and "P917" in again.err


def test_a_referral_is_not_kept_back_for_want_of_words(cli: Cli, project: Path) -> None:
    """G106: somebody with a danger sign gets the page in the clinic's own language, and the earlier sheet is gone."""
    clinic = project / "clinic.toml"
    clinic.write_text(clinic.read_text("utf-8").replace('"es", "en"', '"en", "es"'), encoding="utf-8")
    (project / "handouts").mkdir()
    (project / "handouts/P-0417.html").write_text("the sheet of before")
    case = CASE.replace("language en", "language es").replace("no: dolor", "yes: dolor")
    (project / "cases/P-0417.case").write_text(case, encoding="utf-8")
    result = cli("build", "cases", "--to", "html")
    assert result.status == 0 and "G106" in result.err and "P914" in result.err
    page = root(project / "handouts/P-0417.html")
    assert page.get("lang") == "en" and "tiene dolor en el pecho" in words(page).lower()


def test_a_danger_sign_is_said_where_not_even_the_referral_can_be_made(cli: Cli, project: Path) -> None:
    """P914: the product's words in the clinic's own language wait for a review; no exercise of before is left."""
    (project / "handouts").mkdir()
    for page in ("P-0417.html", "P-0417-large-print.html"):
        (project / "handouts" / page).write_text("the sheet of before")
    path = project / "cases/P-0417.case"
    path.write_text(CASE.replace("language en", "language es").replace("no: dolor", "yes: dolor"), encoding="utf-8")
    result = cli("build", "cases", "--to", "html")
    assert result.status == 1 and "G104" in result.err and "call the person now" in result.err
    assert "P914" in result.err and result.err.count("warning P915") == 2
    assert not list((project / "handouts").glob("*.html"))
    path.write_text(path.read_text("utf-8").replace("yes: dolor", "unknown: dolor"), encoding="utf-8")
    (project / "handouts/P-0417.html").write_text("the sheet of before")
    result = cli("build", "cases", "--to", "html")
    assert result.status == 1 and "G104" in result.err and "P913" in result.err
    assert not list((project / "handouts").glob("*.html"))


def test_the_digest_covers_the_translation(cli: Cli, translated: Path) -> None:
    def digest() -> str:
        cli(*BUILD)
        body = next(root(translated / "handouts/tobillo.en.html").iter("body"))
        found = re.search(r"[0-9a-z]{4}-[0-9a-z]{4}", words(body), re.IGNORECASE)
        assert found, words(body)[-900:]
        return found[0]

    before = digest()
    path = translated / CATALOGUES[0]
    path.write_text(path.read_text("utf-8").replace("abuS oicapsed.", "abuS orep oicapsed."), encoding="utf-8")
    cli("translate", "review", CATALOGUES[0], "--by", "team", "--on", "2026-10-06")
    assert digest() != before


def test_words_of_the_language_stand_for_those_of_its_region(cli: Cli, translated: Path) -> None:
    """`en-GB` finds `en`; what its own catalogue has comes first."""
    assert cli("build", "--language", "en-GB", "--no-clinician", "--to", "html").status == 0
    assert (translated / "handouts/tobillo.en-GB.html").is_file()
