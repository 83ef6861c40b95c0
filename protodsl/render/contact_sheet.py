"""All figures of a project on one page, for those who look at them before a patient does."""

from __future__ import annotations

from dataclasses import dataclass
from xml.etree.ElementTree import fromstring

from markupsafe import Markup, escape

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.render import layout_complains
from protodsl.outcome import Outcome
from protodsl.render.environment import environment
from protodsl.render.style import Style
from protodsl.render.stylesheet import web_faces
from protodsl.render.typesetting import log_lines, typesetter

_TEMPLATE, _RULES = "figures.html.j2", "figures.css"


@dataclass(frozen=True, slots=True)
class Tile:
    """One figure: the names of its exercises, where it stands, its drawing ("": there is none), what is said of it.

    `state` says who approved it, `approved` whether that holds; `words` is the text alternative, `side` a line for a
    figure that shows one side.
    """

    name: str
    place: str
    svg: str
    words: str
    captions: tuple[str, ...]
    state: str
    approved: bool
    said: tuple[str, ...] = ()
    side: str = ""


@dataclass(frozen=True, slots=True)
class ContactSheet:
    """The page: its title, a line on what is to be looked at, and the figures in order."""

    title: str
    about: tuple[str, ...]
    tiles: tuple[Tile, ...]


def contact_sheet(page: ContactSheet, style: Style, formats: tuple[str, ...]) -> Outcome[dict[str, bytes]]:
    """The page by format, `html` and `pdf`; made with the shipped template alone."""
    rules = _rules(style)
    made: dict[str, bytes] = {}
    said: tuple[Diagnostic, ...] = ()
    if "html" in formats:
        made["html"] = _text(page, style, Markup(f"{web_faces()}\n{rules}")).encode()
    if "pdf" in formats:
        setter = typesetter(style.cache_folder)
        if setter.value is None:
            return Outcome(made, setter.diagnostics)
        with log_lines() as lines:
            root = fromstring(_text(page, style, Markup("")))
            made["pdf"] = setter.value.pages(root, None, (rules,)).write_pdf(pdf_variant="pdf/ua-1")
        said = tuple(map(layout_complains, lines))
    return Outcome(made, said)


def _text(page: ContactSheet, style: Style, style_sheet: Markup) -> str:
    return environment(style).get_template(_TEMPLATE).render(
        page=page, style=style, style_sheet=style_sheet, drawing=_drawing
    )


def _drawing(tile: Tile) -> Markup:
    """The drawing with its words as its title, for a screen reader and for the tags of the PDF."""
    return Markup(tile.svg.replace("<title></title>", f"<title>{escape(tile.words)}</title>", 1))


def _rules(style: Style) -> str:
    jinja = environment(style)
    assert jinja.loader is not None
    return jinja.loader.get_source(jinja, _RULES)[0].replace("PAPER", style.paper)
