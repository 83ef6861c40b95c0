"""What the language means, once more and plainly: a slow reading of a case that shares no code with `decide`.

Nothing is kept from date to date that could be looked up anew, and what is kept stands in plain dictionaries.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from typing import Any

from protodsl.model.case import Case, Session, Versions
from protodsl.model.dose import Sets, SetsOf
from protodsl.model.dosing import dose_of, table_end
from protodsl.model.exercise import Exercise
from protodsl.model.protocol import Choose, Part
from tests.properties.oracle_conditions import (
    ONE_DAY,
    Day,
    Found,
    Mind,
    Said,
    Truth,
    kleene_and,
    kleene_not,
    kleene_or,
    newest,
    number,
)
from tests.properties.oracle_loads import Loads, next_load

KINDS = ("passive", "assisted", "active", "resisted")
BEARING = ("none", "touch", "partial", "as tolerated", "full")


@dataclass
class Look:
    """A condition as it was looked at on one date."""

    day: Day
    found: Found


@dataclass
class Item:
    """Where an item stands."""

    name: str
    give: Any
    given: bool
    ever: bool
    entered: Day
    level: int = 0
    moved: Day | None = None
    week: int = 1
    over: bool = False
    trained: bool = False
    recorded: bool = False
    clear: bool = True
    looks: dict[Any, list[Look]] = field(default_factory=dict)
    added: dict[tuple[str, str], Fraction] = field(default_factory=dict)
    stepped: dict[str, Day] = field(default_factory=dict)

    def enter(self, day: Day) -> None:
        self.entered, self.week, self.over, self.trained = day, 1, False, False
        self.looks, self.added, self.stepped = {}, {}, {}


@dataclass
class Decided:
    """What the oracle has to say about one evening."""

    refused: str
    phase: str | None
    levels: dict[str, tuple[str, str]]
    printed: set[tuple[str, str, str, int]]
    volumes: dict[str, Any]
    loads: dict[str, Fraction | None]
    moves: list[tuple[Day, str, str, str, str]]
    clash: bool


class Oracle:
    """One case, decided as of one date by going through every date from the start."""

    def __init__(self, versions: Versions, case: Case, weights: tuple[Decimal, ...], as_of: Day) -> None:
        self.versions, self.case, self.as_of = versions, case, as_of
        self.weights = [Fraction(weight) for weight in weights]
        self.mind = Mind(case, versions.on(case.started), case.started, case.started)
        self.loads = Loads(self.mind)
        self.phase = 0
        self.phase_since = case.started
        self.phase_moved: Day | None = None
        self.phase_looks: dict[Any, list[Look]] = {}
        self.items: dict[str, Item] = {}
        self.moves: list[tuple[Day, str, str, str, str]] = []
        self.given: list[str] = []
        self.decided = self.run()

    def run(self) -> Decided:
        right: dict[tuple[str, str | None, Day], list[Any]] = {}
        for one in self.case.observations:
            if one.corrects:
                right.setdefault((one.finding, one.side, one.date), []).append(one.value)
        self.right = right
        told = set()
        self.answers: list[Said] = []
        for one in self.case.observations:
            key = (one.finding, one.side, one.date)
            if one.corrects or key in told:
                continue
            if key in right:
                told.add(key)
                self.answers += [Said(*key, False, value) for value in right[key]]
            else:
                self.answers.append(Said(*key, False, one.value))
        self.mind.said += [one for one in self.answers if one.day < self.case.started]
        day = self.case.started
        while day <= self.as_of:
            self.date(day)
            day += ONE_DAY
        return self.evening()

    @property
    def protocol(self) -> Any:
        return self.mind.protocol

    @property
    def in_phase(self) -> Any:
        return self.protocol.phases[self.phase] if self.protocol.phases else None

    def date(self, day: Day) -> None:
        self.mind.day = day
        self.follow(self.versions.on(day))
        for placing in self.case.placings:
            if placing.date == day:
                self.place(placing)
        todays = [one for one in self.answers if one.day == day]
        self.mind.said += todays
        self.own_answers: dict[tuple[str, str | None], list[Any]] = {}
        for one in todays:
            self.own_answers.setdefault((one.finding, one.side), []).append(one.value)
        sessions = [one for one in self.case.sessions if one.date == day]
        held = [item for item in self.items.values() if item.given]
        turned = {item.name: self.turn(item, day) for item in held}
        shown = {item.name: self.show(item) for item in held}
        lines = {item.name: self.lines(item, shown[item.name], sessions) for item in held}
        every: list[tuple[Session, bool]] = []
        for session in sessions:
            mine = [asked for found in lines.values() for one, asked in found if one is session]
            counts = bool(mine) and all(mine)
            for (name, side), values in self.own(session).items():
                self.mind.said += [Said(name, side, day, True, value, not counts) for value in values]
            if session.outcome != "missed":
                every.append((session, counts))
        for item in held:
            item.trained = item.trained or bool(lines[item.name])
            item.recorded = item.recorded or self.about(item, shown[item.name], sessions)
            self.lift(shown[item.name], lines[item.name])
            self.move(item, shown[item.name], lines[item.name])
            if turned[item.name] and not item.clear and item.entered < day:
                item.week, item.over = item.week - 1, True
        self.move_phase(every, day)
        self.give(sessions)

    def follow(self, text: Any) -> None:
        """In a changed text a level and a phase are those of the same name."""
        before, self.mind.protocol = self.mind.protocol, text
        if text is before:
            return
        for item in self.items.values():
            old, new = before.scope.progressions.get(item.name), text.scope.progressions.get(item.name)
            if old is not None and new is not None:
                item.level = [one.name for one in new.levels].index(old.levels[item.level].name)
        if text.phases:
            self.phase = [one.name for one in text.phases].index(before.phases[self.phase].name)

    def own(self, session: Session) -> dict[tuple[str, str | None], list[Any]]:
        found: dict[tuple[str, str | None], list[Any]] = {}
        for one in session.values:
            values = self.right.get((one.finding, one.side, one.date), [one.value])
            found.setdefault((one.finding, one.side), []).extend(values)
        return found

    @staticmethod
    def about(item: Item, shown: Any, sessions: list[Session]) -> bool:
        """Whether any of the sessions is one of the item, a missed one too."""
        names = [name for asked, there, _ in shown[2] for name in (None, asked, there)]
        return any(one.item in (item.name, *names) for one in sessions)

    def lift(self, shown: Any, lines: list[tuple[Session, bool]]) -> None:
        for asked, there, _ in shown[2]:
            for session, _ in lines:
                if len(shown[2]) == 1 or session.item in (asked, there):
                    self.loads.lifted(there, session)

    def place(self, placing: Any) -> None:
        names = [level.name for level in self.protocol.scope.progressions[placing.item].levels]
        item = self.items.get(placing.item)
        before = names[item.level] if item else ""
        if any(one.date == self.mind.day for one in self.case.versions):
            self.moves = [one for one in self.moves if one[2] != placing.item]
        if item is None:
            item = self.items[placing.item] = Item(placing.item, None, False, False, self.mind.day)
        item.level, item.moved = names.index(placing.level), self.mind.day
        item.enter(self.mind.day)
        self.moves.append((self.mind.day, "place", placing.item, before, placing.level))

    def turn(self, item: Item, day: Day) -> bool:
        """A new week begins in the morning: whether it did."""
        if day > item.entered and (day - item.entered).days % 7 == 0:
            if item.trained or not item.recorded:
                item.over = True
            item.trained = False
        if item.over and item.clear:
            item.week, item.over = item.week + 1, False
            return True
        return False

    # What may be printed.

    def barred(self) -> set[str]:
        day = self.mind.day
        personal = {
            one.item for one in self.case.left_out if one.date <= day and (one.until is None or day <= one.until)
        }
        phase = self.in_phase
        return personal | set(self.protocol.leave_out) | set(phase.leave_out if phase else ())

    def gate(self, name: str, tried: tuple[str, ...] = ()) -> str | None:
        """The exercise that may be printed for this one: itself, what stands in for it, or nothing."""
        exercise: Exercise = self.protocol.scope.exercises[name]
        if name in tried or name in self.barred() or self.past_limits(exercise):
            return None
        has = self.case.has
        missing = [] if has is None else [need for need in exercise.needs if not set(need.options) & set(has)]
        if missing:
            wanted = [need.instead for need in missing]
        else:
            avoided = [line for line in exercise.avoid if self.mind.decide(line.condition).any.truth is not False]
            if not avoided:
                return name
            wanted = [line.instead for line in avoided]
        for instead in wanted:
            if instead is not None:
                found = self.gate(instead, (*tried, name))
                if found is not None:
                    return found
        return None

    def past_limits(self, exercise: Exercise) -> bool:
        phase = self.in_phase
        if phase is None:
            return False
        if phase.bearing and BEARING.index(exercise.bearing) > BEARING.index(phase.bearing):
            return True
        for line in [one for one in phase.limits if one.joint] + list(phase.forbids):
            if line.joint not in exercise.still and line.joint not in {move.joint for move in exercise.moves}:
                return True
            for move in exercise.moves:
                same = (move.joint, move.movement) == (line.joint, line.movement)
                if same and KINDS.index(move.kind) >= KINDS.index(line.kind):
                    if not hasattr(line, "most") or move.to > line.most.value:
                        return True
                    if line.op == "<" and move.to == line.most.value:
                        return True
        return False

    def given_if(self, give: Any) -> Truth:
        if give.condition is None:
            return True
        both = self.mind.decide(give.condition)
        return kleene_not(both.any).truth if give.unless else both.every.truth

    def show(self, item: Item) -> tuple[int | None, bool, list[tuple[str, str, tuple[Any, ...]]]]:
        """The level printed (None: an exercise), whether it is a lower one, and each part: asked, printed, layers."""
        scope = self.protocol.scope
        outer = ((self.in_phase.dosage,) if self.in_phase else ()) + (self.protocol.dosage,)
        if item.name in scope.exercises:
            layers = (item.give.dosage, scope.exercises[item.name].dosage, *outer)
            return None, False, self.passed(item.name, layers, outer)
        progression = scope.progressions[item.name]
        for at in range(item.level, -1, -1):
            level, found = progression.levels[at], []
            for inner in level.gives:
                if self.given_if(inner) is True:
                    layers = (
                        inner.dosage, level.dosage, item.give.dosage, progression.dosage,
                        scope.exercises[inner.item].dosage, *outer,
                    )  # fmt: skip
                    found += self.passed(inner.item, layers, outer)
            if found:
                return at, at < item.level, found
        return None, True, []

    def passed(self, name: str, layers: Any, outer: Any) -> list[tuple[str, str, tuple[Any, ...]]]:
        found = self.gate(name)
        if found is None:
            return []
        return [(name, found, layers if found == name else (self.protocol.scope.exercises[found].dosage, *outer))]

    # Sessions.

    def lines(self, item: Item, shown: Any, sessions: list[Session]) -> list[tuple[Session, bool]]:
        _, held, parts = shown
        mine = []
        for session in sessions:
            about = session.item == item.name or (session.item is None and bool(parts))
            about = about or any(session.item in (asked, there) for asked, there, _ in parts)
            if about and session.outcome != "missed":
                mine.append(session)
        whole = any(one.item in (None, item.name) for one in mine)
        each = all(any(one.item in (asked, there) for one in mine) for asked, there, _ in parts)
        found = []
        for session in mine:
            due = [part for part in parts if session.item in (None, item.name, part[0], part[1])]
            counts = (whole or each) and bool(due)
            found.append((session, counts and all(self.enough(session, item, part, held) for part in due)))
        return found

    def enough(self, session: Session, item: Item, part: Any, held: bool) -> bool:
        """As given, or as much as the sheet asks for; of a lower level that is printed the first week."""
        if session.outcome != "done" or not session.done:
            return session.outcome == "as given"
        week = 1 if held else item.week
        volume, kilograms = self.dose(item, part, week, not held)
        if kilograms and (session.load is None or number(session.load) < kilograms):
            return False
        sides = dose_of(week, part[2]).sides
        wanted: list[Any] = [None]
        if sides == "each":
            wanted = ["left", "right"]
        elif sides == "affected":
            wanted = [self.case.side.worse]
        for side in wanted:
            mine = [one for one in session.done if side is None or one.side in (None, side)]
            if not mine or not all(self.as_much(one.volume, volume) for one in mine):
                return False
        return True

    @staticmethod
    def as_much(done: Any, due: Any) -> bool:
        """Only sets of repetitions, and sets until tired, come up in the random protocols."""
        if due is None:
            return True
        assert isinstance(due, Sets) and due.unit == "reps"
        least = due.amount.low if due.amount is not None else 0
        if isinstance(done, SetsOf):
            return sum(count >= least for count in done.counts) >= due.sets.low
        return bool(done.sets.low >= due.sets.low and (due.amount is None or done.amount.low >= least))

    def dose(self, item: Item, part: Any, week: int, stepped: bool = True) -> tuple[Any, Fraction | None]:
        """Volume and kilograms of a part."""
        asked, there, layers = part
        dose = dose_of(week, layers)
        added = item.added if stepped and asked == there else {}
        volume = dose.volume
        more = added.get((asked, "count"), Fraction(0))
        if more and isinstance(volume, Sets) and volume.amount is not None:
            low, high = (max(Decimal(0), end + Decimal(int(more))) for end in (volume.amount.low, volume.amount.high))
            volume = Sets(volume.sets, type(volume.amount)(low, high), volume.unit, volume.bare)
        extra = added.get((asked, "mass"), Fraction(0))
        if dose.load is None and not extra:
            return volume, None
        known = self.loads.exact(dose.load, there)
        if known is None:
            return volume, None
        exact = max(Fraction(0), known + extra)
        if dose.load is not None and dose.load.up_to is not None:
            exact = min(exact, number(dose.load.up_to))
        computed = dose.load is not None and (dose.load.percent is not None or dose.load.maximum is not None)
        if extra or computed or not self.within(exact):
            exact = max((one for one in self.weights if one <= exact and self.within(one)), default=Fraction(0))
        return volume, exact

    def load_limits(self) -> list[Any]:
        return [one for one in (self.in_phase.limits if self.in_phase else ()) if not one.joint]

    def within(self, kilograms: Fraction) -> bool:
        """Whether every limit of the phase allows so much; `<` allows less only."""
        mosts = [(number(limit.most), limit.op) for limit in self.load_limits()]
        return all(kilograms < most or (kilograms == most and op == "<=") for most, op in mosts)

    def unbounded(self, part: Any, week: int, kilograms: Fraction | None) -> bool:
        """Whether nobody can say that the load stays under the limit of the phase."""
        load = dose_of(week, part[2]).load
        if load is None or kilograms is not None:
            return False
        return bool(self.load_limits()) and (load.up_to is None or not self.within(number(load.up_to)))

    # Moves.

    def look(self, looks: dict[Any, list[Look]], key: Any, line: Any, rising: bool, lines: Any, held: bool) -> bool:
        """Look at one line on this date; whether there was anything to look at."""
        if held and rising:
            looks[key] = []
            return False
        if looks.get(key) and looks[key][-1].day == self.mind.day:
            return True  # two lines with the same words are looked at once
        if lines:
            found = []
            for session, counts in lines:
                both = self.mind.decide(line.condition, self.own(session))
                found.append((both.every if counts else Found(False)) if rising else both.any)
            verdict = kleene_and(found) if rising else kleene_or(found)
        elif line.streak > 1:
            return False
        else:
            names = self.mind.names(line.condition)
            bound = {one for one in names if self.protocol.scope.findings[one].one_session}
            if bound and not any(name in bound for name, _ in self.own_answers):
                return False
            own = self.own_answers if bound else None
            both = self.mind.decide(line.condition, own, rising)
            verdict = both.every if rising else both.any
        looks[key] = [*looks.get(key, []), Look(self.mind.day, verdict)]
        return True

    def streak(self, looks: list[Look], length: int, rising: bool) -> Found:
        window = looks[-length:]
        if not window or (self.mind.day - window[-1].day).days > 7:
            return Found(None)
        truths = [one.found.truth for one in window]
        if not rising and None in truths:
            return Found(None)
        if len(window) == length and all(truth is True for truth in truths):
            return Found(True, newest(one.found.newest for one in window))
        return Found(False)

    def steps(self, part: Any) -> list[Any]:
        return next((list(layer.steps) for layer in part[2] if layer.steps), [])

    def move(self, item: Item, shown: Any, lines: Any) -> None:
        _, held, parts = shown
        own = [] if held else [part for part in parts if part[0] == part[1]]
        progression = self.protocol.scope.progressions.get(item.name)
        level = progression.levels[item.level] if progression else None
        downs = [(("down", line), line) for line in level.down] if level else []
        ups = [(("up", line), line) for line in level.up] if level else []
        steps = [((part[0], line), part, line) for part in own for line in self.steps(part)]
        last_move = item.moved
        falling = dict(downs) | {key: s for key, _, s in steps if s.change.value < 0}
        rising = dict(ups) | {key: s for key, _, s in steps if s.change.value > 0}
        for key, line in falling.items():
            self.look(item.looks, key, line, False, lines, held)
        looked = {key: self.look(item.looks, key, line, True, lines, held) for key, line in rising.items()}
        state = {key: self.streak(item.looks.get(key, []), line.streak, False) for key, line in falling.items()}
        item.clear = all(one.truth is False for one in state.values())
        if held:
            return
        day = self.mind.day
        for key, _ in downs:
            verdict = state[key]
            if verdict.truth is not True or (
                item.moved is not None and not (verdict.newest and verdict.newest > item.moved)
            ):
                continue
            assert progression is not None and level is not None
            if item.level == 0:
                self.moves.append((day, "lowest", item.name, level.name, level.name))
                item.moved = day
                break
            self.go(item, progression, item.level - 1, "down")
            return
        adjusted = [self.adjust(item, part, lines) for part in own]
        if any(adjusted):
            return
        taken = set()
        for key, part, step in steps:
            verdict = state[key] if key in state else Found(None)
            last = item.stepped.get(part[0], last_move)
            falls = step.change.value < 0 and verdict.truth is True and self.newer(verdict, last)
            if falls and self.step(item, part, step):
                taken.add(key)
        for key in taken:
            item.looks[key] = []
        if taken or not item.clear:
            return
        for key, line in ups:
            verdict = self.streak(item.looks.get(key, []), line.streak, True)
            assert progression is not None
            if (
                looked[key]
                and verdict.truth is True
                and self.newer(verdict, item.entered)
                and item.level + 1 < len(progression.levels)
            ):
                self.go(item, progression, item.level + 1, "up")
                return
        since = dict(item.stepped)
        for key, part, step in steps:
            if step.change.value < 0:
                continue
            verdict = self.streak(item.looks.get(key, []), step.streak, True)
            if (
                looked[key]
                and verdict.truth is True
                and self.newer(verdict, since.get(part[0], item.entered))
                and self.step(item, part, step)
            ):
                item.looks[key] = []

    @staticmethod
    def newer(verdict: Found, than: Day | None) -> bool:
        return than is None or (verdict.newest is not None and verdict.newest > than)

    def go(self, item: Item, progression: Any, level: int, kind: str) -> None:
        before, after = progression.levels[item.level].name, progression.levels[level].name
        self.moves.append((self.mind.day, kind, item.name, before, after))
        item.level, item.moved = level, self.mind.day
        item.enter(self.mind.day)

    def step(self, item: Item, part: Any, step: Any) -> bool:
        dimension = step.change.unit.dimension
        dose = dose_of(item.week, part[2])
        if dimension == "mass":
            known = self.loads.exact(dose.load, part[1])
            if known is None:
                return False
            base = known
        elif isinstance(dose.volume, Sets) and dose.volume.amount is not None:
            base = Fraction(dose.volume.amount.high)
        else:
            return False
        before = base + item.added.get((part[0], dimension), Fraction(0))
        after = before + number(step.change)
        if step.bound is not None:
            after = min(after, number(step.bound)) if step.change.value > 0 else max(after, number(step.bound))
        after = max(after, Fraction(0))
        if after == before or (after > before) != (step.change.value > 0):
            return False
        item.added[part[0], dimension] = after - base
        item.stepped[part[0]] = self.mind.day
        self.moves.append((self.mind.day, "add" if step.change.value > 0 else "take off", item.name, "", ""))
        return True

    def adjust(self, item: Item, part: Any, lines: Any) -> bool:
        """The load of the next session by the repetitions of this one: of several the lowest, up only if all may."""
        adjusts = next((layer.adjusts for layer in part[2] if layer.adjusts), ())
        start = self.loads.exact(dose_of(item.week, part[2]).load, part[1])
        if start is None or all(one.for_set is not None for one in adjusts):
            return False
        before = start + item.added.get((part[0], "mass"), Fraction(0))
        found = [(next_load(adjusts, session, before), counts) for session, counts in lines]
        loads = [load for load, _ in found if load is not None]
        after = min(loads, default=before)
        if after > before and not all(counts and item.clear for load, counts in found if load is not None):
            return False
        if after == before:
            return False
        item.added[part[0], "mass"], item.stepped[part[0]] = after - start, self.mind.day
        self.moves.append((self.mind.day, "adjust", item.name, "", ""))
        return True

    # Phases.

    def phase_line(self, key: Any, line: Any, rising: bool, every: Any) -> Found:
        if line.streak == 1:
            both = self.mind.decide(line.condition, None, rising)
            return both.every if rising else both.any
        looked = self.look(self.phase_looks, key, line, rising, every, False) if every else False
        found = self.streak(self.phase_looks.get(key, []), line.streak, rising)
        return Found(False) if rising and not looked and found.truth is True else found

    def move_phase(self, every: Any, day: Day) -> None:
        phases = self.protocol.phases
        if not phases:
            return
        if day == self.case.started:
            while self.phase + 1 < len(phases):
                phase = phases[self.phase]
                backs = [self.mind.decide(one.condition).any.truth for one in phase.back_to if one.streak == 1]
                untils = [
                    self.mind.decide(one.condition, None, True).every.truth if one.streak == 1 else None
                    for one in phase.until
                ]
                if not untils or any(one is not True for one in untils) or any(one is not False for one in backs):
                    break
                self.phase += 1
            self.moves.append((day, "phase start", "", "", phases[self.phase].name))
            for line in phases[self.phase].back_to:
                if every:
                    self.phase_line(("back", line), line, False, every)
            return
        phase = phases[self.phase]
        backs_found = [self.phase_line(("back", line), line, False, every) for line in phase.back_to]
        untils_found = [self.phase_line(("until", line), line, True, every) for line in phase.until]
        for line, found in zip(phase.back_to, backs_found, strict=True):
            if found.truth is True and self.newer(found, self.phase_moved):
                self.to_phase([one.name for one in phases].index(line.phase), "phase back")
                return
        if not untils_found or any(one.truth is not True for one in untils_found) or self.phase + 1 >= len(phases):
            return
        if any(one.truth is not False for one in backs_found):
            return
        if self.newer(Found(True, newest(one.newest for one in untils_found)), self.phase_since):
            self.to_phase(self.phase + 1, "phase")

    def to_phase(self, number_: int, kind: str) -> None:
        day, phases = self.mind.day, self.protocol.phases
        self.moves.append((day, kind, "", phases[self.phase].name, phases[number_].name))
        self.phase, self.phase_since, self.phase_moved, self.phase_looks = number_, day, day, {}
        self.mind.phase_start = day

    # What is given.

    def offers(self) -> list[tuple[Any, Any]]:
        found: list[tuple[Any, Any]] = []
        for contents in (self.protocol.contents, self.in_phase.contents if self.in_phase else ()):
            waiting = list(contents)
            while waiting:
                one = waiting.pop(0)
                if isinstance(one, Part):
                    waiting = [*one.contents, *waiting]
                elif isinstance(one, Choose):
                    found += [(give, one) for give in one.gives]
                else:
                    found.append((one, None))
        day = self.mind.day
        own = [one for one in self.case.added if one.date <= day and (one.until is None or day <= one.until)]
        found += [(one.give, None) for one in sorted(own, key=lambda one: (one.date, one.give.item))]
        return found

    def give(self, sessions: list[Session]) -> None:
        out = self.barred()
        offers = [(give, choice, False if give.item in out else self.given_if(give)) for give, choice in self.offers()]
        now: dict[str, Any] = {}
        self.again: list[Any] = []
        for give, choice, truth in offers:
            if choice is not None and truth is True:
                open_ = {one.item for one, other, holds in offers if other is choice and holds is True}
                chosen = self.chosen(choice.count, open_)
                if len(chosen) >= min(
                    choice.count, sum(other is choice and holds is True for _, other, holds in offers)
                ):
                    truth = give.item in chosen
            if truth is True and give.item in now:
                self.again.append(give)
            elif truth is True:
                now[give.item] = give
        self.given = list(now)
        day = self.mind.day
        for item in self.items.values():
            if item.given and item.name not in now:
                item.given = False
                self.moves.append((day, "withdrawn", item.name, "", ""))
        for name, give in now.items():
            known = self.items.get(name)
            if known is None:
                known = self.items[name] = Item(name, give, True, True, day)
                self.begin(known)
            elif not known.given:
                self.moves.append((day, "back" if known.ever else "given", name, "", name))
                known.given = known.ever = True
                known.enter(day)
            else:
                known.give = give
                continue
            known.give = give
            self.first_sessions(known, sessions)
        for item in self.items.values():
            if item.given and self.about(item, self.show(item), sessions):
                item.recorded = True

    def chosen(self, count: int, open_: set[str]) -> set[str]:
        picked: list[str] = []
        mine = [one for one in self.case.chosen if one.date <= self.mind.day and one.item in open_]
        for day in sorted({one.date for one in mine}, reverse=True):
            for name in sorted(one.item for one in mine if one.date == day):
                if name not in picked and len(picked) < count:
                    picked.append(name)
        return set(picked)

    def begin(self, item: Item) -> None:
        progression = self.protocol.scope.progressions.get(item.name)
        if progression is None:
            self.moves.append((self.mind.day, "given", item.name, "", item.name))
            return
        names = [level.name for level in progression.levels]
        starts = [
            names.index(line.level)
            for line in progression.start_at
            if self.mind.decide(line.condition).every.truth is True
        ]
        item.level = max(starts, default=0)
        self.moves.append((self.mind.day, "start", item.name, "", names[item.level]))

    def first_sessions(self, item: Item, sessions: list[Session]) -> None:
        shown = self.show(item)
        lines = self.lines(item, shown, sessions)
        progression = self.protocol.scope.progressions.get(item.name)
        level = progression.levels[item.level] if progression else None
        falling = [(("down", line), line) for line in level.down] if level else []
        if not shown[1]:
            falling += [
                ((part[0], line), line)
                for part in shown[2]
                if part[0] == part[1]
                for line in self.steps(part)
                if line.change.value < 0
            ]
        self.lift(shown, lines)
        for key, line in falling:
            if lines:
                self.look(item.looks, key, line, False, lines, False)
        item.clear = not falling

    # The evening of the last date.

    def evening(self) -> Decided:
        truths = [
            self.mind.decide(flag.condition).any.truth
            for flag in (*self.protocol.emergencies, *self.protocol.red_flags)
        ]
        refused = "refer" if True in truths else "unanswered" if None in truths else ""
        levels, printed = {}, set()
        volumes: dict[str, Any] = {}
        loads: dict[str, Fraction | None] = {}
        clash = any(self.gives_another_dose(give) for give in self.again)
        for item in [self.items[name] for name in self.given]:
            at, held, parts = self.show(item)
            progression = self.protocol.scope.progressions.get(item.name)
            if progression is not None:
                there = progression.levels[at].name if at is not None else ""
                levels[item.name] = (progression.levels[item.level].name, there)
            for part in parts:
                week = 1 if held else item.week
                end = table_end(part[2])
                if end is not None and week > end:
                    continue
                volume, kilograms = self.dose(item, part, week, not held)
                if self.unbounded(part, week, kilograms):
                    continue
                name = part[1]
                if name in volumes:
                    clash = clash or (self.whole(volumes[name]), loads[name]) != (
                        self.whole((volume, part, week)),
                        kilograms,
                    )
                    continue
                volumes[name], loads[name] = (volume, part, week), kilograms
                printed.add((name, item.name, part[0], week))
        return Decided(
            refused,
            self.in_phase.name if self.in_phase else None,
            levels,
            printed,
            {name: one[0] for name, one in volumes.items()},
            loads,
            self.moves,
            clash,
        )

    def gives_another_dose(self, give: Any) -> bool:
        """Whether a second line that gives an item gives it with another dose."""
        item = self.items[give.item]
        _, held, parts = self.show(item)
        first, item.give = item.give, give
        _, _, others = self.show(item)
        item.give, week = first, 1 if held else item.week
        return any(dose_of(week, one[2]) != dose_of(week, other[2]) for one, other in zip(parts, others, strict=True))

    @staticmethod
    def whole(found: Any) -> Any:
        volume, part, week = found
        dose = dose_of(week, part[2])
        return volume, dose.repetition, dose.rest, dose.sides, dose.load, dose.effort, dose.frequency, dose.lasting
