"""Random protocols as text and random histories, drawn from anything that has the methods of `random.Random`."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from decimal import Decimal
from random import Random
from typing import Any

from protodsl.model.case import Added, Affected, Case, Chosen, Done, LeftOut, Observation, Placing, Session, VersionFrom
from protodsl.model.dose import NO_DOSAGE, Dosage, Range, Sets, SetsOf
from protodsl.model.exercise import Give
from protodsl.model.finding import Kind
from protodsl.model.protocol import Protocol
from protodsl.model.text import Prose
from protodsl.source import Span
from protodsl.units import UNITS, Quantity
from tests.support import dose

START = datetime.date(2026, 11, 2)
FINDINGS = """\
question chest pain: Chest pain?
  fresh for 4 weeks
question bone tender: Is the bone tender?
question tear: Torn?
  fresh for 2 weeks
question limps: Limping?
  fresh for 1 week
question swollen: Swollen?
  answer yes or no, each side
  fresh for 10 days
question pain: Pain?
  answer 0 to 10
  fresh for one session
question pain next morning: Pain the next morning?
  answer 0 to 10
  fresh for one session
question stiffness: Stiffness?
  answer 0 to 10, each side
  fresh for one session
test press strength: The most that is pressed once.
  answer kg from 0 to 20
  fresh for 2 weeks
question work: Work?
  answer one of sitting, standing, lifting
question operation: When was the operation?
  answer date
test heel raises: Heel raises.
  answer count from 0 to 60, each side
  fresh for 2 weeks
test walk time: Time to walk.
  answer s from 0 to 60, each side
  better lower
  fresh for 3 weeks
finding irritable
  yes if pain > 6 or limps
  no if pain <= 3 and not limps
  otherwise no
finding stage
  early if days since start < 5
  late if heel raises >= 20 on each side
  otherwise middle
target calf: calf
target thigh: thigh
equipment step: a step
equipment wall: a wall
equipment band: a band
"""
PHASES = ("early part", "middle part", "late part")
FACTS = ("tear", "limps", "not tear", "not limps", "irritable", "bone tender", "not irritable")
LEAVES = (
    "pain > {0}",
    "pain <= {0}",
    "pain next morning > pain + 1",
    "pain next morning <= {0}",
    "stiffness > {0} on either side",
    "stiffness <= {0} on the affected side",
    "swollen on either side",
    "not swollen on the affected side",
    "heel raises >= {1} on each side",
    "heel raises < {1} on the affected side",
    "heel raises >= {1} on the other side",
    "symmetry of heel raises >= {2} %",
    "difference of heel raises > {0}",
    "symmetry of walk time < {2} %",
    "walk time >= {1} s on the left side",
    "change of heel raises since start >= {0} on the affected side",
    "change of pain since last time > 1",
    "change of walk time since last time < 0 s on each side",
    "weeks since start >= {3}",
    "days since start >= {0}",
    "days since phase start >= {0}",
    "weeks since operation >= {3}",
    "work is sitting",
    "work is not lifting",
    "work is one of (sitting, standing)",
    "stage is late",
    "stage is not early",
    "at least 2 of (tear, limps, pain > {0})",
    "pain = {0}",
)
LOADS = (
    "2 kg", "5 kg", "7.5 kg", "8RM", "12RM", "8RM up to 6 kg", "70 % of 1RM", "80 % of 10RM", "60 % of press strength",
    "50 % of press strength up to 5 kg", "band", "body weight",
)  # fmt: skip


@dataclass
class Words:
    """What is drawn from."""

    random: Random

    def one(self, *choices: Any) -> Any:
        return self.random.choice(choices)

    def often(self, percent: int) -> bool:
        return self.random.randint(1, 100) <= percent

    def number(self, low: int, high: int) -> int:
        return self.random.randint(low, high)

    def condition(self, depth: int = 2) -> str:
        """A condition; the deeper ones in brackets."""
        roll = self.number(1, 10)
        if depth and roll <= 2:
            word = self.one("and", "or")
            return f" {word} ".join(self.inner(depth - 1) for _ in range(self.number(2, 3)))
        if depth and roll == 3:
            return f"not ({self.condition(depth - 1)})"
        if roll <= 5:
            return str(self.one(*FACTS))
        leaf: str = self.one(*LEAVES)
        return leaf.format(self.number(1, 9), self.number(5, 30), self.number(50, 130), self.number(0, 4))

    def on(self) -> str:
        """A condition for going on: often one that a good session makes true."""
        return f"pain <= {self.number(2, 4)}" if self.often(45) else self.condition()

    def back(self) -> str:
        """A condition for going back: often one that a bad session makes true."""
        return f"pain > {self.number(3, 5)}" if self.often(45) else self.condition()

    def inner(self, depth: int) -> str:
        text = self.condition(depth)
        return f"({text})" if " and " in text or " or " in text else text

    def streak(self) -> str:
        return f", {self.number(2, 3)} sessions in a row" if self.often(35) else ""


def protocol_text(random: Random) -> str:
    """A protocol with a handful of exercises, up to two progressions and up to three phases."""
    words = Words(random)
    names = [f"move {letter}" for letter in "abcdef"[: words.number(2, 6)]]
    text = FINDINGS + "".join(_exercise(name, names, words) for name in names)
    progressions = ["climb one", "climb two"][: words.number(0, 2)]
    text += "".join(_progression(name, names, words) for name in progressions)
    return text + _protocol(names, progressions, words)


def _exercise(name: str, names: list[str], words: Words) -> str:
    others = [one for one in names if one != name]
    lines = [f"works {words.one('calf', 'thigh')}", "do", "  Move."]
    lines.append(f"moves {words.one('passive ', 'active ', '')}ankle dorsiflexion to {words.one(5, 10, 20)} deg")
    if words.often(40):
        lines.append(f"bearing {words.one('none', 'partial', 'full')}")
    if words.often(30):
        lines.append(f"needs {words.one('step', 'wall', 'step or wall', 'band')}")
        if others and words.often(60):
            lines.append(f"  instead {words.one(*others)}")
    for _ in range(words.one(0, 0, 1, 1, 2)):
        lines.append(f"avoid if {words.condition()}")
        if others and words.often(70):
            lines.append(f"  instead {words.one(*others)}")
    lines += _dose(words)
    return f"exercise {name}\n" + "".join(f"  {line}\n" for line in lines)


def _dose(words: Words) -> list[str]:
    amount = "to fatigue" if words.often(15) else str(words.number(6, 12))
    lines = [f"dose {words.number(2, 3)} x {amount}{words.one('', ', each side', ', affected side')}"]
    if words.often(60):
        lines[0] += f", load {words.one(*LOADS)}"
    if words.often(30):
        lines.append(f"dose week 1: 2 x {words.number(4, 8)}")
        lines.append(f"dose weeks 2 {words.one('on', 'to 3')}: 3 x {words.number(6, 10)}")
    lines += _steps(words)
    if words.often(25):
        lines += _adjusts(words)
    return lines


def _adjusts(words: Words) -> list[str]:
    """Tables by the repetitions of one set: for the next session, and (not always) for the set that it reads."""
    by_set, lines = words.number(1, 3), []
    if by_set > 1 and words.often(50):
        lines = [f"adjust load by reps in set {words.number(1, by_set - 1)}, for set {by_set}", *_rows(words)]
    return [*lines, f"adjust load by reps in set {by_set}, for next session", *_rows(words)]


def _rows(words: Words) -> list[str]:
    low = words.number(5, 8)
    high = low + words.number(1, 4)
    less, more = words.one("take off 2.5 kg", "take off 1 kg", "same load"), words.one("add 1 kg", "add 2.5 kg")
    return [f"  0 to {low}: {less}", f"  {low + 1} to {high}: same load", f"  {high + 1} or more: {more}"]


def _steps(words: Words) -> list[str]:
    lines = []
    if words.often(25):
        bound = words.one("", ", up to 10 kg", ", up to 6 kg")
        lines.append(f"add {words.one('1', '2.5')} kg when {words.on()}{words.streak()}{bound}")
    if words.often(15):
        lines.append(f"add 2 reps when {words.on()}{words.streak()}")
    if words.often(20):
        lines.append(f"take off {words.one('1', '2.5')} kg when {words.back()}{words.streak()}")
    return lines


def _progression(name: str, names: list[str], words: Words) -> str:
    count = words.number(1, 3)
    levels = [f"{name} {word}" for word in ("low", "middle", "high")[:count]]
    lines = ["works calf"]
    if words.often(60):
        lines.append(f"down when {words.back()}{words.streak()}")
    if words.often(60):
        lines.append(f"up when {words.on()}{words.streak()}")
    for level in levels:
        if words.often(30):
            lines.append(f"start at {level} if {words.condition()}")
    for at, level in enumerate(levels):
        if words.often(25):
            given = [f"  give {one}{_if(words)}" for one in words.random.sample(names, min(2, len(names)))]
            lines += [f"level {level}", *given]
        else:
            lines.append(f"level {level}: {words.one(*names)}")
        if at < count - 1 and words.often(60):
            lines.append(f"  up when {words.on()}{words.streak()}")
        if words.often(40):
            lines.append(f"  down when {words.back()}{words.streak()}")
        if words.often(20):
            lines.append(f"  dose {words.number(2, 4)} x {words.number(5, 12)}, load {words.one('2', '5')} kg")
        lines += [f"  {line}" for line in _steps(words)] if words.often(40) else []
    return f"progression {name}\n" + "".join(f"  {line}\n" for line in lines)


def _if(words: Words) -> str:
    return f" {words.one('if', 'unless')} {words.condition(1)}" if words.often(30) else ""


def _protocol(names: list[str], progressions: list[str], words: Words) -> str:
    lines = ["version 1.0.0", "review 2026-10-05 by team, next by 2027-10-05", "source none", "for adults"]
    lines.append("emergency if chest pain")
    if words.often(30):
        lines.append(f"red flag if {words.one('bone tender', 'pain > 9')}")
    items = names + progressions
    count = words.number(0, 3)
    lines += _gives(words.random.sample(items, words.number(0 if count else 1, min(2, len(items)))), words)
    for at in range(count):
        lines += [f"phase {PHASES[at]}", *(f"  {line}" for line in _phase(at, count, items, words))]
    return "protocol drawn\n" + "".join(f"  {line}\n" for line in lines)


def _gives(items: list[str], words: Words) -> list[str]:
    lines = [f"give {item}{_if(words)}" for item in items]
    if len(lines) > 1 and words.often(25):
        lines = [f"choose {words.number(1, len(lines) - 1)}", *(f"  {line}" for line in lines)]
    if lines and words.often(20):
        lines = [f"part {words.one('First', 'Then')}", *(f"  {line}" for line in lines)]
    return lines


def _phase(at: int, count: int, items: list[str], words: Words) -> list[str]:
    lines = _gives(words.random.sample(items, words.number(1, min(3, len(items)))), words)
    if words.often(30):
        lines.append(
            f"limit {words.one('active ', '')}ankle dorsiflexion {words.one('<=', '<')} {words.one(5, 10, 20)} deg"
        )
    if words.often(15):
        lines.append(f"forbid {words.one('resisted ', 'active ', '')}ankle dorsiflexion")
    for _ in range(words.one(0, 0, 0, 0, 1, 1, 2)):
        lines.append(f"limit load {words.one('<=', '<')} {words.one('2', '5', '6', '10')} kg")
    if words.often(25):
        lines.append(f"bearing {words.one('none', 'partial', 'full')}")
    if at < count - 1 or words.often(20):
        lines += [f"until {words.on()}{words.streak()}" for _ in range(words.one(1, 1, 2))]
    if at and words.often(60):
        lines.append(f"back to {PHASES[words.number(0, at - 1)]} if {words.back()}{words.streak()}")
    return lines


def changed_text(text: str, random: Random) -> str:
    """The same text with one or two exercises or progressions changed inside the protocol, which stands last."""
    words = Words(random)
    found = [line.split(" ", 1)[1] for line in text.splitlines() if line.startswith(("exercise ", "progression "))]
    for name in words.random.sample(found, words.number(1, min(2, len(found)))):
        text += f"  change {name}\n" + "".join(f"    {line}\n" for line in _changes(name, words))
    return text


def _changes(name: str, words: Words) -> list[str]:
    if name.startswith("move"):
        dose_line = f"dose 2 x {words.number(4, 9)}, load {words.one(*LOADS)}"
        line = words.one(dose_line, f"avoid if {words.condition(1)}")
        return [line, *(_steps(words) if words.often(40) else [])]
    line = words.one(f"up when {words.on()}", f"down when {words.back()}")
    return [f"{line}{words.streak()}"]


def history(protocol: Protocol, random: Random, days: int = 24) -> Case:
    """A case of some weeks: answers and sessions of every kind, on most days something."""
    words = Words(random)
    line = [0]
    length = words.number(0, days)
    observations: list[Observation] = []
    sessions: list[Session] = []
    for number in range(-1, length + 1):
        day = START + datetime.timedelta(days=number)
        if number <= 0 or words.often(25):
            observations += _answers(protocol, day, words, line, 75 if number == 0 else 25)
        if number >= 0 and words.often(65):
            sessions += _sessions(protocol, day, words, line)
    answered = [one for one in observations if words.often(4)]
    answered += [one for session in sessions for one in session.values if words.often(3)]
    observations += [
        Observation(
            one.finding, one.side, _value(protocol, one.finding, words), one.date, True, Prose("so"), span=_span(line)
        )
        for one in {(one.finding, one.side, one.date): one for one in answered}.values()
    ]
    placings = _placings(protocol, length, words, line)
    versions: tuple[VersionFrom, ...] = ()
    if words.often(8):
        versions = (VersionFrom(_day(length, words), "1.0.0", span=_span(line)),)
        if words.often(80):
            placings += _placed_anew(protocol, versions[0].date, words, line)
    return Case(
        "P-0001",
        "drawn",
        "1.0.0",
        START,
        side=words.one(Affected("left"), Affected("right"), Affected("right", True), Affected(None)),
        has=words.one(None, None, (), ("step",), ("step", "wall")),
        observations=tuple(observations),
        chosen=tuple(_chosen(protocol, length, words, line)),
        sessions=tuple(sessions),
        placings=tuple({(one.item, one.date): one for one in sorted(placings, key=lambda one: one.date)}.values()),
        left_out=tuple(_left_out(protocol, length, words, line)),
        added=tuple(_added(protocol, length, words, line)),
        versions=versions,
    )


def _span(line: list[int]) -> Span:
    line[0] += 1
    return Span("drawn.case", line[0], line[0] + 1)


def _day(length: int, words: Words) -> datetime.date:
    return START + datetime.timedelta(days=words.number(0, max(0, length)))


def _value(protocol: Protocol, name: str, words: Words) -> Any:
    answer = protocol.scope.findings[name].answer
    if name in ("chest pain", "bone tender"):  # else hardly a history would come to a sheet
        return words.one(*[False] * 40, True, None)
    if words.often(8):
        return None
    if answer.kind is Kind.YES_NO:
        return words.often(25)
    if answer.kind is Kind.CHOICE:
        return words.one(*answer.choices)
    if answer.kind is Kind.DATE:
        return START - datetime.timedelta(days=words.number(-10, 40))
    high = 5 if name.startswith("pain") and words.often(80) else int(answer.high or 10)
    return Quantity(Decimal(words.number(0, high)), answer.unit)


def _answers(protocol: Protocol, day: datetime.date, words: Words, line: list[int], percent: int) -> list[Observation]:
    found = []
    for name, finding in protocol.scope.findings.items():
        if finding.role != "finding" and words.often(98 if percent > 50 and name == "chest pain" else percent):
            for side in ("left", "right") if finding.answer.sided else (None,):
                if side is None or words.often(85):
                    found.append(Observation(name, side, _value(protocol, name, words), day, span=_span(line)))
    return found


def _sessions(protocol: Protocol, day: datetime.date, words: Words, line: list[int]) -> list[Session]:
    items: list[str | None] = [
        None,
        None,
        *protocol.scope.progressions,
        *protocol.scope.progressions,
        *protocol.scope.exercises,
    ]
    found = []
    for _ in range(words.one(1, 1, 1, 2)):
        outcome = words.one("as given", "as given", "as given", "as given", "missed", "part done", "done", "done")
        span = _span(line)
        values = []
        for name, often in (("pain", 85), ("pain next morning", 70), ("stiffness", 25)):
            if words.often(often):
                for side in ("left", "right") if name == "stiffness" else (None,):
                    values.append(Observation(name, side, _value(protocol, name, words), day, span=span))
        done = tuple(_done(words)) if outcome == "done" else ()
        load = (
            Quantity(Decimal(words.one("2", "5", "7.5", "10")), UNITS["kg"])
            if outcome == "done" and words.often(70)
            else None
        )
        found.append(Session(day, words.one(*items), outcome, done, load, tuple(values), span=span))
    return found


def _done(words: Words) -> list[Done]:
    sides = words.one((None,), (None,), ("left", "right"), ("left",), ("right",), ())
    found = []
    for side in sides:
        if words.often(45):
            found.append(Done(SetsOf(tuple(words.number(5, 14) for _ in range(words.number(1, 4)))), side))
        else:
            ends = [Decimal(words.number(1, 4)), Decimal(words.number(5, 14))]
            found.append(Done(Sets(Range(ends[0], ends[0]), Range(ends[1], ends[1])), side))
    return found


def _chosen(protocol: Protocol, length: int, words: Words, line: list[int]) -> list[Chosen]:
    items = [*protocol.scope.exercises, *protocol.scope.progressions]
    days = sorted(_day(length, words) for _ in range(words.one(0, 1, 1, 2)))
    return [Chosen(day, words.one(*items), span=_span(line)) for day in dict.fromkeys(days)]


def _placings(protocol: Protocol, length: int, words: Words, line: list[int]) -> list[Placing]:
    if not protocol.scope.progressions or words.often(85):
        return []
    item = words.one(*protocol.scope.progressions)
    level = words.one(*(one.name for one in protocol.scope.progressions[item].levels))
    return [Placing(_day(length, words), item, level, Prose("so"), span=_span(line))]


def _placed_anew(protocol: Protocol, day: datetime.date, words: Words, line: list[int]) -> list[Placing]:
    """Every progression on some level, from the date of another version of the text."""
    return [
        Placing(day, one.name, words.one(*one.levels).name, Prose("so"), span=_span(line))
        for one in protocol.scope.progressions.values()
    ]


def _left_out(protocol: Protocol, length: int, words: Words, line: list[int]) -> list[LeftOut]:
    items = [*protocol.scope.exercises, *protocol.scope.progressions]
    found = []
    for _ in range(words.one(0, 0, 0, 0, 0, 1, 1, 2)):
        start = _day(length, words)
        until = words.one(None, start + datetime.timedelta(days=words.number(0, 6)))
        found.append(LeftOut(start, until, words.one(*items), Prose("so"), span=_span(line)))
    return found


def _added(protocol: Protocol, length: int, words: Words, line: list[int]) -> list[Added]:
    found = []
    for _ in range(words.one(0, 0, 0, 0, 0, 0, 1, 2)):
        start = _day(length, words)
        until = words.one(None, start + datetime.timedelta(days=words.number(0, 6)))
        load = words.one("2 kg", "5 kg")
        own = Dosage(dose(f"2 x {words.number(3, 9)}, load {load}")) if words.often(40) else NO_DOSAGE
        give = Give(words.one(*protocol.scope.exercises), dosage=own, span=_span(line))
        found.append(Added(start, until, give, Prose("so"), span=give.span))
    return found
