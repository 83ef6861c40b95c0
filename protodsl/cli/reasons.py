"""The whole chain of reasons for one name of a plan, as lines of text; pure: it prints nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from protodsl.cli.evidence import Places, evidence_lines, move_lines, reason_lines, value_line, value_text
from protodsl.cli.pending import pending_lines
from protodsl.decide.plan import (
    REFER,
    Evidence,
    FlagState,
    Guarded,
    NotGiven,
    OpenQuestion,
    Plan,
    PlannedItem,
)
from protodsl.decide.truth import YES
from protodsl.handout.draft import draft
from protodsl.handout.options import Options
from protodsl.handout.rules import rules
from protodsl.model.case import Observation
from protodsl.model.clinic import Clinic
from protodsl.model.condition import findings_in
from protodsl.model.reach import exercises_reached

_STEP = "    "


def names_of(plan: Plan, clinic: Clinic) -> dict[str, tuple[str, ...]]:
    """What can be asked about, by kind."""
    scope = plan.protocol.scope
    conditions = (rule.condition for rule in rules(draft(plan.protocol, clinic, Options())))
    looked_at = _all_findings(plan, (name for condition in conditions for name in findings_in(condition)))
    every = exercises_reached(plan.protocol)
    items = tuple(dict.fromkeys(one.path[0].name for one in every))
    personal = (one.give.item for one in plan.case.added)
    exercises = (*(one.exercise for one in every), *(name for name in personal if name in scope.exercises))
    return {
        "progressions": tuple(name for name in (*items, *personal) if name in scope.progressions),
        "exercises": tuple(dict.fromkeys(exercises)),
        "phases": tuple(phase.name for phase in plan.protocol.phases),
        "findings": tuple(name for name in scope.findings if name in looked_at),
    }


def overview(plan: Plan, clinic: Clinic, places: Places) -> Iterator[str]:
    """Where the person stands, what is on the sheet and what is not."""
    yield from _head(plan, places)
    yield from _refused(plan, places)
    if plan.items:
        yield "\non the sheet"
    for item in plan.items:
        at = f" ({item.item}, level {item.level.number} of {item.level.of})" if item.level else ""
        yield f"  {item.exercise.name}{at}"
    if plan.not_given:
        yield "\nnot on the sheet as the protocol has it"
    for one in plan.not_given:
        yield f"  {one.asked}{f' (instead: {one.replacement})' if one.replacement else ''}"
    if plan.questions:
        yield "\nopen questions, the gravest first"
    for question in plan.questions:
        yield f"  {_name(question.finding, question.side)}"
    for kind, names in names_of(plan, clinic).items():
        yield f"\n{kind} that can be asked about\n  {', '.join(names) or 'none'}"


def why(plan: Plan, name: str, clinic: Clinic, places: Places) -> Iterator[str]:
    """Everything that is known of why a name is, or is not, on the sheet."""
    yield from _head(plan, places)
    scope, known = plan.protocol.scope, names_of(plan, clinic)
    if name in known["exercises"] or name in known["progressions"]:
        yield from _refused(plan, places)
        yield from _given(plan, name, places)
    if name in known["exercises"] and name not in scope.progressions:
        yield from pending_lines(plan, name, places)
    if name in scope.progressions:
        yield from _levels(plan, name, places)
    if name in known["phases"]:
        yield from _phase(plan, name, places)
    if name in scope.findings:
        yield from _finding(plan, name, clinic, places)
    moves = [one for one in plan.moves if name == one.item or (not one.item and name in (one.before, one.after))]
    if moves:
        yield "\nmoves so far"
        for move in moves:
            yield from _in(move_lines(move, places))


def _head(plan: Plan, places: Places) -> Iterator[str]:
    yield f"{plan.case.id} on {plan.as_of.isoformat()}: {plan.protocol.name}, version {plan.protocol.version}"
    if plan.phase is not None and plan.phase_since is not None:
        place = places.at(plan.phase.span)
        yield f"in the phase `{plan.phase.name}` since {plan.phase_since.isoformat()} ({place})"


def _refused(plan: Plan, places: Places) -> Iterator[str]:
    if not plan.refused:
        return
    told = "a danger sign is there" if plan.refused == REFER else "a danger sign is unanswered"
    yield f"\nno exercise is printed: {told}"
    for state in (*plan.emergencies, *plan.red_flags):
        if (state.truth is YES) if plan.refused == REFER else bool(state.unknown):
            yield from _in(_flag(state, places))


def _flag(state: FlagState, places: Places) -> Iterator[str]:
    yield f"- {state.kind}: {state.truth.value}"
    yield f"{_STEP}{places.line(state.flag.span)}"
    yield from evidence_lines(state.deciding, state.unknown, state.truth, places)
    if state.was_yes:
        yield f"{_STEP}was yes on {', '.join(day.isoformat() for day in state.was_yes)}"


def _given(plan: Plan, name: str, places: Places) -> Iterator[str]:
    """An exercise or a progression, printed or left out, by every way it could come onto the sheet."""
    printed = [item for item in plan.items if name in (item.item, item.asked, item.exercise.name)]
    missing = [one for one in plan.not_given if name in (one.item, one.asked, one.replacement)]
    for item in printed:
        yield from _printed(item, name, places)
    for one in missing:
        yield from _missing(one, places)
    if printed or missing or plan.refused:
        return
    ways = [one for one in exercises_reached(plan.protocol) if name in (one.exercise, one.path[0].name)]
    yield f"\n{name}: not on the sheet, because nothing that is in force now asks for it"
    for way in ways[:1]:
        for step in way.path:
            yield f"  - it can come by {step.kind} {step.name}"
            yield f"  {_STEP}{places.line(step.span)}"


def _printed(item: PlannedItem, name: str, places: Places) -> Iterator[str]:
    swapped = f" in the place of {item.asked}" if item.asked != item.exercise.name else ""
    of = f" for {item.item}" if item.item != item.exercise.name else ""
    since = item.level.since if item.level else item.since
    yield f"\n{item.exercise.name}: on the sheet{swapped}{of}, since {since.isoformat()}, in week {item.week}"
    for reason in dict.fromkeys(item.reasons):
        yield from _in(reason_lines(reason, places))
    for guarded in (*item.avoids, *item.cautions):
        yield from _in(_guarded(guarded, places))
    if item.load is not None and item.load.kilograms is not None:
        yield f"  - load {item.load.kilograms:f} kg"
        if item.load.equation:
            exact = f" from {item.load.exact:.2f} kg" if item.load.exact is not None else ""
            yield f"  {_STEP}by the equation {item.load.equation}{exact}"
        if item.load.steps:
            yield f"  {_STEP}with {item.load.steps:f} kg of steps"
        yield from _in(evidence_lines(item.load.evidence, (), None, places))
    if item.focus is not None:
        yield f"  - more on the {item.focus.side} side, by {item.focus.finding}"
        yield from _in(evidence_lines(item.focus.deciding, (), None, places))


def _guarded(guarded: Guarded, places: Places) -> Iterator[str]:
    """A line that could have kept it off the sheet, or that stands on it as a caution."""
    yield f"- looked at: {guarded.truth.value}"
    yield f"{_STEP}{places.line(guarded.line.span)}"
    yield from evidence_lines(guarded.deciding, guarded.unknown, guarded.truth, places)


def _missing(one: NotGiven, places: Places) -> Iterator[str]:
    now = f"{one.replacement} stands in its place" if one.replacement else "nothing stands in its place"
    of = f" of {one.item}" if one.item not in ("", one.asked) else ""
    yield f"\n{one.asked}{of}: not on the sheet; {now}"
    for reason in dict.fromkeys(one.reasons):
        yield from _in(reason_lines(reason, places))
    if one.until is not None:
        yield f"  - it was given until {one.until.isoformat()}, when what was known grew too old"
    if one.uncovered:
        yield f"  - nothing is left for {', '.join(one.uncovered)}"


def _levels(plan: Plan, name: str, places: Places) -> Iterator[str]:
    for level in plan.levels:
        if level.progression == name:
            held = f"; held: `{level.printed or 'nothing'}` is printed" if level.held else ""
            at = f"at level {level.number} of {level.of}, `{level.level}`, since {level.since.isoformat()}"
            yield f"\n{name}: {at}{held}"
            yield from pending_lines(plan, name, places)
            yield from _waits(plan, name)


def _phase(plan: Plan, name: str, places: Places) -> Iterator[str]:
    (phase,) = (one for one in plan.protocol.phases if one.name == name)
    now = plan.phase is not None and plan.phase.name == name
    yield f"\n{name}: {'the phase of now' if now else 'not the phase of now'}"
    if now:
        yield from pending_lines(plan, "", places)
        return
    for line in (*phase.until, *phase.back_to):
        yield f"  - {places.line(line.span)}"


def _waits(plan: Plan, item: str) -> Iterator[str]:
    for question in plan.questions:
        if any(use.item == item for use in question.uses):
            yield f"  - waits for {_name(question.finding, question.side)}"


def _finding(plan: Plan, name: str, clinic: Clinic, places: Places) -> Iterator[str]:
    """Every value with its date and line, then the lines that look at it, then those it decided."""
    values = _values(plan, name)
    yield f"\n{name}: {f'{len(values)} values' if len(values) != 1 else '1 value'} so far"
    for one in values:
        corrected = ", corrected" if one.corrects else ""
        seen = Evidence(name, one.side, one.value, one.date, span=one.span)
        yield f"  - {value_line(seen, places)}{corrected}"
    for question in plan.questions:
        if question.finding == name:
            yield f"  - {_last(question)}"
    on = draft(plan.protocol, clinic, Options())
    lines = [rule.span for rule in rules(on) if name in _all_findings(plan, findings_in(rule.condition))]
    if lines:
        yield "\nlines that look at it"
        yield from (f"  - {places.line(span)}" for span in dict.fromkeys(lines))
    moves = [one for one in plan.moves if any(each.finding == name for each in one.deciding)]
    if moves:
        yield "\nmoves that it made"
        for move in moves:
            yield from _in([f"{move.item or 'the phase'}", *(f"  {line}" for line in move_lines(move, places))])


def _last(question: OpenQuestion) -> str:
    side = f" on the {question.side}" if question.side else ""
    last = question.last
    if last is None or last.date is None:
        return f"nobody knows it now{side}"
    return f"nobody knows it now{side}; the last was {value_text(last.value)} on {last.date.isoformat()}"


def _values(plan: Plan, name: str) -> list[Observation]:
    case = plan.case
    values = [one for one in case.observations if one.finding == name]
    values += [one for session in case.sessions for one in session.values if one.finding == name]
    return sorted((one for one in values if one.date <= plan.as_of), key=lambda one: one.date)


def _all_findings(plan: Plan, names: Iterable[str], above: frozenset[str] = frozenset()) -> set[str]:
    """Names with all that they follow from."""
    found = set(names)
    for name in found - above:
        finding = plan.protocol.scope.findings.get(name)
        for row in finding.rows if finding else ():
            found = found | _all_findings(plan, findings_in(row.condition), above | {name})
    return found


def _name(finding: str, side: str | None) -> str:
    return f"{finding} {side}" if side else finding


def _in(lines: Iterable[str]) -> Iterator[str]:
    return (f"  {line}" for line in lines)
