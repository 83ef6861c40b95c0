"""What is wrong with a line that begins with something that cannot stand there."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from protodsl.diagnostics import text as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.syntax.expected import not_understood
from protodsl.syntax.keywords import CONTAINERS, HEADS, TOP, entries
from protodsl.syntax.layout import Line
from protodsl.syntax.met import WORD, Explained, Met, Repair, leading


def first_word(met: Met) -> Explained:
    """The line begins with something that cannot stand there."""
    if met.keyword:
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
    """One or two letters away from a keyword; the keywords that may stand here are tried first."""
    words = list(WORD.finditer(met.plain, met.line.start, met.line.end))[:4]
    if not words:
        return None
    likely = tuple(word for word in met.allowed if (word in HEADS) == met.heads)
    for known in (likely, met.allowed, tuple(one.keyword for one in entries() if len(one.keyword) > 3)):
        near = _near_start(met, words, known)
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


def _near_start(met: Met, words: list[re.Match[str]], known: Iterable[str]) -> tuple[str, int] | None:
    """The known keyword nearest to the first words of the line, and the end of those words."""
    best: tuple[int, str, int] | None = None
    for count in range(1, len(words) + 1):
        stop = words[count - 1].end()
        written = " ".join(word.group() for word in words[:count])
        candidates = [word for word in known if abs(word.count(" ") + 1 - count) <= (1 if " " in word else 0)]
        near = nearest(written, _alike(written, candidates))
        if near is not None:
            rank = abs(near.count(" ") + 1 - count) * 10 + abs(len(near) - len(written))
            if best is None or rank < best[0]:
                best = (rank, near, stop)
    return best and (best[1], best[2])


def _alike(word: str, known: Iterable[str]) -> list[str]:
    """Those of the known words that can be near: an edit changes at most two letters of the set."""
    limit = 2 * max(1, len(word) // 3)
    letters = set(word)
    return [other for other in known if len(letters ^ _letters(other)) <= limit + 1]


@cache
def _letters(word: str) -> frozenset[str]:
    """The letters of a keyword."""
    return frozenset(word)


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
