"""A handout as a tagged PDF: the same bytes for the same handout, on any machine with the same libraries."""

from __future__ import annotations

from typing import Any

from protodsl.diagnostics.render import layout_complains
from protodsl.handout.blocks import Handout
from protodsl.outcome import Outcome
from protodsl.render import stylesheet
from protodsl.render.document import document
from protodsl.render.pagination import Layout, Partings, read_layout, torn
from protodsl.render.safety import compare, lost_in_document
from protodsl.render.style import Style
from protodsl.render.typesetting import Typesetter, log_lines, typesetter

# An exercise that takes more pages than this is no exercise; it is then set as it falls.
_MOST_PARTINGS = 4


def pdf(page: Handout[str], style: Style) -> Outcome[bytes]:
    """One PDF/UA-1 file; an exercise that fits a page is whole on it, a longer one goes on overleaf under its name."""
    checked = document(page, style, paged=True)
    if checked.value is None:
        return Outcome(None, checked.diagnostics)
    said = lost_in_document(page, checked.value.root)
    if said:
        return Outcome(None, said)
    setter = typesetter(style.cache_folder)
    if setter.value is None:
        return Outcome(None, setter.diagnostics)
    with log_lines() as lines:
        pages, layout = _lay_out(page, style, setter.value, checked.value.root)
        said = compare(page, iter(layout.shown))
        data = None if said else pages.write_pdf(pdf_variant="pdf/ua-1")
    return Outcome(data, (*said, *map(layout_complains, lines)))


def _lay_out(page: Handout[str], style: Style, setter: Typesetter, root: Any) -> tuple[Any, Layout]:
    """Lay the pages out, and again for as long as an exercise is torn."""
    own_rules = stylesheet.for_elements(style)
    rules = stylesheet.rules(style, page.kind)
    partings: Partings = {}
    while True:
        pages = setter.pages(root, own_rules, rules)
        layout = read_layout(pages)
        wanted = torn(layout, partings)
        if wanted == partings or any(len(parts) > _MOST_PARTINGS for parts in wanted.values()):
            return pages, layout
        partings = wanted
        again = document(page, style, paged=True, partings=partings)
        if again.value is None:
            return pages, layout
        root = again.value.root

