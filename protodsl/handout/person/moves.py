"""The moves so far: date, item, from where to where, and why, each date with the letter that marks it on the charts."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from protodsl.decide.plan import Move, Plan
from protodsl.handout.blocks import Cell, Section, Table
from protodsl.handout.draft import Draft
from protodsl.handout.person.compare import conditions_of
from protodsl.handout.person.evidence import all_known, prose_or_name
from protodsl.handout.phrase import Day, InWords, Listed, Literal, Phrase, Written
from protodsl.handout.places import places
from protodsl.handout.words import NOTHING, number, one_after_the_other, say
from protodsl.source import NOWHERE

# Every kind of move, each with a message `case.move.KIND`.
KINDS = (
    *("start", "up", "down", "lowest", "place", "add", "take off", "adjust", "phase start", "phase", "phase back"),
    *("given", "ended", "withdrawn", "back", "held"),
)
# Of one date these are told together, whatever they are of.
_TOGETHER = frozenset(("given", "withdrawn", "back"))
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_WIDTHS = (8, 20, 30, 42)


def moves(plan: Plan, on: Draft) -> Section[Phrase] | None:
    """The table; none where nothing has moved."""
    if not plan.moves:
        return None
    marks = marked(plan.moves)
    rows = []
    seen: set[date] = set()
    for together in _rows(plan.moves):
        first = together[0]
        head = (Literal(marks[first.date]), Day(first.date)) if first.date not in seen else (NOTHING, NOTHING)
        seen.add(first.date)
        rows.append(tuple(Cell(text) for text in (*head, _what(on, together), _because(on, together))))
    heads = (say("case.moves.mark"), say("case.moves.date"), say("case.moves.what"), say("case.out.why"))
    return Section("moves", say("case.moves.head"), (Table(None, heads, tuple(rows), kind="rules", widths=_WIDTHS),))


def marked(moves: Iterable[Move]) -> dict[date, str]:
    """A letter for each date on which something moved."""
    return {day: letter(at) for at, day in enumerate(sorted({move.date for move in moves}))}


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
    if move.kind == "held" and not move.after:
        return say("case.move.held.nothing", **values)
    return say(f"case.move.{move.kind.replace(' ', '-')}", **values)


def why(on: Draft, move: Move) -> list[Phrase]:
    """The condition, the values that decided, what was written, and the line."""
    said: list[Phrase] = []
    said += [say("line", text=InWords(*one)) for one in conditions_of(on.protocol, move)]
    if move.deciding:
        said.append(say("case.deciding", known=all_known(on, move.deciding)))
    if move.because is not None:
        said.append(say("card.because", reason=Written(move.because)))
    if move.span != NOWHERE:
        said.append(say("case.at", lines=places(on, (move.span,))))
    return said


def _rows(moves: Iterable[Move]) -> list[list[Move]]:
    """Each move by itself; what is given or taken away on one date together."""
    found: list[list[Move]] = []
    for move in moves:
        last = found[-1][0] if found else None
        if last is not None and move.kind in _TOGETHER and (move.date, move.kind) == (last.date, last.kind):
            found[-1].append(move)
        else:
            found.append([move])
    return found


def _what(on: Draft, together: list[Move]) -> Phrase:
    if len(together) == 1:
        return happened(on, together[0])
    items = Listed(tuple(prose_or_name(on, move.item) for move in together), by="comma")
    return say(f"case.move.{together[0].kind}", item=items)


def _because(on: Draft, together: list[Move]) -> Phrase:
    if len(together) == 1:
        return one_after_the_other(*(why(on, together[0]) or [say("dose.none")]))
    spans = [move.span for move in together if move.span != NOWHERE]
    return say("case.at", lines=places(on, spans)) if spans else say("dose.none")


def _place(on: Draft, name: str) -> Phrase:
    """A level, phase or amount; a dash for none."""
    if not name:
        return say("dose.none")
    for at, phase in enumerate(on.protocol.phases, 1):
        if phase.name == name:
            return say("phase.named", number=number(at), title=Written(phase.title))
    return prose_or_name(on, name)
