"""A picture in SVG, written anew with nothing in it but drawing: nothing that runs, nothing from outside."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from math import inf
from xml.parsers import expat
from xml.sax.saxutils import escape, quoteattr

SVG = "http://www.w3.org/2000/svg"
_XLINK = "http://www.w3.org/1999/xlink"
_XML = "http://www.w3.org/XML/1998/namespace"
MOST_ELEMENTS = 100_000
DEEPEST = 100

# SVG 2 (W3C 2018), element index: what draws. Everything else is left out, or is an error where it could do harm.
_DRAWS = frozenset((
    "svg", "g", "defs", "symbol", "use", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon",
    "text", "tspan", "textPath", "title", "desc", "image", "style", "linearGradient", "radialGradient", "stop",
    "clipPath", "mask", "pattern", "marker", "switch", "a", "filter", "feBlend", "feColorMatrix", "feComposite",
    "feComponentTransfer", "feFlood", "feFuncA", "feFuncB", "feFuncG", "feFuncR", "feGaussianBlur", "feMerge",
    "feMergeNode", "feOffset", "feTile",
))  # fmt: skip
_HARMS = frozenset((
    "script", "foreignobject", "iframe", "object", "embed", "audio", "video", "canvas", "handler", "listener",
    "html", "body", "link", "meta", "base", "feimage",
))  # fmt: skip
_DATA = re.compile(r"data:image/(?:png|jpeg);base64,[A-Za-z0-9+/=\s]*\Z")
_URL = re.compile(r"url\(\s*[\"']?\s*([^\"')]*)", re.IGNORECASE)
_RUNS = re.compile(r"(?:java|vb)script\s*:|expression\s*\(|@import|-moz-binding|behavior\s*:", re.IGNORECASE)
_LENGTH = re.compile(r"\s*(\d*\.?\d+(?:e[+-]?\d+)?)\s*(?:px|pt|pc|mm|cm|in|em|q)?\s*\Z", re.IGNORECASE)
_NUMBERS = re.compile(r"[\s,]+")


class Unsafe(Exception):
    """Something that a picture may not hold; the message says what, in words."""


class NoPicture(Exception):
    """Not well-formed XML, or no SVG, or one that has no size."""


@dataclass(slots=True)
class Clean:
    """An SVG written anew: its text, and its width over its height."""

    text: str
    width: float
    height: float


@dataclass(slots=True)
class _Writer:
    """Takes what the XML parser reads and writes what may stay."""

    out: list[str] = field(default_factory=list)
    skipped: int = 0
    open: list[tuple[str, str]] = field(default_factory=list)
    rules: list[str] = field(default_factory=list)
    size: tuple[float, float] | None = None
    elements: int = 0
    # For each id the elements in it and what it draws again, to see how much a small file unfolds to.
    inside: dict[str, int] = field(default_factory=dict)
    again: dict[str, list[str]] = field(default_factory=dict)

    def start(self, name: str, attributes: dict[str, str]) -> None:
        space, _, tag = name.rpartition(" ")
        if tag.lower() in _HARMS and not self._of_another_program(space):
            raise Unsafe(f"`<{tag}>`, which a picture has no use for")
        if not self.open and not self.skipped and (space, tag) != (SVG, "svg"):
            raise NoPicture(f"it begins with `<{tag}>` and not with `<svg>`")
        kept = dict(_kept(attributes))
        if self.skipped or space != SVG or tag not in _DRAWS:
            self.skipped += 1
            return
        if not self.open:
            self.size = _size(kept)
            kept["xmlns"] = SVG
        self._count(tag, kept)
        self.out.append("<" + tag + "".join(f" {key}={quoteattr(value)}" for key, value in kept.items()) + ">")
        self.open.append((tag, kept.get("id", "")))
        if len(self.open) > DEEPEST:
            raise Unsafe(f"more than {DEEPEST} elements inside one another")

    def end(self, name: str) -> None:
        if self.skipped:
            self.skipped -= 1
            return
        tag, _ = self.open.pop()
        if tag == "style":
            _rules("".join(self.rules))
            self.rules.clear()
        self.out.append(f"</{tag}>")

    def text(self, data: str) -> None:
        if self.skipped or not self.open:
            return
        if self.open[-1][0] == "style":
            self.rules.append(data)
        self.out.append(escape(data))

    def doctype(self, name: str, system: str | None, public: str | None, subset: bool) -> None:
        if subset:
            raise Unsafe("a document type with declarations of its own")

    def entity(self, *declared: object) -> None:
        raise Unsafe("an entity, which could stand for a file outside")

    def _count(self, tag: str, kept: Mapping[str, str]) -> None:
        self.elements += 1
        target = kept.get("href", "")[1:] if tag == "use" else ""
        for key in ["", *(one for _, one in self.open if one)]:
            self.inside[key] = self.inside.get(key, 0) + 1
            if target:
                self.again.setdefault(key, []).append(target)
        if self.elements > MOST_ELEMENTS:
            raise Unsafe(f"more than {MOST_ELEMENTS} elements")

    @staticmethod
    def _of_another_program(space: str) -> bool:
        """Whether an element is a drawing program's own note (metadata), which is left out anyway."""
        return space not in ("", SVG, "http://www.w3.org/1999/xhtml")


def clean(data: bytes) -> Clean:
    """The picture with drawing alone in it; Unsafe or NoPicture where that cannot be."""
    writer = _Writer()
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.StartElementHandler = writer.start
    parser.EndElementHandler = writer.end
    parser.CharacterDataHandler = writer.text
    parser.StartDoctypeDeclHandler = writer.doctype
    parser.EntityDeclHandler = writer.entity
    parser.buffer_text = True
    try:
        parser.Parse(data, True)
    except expat.ExpatError as error:
        raise NoPicture(f"its XML breaks off in line {error.lineno}") from None
    if writer.size is None:
        raise NoPicture("it says no size: `viewBox`, or `width` and `height`")
    if _unfolded("", writer, {}, 0) > MOST_ELEMENTS:
        raise Unsafe(f"parts that draw one another, more than {MOST_ELEMENTS} in all")
    return Clean("".join(writer.out), *writer.size)


def _kept(attributes: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """The attributes that stay; Unsafe for one that runs or reaches outside."""
    for name, value in attributes.items():
        space, _, key = name.rpartition(" ")
        if key.lower().startswith("on") and space in ("", SVG):
            raise Unsafe(f"`{key}`, which runs a program")
        if key.lower() in ("href", "src") and space in ("", SVG, _XLINK):
            _inside(value)
            key, space = "href", ""
        _rules(value)
        if space == _XML and key == "space":
            yield "xml:space", value
        elif not space and not key.startswith("xmlns"):
            yield key, value


def _inside(address: str) -> None:
    if address and not address.startswith("#") and not _DATA.match(address.strip()):
        raise Unsafe(f"a link to `{address[:60]}`, outside the picture")


def _rules(text: str) -> None:
    """A style, or any other value: nothing in it may run or be fetched."""
    if _RUNS.search(text):
        raise Unsafe("rules of style that run or bring in something")
    for address in _URL.findall(text):
        _inside(address.strip())
    if "\\" in text:
        raise Unsafe("a backslash, behind which an address could hide")


def _size(attributes: Mapping[str, str]) -> tuple[float, float] | None:
    """Width and height, of whatever unit; None where the picture does not say them."""
    box = _NUMBERS.split(attributes.get("viewBox", "").strip())
    try:
        if len(box) == 4:
            return float(box[2]), float(box[3])
    except ValueError:
        return None
    found = [_LENGTH.match(attributes.get(key, "")) for key in ("width", "height")]
    if found[0] is None or found[1] is None:
        return None
    return float(found[0][1]), float(found[1][1])


def _unfolded(key: str, writer: _Writer, known: dict[str, float], depth: int) -> float:
    """How many elements are drawn for an id once each `use` is followed; without end where they go in a circle."""
    if key in known:
        return known[key]
    if depth > DEEPEST:
        return inf
    known[key] = inf
    again = writer.again.get(key, ())
    total = writer.inside.get(key, 0) + sum(_unfolded(one, writer, known, depth + 1) for one in again)
    known[key] = total
    return total
