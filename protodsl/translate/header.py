"""What the header of a catalogue says, held against its folder and the plural rules of its language."""

from __future__ import annotations

import gettext
from collections.abc import Iterator

from babel import Locale

from protodsl.diagnostics import catalogues as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Source, Span
from protodsl.translate.entries import Catalogue
from protodsl.translate.plurals import count_of, expression_of, plural_header
from protodsl.translate.tags import is_same, locale_of

# Whole numbers that tell the rules of all languages apart: CLDR's own samples lie among them.
_SAMPLES = (*range(201), 1000, 1001, 1002, 10000, 100000, 1000000, 2000000)


def header_differs(catalogue: Catalogue, source: Source) -> Iterator[Diagnostic]:
    """A header of another language, or with plural forms that are not the language's."""
    headers = {name.lower(): value for name, value in catalogue.headers}
    said = headers.get("language", "").replace("_", "-")
    if said and not is_same(said, catalogue.language):
        yield say.other_language(_place(source, "Language:"), said, catalogue.language)
    locale = locale_of(catalogue.language)
    found = headers.get("plural-forms", "")
    # A catalogue of prose has no plural forms, and a PO editor may have left the header out.
    needed = any(len(entry.source) > 1 for entry in catalogue.entries)
    if locale is not None and (found or needed) and not _fits(found, locale):
        yield say.plural_header(_place(source, "Plural-Forms:"), catalogue.language, found, plural_header(locale))


def _fits(header: str, locale: Locale) -> bool:
    """Whether a header chooses the same form as CLDR does, for every sample."""
    wanted = plural_header(locale)
    if count_of(header) != count_of(wanted):
        return False
    try:
        theirs, ours = (gettext.c2py(expression_of(one)) for one in (header, wanted))
        return all(theirs(n) == ours(n) for n in _SAMPLES)
    except (ValueError, OverflowError, ZeroDivisionError, RecursionError):
        return False


def _place(source: Source, header: str) -> Span:
    """The line of a header; the start of the catalogue where it is not there."""
    start = source.text.lower().find(f'"{header.lower()}')
    if start < 0:
        return Span(source.path, 0, 0)
    end = source.text.find("\n", start)
    return Span(source.path, start, end if end >= 0 else len(source.text))
