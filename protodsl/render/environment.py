"""The templates: where they are looked for, and the few filters they know."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

from jinja2 import BaseLoader, ChoiceLoader, FileSystemLoader, PrefixLoader, StrictUndefined, pass_context
from jinja2.runtime import Context
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from protodsl import resources
from protodsl.handout.blocks import Diary, Item, Picture, Station
from protodsl.render import markdown
from protodsl.render.style import Style

_WORD_START = re.compile(r"(?<=[a-z])(?=[A-Z])")
_OUTSIDE_ID = re.compile(r"[^\w-]+")
_CSS_SPECIAL = frozenset("\"\\<>&\n\r\f")
_SVG_START = re.compile(r"<svg\b[^>]*>")
_SVG_TITLE = re.compile(r"\s*<title\b[^>]*>.*?</title>", re.DOTALL)
# In percent of the measure; boxes of one exercise each, then the columns to write in share what is left.
_DAY_WIDTH, _BOX_WIDTH, _MOST_FOR_BOXES = 14, 5, 40


@cache
def environment(template_folder: Path | None) -> ImmutableSandboxedEnvironment:
    """The templates of a clinic (None: the shipped ones alone), its own first; `protodsl/` names a shipped one."""
    shipped = FileSystemLoader(resources.path("protodsl.templates"))
    loaders: list[BaseLoader] = [shipped, PrefixLoader({"protodsl": shipped})]
    if template_folder is not None:
        loaders.insert(0, FileSystemLoader(template_folder))
    made = ImmutableSandboxedEnvironment(
        loader=ChoiceLoader(loaders), undefined=StrictUndefined, autoescape=True, trim_blocks=True, lstrip_blocks=True
    )
    made.filters |= {
        "columns": columns,
        "css": css_string,
        "diary_numbers": diary_numbers,
        "diary_widths": diary_widths,
        "drawing": drawing,
        "id": identifier,
        "md": _inline,
        "number": _number,
        "page_number": page_number,
        "phone": markdown.phone_link,
        "safety": safety_attribute,
        "template": template_of,
        "words": markdown.plain,
    }
    return made


def context(style: Style, **values: object) -> dict[str, object]:
    """What every template is given besides the handout itself."""
    return {"style": style, "style_sheet": "", "paged": False, "partings": {}, **values}


def template_of(block: object) -> str:
    """The template of a block, from the name of its type: PainScale is `blocks/pain-scale.html.j2`."""
    return f"blocks/{_WORD_START.sub('-', type(block).__name__).lower()}.html.j2"


def identifier(text: str) -> str:
    """An id without spaces."""
    return _OUTSIDE_ID.sub("-", text).strip("-")


def safety_attribute(block: Item[str] | Station[str]) -> Markup:
    """The attribute by which a safety line is found again on the page; nothing for any other line."""
    return Markup(' data-safety="{}"').format(block.safety) if block.safety else Markup()


def css_string(text: str) -> Markup:
    """A phrase as a CSS string, its emphasis left out."""
    return _css(markdown.plain(text))


def page_number(words: str | None) -> Markup:
    """The CSS that counts pages, in the words of the handout: `Page {page} of {pages}`."""
    counters = {"{page}": Markup("counter(page)"), "{pages}": Markup("counter(pages)")}
    parts = re.split(r"(\{pages?\})", words or "{page} / {pages}")
    return Markup(" ").join(counters.get(part) or _css(part) for part in parts if part)


def columns(lines: tuple[Item[str], ...], count: int) -> list[tuple[Item[str], ...]]:
    """The lines in so many columns, the first ones longer."""
    count = max(1, min(count, len(lines)))
    size, longer = divmod(len(lines), count)
    ends = [size * i + min(i, longer) for i in range(count + 1)]
    return [lines[start:end] for start, end in zip(ends, ends[1:], strict=False)]


def drawing(picture: Picture[str]) -> Markup:
    """The figure with its text alternative as its title, where screen readers and PDF tags look for it."""
    svg = picture.svg[picture.svg.index("<svg") :]
    start = _SVG_START.match(svg)
    if start is None:
        return Markup()
    rest = _SVG_TITLE.sub("", svg[start.end() :], count=1)
    return Markup(f"{start[0]}<title>{escape(markdown.plain(picture.alternative))}</title>{rest}")


def diary_numbers(diary: Diary[str]) -> tuple[str, ...]:
    """The exercises of a diary, each once, in the order of their numbers."""
    found = dict.fromkeys(number for week in diary.weeks for _, due in week.days for number in due)
    return tuple(sorted(found, key=lambda number: (len(number), number)))


def diary_widths(diary: Diary[str]) -> tuple[int, ...]:
    """The widths of a diary's columns; the last one to write in is wider, because it holds words."""
    boxes = min(max(22, _BOX_WIDTH * len(diary_numbers(diary)) + 2), _MOST_FOR_BOXES)
    left = 100 - _DAY_WIDTH - boxes
    if diary.blanks < 2:
        return (_DAY_WIDTH, boxes, *([left] * diary.blanks))
    each = min(14, left // diary.blanks)
    return (_DAY_WIDTH, boxes, *([each] * (diary.blanks - 1)), left - each * (diary.blanks - 1))


@pass_context
def _inline(context: Context, text: str) -> Markup:
    phones: tuple[str, ...] = context.resolve("phones")
    return markdown.inline(text, phones)


@pass_context
def _number(context: Context, value: int) -> str:
    style: Any = context.resolve("style")
    return str(style.number(value))


def _css(text: str) -> Markup:
    """A CSS string, with nothing in it that could end the string, the style element or an XML document."""
    return Markup('"{}"'.format("".join(f"\\{ord(sign):x} " if sign in _CSS_SPECIAL else sign for sign in text)))
