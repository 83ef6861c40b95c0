"""How hard the patient's sheet is to read, in one line for the clinician."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal

from protodsl.handout.phrase import PROGRAM, Literal, Number, Phrase
from protodsl.handout.words import counted, number, one_after_the_other, say
from protodsl.readability import Summary

_TENTH = Decimal("0.1")


def reading(of: Summary) -> Phrase:
    """The value by its formula, and how many sentences are longer than the clinic wants."""
    level = of.level
    if level is None:
        unit = "words" if of.in_words else "letters"
        first = say(f"reading.length.{unit}", value=Number(of.mean.quantize(_TENTH, ROUND_HALF_EVEN)))
    else:
        by = Literal(level.measure.name, PROGRAM)
        first = say(f"reading.{level.measure.kind.value}", value=Number(level.shown), formula=by)
    if of.most is None:
        return first
    key = "reading.long.words" if of.in_words else "reading.long.letters"
    long = counted(key, of.long, total=number(of.sentences), most=number(of.most))
    return one_after_the_other(first, long)
