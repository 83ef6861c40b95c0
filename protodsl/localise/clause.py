"""A clause with what its neighbours must know of it, and the names of sides and measures that clauses are made of."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from protodsl.localise import escape
from protodsl.localise.voice import Voice
from protodsl.model import named
from protodsl.model.condition import Side

_OTHER_WAY = {Side.EACH: Side.EITHER, Side.EITHER: Side.EACH}
_WORD = re.compile(r"\w+|[^\w\s]")


@dataclass(frozen=True, slots=True)
class Clause:
    """A clause; `joins` says whether its words hold an `and` or an `or` of their own, by which it could be misread."""

    text: str
    joins: frozenset[str] = frozenset()


def turned(side: Side | None, negated: bool) -> Side | None:
    """The side a negated fact is looked at: not on each side is on either side not."""
    return _OTHER_WAY.get(side, side) if negated and side is not None else side


def side_words(voice: Voice, side: Side) -> str:
    """`on both sides`, `on at least one side`, `on the affected side` and so on."""
    return voice.say(f"side.{voice.which(side.value)}")


def measure(voice: Voice, name: str) -> Clause:
    """What a finding measures, as a noun: its `means`, else its question or its name in quotes."""
    finding = voice.scope.findings.get(name)
    if finding is not None and finding.means is not None:
        return authored(voice, voice.prose(finding.means))
    if finding is not None and finding.words is not None and finding.role != "test":
        words = voice.prose(finding.words)
        if finding.role == "finding":
            return authored(voice, words)
        return Clause(voice.say("measure.question", question=words))
    role = finding.role if finding is not None else "finding"
    called = escape.literal(name) if finding is None else voice.prose(named.finding_name(finding))
    return Clause(voice.say("measure.test" if role == "test" else "measure.finding", name=called))


def authored(voice: Voice, text: str) -> Clause:
    """Authored words as a clause, with the joining words of the language that they hold."""
    words = set(_WORD.findall(text.lower()))
    return Clause(text, frozenset(by for by in ("and", "or") if _holds(words, text, _joiners(voice, by))))


def _joiners(voice: Voice, by: str) -> list[str]:
    return voice.say(f"list.joiners.{by}").split(" ")


def _holds(words: set[str], text: str, joiners: list[str]) -> bool:
    return any(one in words or (_runs_on(one) and one in text) for one in joiners)


def _runs_on(word: str) -> bool:
    """Whether a word is of a script that puts no spaces between words (East Asian wide characters, UAX #11)."""
    return all(unicodedata.east_asian_width(sign) in "WF" for sign in word)
