"""What could stand where the parser stopped, as a person says it."""

from __future__ import annotations

from protodsl.diagnostics import lines as say
from protodsl.syntax.met import Explained, Met

PHRASES: dict[str, str] = {
    "NUMBER": "a number",
    "NAME": "a name",
    "SCORED": "a name and its value",
    "LEVEL_NAME": "a level",
    "UNIT": "a unit",
    "COMPARISON": "a comparison such as `>=`",
    "DATE": "a date such as `2026-11-02`",
    "VERSION_NUMBER": "a version such as `1.3.0`",
    "RM": "a load such as `8RM`",
    "CASE_ID": "an id such as `P-0417`",
    "LANGUAGE_TAG": "a language tag such as `es`",
    "PATH": "a path",
    "PROSE": "words",
    "SENTENCE": "a sentence",
    "BODY": "a part of the body",
    "STANCE": "a position such as `lying on back`",
    "MEASURE": "a unit",
    "COMMA": "a comma",
    "COLON": "a colon",
    "LPAR": "`(`",
    "RPAR": "`)`",
    "PLUS": "`+`",
    "SIGN": "`+`",
    "EQUAL": "`=`",
}
# Where very much can stand, an example says more than a list.
WHOLES: dict[str, str] = {
    "AS_GIVEN": "what was done, such as `as given` or `pain 2`",
    "DAILY": "a part of a dose, such as `3 x 12` or `3 days a week`",
    "SYMMETRY_OF": "a condition, such as `pain > 3`",
    "YES_OR_NO": "`yes or no`, a scale such as `0 to 10`, a measure such as `cm from 0 to 25`, `one of` or `date`",
}


def not_understood(met: Met) -> Explained:
    return say.not_understood(met.here, met.word, phrases(met), "NL" in met.expected), None


def phrases(met: Met) -> list[str]:
    """What could stand at the mistake, as a person says it; at most five things."""
    for name, whole in WHOLES.items():
        if name in met.expected and "COMMA" not in met.expected:
            return [whole]
    named = [PHRASES[name] for name in PHRASES if name in met.expected]
    known = [f"`{word}`" for word in met.words]
    return list(dict.fromkeys((*named, *known)))[:5]
