"""A handout as an EPUB 3.3 publication: the page as in HTML, in chapters, set by the reader's own device."""

from __future__ import annotations

import io
import uuid
import zipfile
from collections.abc import Iterator
from xml.etree.ElementTree import Element, fromstring
from xml.sax.saxutils import escape, quoteattr

from protodsl import fonts, resources
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.handout.blocks import Handout
from protodsl.outcome import Outcome
from protodsl.render import outside
from protodsl.render.document import document
from protodsl.render.documents.archive import zipped
from protodsl.render.documents.chapters import Chapter, Entry, chapters
from protodsl.render.documents.xhtml import written
from protodsl.render.markdown import plain
from protodsl.render.safety import lost_in_document
from protodsl.render.style import Style
from protodsl.render.stylesheet import reflowable

_MIMETYPE = b"application/epub+zip"
_CONTAINER = b"""<?xml version="1.0" encoding="UTF-8"?>
<container version="1.0" xmlns="urn:oasis:names:tc:opendocument:xmlns:container">
<rootfiles><rootfile full-path="EPUB/package.opf" media-type="application/oebps-package+xml"/></rootfiles>
</container>
"""
# EPUB 3.3, 5.5.6: a publication says when it was last changed. A handout is the same whenever it is made.
_MODIFIED = "1980-01-01T00:00:00Z"


def epub(page: Handout[str], style: Style) -> Outcome[bytes]:
    """The publication; read back, every safety line is in it, or a diagnostic says which is not."""
    made = document(page, style)
    rules = reflowable(style)
    if made.value is None or rules.value is None:
        return Outcome(None, (*made.diagnostics, *rules.diagnostics))
    body = made.value.root.find("body")
    parts = chapters(body) if body is not None else ()
    data = zipped(_files(page, style, parts, rules.value), stored=("mimetype",))
    said = _checked(page, data, rules.value)
    return Outcome(None if said else data, said)


def _checked(page: Handout[str], data: bytes, rules: str) -> tuple[Diagnostic, ...]:
    """What of the safety lines is not in the finished file, and what it would fetch."""
    root = Element("html")
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for name in archive.namelist():
            if name.endswith(".xhtml") and not name.endswith("nav.xhtml"):
                root.append(fromstring(archive.read(name)))
    for element in root.iter():
        element.tag = element.tag.rpartition("}")[2]
    for head in [one for one in root.iter("link") if one.get("href") == "style.css"]:
        head.attrib.clear()
    return (*lost_in_document(page, root), *outside.addresses(root, (rules,)))


def _files(page: Handout[str], style: Style, parts: tuple[Chapter, ...], rules: str) -> Iterator[tuple[str, bytes]]:
    faces = _faces(style)
    yield "mimetype", _MIMETYPE
    yield "META-INF/container.xml", _CONTAINER
    yield "EPUB/package.opf", _package(page, style, parts, tuple(faces)).encode()
    yield "EPUB/nav.xhtml", _navigation(page, style, parts).encode()
    for part in parts:
        yield f"EPUB/{part.name}", _chapter(page, style, part).encode()
    yield "EPUB/style.css", _styles(style, rules).encode()
    for name in faces:
        yield f"EPUB/{name}", resources.data("protodsl.fonts", name)


def _faces(style: Style) -> tuple[str, ...]:
    """The font files that go along: those of a script that many devices have no good font for."""
    if "arabic" not in style.classes.split():
        return ()
    return tuple(font.file for font in fonts.FONTS if font.family == fonts.ARABIC)


def _styles(style: Style, rules: str) -> str:
    faces = (font for font in fonts.FONTS if font.file in _faces(style))
    lines = [
        f'@font-face {{ font-family: "{font.family}"; font-weight: {font.weight}; src: url("{font.file}") }}'
        for font in faces
    ]
    return "\n".join((*lines, rules))


def _package(page: Handout[str], style: Style, parts: tuple[Chapter, ...], faces: tuple[str, ...]) -> str:
    identifier = uuid.uuid5(uuid.NAMESPACE_OID, "\0".join((page.kind, plain(page.title), page.digest, style.language)))
    drawn = any(part.has_drawings for part in parts)
    items = [
        '<item id="nav" href="nav.xhtml" media-type="application/xhtml+xml" properties="nav"/>',
        '<item id="style" href="style.css" media-type="text/css"/>',
    ]
    for part in parts:
        svg = ' properties="svg"' if part.has_drawings else ""
        items.append(f'<item id="{_id(part)}" href="{part.name}" media-type="application/xhtml+xml"{svg}/>')
    for number, name in enumerate(faces, 1):
        items.append(f'<item id="font-{number}" href="{name}" media-type="font/ttf"/>')
    spine = "".join(f'<itemref idref="{_id(part)}"/>' for part in parts)
    return "\n".join(
        (
            '<?xml version="1.0" encoding="UTF-8"?>',
            '<package xmlns="http://www.idpf.org/2007/opf" version="3.0" unique-identifier="id"'
            f" xml:lang={quoteattr(style.language)} dir={quoteattr(style.direction)}>",
            '<metadata xmlns:dc="http://purl.org/dc/elements/1.1/">',
            f'<dc:identifier id="id">urn:uuid:{identifier}</dc:identifier>',
            f"<dc:title>{escape(plain(page.title))}</dc:title>",
            f"<dc:language>{escape(style.language)}</dc:language>",
            f"<dc:publisher>{escape(plain(page.masthead.clinic))}</dc:publisher>",
            f'<meta property="dcterms:modified">{_MODIFIED}</meta>',
            *_accessibility(style, drawn),
            "</metadata>",
            f"<manifest>{''.join(items)}</manifest>",
            f'<spine page-progression-direction="{style.direction}">{spine}</spine>',
            "</package>\n",
        )
    )


def _accessibility(style: Style, drawn: bool) -> Iterator[str]:
    """What a reader who cannot see, or not well, finds in it (EPUB Accessibility 1.1, section 2; schema.org)."""
    features = ["structuralNavigation", "tableOfContents", "readingOrder", "displayTransformability"]
    features += ["alternativeText"] if drawn else []
    features += ["largePrint"] if style.large_print else []
    modes = ["textual", "visual"] if drawn else ["textual"]
    yield from (f'<meta property="schema:accessMode">{mode}</meta>' for mode in modes)
    yield '<meta property="schema:accessModeSufficient">textual</meta>'
    yield from (f'<meta property="schema:accessibilityFeature">{feature}</meta>' for feature in features)
    yield '<meta property="schema:accessibilityHazard">none</meta>'


def _navigation(page: Handout[str], style: Style, parts: tuple[Chapter, ...]) -> str:
    lines = "".join(_entries(part.name, part.contents) for part in parts)
    title = escape(plain(page.title))
    return _xhtml(style, title, f'<nav epub:type="toc"><h1>{title}</h1><ol>{lines}</ol></nav>')


def _entries(name: str, entries: tuple[Entry, ...]) -> str:
    lines = []
    for entry in entries:
        below = f"<ol>{_entries(name, entry.below)}</ol>" if entry.below else ""
        lines.append(f"<li><a href={quoteattr(f'{name}#{entry.anchor}')}>{escape(entry.words)}</a>{below}</li>")
    return "".join(lines)


def _chapter(page: Handout[str], style: Style, part: Chapter) -> str:
    title = escape(part.contents[0].words if part.contents else plain(page.title))
    drafts = (f'<p class="draft">{escape(plain(line))}</p>' for line in page.draft)
    body = "\n".join((*drafts, *map(written, part.elements)))
    return _xhtml(style, title, body, page.kind)


def _xhtml(style: Style, title: str, body: str, kind: str = "contents") -> str:
    language, classes = quoteattr(style.language), quoteattr(f"{kind} {style.classes}".strip())
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE html>\n'
        '<html xmlns="http://www.w3.org/1999/xhtml" xmlns:epub="http://www.idpf.org/2007/ops"'
        f' lang={language} xml:lang={language} dir="{style.direction}" class={classes}>\n'
        f'<head><title>{title}</title><link rel="stylesheet" type="text/css" href="style.css"/></head>\n'
        f"<body>\n{body}\n</body>\n</html>\n"
    )


def _id(part: Chapter) -> str:
    return part.name.removesuffix(".xhtml")
