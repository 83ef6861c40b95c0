"""What is wrong inside a line whose keyword is right: units, dates, lists, brackets, names and words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from protodsl.diagnostics import lines as say
from protodsl.diagnostics.suggest import nearest
from protodsl.syntax.expected import phrases
from protodsl.syntax.met import WORD, Explained, Met, Repair
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
_NUMBER_BEFORE = re.compile(r"-?\d+(?:\.\d+)? *$")
_AMOUNT_BEFORE = re.compile(r"\d *(?:%|[a-zA-Z/]+)? *$")
_DATE_LIKE = re.compile(r"\d{1,4}[./-]\d{1,2}[./-]\d{1,4}|\d{1,2}(?:st|nd|rd|th)?\.? +[A-Za-z]{3,9} +\d{4}|\d{8}(?!\d)")
_DECIMAL = re.compile(r"\d+,\d+")
_PER = re.compile(r"(times +)?(?:(?:per|each|every) +|/ *)(day|week)(?![\w'-])")
_EVERY_DAY = re.compile(r", *((?:every|each) +(day))(?![\w'-])")
_BRACKETED = re.compile(r"\[ *([^\W\d_][^\[\]]*?) *\]")
_LAST_WORD = re.compile(r" ([^\W\d_][\w'-]*) +$")
_FOR_DAYS = re.compile(r"for +(\d+) +(?:days?|sessions?|times|weeks?)(?: +in +a +row)?(?![\w'-])")
_SIDE_BEFORE = re.compile(r" on +(?:each|either|the +(?:left|right|affected|other))(?: +side)? *$")


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
    if not met.expected & {"UNIT", "MEASURE"} or not _NUMBER_BEFORE.search(met.before):
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
        comma = "_OR" not in met.expected or (met.word == ";" and "COMMA" in met.expected)
        separator = "," if comma else "or"
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


def _per(met: Met) -> Explained | None:
    """`3 days per week`, `2 times per day`, `3 days/week`."""
    found = _PER.match(met.plain, met.at, met.line.end)
    if found is None:
        return None
    meant = f"{found[1] or ''}a {found[2]}"
    return say.unknown_word(met.span(met.at, len(found.group())), found.group(), meant), None


def _every_day(met: Met) -> Explained | None:
    """`every day` and `each day` as a part of a dose; `every` begins `every 2 hours`, and `each` begins `each side`."""
    if met.keyword != "dose":
        return None
    found = _EVERY_DAY.search(met.plain, met.line.start, met.line.end)
    if found is None or met.at not in (found.start(1), found.start(2)):
        return None
    return say.unknown_word(met.span(found.start(1), len(found[1])), found[1], "daily"), None


def _bracketed(met: Met) -> Explained | None:
    """`limit hip flexion <= [hip bend]`: brackets are for prose."""
    found = _BRACKETED.match(met.plain, met.at, met.line.end)
    if found is None or "NAME" not in met.expected:
        return None
    return say.bracketed_name(met.span(met.at, len(found.group())), found[1]), None


def _number_in_name(met: Met) -> Explained | None:
    """`exercise own thing 2`: each word of a name begins with a letter."""
    before = _LAST_WORD.search(met.before)
    if before is None or not met.word[:1].isdigit() or "to" in met.words or met.expected & {"NUMBER", "NAME"}:
        return None
    return say.number_in_name(met.here, met.word, before[1]), None


def _for_days(met: Met) -> Explained | None:
    """`call if pain > 5, for 3 days`: a streak is counted in sessions."""
    found = _FOR_DAYS.match(met.plain, met.at, met.line.end)
    if found is None or "NUMBER" not in met.expected or not met.before.rstrip().endswith(","):
        return None
    return say.streak_form(met.span(met.at, len(found.group())), found.group(), found[1]), None


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
    words = list(WORD.finditer(met.plain, met.at, met.line.end))[: near.count(" ") + 1]
    return met.plain[met.at : words[-1].end()] if words else ""


def _single(words: Iterable[str]) -> tuple[str, ...]:
    """The first words of keywords."""
    return tuple(dict.fromkeys(word.split()[0] for word in words))


def _missing_comma(met: Met) -> Explained | None:
    if "COMMA" not in met.expected or "COLON" in met.expected or not met.word[:1].isalnum():
        return None
    return say.missing_comma(met.here, met.word), None


def _stops_short(met: Met) -> Explained | None:
    return (say.stops_short(met.here, phrases(met)), None) if not met.word else None


INSIDE: tuple[Callable[[Met], Explained | None], ...] = (
    _comma_decimal,
    _every_day,
    _per,
    _bracketed,
    _for_days,
    _number_in_name,
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
