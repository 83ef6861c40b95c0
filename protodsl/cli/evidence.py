"""Lines of a protocol, and the values that decided on them, as plain text with the place of each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from protodsl.decide.plan import Evidence, Move, Reason
from protodsl.decide.truth import UNKNOWN, Truth
from protodsl.model.case import Value
from protodsl.model.text import Prose
from protodsl.source import Source, Span
from protodsl.units import Quantity

_STEP = "    "
_TIMES = {"start": "since the start", "phase start": "since this part began"}

# What a line did, by the kind of its reason.
_DID = {
    "give": "given",
    "added": "given to this person",
    "start": "starts at `{name}`",
    "level": "moved to `{name}`",
    "place": "placed at `{name}`",
    "held": "nothing of this level may be done now; `{name}` is printed, and the level is held",
    "choice": "one of those to choose from",
    "avoid": "`{name}` is left out",
    "needs": "`{name}` needs what is not there",
    "leave out": "`{name}` is left out",
    "personal": "`{name}` is left out for this person",
    "forbid": "`{name}` is forbidden in this part",
    "limit": "`{name}` goes past a limit of this part",
    "bearing": "`{name}` puts more weight on the leg than this part allows",
    "load limit": "the load of `{name}` is not known to stay under the limit",
    "table ended": "its weeks are over",
    "dose ended": "its time is over",
    "condition": "the condition of `{name}`",
}
_MOVED = {
    "lowest": "down, but this is the lowest level",
    "place": "placed by the clinician",
    "given": "given for the first time",
    "withdrawn": "given no longer",
    "back": "given again",
}
_ANSWER = {"yes": "yes", "no": "no", "unknown": "unknown"}


@dataclass(frozen=True, slots=True)
class Places:
    """The texts by path, and how a path is shown."""

    sources: dict[str, Source]
    shown: Callable[[str], str]

    def at(self, span: Span) -> str:
        """`ankle.protocol:41`; empty for no place."""
        if not span.path:
            return ""
        source = self.sources.get(span.path)
        return f"{self.shown(span.path)}:{source.position(span.start)[0]}" if source else self.shown(span.path)

    def line(self, span: Span) -> str:
        """`ankle.protocol:41: give ankle rocks`."""
        source = self.sources.get(span.path)
        if not source:
            return self.at(span)
        return f"{self.at(span)}: {source.line(source.position(span.start)[0]).strip()}"


def reason_lines(reason: Reason, places: Places) -> Iterator[str]:
    """What a line did, the line, and what decided on it."""
    did = _DID.get(reason.kind, reason.kind).format(name=reason.name)
    told = f": {_ANSWER[reason.truth.value]}" if reason.truth is not None and reason.kind == "condition" else ""
    yield f"- {did}{told}"
    if reason.span.path:
        yield f"{_STEP}{places.line(reason.span)}"
    yield from because_lines(reason.because)
    yield from evidence_lines(reason.deciding, reason.unknown, reason.truth, places)


def move_lines(move: Move, places: Places) -> Iterator[str]:
    """A move with its date, its line and the values that made it."""
    way = f": {move.before or '(nothing)'} -> {move.after or '(nothing)'}" if move.before != move.after else ""
    streak = f", {move.streak} sessions in a row" if move.streak > 1 else ""
    yield f"- {move.date.isoformat()} {_MOVED.get(move.kind, move.kind)}{way}{streak}"
    if move.span.path:
        yield f"{_STEP}{places.line(move.span)}"
    yield from because_lines(move.because)
    yield from evidence_lines(move.deciding, (), None, places)


def because_lines(because: Prose | None) -> Iterator[str]:
    """The reason that somebody wrote."""
    if because is not None and because.text:
        yield f"{_STEP}because {because.text}"


def evidence_lines(
    deciding: Iterable[Evidence], unknown: Iterable[Evidence], truth: Truth | None, places: Places
) -> Iterator[str]:
    """The values that decided, then what nobody knows."""
    for one in dict.fromkeys(deciding):
        yield f"{_STEP}by {value_line(one, places)}"
    for one in dict.fromkeys(unknown):
        yield f"{_STEP}{'not known' if truth is UNKNOWN else 'without'}: {value_line(one, places)}"


def value_line(one: Evidence, places: Places) -> str:
    """`knee-to-wall right: 6.5 cm on 2026-11-02 (cases/P-0417.case:13)`."""
    if one.finding in _TIMES:
        return f"{value_text(one.value)} {_TIMES[one.finding]}, on {one.date}"
    name = f"{one.finding} {one.side}" if one.side else one.finding
    if one.value is None and one.date is None:
        return f"{name}: nobody has said"
    when = f" on {one.date.isoformat()}" if one.date else ""
    old = ", too old to count" if one.stale else ""
    where = f" ({places.at(one.span)})" if one.span.path else ""
    return f"{name}: {value_text(one.value)}{when}{old}{where}"


def value_text(value: Value) -> str:
    """A value as it is written in a case."""
    if value is None:
        return "unknown"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Quantity):
        unit = "" if value.unit is None or value.unit.name == "count" else f" {value.unit.name}"
        return f"{value.value.normalize():f}{unit}"
    return value.isoformat() if isinstance(value, date) else value
