"""What is wrong with a line that begins with something that cannot stand there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from itertools import islice
from typing import NamedTuple

from protodsl.diagnostics import text as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.syntax.expected import not_understood
from protodsl.syntax.keywords import CONTAINERS, HEADS, TOP, entries, of_figures
from protodsl.syntax.layout import Line
from protodsl.syntax.met import WORD, Explained, Met, Repair, leading


def first_word(met: Met) -> Explained:
    """The line begins with something that cannot stand there."""
    if met.keyword and not (met.keyword in of_figures() and "SENTENCE" in met.expected):
        return _known_keyword(met), None
    for explanation in (_without_if, _capital, _lower_case, _misspelt, _glued):
        if found := explanation(met):
            return found
    if met.expected & {"NAME", "NUMBER"} and not met.words:
        return not_understood(met)
    return say.unknown_keyword(met.here, met.word, None, met.parent or "", _listed(met.allowed)), None


def _known_keyword(met: Met) -> Diagnostic:
    """A keyword that its container has no place for."""
    here = met.span(met.line.start, met.stop - met.line.start)
    belongs = [one for one in entries() if one.keyword == met.keyword]
    if all(one.case != met.case for one in belongs) and not (met.case and any("from" in one.where for one in belongs)):
        return say.wrong_file(here, met.keyword, met.case)
    where = dict.fromkeys(place for one in belongs for place in one.where if (place == "from") <= met.case)
    if met.case and "from" in where:
        where = {"from": None}
    return say.misplaced(here, met.keyword, met.parent or TOP, [CONTAINERS[place] for place in where])


def _without_if(met: Met) -> Explained | None:
    """`avoid recent calf tear`: the keyword's last word is missing."""
    for keyword in met.allowed:
        front, _, last = keyword.rpartition(" ")
        if last not in ("if", "when"):
            continue
        found = re.compile(front.replace(" ", " +") + r"(?![\w'-])").match(met.plain, met.line.start, met.line.end)
        if found:
            span = met.span(met.line.start, found.end() - met.line.start)
            return say.missing_if(span, front, keyword), Repair(keyword, found.end())
    return None


def _capital(met: Met) -> Explained | None:
    """`Dose 3 x 12`."""
    lowered = met.plain[met.line.start : met.line.end].lower()
    line = Line(0, len(lowered), 0)
    keyword, length = leading(lowered, line)
    if not keyword or keyword not in met.allowed:
        return None
    stop = met.line.start + length
    span = met.span(met.line.start, length)
    return say.capital(span, met.plain[met.line.start : stop], keyword), Repair(keyword, stop)


def _lower_case(met: Met) -> Explained | None:
    """A line of text that begins with a small letter is read as text all the same."""
    if "SENTENCE" not in met.expected:
        return None
    return say.lower_case_prose(met.here, met.word), Repair("SENTENCE", met.line.end)


def _misspelt(met: Met) -> Explained | None:
    """One or two letters away from a keyword; those that may stand here are tried before all others."""
    words = list(islice(WORD.finditer(met.plain, met.line.start, met.line.end), 4))
    alike = list(_alike(words)) if words else []
    likely = frozenset(word for word in met.allowed if (word in HEADS) == met.heads)
    for known in (likely, frozenset(met.allowed), _long_enough()):
        near = _nearest(alike, known)
        if near is None:
            continue
        keyword, stop = near
        span = met.span(met.line.start, stop - met.line.start)
        written = met.plain[met.line.start : stop]
        glued = written[len(keyword) :] if written.startswith(keyword) else ""
        if glued and not glued.islower():
            return None
        colon = re.compile(" *:").match(met.plain, stop) if keyword not in ("yes", "no", "unknown", "chose") else None
        diagnostic = say.unknown_keyword(span, written, keyword, met.parent or "", ())
        return diagnostic, Repair(keyword, stop, colon.end() if colon else 0)
    return None


class _Alike(NamedTuple):
    """The first words of a line, as many as `size`, where they end, and the keywords that could be near to them."""

    written: str
    size: int
    stop: int
    keywords: tuple[str, ...]


def _alike(words: list[re.Match[str]]) -> Iterator[_Alike]:
    """For one to four words the keywords of about as many, with about the same letters: few, and found fast."""
    for count in range(1, len(words) + 1):
        written = " ".join(word.group() for word in words[:count])
        limit = max(1, len(written) // 3)
        letters = _letters(written)
        keywords = tuple(
            keyword
            for keyword, size, mask in _by_count()[count - 1]
            if abs(size - len(written)) <= limit and (mask ^ letters).bit_count() <= 2 * limit
        )
        if keywords:
            yield _Alike(written, count, words[count - 1].end(), keywords)


def _nearest(alike: list[_Alike], known: frozenset[str]) -> tuple[str, int] | None:
    """The known keyword nearest to the first words of the line, and the end of those words."""
    best: tuple[int, str, int] | None = None
    for one in alike:
        candidates = [keyword for keyword in one.keywords if keyword in known]
        near = nearest(one.written, candidates) if candidates else None
        if near is not None:
            rank = abs(near.count(" ") + 1 - one.size) * 10 + abs(len(near) - len(one.written))
            if best is None or rank < best[0]:
                best = (rank, near, one.stop)
    return best and (best[1], best[2])


def _letters(word: str) -> int:
    """The letters of a word as bits."""
    bits = 0
    for letter in word:
        bits |= 1 << (ord(letter) & 31)
    return bits


@cache
def _by_count() -> tuple[tuple[tuple[str, int, int], ...], ...]:
    """For one to four words the keywords that could be meant, with their lengths and letters.

    A keyword of several words may have been run together or taken apart.
    """
    known = sorted({one.keyword for one in entries()})
    return tuple(
        tuple(
            (word, len(word), _letters(word))
            for word in known
            if abs(word.count(" ") + 1 - count) <= (1 if " " in word else 0)
        )
        for count in range(1, 5)
    )


@cache
def _long_enough() -> frozenset[str]:
    """The keywords that are long enough to be recognised where they cannot stand."""
    return frozenset(one.keyword for one in entries() if len(one.keyword) > 3) - of_figures()


def _glued(met: Met) -> Explained | None:
    """`titleHeel raise`, `dose3 x 12`."""
    text = met.plain[met.line.start : met.line.end]
    for keyword in sorted(met.allowed, key=len, reverse=True):
        if text.startswith(keyword):
            word = text[: len(keyword)] + (WORD.match(text, len(keyword)) or [""])[0]
            stop = met.line.start + len(keyword)
            return say.glued(met.span(met.line.start, len(word)), word, keyword), Repair(keyword, stop)
    return None


def _listed(allowed: tuple[str, ...]) -> tuple[str, ...]:
    """The keywords that may stand somewhere, in the order of the table."""
    return tuple(dict.fromkeys(one.keyword for one in entries() if one.keyword in allowed))
