"""A handout as one HTML file that needs nothing beside it."""

from __future__ import annotations

from markupsafe import Markup

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.handout.blocks import Handout
from protodsl.outcome import Outcome
from protodsl.render import outside
from protodsl.render.document import Document, document
from protodsl.render.safety import lost_in_document
from protodsl.render.style import Style
from protodsl.render.stylesheet import Rules, read_rules

# Put in its place after the document has been read and checked, because the fonts in it are most of the file.
_RULES_GO_HERE = "/*rules*/"


def html(page: Handout[str], style: Style) -> Outcome[str]:
    """One self-contained file: fonts and drawings inside, numbers that dial, no script; it prints like the PDF."""
    rules = read_rules(style, page.kind)
    if rules.value is None:
        return Outcome(None, rules.diagnostics)
    made = document(page, style, style_sheet=Markup(_RULES_GO_HERE))
    if made.value is None:
        return Outcome(None, made.diagnostics)
    said = _checked(page, style, made.value, rules.value)
    return Outcome(None if said else made.value.text.replace(_RULES_GO_HERE, rules.value.for_browser(), 1), said)


def _checked(page: Handout[str], style: Style, made: Document, rules: Rules) -> tuple[Diagnostic, ...]:
    """What of the safety lines is lost, and what is fetched; a clinic's own rules are read for both."""
    if style.template_folder is None:
        return (*lost_in_document(page, made.root), *outside.addresses(made.root))
    from protodsl.render.hiding import hidden_elements

    texts = (*rules.printed, rules.screen)
    own = tuple(element.text or "" for element in made.root.iter("style"))
    hidden = hidden_elements(made.root, (*texts, *own))
    return (*lost_in_document(page, made.root, hidden), *outside.addresses(made.root, texts))
