"""The moves so far: date, item, from where to where, and why, each with the letter that marks it on the charts."""

from __future__ import annotations

from protodsl.decide.plan import Move, Plan
from protodsl.handout.blocks import Cell, Section, Table
from protodsl.handout.draft import Draft
from protodsl.handout.person.evidence import all_known, prose_or_name
from protodsl.handout.phrase import Day, InWords, Literal, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.words import number, one_after_the_other, say
from protodsl.source import NOWHERE

# Every kind of move, each with a message `case.move.KIND`.
KINDS = (
    *("start", "up", "down", "lowest", "place", "add", "take off", "adjust", "phase start", "phase", "phase back"),
    *("given", "ended", "withdrawn", "back"),
)
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_WIDTHS = (8, 20, 28, 44)


def moves(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """The table; none where nothing has moved."""
    if not plan.moves:
        return None
    rows = tuple(
        (
            Cell(Literal(letter(at))),
            Cell(Day(move.date)),
            Cell(happened(on, move)),
            Cell(one_after_the_other(*(why(on, move) or [say("dose.none")]))),
        )
        for at, move in enumerate(plan.moves)
    )
    heads = (say("case.moves.mark"), say("case.moves.date"), say("case.moves.what"), say("case.out.why"))
    return Section("moves", say("case.moves.head"), (Table(None, heads, rows, kind="rules", widths=_WIDTHS),))


def letter(at: int) -> str:
    """A to Z, then AA, AB and on."""
    first, last = divmod(at, len(_LETTERS))
    return (letter(first - 1) if first else "") + _LETTERS[last]


def happened(on: Draft, move: Move) -> Phrase:
    """`Calf strength: up from “both legs” to “one leg”`."""
    values: dict[str, Phrase] = {
        "item": prose_or_name(on, move.item),
        "before": _place(on, move.before),
        "after": _place(on, move.after),
    }
    return say(f"case.move.{move.kind.replace(' ', '-')}", **values)


def why(on: Draft, move: Move) -> list[Phrase]:
    """The condition, the values that decided, what was written, and the line."""
    said: list[Phrase] = []
    if move.condition is not None:
        said.append(say("line", text=InWords(move.condition, move.streak)))
    if move.deciding:
        said.append(say("case.deciding", known=all_known(on, move.deciding)))
    if move.because is not None:
        said.append(say("card.because", reason=Written(move.because)))
    if move.span != NOWHERE:
        said.append(say("case.at", lines=places(on, (move.span,))))
    return said


def _place(on: Draft, name: str) -> Phrase:
    """A level, phase or amount; a dash for none."""
    if not name:
        return say("dose.none")
    for at, phase in enumerate(on.protocol.phases, 1):
        if phase.name == name:
            return say("phase.named", number=number(at), title=Written(phase.title))
    return prose_or_name(on, name)
