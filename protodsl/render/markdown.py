"""Inline Markdown to HTML: emphasis and links, never markup of the author's own."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from protodsl.localise.catalogue import direction
from protodsl.render.emphasis import reads_wide_scripts

if TYPE_CHECKING:
    from markdown_it import MarkdownIt

_SIGNS = re.compile(r"[*_`\[\]<>&\\\n]")
_ALLOWED_LINK = re.compile(r"(?:https://|mailto:|tel:|#|missing:|lang:)", re.IGNORECASE)
# No link: words of another language than the page (see `localise.escape.in_language`), missing in it or foreign to it.
_LANGUAGE = re.compile(r"(missing|lang):([\w-]+)")
# Signs in a row that make a line to write on; a narrow screen shows less of it.
_RULE = re.compile(r"_{6,}")
# A shorter one (112) could be a number of steps; where it is to be called, it stands in a field of its own.
_SHORTEST_LINKED_PHONE = 6


@dataclass(frozen=True, slots=True)
class Run:
    """Words of one look; `address` is where a link leads."""

    text: str
    strong: bool = False
    emphasis: bool = False
    address: str = ""


def inline(text: str, phones: tuple[str, ...] = ()) -> Markup:
    """The HTML of one phrase; each of the `phones` in it becomes a link that dials it."""
    made = _RULE.sub(r'<span class="rule">\g<0></span>', _rendered(text))
    for number in phones:
        if number in text and sum(sign.isdigit() for sign in number) >= _SHORTEST_LINKED_PHONE:
            made = re.sub(rf"(?<!\w){re.escape(number)}(?!\w)", str(phone_link(number)), made)
    return Markup(made)


def plain(text: str) -> str:
    """The words of one phrase without its marks, with single spaces."""
    if _SIGNS.search(text):
        text = "".join(_words(_parser().parseInline(text)))
    return " ".join(text.split())


def runs(text: str) -> tuple[Run, ...]:
    """One phrase as words of one look each, for formats that are not HTML."""
    if not _SIGNS.search(text):
        return (Run(text),) if text else ()
    found: list[Run] = []
    strong = emphasis = 0
    address = ""
    for token in _parser().parseInline(text)[0].children or ():
        strong += {"strong_open": 1, "strong_close": -1}.get(token.type, 0)
        emphasis += {"em_open": 1, "em_close": -1}.get(token.type, 0)
        if token.type == "link_open":
            href = str(token.attrs.get("href", ""))
            address = "" if _LANGUAGE.fullmatch(href) else href
        elif token.type == "link_close":
            address = ""
        words = "\n" if token.type in ("softbreak", "hardbreak") else token.content
        if words:
            found.append(Run(words, strong > 0, emphasis > 0, address))
    return tuple(found)


def phone_link(number: str) -> Markup:
    """A telephone number as a link that dials it; kept in one line and left to right in every language."""
    dialled = "".join(sign for sign in number if sign.isdigit() or sign == "+")
    if not dialled:
        return inline(number)
    return Markup('<a class="phone" dir="ltr" href="tel:{}">{}</a>').format(dialled, unbroken(number))


def unbroken(number: str) -> str:
    """A telephone number as it is shown: in one line, its groups in order in right-to-left text too.

    A no-break space keeps groups of digits in order, where a plain one swaps them (UAX #9, W4); a number that begins
    with a plus sign is isolated besides, or the sign ends up behind it.
    """
    joined = "\N{NO-BREAK SPACE}".join(number.split())
    return f"\N{LEFT-TO-RIGHT ISOLATE}{joined}\N{POP DIRECTIONAL ISOLATE}" if joined.startswith("+") else joined


@lru_cache(maxsize=4096)
def _rendered(text: str) -> str:
    if not _SIGNS.search(text):
        return text
    parser = _parser()
    tokens = parser.parseInline(text)
    for token in tokens:
        _in_their_language(token.children or ())
    return str(parser.renderer.render(tokens, parser.options, {}))


@cache
def _parser() -> MarkdownIt:
    """A parser that knows emphasis, links, code and escapes; loaded only when a phrase has a mark at all."""
    from markdown_it import MarkdownIt

    parser = MarkdownIt("zero", {"html": False, "xhtmlOut": True})
    parser.enable(["emphasis", "link", "escape", "backticks", "balance_pairs", "fragments_join"], ignoreInvalid=True)
    reads_wide_scripts(parser)
    parser.validateLink = _may_be_linked  # type: ignore[method-assign]
    return parser


def _in_their_language(tokens: Sequence[Any]) -> None:
    """Words of another language than the page become a span that says so; what is missing can be seen."""
    opened: list[bool] = []
    for token in tokens:
        if token.type == "link_open":
            found = _LANGUAGE.fullmatch(str(token.attrs.get("href", "")))
            opened.append(found is not None)
            if found is not None:
                token.tag = "span"
                token.attrs = {"lang": found[2], "dir": direction(found[2])}
                if found[1] == "missing":
                    token.attrs["class"] = "untranslated"
        elif token.type == "link_close" and opened.pop():
            token.tag = "span"


def _may_be_linked(url: str) -> bool:
    return bool(_ALLOWED_LINK.match(url.strip()))


def _words(tokens: list[Any]) -> list[str]:
    words: list[str] = []
    for token in tokens:
        words.extend(_words(token.children) if token.children else [token.content])
    return words
