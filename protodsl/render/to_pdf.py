"""A handout as a tagged PDF: the same bytes for the same handout, on any machine with the same libraries."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any
from xml.etree.ElementTree import Element

from protodsl import fonts
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.render import character_missing, layout_complains, layout_fails
from protodsl.handout.blocks import Handout
from protodsl.outcome import Outcome
from protodsl.render import archival, outside
from protodsl.render.archival import Attachment
from protodsl.render.breaks import UNBROKEN, Breaks, mended, paired
from protodsl.render.document import document
from protodsl.render.pagination import Layout, half_empty, nearly_empty, read_layout
from protodsl.render.safety import compare, draft_not_said, lost_in_document
from protodsl.render.style import Style
from protodsl.render.stylesheet import Rules, read_rules
from protodsl.render.tags import give_heads_a_scope
from protodsl.render.typesetting import Typesetter, log_lines, typesetter

# An exercise parted more often than this is set as it falls.
_MOST_PARTINGS = 4
# A page with fewer lines than this is worth a second try.
_FEW_LINES = 16
# So is one before the exercises that is used less than this.
_LEAST_USED = 0.75
# And so is a last page that is used less than this, however many cells of a table stand in its few lines.
_LEAST_USED_AT_LAST = 0.4

_STRAY = "a part of `{}` stands alone at the head of a page"


def pdf(page: Handout[str], style: Style, attached: tuple[Attachment, ...] | None = None) -> Outcome[bytes]:
    """One PDF/UA-1 file; an exercise that fits a page is whole on it, a longer one goes on overleaf under its name.

    With files to attach, which may be none at all, it is PDF/A-3a as well; None: it is not meant to be kept.
    """
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
    try:
        return _printed(_Job(page, style, first.value.root, rules.value, setter.value, attached))
    except Exception as error:
        if style.template_folder is None:
            raise  # with the shipped templates it is a fault of this program
        return Outcome(None, (layout_fails(f"{type(error).__name__}: {error}"),))


@dataclass(frozen=True, slots=True)
class _Set:
    """The library's document and what was found on its pages."""

    pages: Any
    layout: Layout


@dataclass(frozen=True, slots=True)
class _Job:
    """Everything that the setting of one handout needs."""

    page: Handout[str]
    style: Style
    root: Element
    rules: Rules
    setter: Typesetter
    attached: tuple[Attachment, ...] | None

    @property
    def closest(self) -> int:
        """How many levels of closer setting the form has."""
        return 1 if self.style.large_print else 0 if self.style.compact else 2

    def set(self, breaks: Breaks, snug: bool) -> _Set:
        """The pages with these breaks; `snug` is with less space between sections and rows."""
        root = self.root
        if snug or breaks != UNBROKEN:
            again = document(self.page, self.style, paged=True, breaks=breaks, snug=snug)
            assert again.value is not None, "a document that could be made can be made again"
            root = again.value.root
        pages = self.setter.pages(root, self.rules.elements, self.rules.printed)
        return _Set(pages, read_layout(pages))

    def write(self, pages: Any) -> bytes:
        """The bytes of the pages, by the standards that are asked for."""
        if self.attached is None:
            written: bytes = pages.write_pdf(pdf_variant="pdf/ua-1", finisher=give_heads_a_scope)
            return written
        archival.claim_both(pages)
        kept: bytes = pages.write_pdf(finisher=_finish, **archival.options(self.setter.library, self.attached))
        return kept


def _printed(job: _Job) -> Outcome[bytes]:
    """The bytes, unless a safety line cannot be seen on the pages, and what the library had to say."""
    with log_lines() as lines, _no_collection():
        best = _best(job)
        said = (*compare(job.page, iter(best.layout.shown)), *draft_not_said(job.page, best.layout.margins))
        data = None if said else job.write(best.pages)
    strays = map(_STRAY.format, best.layout.strays)
    return Outcome(data, (*said, *map(layout_complains, (*lines, *strays))))


def _finish(document: Any, pdf: Any) -> None:
    give_heads_a_scope(document, pdf)
    archival.name_each_once(pdf)


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
    absent = fonts.missing_han_fonts() if fonts.is_for_want_of_han(boxes) else ()
    missing = (character_missing(boxes, absent),) if boxes else ()
    return (*lost_in_document(page, root), *outside.addresses(root, rules), *missing)


def _best(job: _Job) -> _Set:
    """The pages with no exercise torn; set closer where that saves a page: short exercises, then all that is said."""
    best, breaks = _whole(job, UNBROKEN, False)
    together = paired(best.layout, breaks) if job.closest else breaks
    if together != breaks:
        best, breaks = _fewer((best, breaks), _whole(job, together, False))
    if _is_wasteful(best.layout):
        best, breaks = _fewer((best, breaks), _whole(job, breaks, True))
    return best


def _is_wasteful(layout: Layout) -> bool:
    """Whether a page holds so little that setting everything closer may save it."""
    at_last = layout.used[-1] < _LEAST_USED_AT_LAST and len(layout.used) > 1
    return at_last or any(nearly_empty(layout, _FEW_LINES)) or half_empty(layout, _LEAST_USED)


def _fewer(before: tuple[_Set, Breaks], after: tuple[_Set, Breaks]) -> tuple[_Set, Breaks]:
    """The setting that takes fewer pages, else the first."""
    return after if len(after[0].layout.fill) < len(before[0].layout.fill) else before


def _whole(job: _Job, breaks: Breaks, snug: bool) -> tuple[_Set, Breaks]:
    """Set the pages again for as long as an exercise is torn and something can be done about it."""
    while True:
        done = job.set(breaks, snug)
        wanted = mended(done.layout, breaks, job.closest)
        if wanted == breaks or any(len(parts) > _MOST_PARTINGS for parts in wanted.partings.values()):
            return done, breaks
        breaks = wanted
