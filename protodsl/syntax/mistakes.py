"""What a mistake probably is: from the place where the parser stopped to a diagnostic, and to how to read on."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache

from protodsl.diagnostics import text as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.source import Span
from protodsl.syntax.keywords import CONTAINERS, HEADS, TOP, entries
from protodsl.syntax.layout import Line
from protodsl.units import UNITS

JOINS = frozenset(("and", "or", "not", "if", "unless", "like", "is"))
# What clinicians write for a unit, and how the language writes it.
SPELLINGS: dict[str, str] = {
    **dict.fromkeys(("sec", "secs", "second", "seconds"), "s"),
    **dict.fromkeys(("mins", "minute", "minutes"), "min"),
    **dict.fromkeys(("h", "hr", "hrs"), "hours"),
    **dict.fromkeys(("d",), "days"),
    **dict.fromkeys(("wk", "wks"), "weeks"),
    **dict.fromkeys(("kgs", "kilo", "kilos", "kilogram", "kilograms"), "kg"),
    **dict.fromkeys(("lbs", "pound", "pounds"), "lb"),
    **dict.fromkeys(("gram", "grams"), "g"),
    **dict.fromkeys(("degs", "degree", "degrees", "°"), "deg"),
    **dict.fromkeys(("cms", "centimetre", "centimetres", "centimeter", "centimeters"), "cm"),
    **dict.fromkeys(("metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("inch", "inches"), "in"),
    **dict.fromkeys(("foot", "feet"), "ft"),
    **dict.fromkeys(("rep", "repetition", "repetitions"), "reps"),
    **dict.fromkeys(("breath",), "breaths"),
    **dict.fromkeys(("step",), "steps"),
    **dict.fromkeys(("percent", "pct"), "%"),
}
# What a part of a dose begins with, where it is no number.
DOSE_WORDS = frozenset(
    {"daily", "hourly", "every", "once", "twice", "each", "affected", "load", "effort", "for"}
    | {"lift", "hold", "lower", "rest"}
)
COMPARISONS: dict[str, str | None] = {"=>": ">=", "=<": "<=", "==": "=", "!=": None, "<>": None, "≠": None}
PHRASES: dict[str, str] = {
    "NUMBER": "a number",
    "NAME": "a name",
    "SCORED": "a name and its value",
    "LEVEL_NAME": "a level",
    "UNIT": "a unit",
    "COMPARISON": "a comparison such as `>=`",
    "DATE": "a date such as `2026-11-02`",
    "VERSION_NUMBER": "a version such as `1.3.0`",
    "RM": "a load such as `8RM`",
    "CASE_ID": "an id such as `P-0417`",
    "LANGUAGE_TAG": "a language tag such as `es`",
    "PATH": "a path",
    "PROSE": "words",
    "SENTENCE": "a sentence",
    "RAW": "words",
    "COMMA": "a comma",
    "COLON": "a colon",
    "LPAR": "`(`",
    "RPAR": "`)`",
    "PLUS": "`+`",
    "SIGN": "`+`",
    "EQUAL": "`=`",
}
# Where very much can stand, an example says more than a list.
WHOLES: dict[str, str] = {
    "AS_GIVEN": "what was done, such as `as given` or `pain 2`",
    "DAILY": "a part of a dose, such as `3 x 12` or `3 days a week`",
    "SYMMETRY_OF": "a condition, such as `pain > 3`",
    "YES_OR_NO": "`yes or no`, a scale such as `0 to 10`, a measure such as `cm from 0 to 25`, `one of` or `date`",
}
_WORD = re.compile(r"[^\W\d_][\w'-]*|\d[\d.]*|\S")
_NUMBER_BEFORE = re.compile(r"-?\d+(?:\.\d+)? *$")
_AMOUNT_BEFORE = re.compile(r"\d *(?:%|[a-zA-Z/]+)? *$")
_DATE_LIKE = re.compile(r"\d{1,4}[./-]\d{1,2}[./-]\d{1,4}|\d{1,2}(?:st|nd|rd|th)?\.? +[A-Za-z]{3,9} +\d{4}|\d{8}(?!\d)")
_DECIMAL = re.compile(r"\d+,\d+")
_SIDE_BEFORE = re.compile(r" on +(?:each|either|the +(?:left|right|affected|other))(?: +side)? *$")


@dataclass(frozen=True, slots=True)
class Repair:
    """How to read a line all the same: its first token, where that ends, and where reading goes on (0: there)."""

    token: str
    stop: int
    go_on: int = 0


@dataclass(frozen=True, slots=True)
class Met:
    """A mistake as the parser met it.

    `expected` are the names of the terminals that could stand at `at`, `words` the keywords among them as written;
    `parent` is the keyword the line stands under, or None where that could not be read; `allowed` are the keywords
    that may stand there; `keyword` is the one the line begins with, or empty, and `stop` its end; `heads` tells
    whether lines stand below it.
    """

    path: str
    plain: str
    line: Line
    at: int
    expected: frozenset[str]
    words: tuple[str, ...]
    parent: str | None
    allowed: tuple[str, ...]
    keyword: str
    stop: int
    case: bool
    heads: bool

    @property
    def before(self) -> str:
        """The line up to the mistake."""
        return self.plain[self.line.start : self.at]

    @property
    def word(self) -> str:
        """The word or sign at the mistake; empty at the end of the line."""
        found = _WORD.match(self.plain, self.at, self.line.end)
        return found.group() if found else ""

    def span(self, start: int, length: int) -> Span:
        """A place in the line, never empty."""
        return Span(self.path, start, start + max(length, 1))

    @property
    def here(self) -> Span:
        """The place of the word at the mistake; the last character of the line where it stops short."""
        return self.span(self.at, len(self.word)) if self.word else self.span(self.line.end - 1, 1)


Explained = tuple[Diagnostic, Repair | None]


def explain(met: Met) -> Explained:
    """The diagnostic for a mistake, and a repair where one is plain enough to go on with."""
    if met.at == met.line.start:
        return _first_word(met)
    for explanation in _INSIDE:
        if found := explanation(met):
            return found
    return _not_understood(met)


def leading(plain: str, line: Line) -> tuple[str, int]:
    """The keyword a line begins with and its end, whatever kind of file it belongs to; empty where there is none."""
    word = _WORD.match(plain, line.start, line.end)
    for keyword, pattern in _by_first_word().get(word.group() if word else "", ()):
        if found := pattern.match(plain, line.start, line.end):
            return keyword, found.end()
    return "", line.start


@cache
def _by_first_word() -> dict[str, tuple[tuple[str, re.Pattern[str]], ...]]:
    """The keywords by their first word, the longest first, with patterns that take more than one blank."""
    found: dict[str, list[str]] = {}
    for keyword in sorted({one.keyword for one in entries()}, key=len, reverse=True):
        found.setdefault(keyword.split()[0], []).append(keyword)
    return {
        first: tuple((word, re.compile(word.replace(" ", " +") + r"(?![\w'-])")) for word in words)
        for first, words in found.items()
    }


def _first_word(met: Met) -> Explained:
    """The line begins with something that cannot stand there."""
    if met.keyword:
        return _known_keyword(met), None
    for explanation in (_without_if, _capital, _lower_case, _misspelt, _glued):
        if found := explanation(met):
            return found
    if met.expected & {"NAME", "NUMBER"} and not met.words:
        return _not_understood(met)
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
    words = list(_WORD.finditer(met.plain, met.line.start, met.line.end))[:4]
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
            word = text[: len(keyword)] + (_WORD.match(text, len(keyword)) or [""])[0]
            stop = met.line.start + len(keyword)
            return say.glued(met.span(met.line.start, len(word)), word, keyword), Repair(keyword, stop)
    return None


def _comma_decimal(met: Met) -> Explained | None:
    for found in _DECIMAL.finditer(met.plain, met.line.start, met.line.end):
        if found.start() <= met.at <= found.end():
            return say.comma_decimal(met.span(found.start(), len(found.group())), found.group()), None
    return None


def _colon_after_keyword(met: Met) -> Explained | None:
    if met.word != ":" or not met.keyword or met.before.rstrip() != met.plain[met.line.start : met.stop]:
        return None
    behind = met.plain[met.at + 1 : met.line.end].lstrip()
    if not behind or ("DATE" in met.expected and not behind[0].isdigit()):
        return None
    return say.extra_colon(met.here, met.keyword), Repair(met.keyword, met.stop, met.at + 1)


def _mixed(met: Met) -> Explained | None:
    other = {"and": "_OR", "or": "_AND"}.get(met.word)
    return (say.mixed_and_or(met.here), None) if other in met.expected else None


def _comparison(met: Met) -> Explained | None:
    for start in (met.at, met.at - 1):
        written = met.plain[start : start + 2]
        if written in COMPARISONS:
            return say.comparison(met.span(start, 2), written, COMPARISONS[written]), None
    if met.word == "≠":
        return say.comparison(met.here, "≠", None), None
    if met.word in (">", "<", "=", "≥", "≤") and (side := _SIDE_BEFORE.search(met.before)):
        start = met.line.start + side.start() + 1
        return say.early_side(met.span(start, len(side.group().strip()))), None
    return None


def _date(met: Met) -> Explained | None:
    if "DATE" not in met.expected:
        return None
    found = _DATE_LIKE.match(met.plain, met.at, met.line.end)
    written = found.group() if found else ""
    return (say.date_form(met.span(met.at, len(written)), written), None) if written else None


def _hyphen_range(met: Met) -> Explained | None:
    low = _NUMBER_BEFORE.search(met.before)
    high = re.compile(r"- *(\d+(?:\.\d+)?)").match(met.plain, met.at, met.line.end)
    if not low or not high:
        return None
    start = met.line.start + low.start()
    return say.hyphen_range(met.span(start, high.end() - start), low.group().strip(), high[1]), None


def _unit(met: Met) -> Explained | None:
    if "UNIT" not in met.expected or not _NUMBER_BEFORE.search(met.before):
        return None
    word = met.word
    if not word or not (word[0].isalpha() or word == "°") or word in JOINS:
        return None
    if word in DOSE_WORDS and "COMMA" in met.expected:
        return say.missing_comma(met.here, word), None
    if word.lower() in met.words:
        return say.unknown_word(met.here, word, word.lower()), None
    near = SPELLINGS.get(word) or SPELLINGS.get(word.lower()) or nearest(word, UNITS)
    if near is None and (inner := nearest(word, _single(met.words))):
        return say.unknown_word(met.here, word, inner), None
    if near is None and "COMMA" not in met.expected and len(word) > 4:
        return None
    return say.unknown_unit(met.here, word, near), None


def _list(met: Met) -> Explained | None:
    if met.word in ("and", "or", "&", ";", "/") and ("COMMA" in met.expected or "_OR" in met.expected):
        separator = "or" if "_OR" in met.expected else ","
        if met.word != separator:
            return say.list_form(met.here, met.word, separator), None
    if met.word == "," and "_OR" in met.expected:
        return say.list_form(met.here, ",", "or"), None
    return None


def _colon(met: Met) -> Explained | None:
    if "COLON" not in met.expected:
        return None
    first = met.before.split()[0]
    after = first if first in ("yes", "no", "unknown", "chose") else met.before.strip()
    return say.missing_colon(met.here, after if len(after) <= 60 else f"... {after[-57:]}"), None


def _joining(met: Met) -> Explained | None:
    if met.word not in JOINS:
        return None
    named = "NAME" in met.expected or (met.before.rstrip()[-1:].isalnum() and not _AMOUNT_BEFORE.search(met.before))
    return (say.joining_word(met.here, met.word), None) if named else None


def _opening(met: Met) -> Explained | None:
    if "NAME" not in met.expected or not met.word[:1].isalpha():
        return None
    found = re.compile(
        r"(?:left|right|otherwise|no|load|yes|unknown|start|missed|each side|as given|part done|at least \d+"
        r"|(?:symmetry|difference|change) of|(?:weeks|days) since)(?![\w'-])"
    ).match(met.plain, met.at, met.line.end)
    return (say.name_opening(met.span(met.at, len(found.group())), found.group()), None) if found else None


def _brackets(met: Met) -> Explained | None:
    if met.word == ")":
        return say.bracket(met.here, missing=False), None
    if not met.word and "RPAR" in met.expected:
        return say.bracket(met.span(met.line.start + met.before.rfind("("), 1), missing=True), None
    return None


def _close_word(met: Met) -> Explained | None:
    """A word of the line is close to a keyword that can stand there, or begins one."""
    if met.word in ("*", "·") and "x" in met.words:
        return say.unknown_word(met.here, met.word, "x"), None
    if not met.word[:1].isalpha():
        return None
    begun = next((word for word in met.words if word.startswith(f"{met.word} ")), None)
    if begun is not None:
        return say.unknown_word(met.here, met.word, begun), None
    single = nearest(met.word, _single(met.words)) if len(met.word) > 1 else None
    if single is not None:
        near = next(word for word in met.words if word.split()[0] == single)
        written = _stretch(met, near)
        return say.unknown_word(met.span(met.at, len(written)), written, near), None
    for near in met.words:
        written = _stretch(met, near)
        if " " in near and nearest(written, (near,)):
            return say.unknown_word(met.span(met.at, len(written)), written, near), None
    return None


def _stretch(met: Met, near: str) -> str:
    """As many words from the mistake on as the keyword has."""
    words = list(_WORD.finditer(met.plain, met.at, met.line.end))[: near.count(" ") + 1]
    return met.plain[met.at : words[-1].end()] if words else ""


def _single(words: Iterable[str]) -> tuple[str, ...]:
    """The first words of keywords."""
    return tuple(dict.fromkeys(word.split()[0] for word in words))


def _missing_comma(met: Met) -> Explained | None:
    if "COMMA" not in met.expected or "COLON" in met.expected or not met.word[:1].isalnum():
        return None
    return say.missing_comma(met.here, met.word), None


def _stops_short(met: Met) -> Explained | None:
    return (say.stops_short(met.here, _phrases(met)), None) if not met.word else None


def _not_understood(met: Met) -> Explained:
    return say.not_understood(met.here, met.word, _phrases(met), "NL" in met.expected), None


def _phrases(met: Met) -> list[str]:
    """What could stand at the mistake, as a person says it; at most five things."""
    for name, whole in WHOLES.items():
        if name in met.expected and "COMMA" not in met.expected:
            return [whole]
    named = [PHRASES[name] for name in PHRASES if name in met.expected]
    known = [f"`{word}`" for word in met.words]
    return list(dict.fromkeys((*named, *known)))[:5]


def _listed(allowed: tuple[str, ...]) -> tuple[str, ...]:
    """The keywords that may stand somewhere, in the order of the table."""
    return tuple(dict.fromkeys(one.keyword for one in entries() if one.keyword in allowed))


_INSIDE: tuple[Callable[[Met], Explained | None], ...] = (
    _comma_decimal,
    _colon_after_keyword,
    _mixed,
    _comparison,
    _date,
    _hyphen_range,
    _unit,
    _brackets,
    _list,
    _close_word,
    _joining,
    _opening,
    _colon,
    _missing_comma,
    _stops_short,
)
