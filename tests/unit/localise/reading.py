"""A reader of the English that conditions are put into: it knows the words alone, and nothing of how they are made."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from decimal import Decimal

from tests.evidence.rows import table

# The truth tables as published: Kleene SC, Introduction to Metamathematics, 1952, section 64.
_KLEENE = {(row["op"], row["a"], row["b"]): row["result"] for row in table("11_kleene").values()}
_FACT = re.compile(r"^fact(\d+) (is so|is not so)$")
_MARKS = (r"[a-j]", r"(?:i|ii|iii|iv|v|vi|vii|viii|ix|x)", r"\d+", r"[A-J]")
_ALL = "all of these are true: "
_ANY = "one or more of these is true: "
_SOME = re.compile(r"^at least (\d+) of these (\d+) (?:is|are) true: ")

_NUMBER = r"(-?[\d,]+(?:\.\d+)?)"
_SCALE = re.compile(r" out of (\d+)$")
_SIGNS = (
    (re.compile(rf"^{_NUMBER}(?: [a-zA-Z]+|%)? or more$"), ">="),
    (re.compile(rf"^more than {_NUMBER}(?: [a-zA-Z]+|%)?$"), ">"),
    (re.compile(rf"^{_NUMBER}(?: [a-zA-Z]+|%)? or less$"), "<="),
    (re.compile(rf"^less than {_NUMBER}(?: [a-zA-Z]+|%)?$"), "<"),
    (re.compile(rf"^exactly {_NUMBER}(?: [a-zA-Z]+|%)?$"), "="),
    (re.compile(rf"^not {_NUMBER}(?: [a-zA-Z]+|%)?$"), "!="),
)


def both(left: str, right: str) -> str:
    """Kleene's *and* of T, F and U."""
    return _KLEENE["and", left, right]


def either(left: str, right: str) -> str:
    """Kleene's *or* of T, F and U."""
    return _KLEENE["or", left, right]


def opposite(value: str) -> str:
    """Kleene's *not*."""
    return _KLEENE["not", value, ""]


def threshold(words: str) -> tuple[str, Decimal]:
    """The sign and the number of `6 or more`, `less than 7.5 cm`, `more than 90%`."""
    found = [(sign, match[1]) for pattern, sign in _SIGNS if (match := pattern.match(words))]
    assert len(found) == 1, words
    sign, digits = found[0]
    return sign, Decimal(digits.replace(",", ""))


def on_scale(words: str) -> tuple[str, Decimal, Decimal | None]:
    """The sign, the number and the end of the scale of `6 or more out of 10`; no end where none is said."""
    end = _SCALE.search(words)
    return *threshold(words[: end.start()] if end else words), Decimal(end[1]) if end else None


def truth(words: str, facts: Mapping[int, str], depth: int = 0) -> str:
    """T, F or U of a clause about `factN is so`, given what is known of each fact."""
    fact = _FACT.match(words)
    if fact:
        value = facts[int(fact[1])]
        return value if fact[2] == "is so" else opposite(value)
    if words.startswith(_ALL):
        return _fold(both, _items(words[len(_ALL) :], facts, depth))
    if words.startswith(_ANY):
        return _fold(either, _items(words[len(_ANY) :], facts, depth))
    some = _SOME.match(words)
    if some:
        values = _items(words[some.end() :], facts, depth)
        assert len(values) == int(some[2])
        return at_least(int(some[1]), values)
    return _sentence(words, facts, depth)


def at_least(count: int, values: list[str]) -> str:
    """Whether `count` of the values are T: by what the unknown ones could still become."""
    if values.count("T") >= count:
        return "T"
    return "F" if values.count("T") + values.count("U") < count else "U"


def _items(text: str, facts: Mapping[int, str], depth: int) -> list[str]:
    """The values of `(a) ...; (b) ...`; marks of deeper lists are of another kind and are left alone."""
    parts = re.split(rf"(?:^|; )\({_MARKS[depth]}\) ", text)
    assert parts[0] == "", text
    return [truth(part, facts, depth + 1) for part in parts[1:]]


def _sentence(words: str, facts: Mapping[int, str], depth: int) -> str:
    """Clauses in a sentence: `A and B`, `A, B, or C`; the two kinds never stand side by side."""
    kinds = [kind for kind in ("and", "or") if re.search(rf" {kind} ", words)]
    assert len(kinds) == 1, f"can be read in two ways: {words}"
    parts = re.split(rf",? {kinds[0]} |, ", words)
    fold = both if kinds[0] == "and" else either
    return _fold(fold, [truth(part, facts, depth) for part in parts])


def _fold(way: Callable[[str, str], str], values: list[str]) -> str:
    result = values[0]
    for value in values[1:]:
        result = way(result, value)
    return result
