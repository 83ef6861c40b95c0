"""The templates: where they are looked for, and the few filters they know."""

from __future__ import annotations

import itertools
import math
import re
from functools import lru_cache
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

import markupsafe
from jinja2 import (
    BaseLoader,
    ChoiceLoader,
    Environment,
    FileSystemBytecodeCache,
    FileSystemLoader,
    PrefixLoader,
    StrictUndefined,
    pass_context,
)
from jinja2.runtime import Context
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup

from protodsl import resources
from protodsl.handout.blocks import Block, ExerciseCard, Item, Picture, Station, Stations, Table
from protodsl.render import markdown
from protodsl.render.breaks import UNBROKEN
from protodsl.render.cache import cache_folder
from protodsl.render.chart import plotted
from protodsl.render.diary import diary_grid
from protodsl.render.style import Style

_WORD_START = re.compile(r"(?<=[a-z])(?=[A-Z])")
_OUTSIDE_ID = re.compile(r"[^\w-]+")
_CSS_SPECIAL = frozenset('"\\<>&\n\r\f')
_SVG_START = re.compile(r"<svg\b[^>]*>")
_SVG_SIZE = re.compile(r'\s(?:width|height)="[^"]*"')
_SVG_WIDTH = re.compile(r'\swidth="([\d.]+)mm"')
# In the whole measure at 12 pt, with room to spare; and in lines.
_LETTERS_A_LINE, _SHORT_TABLE = 70, 16
_MM_PER_REM = 4.2333
_SVG_TITLE = re.compile(r"\s*<title\b[^>]*>.*?</title>", re.DOTALL)


def environment(style: Style) -> Environment:
    """The templates of a clinic before the shipped ones; `protodsl/` names a shipped one."""
    return _environment(style.template_folder, cache_folder(style.cache_folder))


def folders(template_folder: Path | None) -> tuple[Path, ...]:
    """Where templates and style sheets are looked for, in order."""
    shipped = resources.path("protodsl.templates")
    return (shipped,) if template_folder is None else (template_folder, shipped)


def context(style: Style, **values: object) -> dict[str, object]:
    """What every template is given besides the handout itself."""
    return {"style": style, "style_sheet": "", "paged": False, "breaks": UNBROKEN, "snug": False, **values}


def template_of(block: object) -> str:
    """The template of a block, from the name of its type: PainScale is `blocks/pain-scale.html.j2`."""
    return f"blocks/{_WORD_START.sub('-', type(block).__name__).lower()}.html.j2"


def identifier(text: str) -> str:
    """An id without spaces."""
    return _OUTSIDE_ID.sub("-", text).strip("-")


def safety_attribute(block: Item[str] | Station[str]) -> Markup:
    """The attribute by which a safety line is found again on the page; nothing for any other line."""
    return Markup(f' data-safety="{markupsafe.escape(block.safety)}"') if block.safety else Markup()


@pass_context
def css_string(context: Context, text: str) -> Markup:
    """A phrase as a CSS string, its emphasis left out and the telephone numbers in it kept together."""
    words = markdown.plain(text)
    for number in context.resolve("phones"):
        words = words.replace(number, markdown.unbroken(number))
    return _css(words)


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
    return [lines[start:end] for start, end in itertools.pairwise(ends)]


def at_first_card(blocks: tuple[Block[str], ...]) -> tuple[tuple[Block[str], ...], tuple[Block[str], ...]]:
    """The blocks before the first exercise, and those from it on."""
    first = next((i for i, block in enumerate(blocks) if isinstance(block, ExerciseCard)), len(blocks))
    return blocks[:first], blocks[first:]


def is_short(table: Table[str]) -> bool:
    """Whether a table is sure to fit a part of a page and is kept whole; a longer one goes on overleaf."""
    widths = table.widths or (100 // max(len(table.heads), 1),) * len(table.heads)
    lines = 0
    for row in table.rows:
        needed = [
            math.ceil(len(cell.text) / max(1, width * _LETTERS_A_LINE // 100))
            for cell, width in zip(row, widths, strict=False)
        ]
        lines += max(needed, default=1)
    return lines <= _SHORT_TABLE


def is_lean(line: Stations[str]) -> bool:
    """Whether what one does now takes so much less room than what leads away from it that it is set narrower."""
    lengths = {stop.role: len(stop.what) + len(stop.when or "") for stop in line.stops}
    others = [length for role, length in lengths.items() if role != "now"]
    return "now" in lengths and bool(others) and 2 * lengths["now"] < max(others)


@pass_context
def drawing(context: Context, picture: Picture[str]) -> Markup:
    """The figure with its text alternative as its title, where screen readers and PDF tags look for it.

    A width in millimetres becomes one in rem, so that bodies of one scale stay so and grow with the print.
    """
    svg = picture.svg[max(picture.svg.find("<svg"), 0) :]
    start = _SVG_START.match(svg)
    if start is None:
        return Markup()
    opening, rest = start[0], _SVG_TITLE.sub("", svg[start.end() :], count=1)
    width = drawn_width(context, picture)
    if width:
        opening = f"{_SVG_SIZE.sub('', opening)[:-1]}{width}>"
    return Markup(f"{opening}<title>{escape(markdown.plain(picture.alternative))}</title>{rest}")


@pass_context
def drawn_width(context: Context, picture: Picture[str]) -> Markup:
    """The attribute that gives a figure its width, and its captions the same; none where the figure says none in mm."""
    width = _SVG_WIDTH.search(picture.svg.partition(">")[0])
    if width is None:
        return Markup()
    return Markup(' style="width:{:.2f}rem"').format(float(width[1]) / _MM_PER_REM * context.resolve("style").enlarged)


@pass_context
def _inline(context: Context, text: str) -> Markup:
    phones: Any = context.resolve("phones")
    return markdown.inline(text, phones)


@pass_context
def _number(context: Context, value: int) -> str:
    style: Any = context.resolve("style")
    return str(style.number(value))


def _css(text: str) -> Markup:
    """A CSS string, with nothing in it that could end the string, the style element or an XML document."""
    return Markup('"{}"'.format("".join(f"\\{ord(sign):x} " if sign in _CSS_SPECIAL else sign for sign in text)))


@lru_cache(maxsize=8)
def _environment(template_folder: Path | None, cache: Path) -> Environment:
    *own, shipped = (FileSystemLoader(folder) for folder in folders(template_folder))
    loaders: list[BaseLoader] = [*own, shipped, PrefixLoader({"protodsl": shipped})]
    # The shipped templates are part of this program; only somebody else's are kept in a sandbox, which costs time.
    kind = Environment if template_folder is None else ImmutableSandboxedEnvironment
    # What was compiled without a sandbox is of no use in one, nor the other way round.
    keep = cache / f"templates-{kind.__name__}"
    keep.mkdir(exist_ok=True)
    made = kind(
        loader=ChoiceLoader(loaders),
        undefined=StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        bytecode_cache=FileSystemBytecodeCache(str(keep)),
        # What is shipped stays as it is while the program runs, and a page would ask that of a hundred files.
        auto_reload=template_folder is not None,
    )
    made.filters |= {
        "at_first_card": at_first_card,
        "columns": columns,
        "css": css_string,
        "diary_grid": diary_grid,
        "drawing": drawing,
        "drawn_width": drawn_width,
        "id": identifier,
        "is_lean": is_lean,
        "is_short": is_short,
        "md": _inline,
        "number": _number,
        "page_number": page_number,
        "plotted": plotted,
        "phone": markdown.phone_link,
        "safety": safety_attribute,
        "template": template_of,
        "words": markdown.plain,
    }
    return made
