"""Short ways to write the phrases that handouts are made of."""

from __future__ import annotations

from decimal import Decimal

from protodsl.handout.phrase import InWords, Listed, Literal, Message, Number, Phrase, Written
from protodsl.model.condition import Condition
from protodsl.model.text import Prose


def say(key: str, **values: Phrase) -> Phrase:
    """A message of the product's own."""
    return Message(key, values)


def counted(key: str, count: int | Decimal, **values: Phrase) -> Phrase:
    """A message in the plural form of a count, which also fills its `{count}`."""
    return Message(key, values, Decimal(count))


def line(prose: Prose) -> Phrase:
    """Authored prose as a sentence: its first letter raised, a full stop where it has none."""
    return Message("line", {"text": Written(prose)})


def lines(proses: tuple[Prose, ...]) -> Phrase:
    """Several lines of prose, one after the other."""
    return one_after_the_other(*(line(prose) for prose in proses))


def if_so(condition: Condition, streak: int = 1, negated: bool = False, key: str = "line") -> Phrase:
    """A condition as a sentence of its own; `key` where a language puts a conjunction before it."""
    return Message(key, {"text": InWords(condition, streak, negated)})


def one_after_the_other(*phrases: Phrase) -> Phrase:
    """Phrases that are sentences, in a row."""
    return phrases[0] if len(phrases) == 1 else Listed(phrases, by="sentences")


def number(value: int) -> Phrase:
    """A whole number."""
    return Number(Decimal(value))


NOTHING = Literal("")
