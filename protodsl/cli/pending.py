"""How far the lines that can move somebody have come, as plain text."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.cli.evidence import Places
from protodsl.decide.plan import Pending, Plan
from protodsl.decide.truth import NO, UNKNOWN, YES

_STEP = "    "
_HEADS = {
    "up when": "moves on",
    "down when": "moves back",
    "add": "goes up",
    "take off": "goes down",
    "until": "ends",
    "back to": "goes back",
}
_RISING = ("up when", "add", "until")


def pending_lines(plan: Plan, item: str, places: Places) -> Iterator[str]:
    """Every line that can move the item ("": the phase) with how it stands, then the week where that is held."""
    own = [one for one in plan.pending if one.item == item]
    held = any(one.kind not in _RISING and one.truth is not NO for one in own)
    for one in own:
        yield f"  - {_HEADS[one.kind]}: {places.line(one.span)}"
        yield f"  {_STEP}{_stands(one, held)}"
    for week in plan.held_weeks:
        if week.item == item:
            why = "a line that leads back holds" if week.due else "nobody knows whether a line that leads back holds"
            yield f"  - held in week {week.week}: no further week begins while {why}"


def _stands(one: Pending, held: bool) -> str:
    """`1 of 2 sessions in a row so far, the last on 2026-11-04; the next one must be so too`."""
    if one.old:
        return f"last looked at on {one.looked}, too long ago to count; a new session is needed"
    last = f", the last on {one.looked}" if one.looked else ""
    if one.kind not in _RISING:
        return _back(one, last)
    blocked = "; nothing rises until every line that leads back is a clear no" if held else ""
    if one.needed == 1:
        return f"{one.truth.value} now{f', looked at on {one.looked}' if one.looked else ''}{blocked}"
    so_far = f"{one.met} of {one.needed} sessions in a row so far{last if one.met else ''}"
    missing = one.needed - one.met
    if missing <= 0:
        return f"{so_far}{blocked or '; it has moved by these, or waits for a newer answer'}"
    following = "the next one must be so too" if missing == 1 and one.met else f"the next {missing} must be so"
    return f"{so_far}; {following}{blocked}"


def _back(one: Pending, last: str) -> str:
    if one.needed > 1:
        doubt = "; with an unknown among them it counts as unknown" if one.truth is UNKNOWN else ""
        so_far = f"{one.met} of {one.needed} sessions in a row so far{last if one.met else ''}"
        return f"{one.truth.value} now: {so_far}{doubt}"
    if one.truth is UNKNOWN and one.looked is None:
        return "unknown now: nothing has answered it since this level began"
    answered = " (one answer leads back once)" if one.truth is YES else ""
    return f"{one.truth.value} now{f', looked at on {one.looked}' if one.looked else ''}{answered}"
