"""Every star of emphasis has its other star."""

from __future__ import annotations

import re
from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.words.place import part
from protodsl.diagnostics import words as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.emphasis import STAR_IN_WORD
from protodsl.model.protocol import Entry

# A star between blanks is a star, as in `3 * 10`; an escaped one is as well.
_WHOLE = re.compile(
    r"\\\*|(?<!\*\*)\*\*(?=\S)[^*]+(?<=\S)\*\*(?!\*\*)|(?<!\*)\*(?=\S)[^*]+(?<=\S)\*(?!\*)|(?<!\S)\*(?!\S)"
)


def unmatched_emphasis(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A star that is left once all pairs are taken out; one inside a word has been told where it was read."""
    for text in context.texts:
        if "*" in text.prose.text and not STAR_IN_WORD.search(text.prose.text):
            left = _without_pairs(text.prose.text)
            if "*" in left:
                at = left.index("*")
                yield say.unmatched_emphasis(part(text.prose, at, at + 1))


def _without_pairs(text: str) -> str:
    """The text with letters for every pair, from the inmost out, so that each star that is left keeps its place."""
    found = 1
    while found:
        text, found = _WHOLE.subn(lambda pair: "x" * len(pair.group()), text)
    return text
