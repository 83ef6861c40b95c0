"""The product's own words as texts to be translated: `en.po` is their source, its comments tell what each is for."""

from __future__ import annotations

from functools import cache

from protodsl import resources
from protodsl.localise.catalogue import SOURCE_LANGUAGE
from protodsl.outcome import Outcome
from protodsl.source import Source
from protodsl.translate.entries import Catalogue
from protodsl.translate.po import read_po
from protodsl.translate.texts import Text

PACKAGE, FOLDER = "protodsl.localise", "messages"
_HEADLINE = "---"


def product_path(language: str) -> str:
    """How the product's catalogue of a language is called in what is printed."""
    return f"protodsl/localise/{FOLDER}/{language}.po"


@cache
def product_texts() -> tuple[Text, ...]:
    """Every message of the product, in the order of `en.po`."""
    read = product_catalogue(SOURCE_LANGUAGE)
    assert read is not None and read.value is not None, "the shipped catalogue is read by a test"
    return tuple(
        Text(entry.key, entry.source, product_path(SOURCE_LANGUAGE), entry.span, _told(entry.comments))
        for entry in read.value.entries
    )


@cache
def product_catalogue(language: str) -> Outcome[Catalogue] | None:
    """The shipped catalogue of this very tag; None where there is none."""
    source = product_source(language)
    return None if source is None else read_po(source, language)


def product_source(language: str) -> Source | None:
    """Its text, known by where it lies; None where there is none."""
    path = resources.path(PACKAGE, f"{FOLDER}/{language}.po")
    return Source(path.as_posix(), path.read_text(encoding="utf-8")) if path.is_file() else None


def _told(comments: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(comment for comment in comments if comment and not comment.startswith(_HEADLINE))
