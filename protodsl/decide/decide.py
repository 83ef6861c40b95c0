"""From the protocol and one person's case to the plan of the sheet, as of a stated date."""

from __future__ import annotations

import datetime

from protodsl.decide import flags
from protodsl.decide.items import gather, guarded, uncovered, with_uncovered
from protodsl.decide.pending import held_weeks, pending
from protodsl.decide.plan import Move, Plan
from protodsl.decide.questions import Asked
from protodsl.decide.replay import Replay, replayed
from protodsl.decide.returning import returning
from protodsl.decide.schedule import period, scheduled, week
from protodsl.decide.waiting import ask
from protodsl.diagnostics import cases as say
from protodsl.diagnostics.diagnostic import Diagnostic, in_order
from protodsl.model.case import Case, Chosen, Placing, Session, VersionFrom, Versions
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Protocol
from protodsl.outcome import Outcome


def decide(
    protocol: Protocol | Versions, case: Case, clinic: Clinic, as_of: datetime.date | None = None
) -> Outcome[Plan]:
    """The plan as of a date (None: `latest_date`); None where the case cannot be decided, and it is said why."""
    today = latest_date(case) if as_of is None else as_of
    return _decided(protocol, case, clinic, (today,))[today]


def decide_twice(
    protocol: Protocol | Versions, case: Case, clinic: Clinic, as_of: datetime.date, before: datetime.date
) -> tuple[Outcome[Plan], Outcome[Plan]]:
    """The plan as of a date and the one as of a date before it, by one replay."""
    found = _decided(protocol, case, clinic, (before, as_of))
    return found[as_of], found[before]


def _decided(
    protocol: Protocol | Versions, case: Case, clinic: Clinic, days: tuple[datetime.date, ...]
) -> dict[datetime.date, Outcome[Plan]]:
    """What comes of each of the dates, which are in order."""
    versions = protocol if isinstance(protocol, Versions) else Versions(((case.started, protocol),))
    found: dict[datetime.date, Outcome[Plan]] = {}
    for day in days:
        if day < case.started:
            found[day] = Outcome(None, (say.before_the_case(day, case.started, case.span),))
        elif (day - case.started).days > say.LONGEST_CASE:
            found[day] = Outcome(None, (say.over_ten_years(day, case.started, case.span),))
    evenings = tuple(day for day in days if day not in found)
    for run in replayed(case, versions, clinic, evenings) if evenings else ():
        missing = _not_placed(run, run.context.date)
        found[run.context.date] = Outcome(None, in_order(missing)) if missing else _plan(run, case, run.context.date)
    return found


def latest_date(case: Case) -> datetime.date:
    """The latest date of an `on`, `session`, `place` or `from ... version` line; the start where there is none."""
    answers = [one.date for one in case.observations if not one.corrects]
    lines: tuple[Chosen | Session | Placing | VersionFrom, ...] = (
        *case.chosen,
        *case.sessions,
        *case.placings,
        *case.versions,
    )
    return max([case.started, *answers, *(one.date for one in lines)])


def _plan(run: Replay, case: Case, today: datetime.date) -> Outcome[Plan]:
    """The plan holds the case as it was written, so that what was corrected can be told."""
    asked = Asked()
    protocol, phase = run.context.protocol, run.gate.phase
    first, last = period(today, run.case.next_visit)
    emergencies = flags.alarms("emergency if", protocol.emergencies, run, asked)
    red_flags = flags.alarms("red flag if", protocol.red_flags, run, asked)
    told = flags.calls(run, asked)
    cautions = (*protocol.cautions, *(phase.cautions if phase else ()))
    heeded = tuple(guarded(line, run, asked, "") for line in cautions)
    sheet = gather(run, last, asked)
    ask(run, asked)
    if sheet.said:
        return Outcome(None, in_order(tuple(sheet.said)))
    refused = flags.refusal((*emergencies, *red_flags))
    items = () if refused else scheduled(sheet.items, first, last)
    return Outcome(
        Plan(
            case,
            protocol,
            today,
            first,
            last,
            refused,
            phase,
            run.state.phase.since if phase is not None else None,
            items,
            with_uncovered(sheet, run),
            asked.questions(),
            tuple(run.state.moves),
            emergencies,
            red_flags,
            told,
            heeded,
            week(items, protocol.budget),
            uncovered(sheet),
            (*_lowest(run), *sheet.told),
            tuple(sheet.levels),
            pending(run),
            held_weeks(run),
            returning(run, last),
        ),
        _visit_passed(case, today),
    )


def _visit_passed(case: Case, today: datetime.date) -> tuple[Diagnostic, ...]:
    """A next visit that is none any more, which would go from the sheet without a word."""
    visit = case.next_visit
    return () if visit is None or visit > today else (say.visit_passed(visit, today, case.visit_at or case.span),)


def _lowest(run: Replay) -> tuple[Move, ...]:
    """A `down when` at the lowest level that nothing has followed."""
    last = {move.item: move for move in run.state.moves}
    return tuple(move for move in last.values() if move.kind == "lowest")


def _not_placed(run: Replay, today: datetime.date) -> tuple[Diagnostic, ...]:
    """Progressions that were under way when another version of the text began, and stand on no level of it."""
    begun = [one for one in run.case.versions if one.date <= today]
    if not begun:
        return ()
    version = max(begun, key=lambda one: one.date)
    placed = {one.item for one in run.case.placings if one.date >= version.date}
    return tuple(
        say.not_placed(
            item.item, version.version, version.span, run.context.protocol.scope.progressions[item.item].span
        )
        for item in run.state.items.values()
        if item.item in run.context.protocol.scope.progressions
        and item.item not in placed
        and item.first_given < version.date
    )
