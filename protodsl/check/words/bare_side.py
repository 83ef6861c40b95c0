"""The prose of an exercise names no side of its own: the sheet knows which side is hurt."""

from __future__ import annotations

import re
from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.words.place import part
from protodsl.diagnostics import words as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Exercise
from protodsl.model.protocol import Entry

# Neither a side: right angle, right away, all right, what is left, left over.
_SIDE = re.compile(
    r"(?<!\ball )\bright\b(?![ -](?:angles?|away|up|down|after|before|now|at|next|in|through|back|there|here|way)\b)"
    r"|(?<!\bis )(?<!\bare )(?<!\bnothing )(?<!\bhave )(?<!\bwas )\bleft\b(?! over\b)",
    re.IGNORECASE,
)
_KEYWORDS = frozenset(("title", "do", "why", "when", "feel", "normal", "fix", "stop", "caution if"))


def bare_side(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """`left` or `right` written out."""
    for text in context.texts:
        prose = text.prose
        if not isinstance(text.owner, Exercise) or text.keyword not in _KEYWORDS:
            continue
        # Far cheaper than the pattern, and hardly a line has either.
        if "eft" not in prose.text and "ight" not in prose.text:
            continue
        for found in _SIDE.finditer(prose.text):
            yield say.bare_side(found.group(), part(prose, *found.span()))
