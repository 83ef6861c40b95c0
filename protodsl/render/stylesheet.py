"""The style sheets of a handout: which ones, and the fonts they name."""

from __future__ import annotations

from base64 import b64encode
from dataclasses import dataclass
from functools import cache, lru_cache
from hashlib import sha256

from jinja2 import Environment, TemplateNotFound

from protodsl import fonts, resources
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.render import font_missing, template_fails
from protodsl.fonts import Font
from protodsl.outcome import Outcome
from protodsl.render.environment import environment, folders
from protodsl.render.style import Style


def names(style: Style, kind: str) -> tuple[str, ...]:
    """The files that hold the rules for print, in order; only the first two must exist."""
    chosen = ["sheet.css", "marks.css", f"{kind}.css"]
    if style.large_print:
        chosen.append("large.css")
    elif style.compact:
        chosen.append("compact.css")
    if "arabic" in style.classes:
        chosen.append("arabic.css")
    if "chinese" in style.classes:
        chosen.append("chinese.css")
    return (*chosen, "clinic.css")


@dataclass(frozen=True, slots=True)
class Rules:
    """The rules for print, a text a file, those for browsers, and those for the elements of HTML itself (PDF only).

    `elements` is None where a clinic's own templates may use any element.
    """

    printed: tuple[str, ...]
    screen: str
    elements: str | None

    def for_browser(self) -> str:
        """Everything an HTML page needs, fonts too, and nothing in it that ends a style element."""
        return "\n".join((web_faces(), *self.printed, self.screen)).replace("</", "<\\/")


def read_rules(style: Style, kind: str) -> Outcome[Rules]:
    """The style sheets of a handout of this kind, the clinic's own file before the shipped one."""
    return _rules(style, kind) if style.template_folder else _shipped(style, kind)


@lru_cache(maxsize=32)
def _shipped(style: Style, kind: str) -> Outcome[Rules]:
    return _rules(style, kind)


def _rules(style: Style, kind: str) -> Outcome[Rules]:
    jinja = environment(style)
    found: dict[str, str] = {}
    for name in (*names(style, kind), "screen.css", "ua.css"):
        try:
            found[name] = _source(jinja, name)
        except TemplateNotFound:
            continue  # a kind need not have rules of its own, nor a clinic
        except UnicodeDecodeError:
            return Outcome(None, (template_fails(name, None, "It is not UTF-8 text."),))
    screen, elements = found.pop("screen.css"), found.pop("ua.css")
    return Outcome(Rules(tuple(found.values()), screen, None if style.template_folder else elements))


def reflowable(style: Style) -> Outcome[str]:
    """The rules for devices that set the text themselves; the clinic's own file before the shipped one."""
    try:
        return Outcome(_source(environment(style), "epub.css"), ())
    except UnicodeDecodeError:
        return Outcome(None, (template_fails("epub.css", None, "It is not UTF-8 text."),))


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


def missing_fonts() -> tuple[Diagnostic, ...]:
    """A diagnostic for each font file that is not there."""
    folder = fonts.font_folder()
    return tuple(font_missing(font.family, font.file) for font in fonts.FONTS if not (folder / font.file).is_file())


def template_digest(style: Style) -> str:
    """A digest of every template and style sheet that may take part, the clinic's own and the shipped ones."""
    digest = sha256()
    for number, folder in enumerate(folders(style.template_folder)):
        for path in sorted(folder.rglob("*")):
            if path.suffix in (".j2", ".css"):
                digest.update(f"{number}/{path.relative_to(folder).as_posix()}\0".encode())
                digest.update(sha256(path.read_bytes()).digest())
    return digest.hexdigest()


def _face(font: Font, source: str) -> str:
    return f'@font-face{{font-family:"{font.family}";font-weight:{font.weight};src:{source}}}'


def _source(jinja: Environment, name: str) -> str:
    """The text of a file as the loader finds it."""
    assert jinja.loader is not None
    return jinja.loader.get_source(jinja, name)[0]
