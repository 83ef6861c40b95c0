"""A handout as one HTML file that needs nothing beside it."""

from __future__ import annotations

from protodsl.handout.blocks import Handout
from protodsl.outcome import Outcome
from protodsl.render import stylesheet
from protodsl.render.document import document
from protodsl.render.safety import lost_in_document
from protodsl.render.style import Style


def html(page: Handout[str], style: Style) -> Outcome[str]:
    """One self-contained file: fonts and drawings inside, numbers that dial, no script; it prints like the PDF."""
    made = document(page, style, style_sheet=stylesheet.for_screen(style, page.kind))
    if made.value is None:
        return Outcome(None, made.diagnostics)
    lost = lost_in_document(page, made.value.root)
    return Outcome(None if lost else made.value.text, lost)
