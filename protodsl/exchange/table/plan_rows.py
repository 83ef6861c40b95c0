"""A person's plan as a table: a row for each exercise, and one more from each date on which its dose changes."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.decide.plan import Plan, PlannedItem
from protodsl.diagnostics.exchange import not_handed_on
from protodsl.exchange.doses import Stretch, set_lines, stretches
from protodsl.exchange.speech import Speech
from protodsl.exchange.table.cells import table
from protodsl.exchange.table.columns import dose_cells, dose_header
from protodsl.handout.phrase import DoseInWords, Written
from protodsl.model.dose import Dose
from protodsl.outcome import Outcome
from protodsl.units import plain

_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_BEFORE = (
    "case", "protocol", "version", "as_of", "language", "number", "exercise", "title", "item", "level",
    "level_number", "levels", "in_place_of", "phase", "from", "to", "week", "weekdays", "dates", "minutes_a_day",
    "supervised", "choice_options", "choice_takes", "focus_side", "focus_extra_sets",
)  # fmt: skip
_AFTER = ("set_words", "dose_words", "place")


def plan_table(plan: Plan, speech: Speech) -> Outcome[bytes]:
    """The table of a plan; none, and a diagnostic, where no exercise may be done."""
    if plan.refused:
        return Outcome(None, (not_handed_on(plan.case.id, "table", plan.case.span),))
    return Outcome(table((*_BEFORE, *dose_header(), *_AFTER), _rows(plan, speech)))


def _rows(plan: Plan, speech: Speech) -> Iterator[tuple[str, ...]]:
    for number, item in enumerate(plan.items, 1):
        for one in stretches(plan, item):
            before = (*_who(plan, speech), str(number), *_what(plan, item, speech))
            when = (one.first.isoformat(), one.last.isoformat(), str(one.week), *_when(item, one))
            yield (*before, *when, *_how(item), *dose_cells(one.dose, speech.side), *_after(item, one.dose, speech))


def _who(plan: Plan, speech: Speech) -> tuple[str, ...]:
    protocol = plan.protocol
    return plan.case.id, protocol.name, protocol.version, plan.as_of.isoformat(), speech.language


def _what(plan: Plan, item: PlannedItem, speech: Speech) -> tuple[str, ...]:
    level = item.level
    where = (level.printed, str(level.number), str(level.of)) if level else ("", "", "")
    asked = item.asked if item.asked != item.exercise.name else ""
    phase = plan.phase.name if plan.phase else ""
    return item.exercise.name, speech.words(Written(item.exercise.title)), item.item, *where, asked, phase


def _when(item: PlannedItem, one: Stretch) -> tuple[str, ...]:
    weekdays = " ".join(_DAYS[day] for day in item.days)
    minutes = "" if one.minutes is None else plain(one.minutes)
    return weekdays, " ".join(day.isoformat() for day in one.dates), minutes


def _how(item: PlannedItem) -> tuple[str, ...]:
    options = (str(item.options), str(item.takes)) if item.options else ("", "")
    focus = (item.focus.side, str(item.focus.extra_sets)) if item.focus else ("", "")
    return "yes" if item.supervised else "no", *options, *focus


def _after(item: PlannedItem, dose: Dose, speech: Speech) -> tuple[str, ...]:
    sets = " ".join(speech.words(line) for line in set_lines(item))
    return sets, speech.words(DoseInWords(dose, "short")), speech.place(item.give.span)
