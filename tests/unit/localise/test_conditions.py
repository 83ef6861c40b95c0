"""Every condition reads as a clause that says exactly what the rule says: nothing more, nothing less.

The tables below are the oracle: each was written down from section 5 of the language reference (what a condition
means), not taken from the program's output.
"""

from __future__ import annotations

import pytest

from protodsl.handout.phrase import InWords
from tests.unit.localise.written import english, with_calls

# Condition as written, its words, the words of its opposite.
PLAIN = (
    ("chest pain", "you have chest pain", "you have no chest pain"),
    ("not chest pain", "you have no chest pain", "you have chest pain"),
    ("dizzy", "the answer to “Do you get dizzy?” is yes", "the answer to “Do you get dizzy?” is no"),
    ("walks freely", "you walk without a limp", "it is not true that you walk without a limp"),
    ("steady", "the result of “Stands on one leg.” is yes", "the result of “Stands on one leg.” is no"),
    (
        "painful arc on each side",
        "the middle of the lift hurts on both sides",
        "it is not true that the middle of the lift hurts on at least one side",
    ),
    (
        "painful arc on either side",
        "the middle of the lift hurts on at least one side",
        "it is not true that the middle of the lift hurts on both sides",
    ),
    ("pain >= 6", "your pain is 6 or more out of 10", "your pain is less than 6 out of 10"),
    ("pain > 6", "your pain is more than 6 out of 10", "your pain is 6 or less out of 10"),
    ("pain <= 3", "your pain is 3 or less out of 10", "your pain is more than 3 out of 10"),
    ("pain < 3", "your pain is less than 3 out of 10", "your pain is 3 or more out of 10"),
    ("pain = 3", "your pain is exactly 3 out of 10", "your pain is not 3 out of 10"),
    (
        "worry > 7",
        "your answer to “How much do you fear a fall, from 0 to 10?” is more than 7 out of 10",
        "your answer to “How much do you fear a fall, from 0 to 10?” is 7 or less out of 10",
    ),
    ("reach >= 7.5 cm on the left side", "your reach is 7.5 cm or more on the left side", None),
    ("reach < 8 cm on the right side", "your reach is less than 8 cm on the right side", None),
    ("reach <= 8 cm on the affected side", "your reach is 8 cm or less on the affected side", None),
    ("reach > 8 cm on the other side", "your reach is more than 8 cm on the other side", None),
    (
        "heel raises >= 15 on each side",
        "the number of heel raises is 15 or more on both sides",
        "the number of heel raises is less than 15 on at least one side",
    ),
    (
        "heel raises >= 15 on either side",
        "the number of heel raises is 15 or more on at least one side",
        "the number of heel raises is less than 15 on both sides",
    ),
    ("grip >= 20 kg on each side", "your result in the test “grip” is 20 kg or more on both sides", None),
    ("pain next morning > pain", "your pain the next morning is more than your pain", None),
    ("pain next morning >= pain", "your pain the next morning is at least your pain", None),
    ("pain next morning <= pain", "your pain the next morning is at most your pain", None),
    ("pain next morning < pain", "your pain the next morning is less than your pain", None),
    (
        "pain next morning > pain + 1",
        "your pain the next morning is more than your pain plus 1",
        "your pain the next morning is at most your pain plus 1",
    ),
    ("pain next morning > pain - 2", "your pain the next morning is more than your pain minus 2", None),
    (
        "symmetry of heel raises >= 90 %",
        "the number of heel raises on the affected side is 90% or more of that on the other side",
        "the number of heel raises on the affected side is less than 90% of that on the other side",
    ),
    # `better lower` turns the ratio round: unaffected / affected.
    (
        "symmetry of step time >= 90 %",
        "your time for the steps on the other side is 90% or more of that on the affected side",
        None,
    ),
    (
        "difference of reach > 2 cm",
        "the difference in your reach (other side minus affected side) is more than 2 cm",
        "the difference in your reach (other side minus affected side) is 2 cm or less",
    ),
    (
        "difference of step time > 2 s",
        "the difference in your time for the steps (affected side minus other side) is more than 2 seconds",
        None,
    ),
    (
        "change of pain since start >= 2",
        "your pain has gone up by 2 or more since the start",
        "the change in your pain since the start is less than 2",
    ),
    ("change of pain since start > 2", "your pain has gone up by more than 2 since the start", None),
    (
        "change of pain since last time <= -2",
        "your pain has gone down by 2 or more since last time",
        "the change in your pain since last time is more than -2",
    ),
    ("change of pain since last time < -2", "your pain has gone down by more than 2 since last time", None),
    ("change of pain since start <= 2", "the change in your pain since the start is 2 or less", None),
    (
        "change of reach since start >= 2 cm on the affected side",
        "your reach has gone up by 2 cm or more on the affected side since the start",
        None,
    ),
    (
        "weeks since start >= 6",
        "6 full weeks or more have gone by since the start of this programme",
        "less than 6 full weeks have gone by since the start of this programme",
    ),
    ("weeks since start >= 1", "1 full week or more has gone by since the start of this programme", None),
    (
        "weeks since phase start < 4",
        "less than 4 full weeks have gone by since the start of this part",
        "4 full weeks or more have gone by since the start of this part",
    ),
    ("days since operation >= 10", "10 full days or more have gone by since your operation", None),
    (
        "weeks since operation > 6",
        "the number of full weeks since your operation is more than 6",
        "the number of full weeks since your operation is 6 or less",
    ),
    (
        "weeks since operation >= weeks in brace",
        "2 full weeks or more have gone by since your operation",
        "less than 2 full weeks have gone by since your operation",
    ),
    ("side of sleep is face down", "the way you sleep is face down", "the way you sleep is not face down"),
    ("side of sleep is not face down", "the way you sleep is not face down", "the way you sleep is face down"),
    (
        "side of sleep is one of (on the back, face down)",
        "the way you sleep is on the back or face down",
        "the way you sleep is none of these: on the back or face down",
    ),
    ("grade is two", "the grade of your sprain is two", None),
    # A derived finding of one row, without words of its own, is read by its definition.
    (
        "at risk",
        "you have chest pain and the answer to “Do you get dizzy?” is yes",
        "you have no chest pain or the answer to “Do you get dizzy?” is no",
    ),
)

JOINED = (
    ("chest pain and walks freely", "you have chest pain and you walk without a limp"),
    ("chest pain or walks freely", "you have chest pain or you walk without a limp"),
    (
        "chest pain and walks freely and pain > 3",
        "you have chest pain, you walk without a limp, and your pain is more than 3 out of 10",
    ),
    (
        "chest pain or walks freely or pain > 3",
        "you have chest pain, you walk without a limp, or your pain is more than 3 out of 10",
    ),
    ("not (chest pain or walks freely)", "you have no chest pain and it is not true that you walk without a limp"),
    ("not (chest pain and walks freely)", "you have no chest pain or it is not true that you walk without a limp"),
    # An `or` of the author's own beside ours can only be read one way ...
    ("fever or chest pain", "you have a fever or shivers, or you have chest pain"),
    # ... beside an `and` it could be read two ways.
    ("fever and chest pain", "all of these are true: (a) you have a fever or shivers; (b) you have chest pain"),
    (
        "hot calf or chest pain",
        "one or more of these is true: (a) one calf is hot and swollen; (b) you have chest pain",
    ),
    ("hot calf and chest pain", "one calf is hot and swollen, and you have chest pain"),
    (
        "chest pain and (walks freely or pain > 3)",
        "all of these are true: (a) you have chest pain; "
        "(b) you walk without a limp or your pain is more than 3 out of 10",
    ),
    (
        "chest pain or (walks freely and (fever or pain > 3))",
        "one or more of these is true: (a) you have chest pain; (b) all of these are true: "
        "(i) you walk without a limp; (ii) you have a fever or shivers, or your pain is more than 3 out of 10",
    ),
    (
        "at least 2 of (chest pain, walks freely, pain > 3)",
        "at least 2 of these 3 are true: (a) you have chest pain; (b) you walk without a limp; "
        "(c) your pain is more than 3 out of 10",
    ),
    # Not at least 2 of 3 are yes: at least 2 of 3 are no.
    (
        "not (at least 2 of (chest pain, walks freely, pain > 3))",
        "at least 2 of these 3 are true: (a) you have no chest pain; "
        "(b) it is not true that you walk without a limp; (c) your pain is 3 or less out of 10",
    ),
    ("pain > 6, 2 sessions in a row", "in 2 sessions in a row your pain is more than 6 out of 10"),
    (
        "pain <= 2 and pain next morning <= 2, 3 sessions in a row",
        "in 3 sessions in a row your pain is 2 or less out of 10 and your pain the next morning is 2 or less out of 10",
    ),
)


@pytest.mark.parametrize(("condition", "words", "opposite"), PLAIN)
def test_one_fact(condition: str, words: str, opposite: str | None) -> None:
    """Each kind of fact, each sign and each side reads as the table says, and so does its opposite."""
    protocol = with_calls(condition)
    call = protocol.calls[0]
    assert english(protocol, InWords(call.condition, call.streak)) == words
    if opposite is not None:
        assert english(protocol, InWords(call.condition, call.streak, negated=True)) == opposite


@pytest.mark.parametrize(("condition", "words"), JOINED)
def test_joined(condition: str, words: str) -> None:
    """Joined facts read in one way only, streaks hold for all of it."""
    protocol = with_calls(condition)
    call = protocol.calls[0]
    assert english(protocol, InWords(call.condition, call.streak)) == words


def test_a_known_side_is_named() -> None:
    """Where the affected side is known, affected and other are left or right."""
    protocol = with_calls("reach <= 8 cm on the affected side", "symmetry of heel raises < 90 %")
    reach, symmetry = (InWords(call.condition, side="right") for call in protocol.calls)
    assert english(protocol, reach) == "your reach is 8 cm or less on the right side"
    assert english(protocol, symmetry) == (
        "the number of heel raises on the right side is less than 90% of that on the left side"
    )


def test_a_length_in_the_clinics_unit_stands_behind_the_written_one() -> None:
    """The written unit comes first; the other follows where it is exact (1 in = 2.54 cm, agreement of 1959)."""
    protocol = with_calls("reach < 12.7 cm on the affected side", "reach < 10 cm on the affected side")
    exact, rounded = (InWords(call.condition) for call in protocol.calls)
    assert english(protocol, exact, "in") == "your reach is less than 12.7 cm (5 inches) on the affected side"
    assert english(protocol, rounded, "in") == "your reach is less than 10 cm on the affected side"
