"""Protocols from text, for tests of the words that are made of them."""

from __future__ import annotations

from collections.abc import Iterable

from protodsl.diagnostics.diagnostic import Severity
from protodsl.handout.phrase import Phrase
from protodsl.localise.catalogue import catalogue
from protodsl.localise.phrases import phrase
from protodsl.localise.voice import Voice
from protodsl.model.protocol import Protocol
from protodsl.resolve import Cache, Outside, resolve
from protodsl.source import Source
from protodsl.syntax import parse_protocol, tree

PATH = "words.protocol"

QUESTIONS = """
question pain: How strong was your worst pain, from 0 to 10?
  answer     0 to 10
  better     lower
  fresh      for one session
  means      your pain

question pain next morning: How strong was your pain the next day, from 0 to 10?
  answer     0 to 10
  better     lower
  fresh      for one session
  means      your pain the next morning

question worry: How much do you fear a fall, from 0 to 10?
  answer     0 to 10

question chest pain: Do you have chest pain?
  yes means  you have chest pain
  no means   you have no chest pain

question fever: Have you had a fever or shivers?
  yes means  you have a fever or shivers

question hot calf: Is one calf hot and swollen?
  yes means  one calf is hot and swollen

question dizzy: Do you get dizzy?

test walks freely: Walks 20 steps without a limp.
  yes means  you walk without a limp

test steady: Stands on one leg.

test painful arc: Pain in the middle of the lift.
  answer     yes or no, each side
  yes means  the middle of the lift hurts

test heel raises: Heel raises on one leg until the height is lost.
  answer     count from 0 to 60, each side
  better     higher
  means      the number of heel raises

test step time: Seconds for four steps up.
  answer     s from 0 to 60, each side
  better     lower
  means      your time for the steps

test reach: From the toe to the wall.
  answer     cm from 0 to 25, each side
  better     higher
  means      your reach

test grip: Grip strength.
  answer     kg from 0 to 90, each side

question operation: On which day was your operation?
  answer     date
  means      your operation

question side of sleep: How do you sleep?
  answer     one of on the back, on the side, face down
  means      the way you sleep

finding at risk
  yes if chest pain and dizzy
  otherwise no

finding grade: the grade of your sprain
  one if steady
  otherwise two

setting weeks in brace = 2 weeks, from 0 to 6 weeks
"""

PROTOCOL = """
exercise ankle circles
  dose 10 reps, daily
  do
    Move your foot in circles.
  stop pain

protocol ankle
  version 1.0.0
  for     adults
  review  2026-10-05 by outpatient lead, next by 2027-10-05
  source  A reference.
  red flag if chest pain
"""


class OneFile:
    """A library that holds the one text under test."""

    def __init__(self, text: str) -> None:
        self.source = Source(PATH, text)
        self.parsed = parse_protocol(self.source)

    def locate(self, use_path: str, from_file: str) -> str | Outside | None:
        """Nothing can be used."""
        return None

    def tree(self, path: str) -> tree.File | None:
        """The tree of the text."""
        return self.parsed.value

    def use_paths(self) -> Iterable[str]:
        """No paths."""
        return ()


def protocol_of(text: str) -> Protocol:
    """The one protocol of a text that has no errors."""
    file = OneFile(text)
    entry = resolve(PATH, file, Cache())
    wrong = [one.message for one in (*file.parsed.diagnostics, *entry.diagnostics) if one.severity is Severity.ERROR]
    assert not wrong, wrong
    assert entry.value is not None
    return entry.value.protocols[0]


def with_calls(*conditions: str) -> Protocol:
    """A protocol with a `call if` line for each condition."""
    calls = "".join(f"  call if {condition}\n" for condition in conditions)
    return protocol_of(QUESTIONS + PROTOCOL + calls + "  give ankle circles\n")


def voice(protocol: Protocol, lengths: str = "cm") -> Voice:
    """English, speaking about a protocol."""
    english = catalogue("en")
    assert english is not None
    return Voice(english, protocol.scope, lengths)


def english(protocol: Protocol, one: Phrase, lengths: str = "cm") -> str:
    """A phrase in English."""
    return phrase(voice(protocol, lengths), one)
