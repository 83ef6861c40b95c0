"""Plural forms are those of Unicode CLDR, in its order, in a form that GNU gettext reads."""

from __future__ import annotations

import gettext
from itertools import groupby

import pytest
from babel import Locale

from protodsl.localise.catalogue import languages
from protodsl.source import Source
from protodsl.translate.header import header_differs
from protodsl.translate.plurals import categories, count_of, expression_of, plural_header
from protodsl.translate.product import product_catalogue, product_source
from tests.evidence.rows import table
from tests.unit.translate.catalogues import read

# CLDR's category of a number, on which three libraries agree (10_plurals, status ran-here); whole numbers here.
ROWS = [row for row in table("10_plurals").values() if row["n"].isdigit() and row["status"] == "ran-here"]
BY_LANGUAGE = {name: list(rows) for name, rows in groupby(sorted(ROWS, key=lambda r: r["lang"]), lambda r: r["lang"])}


def test_there_is_evidence_for_many_languages() -> None:
    assert len(BY_LANGUAGE) >= 40 and len(ROWS) >= 2000


@pytest.mark.parametrize("language", sorted(BY_LANGUAGE))
def test_the_header_chooses_the_category_of_cldr(language: str) -> None:
    """Read by Python's gettext, an implementation of its own, the header gives the form of CLDR's category."""
    locale = Locale.parse(language)
    header = plural_header(locale)
    choose = gettext.c2py(expression_of(header))
    names = categories(locale)
    assert count_of(header) == len(names)
    for row in BY_LANGUAGE[language]:
        assert names[choose(int(row["n"]))] == row["category"], row


def test_arabic_has_its_six_forms_in_order() -> None:
    """`pybabel init` writes two of them the other way round."""
    assert categories(Locale.parse("ar")) == ("zero", "one", "two", "few", "many", "other")


@pytest.mark.parametrize("language", languages())
def test_shipped_catalogues_have_the_header_of_their_language(language: str) -> None:
    read_, source = product_catalogue(language), product_source(language)
    assert read_ is not None and read_.value is not None and source is not None
    assert list(header_differs(read_.value, source)) == []


@pytest.mark.parametrize(
    ("header", "fits"),
    [
        ("nplurals=6; plural=n==0 ? 0 : n==1 ? 1 : n==2 ? 2 : n%100>=3 && n%100<=10 ? 3 : n%100>=11 ? 4 : 5;", True),
        ("nplurals=6; plural=(n==1 ? 0 : n==0 ? 1 : n==2 ? 2 : n%100>=3 && n%100<=10 ? 3 : n%100>=11 ? 4 : 5);", False),
        ("nplurals=2; plural=(n != 1);", False),
        ("nplurals=6; plural=((n;", False),
        ("nplurals=x; plural=n", False),
        ("nonsense", False),
        ("nplurals=6; plural=1/(n-5);", False),
    ],
)
def test_a_header_is_held_against_cldr(header: str, fits: bool) -> None:
    """However it is written, it is right exactly when it chooses as CLDR does (Arabic; CLDR plural rules)."""
    text = f'msgid ""\nmsgstr ""\n"Language: ar\\n"\n"Plural-Forms: {header}\\n"\n'
    found = list(header_differs(read(text, "ar"), Source("x.po", text)))
    assert [one.code.id for one in found] == ([] if fits else ["G124"])
