"""The dose on a card: a sentence where it is one dose, a table where it changes by week, set, step or part."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, replace
from decimal import Decimal

from protodsl.dose.totals import sets_of
from protodsl.handout.blocks import Cell, Item, Row, Table
from protodsl.handout.draft import Draft, Use
from protodsl.handout.phrase import DoseInWords, InWords, Listed, Measure, Phrase
from protodsl.handout.titles import level_title, phase_title
from protodsl.handout.words import NOTHING, number, one_after_the_other, say
from protodsl.model.dose import NO_DOSE, Adjust, AdjustRow, Dosage, Dose, LoadStep, SetRow
from protodsl.model.dosing import dose_of, table_end
from protodsl.model.exercise import Level
from protodsl.units import Quantity

# The columns of a dose table, in order; a group that is the same in every row stands in the sentence instead.
GROUPS = ("volume", "load", "repetition", "rest", "sides", "effort", "frequency", "lasting", "supervised")

# The groups that lines of single sets may say in place of the dose.
_BY_SET = ("volume", "load", "effort")


@dataclass(frozen=True, slots=True)
class Stretch:
    """Weeks from `first` to `last` (None: and on) with one dose."""

    first: int
    last: int | None
    dose: Dose


def stretches(layers: Sequence[Dosage]) -> tuple[Stretch, ...]:
    """The dose week by week, weeks with one dose taken together."""
    end = table_end(layers)
    starts = {1, *(row.first for layer in layers for row in layer.weeks)}
    starts |= {row.last + 1 for layer in layers for row in layer.weeks if row.last is not None}
    ordered = sorted(week for week in starts if end is None or week <= end)
    found: list[Stretch] = []
    for at, first in enumerate(ordered):
        last = ordered[at + 1] - 1 if at + 1 < len(ordered) else end
        dose = dose_of(first, layers)
        if found and found[-1].dose == dose:
            found[-1] = replace(found[-1], last=last)
        else:
            found.append(Stretch(first, last, dose))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Dosed:
    """The dose of a card: what is `shared` by every use and week, the `table` of what is not.

    `last` is the week after which a dose that never changes ends; None where it goes on, or where a table says so.
    """

    shared: Dose
    table: Table[Phrase] | None = None
    last: int | None = None

    def sentence(self) -> Phrase | None:
        """How much, on which side, with what load, for how long; None where all of that stands in the table."""
        main = replace(self.shared, repetition=None, effort=None, frequency=None)
        if main == NO_DOSE:
            return None
        if self.last is None:
            return DoseInWords(main)
        until = say("dose.until-week", last=number(self.last))
        return Listed((DoseInWords(main), until, say("dose.count-weeks")), by="sentences")

    def of(self, group: str) -> Phrase | None:
        """One group of what is shared, as a sentence."""
        value = getattr(self.shared, group)
        return None if value is None else DoseInWords(replace(NO_DOSE, **{group: value}))


def dosed(draft: Draft, uses: tuple[Use, ...]) -> Dosed:
    """What is the same in every use and week, and the table for what is not."""
    ways = _ways(uses)
    doses = [stretch.dose for plan in ways for stretch in plan]
    shared = _shared(doses)
    if len(doses) == 1:
        return Dosed(shared, last=next(iter(ways))[0].last)
    return Dosed(shared, _table(draft, ways, shared))


def steps(draft: Draft, uses: tuple[Use, ...]) -> Iterator[Row[Phrase]]:
    """How load, repetitions or time go up and down, set by set and session by session.

    Of sets, of adjustments and of steps only those of the strongest layer that says any hold.
    """
    seen: list[Dosage] = []
    for use in uses:
        rules = Dosage(
            sets=_sets(use.layers),
            adjusts=next((layer.adjusts for layer in use.layers if layer.adjusts), ()),
            steps=next((layer.steps for layer in use.layers if layer.steps), ()),
        )
        if rules not in seen:
            seen.append(rules)
            yield from _changes(rules)


def _sets(layers: Sequence[Dosage]) -> tuple[SetRow, ...]:
    return next((layer.sets for layer in layers if layer.sets), ())


def _headlines(layers: Sequence[Dosage]) -> tuple[Stretch, ...]:
    """The dose week by week without what is said set by set: that is the dose then, and it is said once."""
    rows = _sets(layers)
    found: list[Stretch] = []
    for stretch in stretches(layers):
        whole = {row.number for row in rows} >= set(range(1, int(sets_of(stretch.dose).high) + 1))
        said = [name for name in _BY_SET if rows and whole and all(getattr(row.dose, name) for row in rows)]
        dose = replace(stretch.dose, **dict.fromkeys(said))
        if found and found[-1].dose == dose:
            found[-1] = replace(found[-1], last=stretch.last)
        else:
            found.append(replace(stretch, dose=dose))
    return tuple(found)


def _changes(layer: Dosage) -> Iterator[Row[Phrase]]:
    if layer.sets:
        sets = tuple(
            Item(say("steps.set", number=number(row.number), dose=DoseInWords(row.dose, "short"))) for row in layer.sets
        )
        yield Row(say("steps.sets"), sets)
    for adjust in layer.adjusts:
        yield Row(_adjusted(adjust), tuple(Item(_adjustment(row)) for row in adjust.rows))
    up = tuple(Item(_step(step)) for step in layer.steps if step.change.value >= 0)
    down = tuple(Item(_step(step)) for step in layer.steps if step.change.value < 0)
    if up:
        yield Row(say("steps.up"), up, "up")
    if down:
        yield Row(say("steps.down"), down, "down")


def _adjusted(adjust: Adjust) -> Phrase:
    if adjust.for_set is None:
        return say("steps.adjust.next", by=number(adjust.by_set))
    return say("steps.adjust.set", by=number(adjust.by_set), set=number(adjust.for_set))


def _adjustment(row: AdjustRow) -> Phrase:
    value = row.change.value if row.change else Decimal(0)
    key = "more" if value > 0 else "less" if value < 0 else "same"
    change = Measure(Quantity(abs(value), row.change.unit)) if row.change else NOTHING
    if row.high is None:
        return say(f"steps.reached.on.{key}", low=number(row.low), change=change)
    if row.high == row.low:
        return say(f"steps.reached.one.{key}", low=number(row.low), change=change)
    return say(f"steps.reached.{key}", low=number(row.low), high=number(row.high), change=change)


def _step(step: LoadStep) -> Phrase:
    """`Add 2.5 kg when ...`, what is looked at before the next one, and the bound: one answer moves once."""
    way = "add" if step.change.value >= 0 else "less"
    change = Measure(Quantity(abs(step.change.value), step.change.unit))
    clause = InWords(step.condition, step.streak)
    said = [say(f"steps.{way}", change=change, clause=clause)]
    said.append(say("steps.again.1" if step.streak == 1 else "steps.again.more"))
    if step.bound is not None:
        said.append(say(f"steps.{way}.bound", bound=Measure(step.bound)))
    return one_after_the_other(*said)


def _ways(uses: tuple[Use, ...]) -> dict[tuple[Stretch, ...], list[Use]]:
    """The different plans of weeks, each with the uses that follow it."""
    ways: dict[tuple[Stretch, ...], list[Use]] = {}
    for use in uses:
        ways.setdefault(_headlines(use.layers), []).append(use)
    return ways


def _shared(doses: Sequence[Dose]) -> Dose:
    """The groups that are the same in every dose."""
    first = doses[0]
    same = {
        field.name: getattr(first, field.name)
        for field in fields(first)
        if all(getattr(dose, field.name) == getattr(first, field.name) for dose in doses)
    }
    return replace(NO_DOSE, **same)


def _table(draft: Draft, ways: dict[tuple[Stretch, ...], list[Use]], shared: Dose) -> Table[Phrase]:
    doses = [stretch.dose for plan in ways for stretch in plan]
    groups = [
        group
        for group in GROUPS
        if getattr(shared, group) is None and any(getattr(dose, group) is not None for dose in doses)
    ]
    rows = []
    all_uses = [use for uses in ways.values() for use in uses]
    for plan, uses in ways.items():
        where = _where(draft, uses, all_uses) if len(ways) > 1 else None
        for stretch in plan:
            weeks = _weeks(stretch) if len(plan) > 1 or stretch.last is not None else None
            cells = tuple(Cell(_cell(stretch.dose, group)) for group in groups)
            rows.append((Cell(say("name", name=_label(where, weeks))), *cells))
    heads = tuple(say(f"dose.head.{group}") for group in groups)
    first = say("dose.head.week") if len(ways) == 1 else say("dose.head.where")
    return Table(_counted_from(draft, ways), (first, *heads), tuple(rows), kind="dose")


def _counted_from(draft: Draft, ways: dict[tuple[Stretch, ...], list[Use]]) -> Phrase | None:
    """Which week is week 1, what holds it, and what to do past a last one; None where no row names a week."""
    by_week = {plan: uses for plan, uses in ways.items() if len(plan) > 1 or plan[-1].last is not None}
    if not by_week:
        return None
    steps = all(use.given is not None and use.given.level is not None for uses in by_week.values() for use in uses)
    said = [say("dose.count-weeks.step" if steps else "dose.count-weeks")]
    if any(_leads_back(draft, use) for uses in by_week.values() for use in uses):
        said.append(say("dose.weeks.stay"))
    ends = [plan[-1].last for plan in by_week if plan[-1].last is not None]
    if ends and len(ways) == 1:
        said.append(say("dose.weeks.end", last=number(ends[0])))
    elif ends:
        said.append(say("dose.weeks.ends"))
    return one_after_the_other(*said)


def _leads_back(draft: Draft, use: Use) -> bool:
    """Whether a line can lead back or take something off: no week begins while that is due or unanswered."""
    level = _level(draft, use)
    changes = next((layer.steps for layer in use.layers if layer.steps), ())
    return bool(level is not None and level.down) or any(step.change.value < 0 for step in changes)


def _cell(dose: Dose, group: str) -> Phrase:
    return say("dose.none") if getattr(dose, group) is None else DoseInWords(dose, group)


def _label(where: Phrase | None, weeks: Phrase | None) -> Phrase:
    if where is not None and weeks is not None:
        return Listed((where, weeks), by="comma")
    return where or weeks or NOTHING


def _weeks(stretch: Stretch) -> Phrase:
    if stretch.last is None:
        return say("dose.weeks.on", first=number(stretch.first))
    if stretch.last == stretch.first:
        return say("dose.week", first=number(stretch.first))
    return say("dose.weeks", first=number(stretch.first), last=number(stretch.last))


def _where(draft: Draft, uses: list[Use], among: list[Use]) -> Phrase:
    """The parts and steps of the uses, and of these only what tells them from the others: `part 1`, `step “heavy”`."""
    rest = [use for use in among if use not in uses]
    by_part = {_part_name(use) for use in uses}.isdisjoint(_part_name(use) for use in rest)
    by_step = {_step_name(use) for use in uses}.isdisjoint(_step_name(use) for use in rest)
    names: list[Phrase] = []
    for use in uses:
        name = _place(draft, use, part=by_part or not by_step, step=not by_part)
        if name not in names:
            names.append(name)
    return names[0] if len(names) == 1 else Listed(tuple(names), by="comma")


def _part_name(use: Use) -> str:
    return use.phase.name if use.phase else ""


def _step_name(use: Use) -> tuple[str, str]:
    given = use.given
    return ("", "") if given is None else (given.progression or "", given.level or "")


def _place(draft: Draft, use: Use, part: bool, step: bool) -> Phrase:
    level = _level(draft, use) if step else None
    if use.phase is None or not part:
        return say("dose.place.level", level=level_title(draft, level)) if level else say("dose.place.alone")
    phase = phase_title(draft, use.phase)
    return say("dose.place.both", phase=phase, level=level_title(draft, level)) if level else phase


def _level(draft: Draft, use: Use) -> Level | None:
    if use.given is None or use.given.progression is None:
        return None
    progression = draft.protocol.scope.progressions[use.given.progression]
    return next((level for level in progression.levels if level.name == use.given.level), None)
