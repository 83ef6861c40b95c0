"""The style sheets of a handout: which ones, and the fonts they name."""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from hashlib import sha256

from jinja2 import Environment, TemplateNotFound
from markupsafe import Markup

from protodsl import fonts, resources
from protodsl.fonts import Font
from protodsl.outcome import Outcome
from protodsl.diagnostics.render import font_missing
from protodsl.render.environment import environment
from protodsl.render.style import Style


def names(style: Style, kind: str) -> tuple[str, ...]:
    """The files that hold the rules for print, in order; those after the first need not exist."""
    chosen = ["sheet.css", "marks.css", f"{kind}.css"]
    if style.large_print:
        chosen.append("large.css")
    elif style.compact:
        chosen.append("compact.css")
    if "arabic" in style.classes:
        chosen.append("arabic.css")
    return (*chosen, "clinic.css")


def rules(style: Style, kind: str) -> tuple[str, ...]:
    """The text of each of those files."""
    jinja = environment(style.template_folder)
    return tuple(text for name in names(style, kind) if (text := _source(jinja, name, name == "sheet.css")) is not None)


def for_elements(style: Style) -> str | None:
    """What the elements of HTML are, for PDF; None where a clinic's own templates may use any of them."""
    return None if style.template_folder else _source(environment(None), "ua.css", True)


def for_screen(style: Style, kind: str) -> Markup:
    """Everything an HTML page needs: fonts inside it, the rules for print, and those for a screen."""
    screen = _source(environment(style.template_folder), "screen.css", True) or ""
    text = "\n".join((web_faces(), *rules(style, kind), screen))
    # Read as XML too, where a rule may hold the signs of an element.
    return Markup(f"/*<![CDATA[*/\n{text}\n/*]]>*/")


@cache
def web_faces() -> str:
    """The fonts that have a WOFF2, as data; the rest is left to the fonts of the reader's own machine."""
    faces = []
    for font in fonts.FONTS:
        if font.web_file:
            data = b64encode(resources.data("protodsl.fonts", font.web_file)).decode("ascii")
            faces.append(_face(font, f'url("data:font/woff2;base64,{data}") format("woff2")'))
    return "\n".join(faces)


def printed_faces() -> str:
    """The fonts for PDF, each a whole TTF file (several files under one name print wrong letters)."""
    folder = fonts.font_folder().resolve()
    return "\n".join(_face(font, f'url("{(folder / font.file).as_uri()}")') for font in fonts.FONTS)


def missing_fonts() -> Outcome[str]:
    """Nothing, or a diagnostic for each font file that is not there."""
    folder = fonts.font_folder()
    gone = [font for font in fonts.FONTS if not (folder / font.file).is_file()]
    return Outcome("" if not gone else None, tuple(font_missing(font.family, font.file) for font in gone))


def template_digest(style: Style) -> str:
    """A digest of every template and style sheet that may take part, the clinic's own before the shipped ones."""
    jinja = environment(style.template_folder)
    digest = sha256()
    for name in sorted(jinja.list_templates()):
        if name.startswith("protodsl/") or name.endswith((".j2", ".css")):
            digest.update(f"{name}\0{_source(jinja, name, True)}\0".encode())
    return digest.hexdigest()


def _face(font: Font, source: str) -> str:
    return f'@font-face{{font-family:"{font.family}";font-weight:{font.weight};src:{source}}}'


def _source(jinja: Environment, name: str, needed: bool) -> str | None:
    """The text of a file as the loader finds it; None where it is not needed and not there."""
    assert jinja.loader is not None
    try:
        return jinja.loader.get_source(jinja, name)[0]
    except TemplateNotFound:
        if needed:
            raise
        return None
