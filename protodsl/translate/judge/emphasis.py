"""Emphasis: as many pairs of stars as in the text, each closed."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from protodsl.diagnostics import translation as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.translate.judge.pair import Pair

# Stars that open or close; one between blanks is a sign of its own.
_STARS = re.compile(r"(?<![\s*])\*{1,3}|\*{1,3}(?![\s*])")


def emphasis_differs(pair: Pair) -> Iterator[Diagnostic]:
    """Stars lost, added or not closed."""
    wanted = _marks(pair.entry.source[-1])
    for form in pair.entry.target:
        if _marks(form) != wanted:
            yield say.emphasis_differs(pair.entry.span, form, pair.entry.source[-1])


def _marks(text: str) -> Counter[str]:
    return Counter(mark[0] for mark in _STARS.finditer(text))
