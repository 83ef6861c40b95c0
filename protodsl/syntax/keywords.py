"""The keyword table of keywords.txt: every statement, where it may stand, how often, its form, meaning and example."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from protodsl import resources

TOP = ""
# What a container is called in a sentence; the key is the keyword that opens it.
CONTAINERS: dict[str, str] = {
    TOP: "the left margin",
    "question": "question",
    "test": "test",
    "finding": "finding",
    "exercise": "exercise",
    "progression": "progression",
    "level": "level",
    "give": "give",
    "protocol": "protocol",
    "phase": "phase",
    "change": "change",
    "part": "part",
    "choose": "choose",
    "use": "use",
    "needs": "needs",
    "avoid if": "avoid if",
    "allow if": "allow if",
    "lift": "lift",
    "figure": "figure",
    "start": "start",
    "then": "then",
    "end": "end",
    "case": "case",
    "on": "on",
    "corrected": "corrected",
    "place": "place",
    "from": "from",
}
# The letters of the table.
_LETTERS: dict[str, tuple[str, ...]] = {
    "T": (TOP,),
    "F": ("question", "test"),
    "D": ("finding",),
    "E": ("exercise",),
    "R": ("progression",),
    "L": ("level",),
    "G": ("give",),
    "P": ("protocol",),
    "H": ("phase",),
    "X": ("change",),
    "S": ("part",),
    "C": ("choose",),
    "U": ("use",),
    "N": ("needs",),
    "A": ("avoid if",),
    "W": ("allow if",),
    "I": ("lift",),
    "B": ("figure",),
    "J": ("start", "then", "end"),
    "K": ("case",),
    "O": ("on",),
    "V": ("corrected",),
    "Y": ("place",),
    "Z": ("from",),
}
# `change` takes any line of these, and `from` a changed line or one that stands under `give`.
_CHANGEABLE = frozenset(("exercise", "progression", "level", "phase", "question", "test"))


# The keywords whose blocks hold statements, those that text stands under, and all that may have lines below.
OPENS = frozenset(
    {"question", "test", "exercise", "progression", "level", "give", "protocol", "phase", "change", "part", "choose"}
    | {"figure", "case", "on", "from"}
)
OVER_TEXT = frozenset(
    {"do", "advice", "flare-up", "pain zones", "caution if", "emergency if", "red flag if", "call if"}
    | {"up when", "down when", "back to"}
)
HEADS = (
    OPENS
    | OVER_TEXT
    | {"use", "finding", "needs", "figure", "adjust", "avoid if", "allow if", "lift", "corrected", "place"}
    | {"start", "then", "end"}
)
_ROW = re.compile(
    r"^(?P<keyword>\w.*)\n  where (?P<where>.*)\n  often (?P<often>.*)\n  form (?P<form>.*)\n"
    r"  meaning (?P<meaning>.*)\n  example\n(?P<example>(?:    .*\n)+)|^== (?P<section>.*)\n",
    re.MULTILINE,
)


@dataclass(frozen=True, slots=True)
class Entry:
    """A statement: `where` are the keywords that open its containers, `often` is 1, 0-1, 1+ or *."""

    keyword: str
    where: tuple[str, ...]
    often: str
    form: str
    meaning: str
    example: str
    case: bool = False

    @property
    def once(self) -> bool:
        """Whether it may stand at most once in its container."""
        return self.often in ("1", "0-1")

    @property
    def needed(self) -> bool:
        """Whether its container is not whole without it."""
        return self.often in ("1", "1+")


@cache
def entries() -> tuple[Entry, ...]:
    """Every statement, those of protocol files first."""
    found: list[Entry] = []
    case = False
    for row in _ROW.finditer(resources.text("protodsl.syntax", "keywords.txt")):
        if row["section"]:
            case = row["section"] == "case files"
            continue
        example = "\n".join(line[4:] for line in row["example"].splitlines())
        where = _where(row["where"])
        found.append(Entry(row["keyword"], where, row["often"], row["form"], row["meaning"], example, case))
    return tuple(found)


def entry(word: str) -> Entry | None:
    """The statement with this keyword, or None; of two (`protocol`, `version`) the one of protocol files."""
    return _by_keyword().get(word)


def container_of(keyword: str) -> tuple[str, ...]:
    """The containers a keyword may stand in, as they are called in a sentence; empty for a word that is none."""
    places = dict.fromkeys(place for one in entries() if one.keyword == keyword for place in one.where)
    return tuple(CONTAINERS[place] for place in places)


@cache
def of_figures() -> frozenset[str]:
    """The keywords that stand in figures only: everyday words that a sentence may begin with."""
    there = {one.keyword for one in entries() if "figure" not in one.where and "start" not in one.where}
    return frozenset(one.keyword for one in entries()) - there


@cache
def places(case: bool) -> dict[str, frozenset[str]]:
    """For each keyword of a protocol file, or of a case file, the keywords that open its containers."""
    found: dict[str, set[str]] = {}
    for one in entries():
        if one.case == case or "from" in one.where:
            found.setdefault(one.keyword, set()).update(one.where)
    return {keyword: frozenset(where) for keyword, where in found.items()}


@cache
def _by_keyword() -> dict[str, Entry]:
    return {one.keyword: one for one in reversed(entries())}


def _where(letters: str) -> tuple[str, ...]:
    """The containers that the letters name, with `change` and `from` where they follow from these."""
    found = [place for letter in letters for place in _LETTERS[letter]]
    changeable = not _CHANGEABLE.isdisjoint(found)
    if changeable and "change" not in found:
        found.append("change")
    if (changeable or "give" in found) and "from" not in found:
        found.append("from")
    return tuple(found)
