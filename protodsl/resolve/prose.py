"""Prose: a line with the key by which it is translated, its placeholders looked up."""

from __future__ import annotations

import re

from protodsl.diagnostics import words as say
from protodsl.model.emphasis import STAR_IN_WORD
from protodsl.model.text import SIDE_PLACEHOLDERS, Prose
from protodsl.resolve.names import Missing, Names
from protodsl.source import Span
from protodsl.syntax import tree

_PLACEHOLDER = re.compile(r"\[([^\[\]]*)\]")


def prose(words: tree.Words, keyword: str, names: Names) -> Prose:
    """One line of prose; its key is `kind/NAME/keyword`."""
    _look_at(words, names)
    return Prose(words.text, names.prefix + keyword, words.span)


def prose_lines(lines: tuple[tree.Words, ...], keyword: str, names: Names) -> tuple[Prose, ...]:
    """The lines of a block, all under one key."""
    key = names.prefix + keyword
    for words in lines:
        _look_at(words, names)
    return tuple([Prose(words.text, key, words.span) for words in lines])


def default_title(name: tree.Name, prefix: str) -> Prose:
    """The title of a thing that has none of its own: its name."""
    return Prose(name.text, f"{prefix}title", name.span)


def _look_at(words: tree.Words, names: Names) -> None:
    """What is wrong inside a line, whoever reads it."""
    if "[" in words.text:
        _look_up(words, names)
    if "*" in words.text and (star := STAR_IN_WORD.search(words.text)) is not None:
        start = words.span.start + star.start()
        names.say(say.star_in_word(Span(words.span.path, start, words.span.start + star.end())))


def _look_up(words: tree.Words, names: Names) -> None:
    for match in _PLACEHOLDER.finditer(words.text):
        text = " ".join(match[1].split())
        if text in SIDE_PLACEHOLDERS or names.find("settings", text) is not None:
            continue
        start = words.span.start + match.start()
        span = Span(words.span.path, start, start + len(match[0]))
        names.missing.append(Missing(("settings",), tree.Name(text, span=span), placeholder=True))
