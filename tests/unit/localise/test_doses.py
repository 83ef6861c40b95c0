"""A dose as it is written, in plain sentences: nothing lost, nothing added.

The table is the oracle, written down from section "Dose" of the language reference.
"""

from __future__ import annotations

import re
from decimal import Decimal

import pytest

from protodsl.handout.phrase import DoseInWords
from protodsl.model.dose import Dose
from protodsl.model.dosing import dose_of
from protodsl.model.protocol import Protocol
from tests.unit.localise.written import PROTOCOL, QUESTIONS, english, protocol_of

DOSES = (
    ("10 reps", "Do 10 repetitions.", "10 repetitions"),
    ("1 x 8", "Do 8 repetitions.", "1 × 8"),
    ("3 x 12", "Do 3 rounds of 12 repetitions.", "3 × 12"),
    ("3 x 8 to 12", "Do 3 rounds of 8 to 12 repetitions.", "3 × 8 to 12"),
    ("2 to 3 x 12", "Do 2 to 3 rounds of 12 repetitions.", "2 to 3 × 12"),
    ("3 x 30 s", "Do 3 rounds of 30 seconds.", "3 × 30 seconds"),
    ("20 min", "Keep going for 20 minutes.", "20 minutes"),
    ("400 m", "Go 400 metres.", "400 metres"),
    ("2 x 10 steps", "Do 2 rounds of 10 steps.", "2 × 10 steps"),
    ("5 breaths", "Stay in it for 5 breaths.", "5 breaths"),
    ("3 x to fatigue", "Do 3 rounds. In each round, do as many as you can until you are tired.", "3 × until tired"),
    ("12 then 10 then 8", "Do 12, then 10, then 8 repetitions.", "12, then 10, then 8"),
    (
        "5 x (4 min walk + 1 min run)",
        "Do this 5 times: walk for 4 minutes, then run for 1 minute.",
        "5 × (walk for 4 minutes, then run for 1 minute)",
    ),
    (
        "3 x 12, rest 60 s",
        "Do 3 rounds of 12 repetitions, with 1 minute of rest in between.",
        "3 × 12, 1 minute rest",
    ),
    (
        "3 x 12, rest 90 s",
        "Do 3 rounds of 12 repetitions, with 90 seconds of rest in between.",
        "3 × 12, 90 seconds rest",
    ),
    (
        "3 x 12, rest 1 to 2 min",
        "Do 3 rounds of 12 repetitions, with 1 to 2 minutes of rest in between.",
        "3 × 12, 1 to 2 minutes rest",
    ),
    (
        "3 x 12, rest until settled",
        "Do 3 rounds of 12 repetitions. In between, rest until the feeling has settled.",
        "3 × 12, rest until settled",
    ),
    ("2 reps, rest 30 s", "Do 2 repetitions. Rest for 30 seconds in between.", "2 repetitions, 30 seconds rest"),
    (
        "10 reps, lift 2 s, hold 1 s, lower 3 s",
        "Do 10 repetitions. Each time: lift for 2 seconds, hold for 1 second, lower for 3 seconds.",
        "10 repetitions, lift for 2 seconds, hold for 1 second, lower for 3 seconds",
    ),
    (
        "10 reps, hold until settled",
        "Do 10 repetitions. Each time: hold until the feeling has settled.",
        "10 repetitions, hold until the feeling has settled",
    ),
    ("10 reps, each side", "Do 10 repetitions. Do it on each side.", "10 repetitions, each side"),
    (
        "10 reps, affected side",
        "Do 10 repetitions. Only on the affected side.",
        "10 repetitions, affected side only",
    ),
    ("10 reps, load 2.5 kg", "Do 10 repetitions. Use 2.5 kg.", "10 repetitions, 2.5 kg"),
    (
        "10 reps, load 70 % of 1RM",
        "Do 10 repetitions. Use 70% of the most that you can lift once.",
        "10 repetitions, 70% of the most you can lift once",
    ),
    (
        "10 reps, load 70 % of 10RM",
        "Do 10 repetitions. Use 70% of the most that you can lift 10 times.",
        None,
    ),
    (
        "10 reps, load 8RM",
        "Do 10 repetitions. Use a weight that you can lift 8 times at most.",
        "10 repetitions, what you can lift 8 times at most",
    ),
    (
        "10 reps, load light band",
        "Do 10 repetitions. Use a light exercise band.",
        "10 repetitions, a light exercise band",
    ),
    ("10 reps, load body weight", "Do 10 repetitions. Use your body weight.", "10 repetitions, body weight"),
    (
        "10 reps, load body weight + 5 kg",
        "Do 10 repetitions. Use your body weight plus 5 kg.",
        "10 repetitions, body weight plus 5 kg",
    ),
    (
        "10 reps, load 8RM up to 30 kg",
        "Do 10 repetitions. Use a weight that you can lift 8 times at most. Never use more than 30 kg.",
        "10 repetitions, what you can lift 8 times at most, 30 kg at most",
    ),
    (
        "10 min, effort 6 to 7",
        "Keep going for 10 minutes. It should feel like an effort of 6 to 7, where 0 is none and 10 is the most you "
        "can do.",
        "10 minutes, effort 6 to 7 of 10",
    ),
    (
        "10 reps, 2 reps in reserve",
        "Do 10 repetitions. End each round when you could still do 2 more.",
        "10 repetitions, 2 more in reserve",
    ),
    ("10 reps, daily", "Do 10 repetitions. Every day.", "10 repetitions, every day"),
    (
        "10 reps, hourly",
        "Do 10 repetitions. Every hour while you are awake.",
        "10 repetitions, every hour while you are awake",
    ),
    (
        "10 reps, every 2 hours",
        "Do 10 repetitions. Every 2 hours while you are awake.",
        "10 repetitions, every 2 hours while you are awake",
    ),
    (
        "3 x to fatigue, rest 60 s",
        "Do 3 rounds, with 1 minute of rest in between. In each round, do as many as you can until you are tired.",
        "3 × until tired, 1 minute rest",
    ),
    (
        "3 x to fatigue, rest until settled",
        "Do 3 rounds. In each round, do as many as you can until you are tired. "
        "In between, rest until the feeling has settled.",
        "3 × until tired, rest until settled",
    ),
    (
        "5 x (4 min walk + 1 min run), rest 60 s",
        "Do this 5 times: walk for 4 minutes, then run for 1 minute. Rest for 1 minute in between.",
        "5 × (walk for 4 minutes, then run for 1 minute), 1 minute rest",
    ),
    ("1 x (4 min walk + 1 min run)", "Walk for 4 minutes, then run for 1 minute.", None),
    ("10 reps, once a day", "Do 10 repetitions. Once a day.", "10 repetitions, once a day"),
    ("10 reps, twice a day", "Do 10 repetitions. 2 times a day.", "10 repetitions, 2 times a day"),
    ("10 reps, 3 days a week", "Do 10 repetitions. 3 days a week.", "10 repetitions, 3 days a week"),
    ("10 reps, 2 to 3 days a week", "Do 10 repetitions. 2 to 3 days a week.", "10 repetitions, 2 to 3 days a week"),
    ("10 reps, every other day", "Do 10 repetitions. Every other day.", "10 repetitions, every other day"),
    (
        "10 reps, twice a day, 3 days a week, rest day between",
        "Do 10 repetitions. 2 times a day, 3 days a week, with a rest day in between.",
        "10 repetitions, 2 times a day, 3 days a week, with a rest day in between",
    ),
    (
        "10 reps, daily, for 6 weeks",
        "Do 10 repetitions. Every day. Go on for 6 weeks. After that do not do this one any more. Ask us how to go on.",
        None,
    ),
    (
        "10 reps, 3 days a week, 1 supervised",
        "Do 10 repetitions. 3 days a week. 1 of the sessions only at the clinic, with us.",
        None,
    ),
)
GROUPS = (
    ("volume", "3 rounds of 8 to 12"),
    ("load", "2.5 kg"),
    ("repetition", "lift for 2 seconds, lower for 3 seconds"),
    ("rest", "1 minute"),
    ("sides", "each side"),
    ("effort", "effort 6 of 10"),
    ("frequency", "3 days a week"),
    ("brief", "3 × 8 to 12, 2.5 kg"),
    ("lasting", ""),
)


def _protocol(dose: str) -> Protocol:
    text = PROTOCOL.replace("dose 10 reps, daily", f"dose {dose}")
    things = "\nequipment light band: a light exercise band\n"
    return protocol_of(QUESTIONS + things + text + "  give ankle circles\n")


def _dose(protocol: Protocol) -> Dose:
    return dose_of(1, (protocol.scope.exercises["ankle circles"].dosage,))


@pytest.mark.parametrize(("dose", "sentences", "short"), DOSES)
def test_a_dose_in_sentences_and_in_short(dose: str, sentences: str, short: str | None) -> None:
    """Each part of a dose has its words, on a card and in a table."""
    protocol = _protocol(dose)
    assert english(protocol, DoseInWords(_dose(protocol))) == sentences
    if short is not None:
        assert english(protocol, DoseInWords(_dose(protocol), "short")) == short


@pytest.mark.parametrize(("group", "words"), GROUPS)
def test_one_group_of_a_dose(group: str, words: str) -> None:
    """A cell of a table says its group alone; a group that was not written is empty."""
    dose = "3 x 8 to 12, load 2.5 kg, lift 2 s, lower 3 s, rest 60 s, each side, effort 6, 3 days a week"
    protocol = _protocol(dose)
    assert english(protocol, DoseInWords(_dose(protocol), group)) == words


def test_the_affected_side_is_named_where_it_is_known() -> None:
    """`affected side` is the left or the right of a person."""
    protocol = _protocol("10 reps, affected side")
    words = english(protocol, DoseInWords(_dose(protocol), side="left"))
    assert words == "Do 10 repetitions. Only on the left side."


@pytest.mark.parametrize("dose", [row[0] for row in DOSES])
def test_every_number_of_a_dose_is_said(dose: str) -> None:
    """Each number stands in the words, but for those that have a word of their own."""
    protocol = _protocol(dose)
    words = english(protocol, DoseInWords(_dose(protocol)))
    said = {Decimal(digits) for digits in re.findall(r"\d+(?:\.\d+)?", words)}
    for digits in re.findall(r"\d+(?:\.\d+)?", re.sub(r"\b1 x |1RM", "", dose)):
        seconds_said_as_minutes = Decimal(digits) / 60
        assert Decimal(digits) in said or seconds_said_as_minutes in said, (digits, words)
