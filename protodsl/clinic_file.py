"""From the text of `clinic.toml` to the clinic, with every mistake at its line."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from protodsl.diagnostics import project as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.dose.one_rep_max import EQUATIONS
from protodsl.formats import FORMATS, USUAL
from protodsl.model.clinic import Clinic, Contact, Limits, ReadingLimits
from protodsl.outcome import Outcome
from protodsl.source import Source, Span

FORMAT = 1
PAPERS: tuple[str, ...] = ("A4", "Letter")
LENGTHS: tuple[str, ...] = ("cm", "in")

KEYS: Mapping[str, tuple[str, ...]] = {
    "clinic": ("name", "address"),
    "emergency": ("text", "phone"),
    "contact": ("text", "phone", "after-hours-text", "after-hours-phone"),
    "sheet": ("languages", "paper", "lengths", "formats"),
    "folders": ("libraries", "templates", "output"),
    "loads": ("weights-kg", "one-rep-max"),
    "limits": (
        "words-in-a-sentence", "characters-in-a-sentence", "reading-grade", "reading-ease", "lix",
        "load-rise-percent", "volume-rise-percent",
    ),
}  # fmt: skip
# What `[limits.TAG]` may say of one language.
READING_KEYS: tuple[str, ...] = KEYS["limits"][:5]

# What the starter says to be replaced: somebody in need would call a number that nobody answers.
EXAMPLES: Mapping[tuple[str, str], str] = {
    ("clinic", "name"): "Name of your clinic",
    ("clinic", "address"): "Your address",
    ("contact", "phone"): "01632 960 000",
}

# The whole of the syntax of RFC 5646 is not repeated here: a language, perhaps a script, a region, variants.
_TAG = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z]{4})?(-([A-Za-z]{2}|[0-9]{3}))?(-[A-Za-z0-9]{5,8})*")
_TABLE = re.compile(r"\s*\[\s*([^\[\]]+?)\s*\]\s*(#.*)?$")
_KEY = re.compile(r"""\s*("[^"]*"|'[^']*'|[A-Za-z0-9_.-]+)\s*=""")
# Weights, percentages and school grades beyond this are a slip of the hand.
_MOST = 10_000
_REASON = re.compile(r"(.*) \(at (?:line (\d+), column (\d+)|end of document)\)", re.DOTALL)


def read_clinic(source: Source) -> Outcome[Clinic]:
    """The clinic; where the text is not TOML, one that says nothing, so that the protocols can still be checked."""
    try:
        table = tomllib.loads(source.text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        return Outcome(UNKNOWN_CLINIC, (_not_toml(source, str(error)),))
    except RecursionError:
        return Outcome(UNKNOWN_CLINIC, (say.not_toml(Span(source.path, 0, 0), "Brackets nested too deep"),))
    reader = _Reader(source, table, _places(source))
    if (found := table.get("format", FORMAT)) != FORMAT or isinstance(found, bool):
        reader.found.append(say.other_format(reader.at("", "format"), str(found), FORMAT))
        return Outcome(UNKNOWN_CLINIC, tuple(reader.found))
    reader.unknown_keys()
    reader.examples()
    return Outcome(_clinic(reader), tuple(reader.found))


UNKNOWN_CLINIC = Clinic("", "", Contact("", ""), Contact("", ""))


def place_of(source: Source, table: str, key: str) -> Span:
    """Where a key is written; where it is not, its table's head; else the start of the file."""
    return _nearest_place(_places(source), source.path, table, key)


def _clinic(read: _Reader) -> Clinic:
    positive = read.number
    return Clinic(
        name=read.text("clinic", "name", "", "the clinic's name, in quotes"),
        address=read.text("clinic", "address", ""),
        emergency=Contact(
            read.needed("emergency", "text", "nobody would know what to do in an emergency"),
            read.needed("emergency", "phone", "nobody would know which number to call", digits=True),
        ),
        contact=Contact(
            read.needed("contact", "text", "nobody would know when to call the clinic"),
            read.needed("contact", "phone", "nobody would know the clinic's number", digits=True),
        ),
        after_hours=_after_hours(read),
        languages=read.languages(),
        paper=read.choice("sheet", "paper", PAPERS),
        lengths=read.choice("sheet", "lengths", LENGTHS),
        formats=read.formats(),
        libraries=read.texts("folders", "libraries", ()),
        templates=read.text("folders", "templates", "") or None,
        output=read.text("folders", "output", "handouts") or "handouts",
        weights=read.weights(),
        one_rep_max=read.choice("loads", "one-rep-max", tuple(EQUATIONS), default="epley"),
        limits=Limits(
            words_in_a_sentence=read.whole("limits", "words-in-a-sentence", Limits().words_in_a_sentence),
            reading_grade=positive("limits", "reading-grade"),
            load_rise_percent=positive("limits", "load-rise-percent"),
            volume_rise_percent=positive("limits", "volume-rise-percent"),
            characters_in_a_sentence=read.whole("limits", "characters-in-a-sentence", None),
            reading_ease=positive("limits", "reading-ease"),
            lix=positive("limits", "lix"),
            languages=tuple((tag, _reading(read, f"limits.{tag}")) for tag in read.limited_languages()),
        ),
    )


def _reading(read: _Reader, table: str) -> ReadingLimits:
    """How hard to read one language may be."""
    return ReadingLimits(
        words_in_a_sentence=read.whole(table, "words-in-a-sentence", None),
        characters_in_a_sentence=read.whole(table, "characters-in-a-sentence", None),
        reading_grade=read.number(table, "reading-grade"),
        reading_ease=read.number(table, "reading-ease"),
        lix=read.number(table, "lix"),
    )


def _after_hours(read: _Reader) -> Contact | None:
    """Words and number for other hours: both, or neither."""
    text, phone = read.value("contact", "after-hours-text"), read.value("contact", "after-hours-phone")
    if text is None and phone is None:
        return None
    return Contact(
        read.needed("contact", "after-hours-text", "the number for other hours stands without words"),
        read.needed("contact", "after-hours-phone", "the words for other hours stand without a number", digits=True),
    )


@dataclass(frozen=True, slots=True)
class _Reader:
    """Takes values of the right type out of the table, and collects what is wrong with the others."""

    source: Source
    table: Mapping[str, Any]
    places: Mapping[tuple[str, str], Span]
    found: list[Diagnostic] = field(default_factory=list)

    def at(self, table: str, key: str) -> Span:
        """The place of a key, or the nearest there is."""
        return _nearest_place(self.places, self.source.path, table, key)

    def value(self, table: str, key: str) -> Any:
        """The raw value, None where there is none; `limits.es` is a table in a table."""
        inner: Any = self.table
        for name in table.split("."):
            inner = inner.get(name) if isinstance(inner, dict) else None
        return inner.get(key) if isinstance(inner, dict) else None

    def limited_languages(self) -> tuple[str, ...]:
        """The languages that have limits of their own."""
        inner = self.table.get("limits")
        return tuple(tag for tag in inner if self._is_language("limits", tag)) if isinstance(inner, dict) else ()

    def unknown_keys(self) -> None:
        """Names every table and key that is not in KEYS."""
        tables = ("format", *KEYS)
        for table, inner in self.table.items():
            if table == "format":
                continue
            if table not in KEYS:
                place = self.places.get((table, "")) or self.at("", table)
                self.found.append(say.unknown_key(place, table, nearest(table, tables), tables))
            elif not isinstance(inner, dict):
                self.found.append(say.wrong_value(self.at("", table), table, f"a table: `[{table}]` on its own line"))
            else:
                self._unknown_in(table, KEYS[table], inner)

    def _unknown_in(self, table: str, known: tuple[str, ...], inner: Mapping[str, Any]) -> None:
        for key in inner:
            if self._is_language(table, key):
                self._unknown_in(f"{table}.{key}", READING_KEYS, inner[key])
            elif key not in known:
                self.found.append(say.unknown_key(self.at(table, key), key, nearest(key, known), known))

    def _is_language(self, table: str, key: str) -> bool:
        """Whether a key of `[limits]` is a table `[limits.TAG]`; `lix` is none, although it could be a tag."""
        inner = self.table.get(table)
        found = inner.get(key) if isinstance(inner, dict) else None
        return table == "limits" and key not in KEYS[table] and isinstance(found, dict) and bool(_TAG.fullmatch(key))

    def typed(self, table: str, key: str, fits: Callable[[Any], bool], wanted: str, meant: str | None = None) -> Any:
        """The value if it fits; None, and a diagnostic where one was written, if it does not."""
        value = self.value(table, key)
        if value is None or fits(value):
            return value
        self.found.append(say.wrong_value(self.at(table, key), key, wanted, meant))
        return None

    def text(self, table: str, key: str, default: str, wanted: str = "words in quotes") -> str:
        """A text on one line."""
        value = self.typed(table, key, _is_line, wanted)
        return default if value is None else str(value).strip()

    def examples(self) -> None:
        """What still stands as the starter has it."""
        for (table, key), words in EXAMPLES.items():
            if self.value(table, key) == words:
                self.found.append(say.example_stands(self.at(table, key), table, key, words))

    def needed(self, table: str, key: str, purpose: str, digits: bool = False) -> str:
        """A text that has to be there; a telephone number has at least one digit."""
        value = self.value(table, key)
        if value is not None and not _is_line(value):
            return self.text(table, key, "")
        text = (value or "").strip()
        if not text:
            self.found.append(say.missing_help(self.at(table, key), table, key, purpose))
        elif digits and not any(sign.isdigit() for sign in text):
            self.found.append(say.wrong_value(self.at(table, key), key, "a telephone number in quotes"))
        return text

    def texts(self, table: str, key: str, default: tuple[str, ...]) -> tuple[str, ...]:
        """A list of texts."""
        value = self.typed(table, key, _is_lines, 'a list of words in quotes, as `["library"]`')
        return default if value is None else tuple(value)

    def languages(self) -> tuple[str, ...]:
        """At least one language tag (BCP 47)."""
        wanted = 'language tags in quotes, as `["en", "pt-BR"]`'
        value = self.typed("sheet", "languages", lambda v: _is_lines(v) and v and all(map(_TAG.fullmatch, v)), wanted)
        return ("en",) if value is None else tuple(dict.fromkeys(value))

    def formats(self) -> tuple[str, ...]:
        """At least one of the formats there are."""
        wanted = f'one or more of {", ".join(f"`{name}`" for name in FORMATS)}, as `["html", "pdf"]`'
        value = self.typed("sheet", "formats", lambda v: _is_lines(v) and v and set(v) <= FORMATS.keys(), wanted)
        return USUAL if value is None else tuple(dict.fromkeys(value))

    def choice(self, table: str, key: str, known: tuple[str, ...], default: str = "") -> str:
        """One of a closed list; its first where none was written."""
        raw = self.value(table, key)
        meant = nearest(raw, known) if isinstance(raw, str) else None
        wanted = f"one of {', '.join(f'`{word}`' for word in known)}"
        value = self.typed(table, key, lambda v: v in known, wanted, meant)
        return (default or known[0]) if value is None else str(value)

    def whole(self, table: str, key: str, default: int | None) -> int | None:
        """A whole number from 1."""
        value = self.typed(table, key, lambda v: type(v) is int and v >= 1, "a whole number from 1")
        return default if value is None else int(value)

    def number(self, table: str, key: str) -> Decimal | None:
        """A number above 0."""
        value = self.typed(table, key, _is_positive, f"a number above 0, at most {_MOST}")
        return None if value is None else Decimal(value)

    def weights(self) -> tuple[Decimal, ...]:
        """Weights in kg, made ascending."""

        def fits(value: Any) -> bool:
            return isinstance(value, list) and all(map(_is_positive, value))

        value = self.typed("loads", "weights-kg", fits, "a list of weights in kg, as `[1, 2.5, 5]`")
        return tuple(sorted({Decimal(weight) for weight in value or ()}))


def _is_line(value: Any) -> bool:
    return isinstance(value, str) and "\n" not in value.strip()


def _is_lines(value: Any) -> bool:
    return isinstance(value, list) and all(_is_line(one) and one.strip() for one in value)


def _is_positive(value: Any) -> bool:
    number = type(value) is int or (isinstance(value, Decimal) and value.is_finite())
    return number and 0 < value <= _MOST


def _not_toml(source: Source, message: str) -> Diagnostic:
    """The reader's own place, which it tells in words; the end of the text where it names none."""
    match = _REASON.fullmatch(message)
    reason = match[1] if match else message
    offset = len(source.text.rstrip())
    if match and match[2]:
        lines = source.text.split("\n")
        offset = sum(len(line) + 1 for line in lines[: int(match[2]) - 1]) + int(match[3]) - 1
    return say.not_toml(Span(source.path, offset, min(offset + 1, len(source.text))), reason)


def _nearest_place(places: Mapping[tuple[str, str], Span], path: str, table: str, key: str) -> Span:
    outer, _, inner = table.rpartition(".")
    wanted = ((table, key), (f"{table}.{key}", ""), (table, ""), (outer, inner))
    return next((places[one] for one in wanted if one in places), Span(path, 0, 0))


def _places(source: Source) -> dict[tuple[str, str], Span]:
    """Where every table (key "") and every key stands, found by line, since tomllib tells no places."""
    places: dict[tuple[str, str], Span] = {}
    table, offset = "", 0
    for line in source.text.split("\n"):
        if match := _TABLE.match(line):
            table = match[1].strip("\"'")
            places.setdefault((table, ""), Span(source.path, offset + match.start(1), offset + match.end(1)))
        elif match := _KEY.match(line):
            owner, _, key = match[1].strip("\"'").rpartition(".")
            span = Span(source.path, offset + match.start(1), offset + match.end(1))
            places.setdefault((owner or table, key), span)
        offset += len(line) + 1
    return places
