"""Plans made by hand over the sample protocol: what a sheet is made from, without anything having been decided."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from functools import cache
from typing import Any

from protodsl.decide.plan import (
    REFER,
    UNANSWERED,
    Day,
    Evidence,
    FlagState,
    Guarded,
    LaterDose,
    Move,
    NotGiven,
    OpenQuestion,
    Plan,
    PlannedFocus,
    PlannedItem,
    PlannedLevel,
    PlannedLoad,
    QuestionUse,
    Reason,
)
from protodsl.decide.truth import NO, UNKNOWN, YES
from protodsl.handout import Options
from protodsl.handout.blocks import Handout
from protodsl.handout.phrase import Phrase
from protodsl.localise import localise
from protodsl.model.case import Affected, Case, Changed, LeftOut, Note, Observation, Session, Value
from protodsl.model.condition import Compare, Measured
from protodsl.model.dose import Dose, Frequency, Load, Range, Sets
from protodsl.model.exercise import Give
from protodsl.model.protocol import Protocol
from protodsl.source import Source, Span
from protodsl.units import UNITS, Quantity
from tests.unit.handout import samples

PROTOCOL = samples.protocol()
SETTLE, BUILD = PROTOCOL.phases
CASE_PATH = "P-0417.case"
SOURCES = {**samples.SOURCES, CASE_PATH: Source(CASE_PATH, "\n" * 60)}
OPTIONS = Options(digest="12345-67890", version="0.1.0", sources=SOURCES)

# A Wednesday; the next visit is the Wednesday two weeks later, so the period ends on the Tuesday before it.
TODAY = date(2026, 11, 25)
FIRST, LAST = TODAY, TODAY + timedelta(13)
START = date(2026, 11, 2)


def line(number: int) -> Span:
    """A line of the case."""
    return Span(CASE_PATH, number - 1, number - 1)


def known(finding: str, value: Value, day: date = TODAY, side: str | None = None, at: int = 12) -> Evidence:
    """A value with its line in the case."""
    return Evidence(finding, side, value, day, span=line(at))


def observed(finding: str, value: Value, day: date, side: str | None = None, **more: object) -> Observation:
    """An answer of a day."""
    return Observation(finding, side, value, day, **more)  # type: ignore[arg-type]


def scale(value: int) -> Quantity:
    """A point on a scale."""
    return Quantity(Decimal(value))


@cache
def case() -> Case:
    """A case with answers, sessions, a correction, two answers that stand against each other, and a note."""
    raises = [
        observed("heel raises", Quantity(Decimal(left), UNITS["count"]), day, "left", span=line(10))
        for left, day in ((6, START), (9, date(2026, 11, 13)), (12, TODAY))
    ]
    raises += [observed("heel raises", Quantity(Decimal(15), UNITS["count"]), day, "right") for day in (START, TODAY)]
    corrected = observed(
        "heel raises",
        Quantity(Decimal(8), UNITS["count"]),
        date(2026, 11, 13),
        "left",
        corrects=True,
        because=samples.prose("miscounted"),
        span=line(20),
    )
    sessions = tuple(
        Session(
            START + timedelta(days),
            None,
            "as given",
            values=(
                observed("pain", scale(pain), START + timedelta(days)),
                observed("pain next morning", scale(max(pain - 1, 0)), START + timedelta(days)),
            ),
        )
        for days, pain in ((1, 5), (3, 4), (6, 4), (9, 3), (12, 3), (15, 2), (20, 1))
    )
    return Case(
        "P-0417",
        "ankle",
        "1.2.0",
        START,
        side=Affected("right"),
        has=("stair",),
        observations=(
            *raises,
            corrected,
            observed("dizzy", True, START, span=line(14)),
            observed("dizzy", False, START, span=line(15)),
        ),
        sessions=sessions,
        left_out=(LeftOut(START, date(2026, 11, 4), "squat", samples.prose("travelling"), span=line(30)),),
        changed=(Changed(TODAY, None, "squat", samples.prose("tired"), span=line(31)),),
        next_visit=LAST + timedelta(1),
        notes=(Note(START, "ran for the bus", span=line(32)),),
    )


@cache
def items() -> tuple[PlannedItem, ...]:
    """A step of a progression with a side to work more on, a loaded exercise, and two to choose between."""
    scope = PROTOCOL.scope
    both, squat, walk, seated = (
        scope.exercises[name] for name in ("heel raise both legs", "squat", "brisk walk", "seated heel raise")
    )
    raises = scope.progressions["calf strength"]
    mondays, fridays = (0, 2, 4), (1, 3, 5)
    give = Give("squat", supervised=True, span=samples.at())
    squats = Dose(Sets(Range(Decimal(4), Decimal(4)), Range(Decimal(8), Decimal(8))), load=Load(maximum=8))
    choose = samples.at()
    return (
        PlannedItem(
            both,
            "calf strength",
            both.name,
            raises.levels[0].gives[0],
            both.dosage.common,
            (both.dosage,),
            START,
            START,
            focus=PlannedFocus("left", 1, "heel raises", (known("heel raises", scale(12), side="left"),)),
            level=PlannedLevel("calf strength", both.name, 1, 2, START, both.name),
            days=mondays,
            dates=dates(mondays),
            minutes=Decimal(9),
            avoids=(
                Guarded(both.avoid[0], NO, False),
                Guarded(both.avoid[1], UNKNOWN, True, unknown=(Evidence("swelling", None, None, None),)),
            ),
            cautions=(Guarded(both.caution[0], YES, True),),
            reasons=(
                Reason("give", "calf strength", BUILD.contents[0].span),
                Reason("level", both.name, raises.levels[0].span),
            ),
        ),
        PlannedItem(
            squat,
            "squat",
            "heel raise one leg",
            give,
            replace(squats, frequency=Frequency(days_a_week=Range(Decimal(3), Decimal(3)))),
            (squat.dosage,),
            START,
            START,
            week=3,
            load=PlannedLoad(Load(maximum=8), Decimal("12.5"), Decimal("13.4"), Decimal("2.5"), "epley", samples.at()),
            days=fridays,
            dates=dates(fridays),
            minutes=Decimal(11),
            supervised=True,
            reasons=(Reason("give", "squat", give.span), Reason("avoid", "heel raise one leg", samples.at(), YES)),
            later=(
                LaterDose(
                    date(2026, 12, 1),
                    4,
                    replace(squats, volume=Sets(Range(Decimal(4), Decimal(4)), Range(Decimal(6), Decimal(6)))),
                    PlannedLoad(Load(maximum=6), Decimal(15)),
                ),
            ),
        ),
        PlannedItem(
            walk,
            "brisk walk",
            walk.name,
            Give("brisk walk"),
            walk.dosage.common,
            (walk.dosage,),
            START,
            START,
            days=tuple(range(7)),
            dates=dates(tuple(range(7))),
            minutes=Decimal(20),
            choice=choose,
            takes=1,
            options=2,
            equipment=(("step", "stair"),),
        ),
        PlannedItem(
            seated,
            "seated heel raise",
            seated.name,
            Give("seated heel raise"),
            seated.dosage.common,
            (seated.dosage,),
            START,
            START,
            days=tuple(range(7)),
            dates=dates(tuple(range(7))),
            minutes=Decimal(2),
            choice=choose,
            takes=1,
            options=2,
        ),
    )


def dates(days: tuple[int, ...]) -> tuple[date, ...]:
    """The dates of the period that fall on these weekdays."""
    every = (FIRST + timedelta(at) for at in range((LAST - FIRST).days + 1))
    return tuple(day for day in every if day.weekday() in days)


@cache
def plan() -> Plan:
    """One of everything that a plan can hold."""
    up = PROTOCOL.scope.progressions["calf strength"].levels[0].up[0]
    moves = (
        Move(START, "phase start", "", "", "settle"),
        Move(START, "start", "calf strength", "", "heel raise both legs"),
        Move(
            date(2026, 11, 20),
            "phase",
            "",
            "settle",
            "build",
            SETTLE.until[0].span,
            SETTLE.until[0].condition,
            deciding=(known("start", Quantity(Decimal(2), UNITS["weeks"]), date(2026, 11, 16)),),
        ),
        Move(
            date(2026, 11, 22),
            "add",
            "squat",
            "10 kg",
            "12.5 kg",
            up.span,
            Compare(Measured("pain"), "<=", samples.value("3")),
            3,
            (known("pain", scale(1), date(2026, 11, 22)),),
        ),
    )
    return Plan(
        case(),
        PROTOCOL,
        TODAY,
        FIRST,
        LAST,
        phase=BUILD,
        phase_since=date(2026, 11, 20),
        items=items(),
        not_given=(
            NotGiven(
                "calf strength",
                "heel raise one leg",
                "squat",
                (Reason("avoid", "heel raise one leg", samples.at(), YES, (known("calf tear", True),)),),
            ),
            NotGiven("squat", "squat", None, (Reason("needs", "squat", samples.at()),), ("calf",), date(2026, 11, 9)),
        ),
        questions=(
            OpenQuestion(
                "swelling",
                None,
                None,
                (QuestionUse("avoid if", "heel raise both legs", PROTOCOL.scope.exercises["squat"].span),),
            ),
        ),
        moves=moves,
        emergencies=tuple(FlagState("emergency if", flag, NO) for flag in PROTOCOL.emergencies),
        red_flags=tuple(FlagState("red flag if", flag, NO, was_yes=(START,)) for flag in PROTOCOL.red_flags),
        calls=tuple(FlagState("call if", flag, YES) for flag in PROTOCOL.calls),
        cautions=(Guarded(PROTOCOL.cautions[0], NO, True),),
        week=tuple(
            Day(day, Decimal(20 + (9 if day in (0, 2, 4) else 0) + (11 if day in (1, 3, 5) else 0))) for day in range(7)
        ),
        uncovered=("calf",),
        told=(Move(TODAY, "lowest", "calf strength", "heel raise both legs", "heel raise both legs", up.span),),
        levels=(PlannedLevel("calf strength", "heel raise both legs", 1, 2, START, "heel raise both legs"),),
    )


@cache
def last_sheet() -> Plan:
    """What was decided a week before: the phase before, less load, no walk, and one exercise that has ended since."""
    one, squat, walk, _ = items()
    assert squat.load is not None
    ended = PROTOCOL.scope.exercises["heel raise one leg"]
    return replace(
        plan(),
        as_of=date(2026, 11, 18),
        phase=SETTLE,
        items=(
            one,
            replace(squat, load=replace(squat.load, kilograms=Decimal(10))),
            replace(walk, exercise=ended, item=ended.name, asked=ended.name),
        ),
        moves=plan().moves[:2],
    )


def refused(kind: str) -> Plan:
    """The plan of somebody with a flag that is yes, or unknown."""
    truth = YES if kind == REFER else UNKNOWN
    first, *others = PROTOCOL.red_flags
    whole = plan()
    return replace(
        whole,
        refused=kind,
        items=(),
        not_given=(),
        week=(),
        levels=(),
        red_flags=(
            FlagState("red flag if", first, truth, (known("calf tear", True),) if kind == REFER else ()),
            *(FlagState("red flag if", flag, NO) for flag in others),
        ),
        questions=(OpenQuestion("calf tear", None, None, (QuestionUse("red flag if", "", first.span),)),)
        if kind == UNANSWERED
        else (),
    )


def words(page: Handout[Phrase], protocol: Protocol = PROTOCOL) -> Handout[str]:
    """A handout in English."""
    made = localise(page, protocol.scope, samples.CLINIC, "en")
    assert made.value is not None
    return made.value


def phrases(node: Any) -> Iterator[Any]:
    """Every phrase of a handout, and every phrase inside it."""
    if isinstance(node, tuple):
        for one in node:
            yield from phrases(one)
    elif isinstance(node, Mapping):
        yield from phrases(tuple(node.values()))
    elif is_dataclass(node) and not isinstance(node, type) and type(node).__module__.startswith("protodsl.handout"):
        yield node
        for field in fields(node):
            yield from phrases(getattr(node, field.name))


def strings(node: Any) -> Iterator[str]:
    """Every word of a handout in a language."""
    if isinstance(node, str):
        yield node
    elif isinstance(node, tuple):
        for one in node:
            yield from strings(one)
    elif is_dataclass(node) and not isinstance(node, type):
        for field in fields(node):
            yield from strings(getattr(node, field.name))
