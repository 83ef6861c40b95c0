"""A handout as a tagged PDF: the same bytes for the same handout, on any machine with the same libraries."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any
from xml.etree.ElementTree import Element

from protodsl import fonts
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.render import character_missing, layout_complains
from protodsl.handout.blocks import Handout
from protodsl.outcome import Outcome
from protodsl.render import outside
from protodsl.render.breaks import UNBROKEN, Breaks, mended
from protodsl.render.document import document
from protodsl.render.pagination import Layout, nearly_empty, read_layout
from protodsl.render.safety import compare, lost_in_document
from protodsl.render.style import Style
from protodsl.render.stylesheet import read_rules
from protodsl.render.tags import give_heads_a_scope
from protodsl.render.typesetting import log_lines, typesetter

# An exercise parted more often than this is set as it falls.
_MOST_PARTINGS = 4
# A page with fewer lines than this is worth a second try.
_FEW_LINES = 5

_STRAY = "a part of `{}` stands alone at the head of a page"

_Setting = tuple[Any, Layout]


def pdf(page: Handout[str], style: Style) -> Outcome[bytes]:
    """One PDF/UA-1 file; an exercise that fits a page is whole on it, a longer one goes on overleaf under its name."""
    rules = read_rules(style, page.kind)
    first = document(page, style, paged=True)
    if rules.value is None or first.value is None:
        return Outcome(None, (*rules.diagnostics, *first.diagnostics))
    said = _checked(page, first.value.root, rules.value.printed if style.template_folder else ())
    if said:
        return Outcome(None, said)
    setter = typesetter(style.cache_folder)
    if setter.value is None:
        return Outcome(None, setter.diagnostics)
    elements, printed, pages = rules.value.elements, rules.value.printed, setter.value.pages

    def lay_out(breaks: Breaks, snug: bool) -> _Setting:
        as_it_was = breaks == UNBROKEN and not snug
        again = first if as_it_was else document(page, style, paged=True, breaks=breaks, snug=snug)
        assert again.value is not None, "a document that could be made can be made again"
        laid_out = pages(again.value.root, elements, printed)
        return laid_out, read_layout(laid_out)

    with log_lines() as lines, _no_collection():
        laid_out, layout = _best(lay_out)
        said = compare(page, iter(layout.shown))
        data = None if said else laid_out.write_pdf(pdf_variant="pdf/ua-1", finisher=give_heads_a_scope)
    return Outcome(data, (*said, *map(layout_complains, (*lines, *map(_STRAY.format, layout.strays)))))


@contextmanager
def _no_collection() -> Iterator[None]:
    """Layout makes objects by the hundred thousand, and looking for rings among them takes a tenth of its time."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _checked(page: Handout[str], root: Element, rules: tuple[str, ...]) -> tuple[Diagnostic, ...]:
    """What forbids printing: a safety line lost, something fetched, a character without a glyph."""
    footer = page.footer
    words = "".join((*root.itertext(), *footer.left, footer.right, footer.page or ""))
    boxes = fonts.missing_characters(words)
    missing = (character_missing(boxes),) if boxes else ()
    return (*lost_in_document(page, root), *outside.addresses(root, rules), *missing)


def _best(lay_out: Callable[[Breaks, bool], _Setting]) -> _Setting:
    """The pages with no exercise torn and, where closer setting saves a page of a few lines, without that page."""
    setting, breaks = _whole(lay_out, UNBROKEN, False)
    if any(nearly_empty(setting[1], _FEW_LINES)):
        closer, _ = _whole(lay_out, breaks, True)
        if len(closer[1].fill) < len(setting[1].fill):
            return closer
    return setting


def _whole(lay_out: Callable[[Breaks, bool], _Setting], breaks: Breaks, snug: bool) -> tuple[_Setting, Breaks]:
    """Lay out again for as long as an exercise is torn and something can be done about it."""
    while True:
        setting = lay_out(breaks, snug)
        wanted = mended(setting[1].exercises, breaks)
        if wanted == breaks or any(len(parts) > _MOST_PARTINGS for parts in wanted.partings.values()):
            return setting, breaks
        breaks = wanted
