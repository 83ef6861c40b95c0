"""A protocol that holds one of every kind of line, built as a model, with a place of its own for each line."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import cache
from itertools import count

from protodsl.handout.blocks import Section
from protodsl.handout.phrase import Phrase
from protodsl.model.clinic import Clinic, Contact
from protodsl.model.condition import (
    All,
    AnyOf,
    Compare,
    Constant,
    Elapsed,
    Fact,
    Measured,
    Not,
    Side,
    Symmetry,
)
from protodsl.model.dose import (
    Adjust,
    AdjustRow,
    Dosage,
    Dose,
    Effort,
    Frequency,
    Load,
    LoadStep,
    Range,
    Repetition,
    Rest,
    SetRow,
    Sets,
    WeekRow,
)
from protodsl.model.exercise import (
    Avoid,
    Caution,
    Exercise,
    Fix,
    Focus,
    Give,
    Level,
    Need,
    Progression,
    StartAt,
    Trigger,
)
from protodsl.model.finding import Answer, Finding, Kind
from protodsl.model.protocol import (
    Advice,
    BackTo,
    Choose,
    Flag,
    Forbid,
    Limit,
    Part,
    Phase,
    Protocol,
    Review,
    Scope,
    Setting,
    Term,
    Until,
    Zone,
)
from protodsl.model.text import Prose
from protodsl.source import Source, Span
from protodsl.units import UNITS, Quantity

PATH = "sample.protocol"
_LINES = 400
SOURCE = Source(PATH, "\n" * _LINES)
_line = count()


def at() -> Span:
    """A place on a line of its own: the text is all line ends, so that offset n stands on line n + 1."""
    start = next(_line)
    assert start < _LINES
    return Span(PATH, start, start)


def prose(text: str) -> Prose:
    """A line of prose with a place of its own."""
    return Prose(text, text, at())


def number(value: str, unit: str | None = None) -> Quantity:
    """A quantity as it is written."""
    return Quantity(Decimal(value), UNITS[unit] if unit else None)


def one(low: str, high: str | None = None) -> Range:
    """A range, or one number."""
    return Range(Decimal(low), Decimal(high or low))


def value(amount: str, unit: str | None = None) -> Constant:
    """A constant of a comparison."""
    return Constant(number(amount, unit))


CLINIC = Clinic(
    "Alder Quay clinic",
    "Physiotherapy, 2 Harbour Steps",
    Contact("Call for help now", "112"),
    Contact("Stop all exercises. Call us today", "01632 960 142"),
    Contact("Nights and weekends", "01632 960 199"),
)


def scope() -> Scope:
    """Findings, things, exercises and a progression."""
    findings = (
        Finding(
            "pain",
            "question",
            prose("How strong was your worst pain, from 0 to 10?"),
            Answer(Kind.SCALE, Decimal(0), Decimal(10)),
            one_session=True,
            better="lower",
            means=prose("your pain during the exercises"),
        ),
        Finding(
            "pain next morning",
            "question",
            prose("How strong was your pain the next day, from 0 to 10?"),
            Answer(Kind.SCALE, Decimal(0), Decimal(10)),
            one_session=True,
            better="lower",
            means=prose("your pain the next morning"),
        ),
        Finding("chest pain", "question", prose("Do you have chest pain?"), yes_means=prose("you have chest pain")),
        Finding("fainting", "question", prose("Have you fainted?"), yes_means=prose("you have fainted")),
        Finding("fever", "question", prose("Do you have a fever?"), yes_means=prose("you have a fever")),
        Finding(
            "calf tear",
            "question",
            prose("Have you torn your calf muscle in the last 6 weeks?"),
            yes_means=prose("you have torn your calf muscle in the last 6 weeks"),
        ),
        Finding("dizzy", "question", prose("Do you get dizzy?"), yes_means=prose("you get dizzy when you stand up")),
        Finding("no limp", "test", prose("Walks 20 steps without a limp."), yes_means=prose("you walk without a limp")),
        Finding("swelling", "question", prose("Is the joint swollen?")),
        Finding(
            "heel raises",
            "test",
            prose("Single leg heel raises until the height is lost."),
            Answer(Kind.MEASURE, Decimal(0), Decimal(60), UNITS["count"], sided=True),
            better="higher",
            means=prose("the number of heel raises you can do on one leg"),
        ),
    )
    things = {name: Term(name, prose(words)) for name, words in (("step", "a low, firm step"), ("stair", "a stair"))}
    both, single, seated, squat, walk = exercises()
    raises = progression()
    return Scope(
        {finding.name: finding for finding in findings},
        {"weeks in brace": Setting("weeks in brace", number("2", "weeks"), span=at())},
        things,
        {"calf": Term("calf", prose("calf"))},
        {exercise.name: exercise for exercise in (both, single, seated, squat, walk)},
        {raises.name: raises},
    )


def exercises() -> tuple[Exercise, ...]:
    """Exercises that hold every row of a card between them."""
    tear = Fact("calf tear")
    daily = Dose(Sets(one("2"), one("10")), frequency=Frequency(days_a_week=one("7")))
    both = Exercise(
        "heel raise both legs",
        prose("Heel raise on both legs"),
        works=("calf",),
        needs=(Need(("step", "stair"), "seated heel raise", span=at()),),
        dosage=Dosage(
            Dose(
                Sets(one("3"), one("8", "12")),
                Repetition(one("2"), one("2"), one("3")),
                Rest(one("60")),
                "each",
                frequency=Frequency(days_a_week=one("3"), rest_day_between=True),
            )
        ),
        focus=Focus("heel raises", 1, span=at()),
        do=(prose("Stand on the step with the heel of your [affected side] over its edge."), prose("Rise.")),
        why=prose("A strong calf carries you."),
        when=prose("in the morning"),
        feel=(prose("high in the back of your lower leg"),),
        normal=(prose("trembling"),),
        fix=(Fix("your ankle rolls", "press harder", prose("your ankle rolls: press harder"), span=at()),),
        stop=(prose("sharp pain in the tendon"), prose("a snap in the calf")),
        avoid=(
            Avoid(tear, "seated heel raise", prose("no body weight on the torn fibres"), span=at()),
            Avoid(AnyOf((Fact("swelling"), Fact("fever"))), span=at()),
        ),
        caution=(Caution(Fact("dizzy"), (prose("Hold on with both hands."),), span=at()),),
        span=at(),
    )
    single = replace(
        both,
        name="heel raise one leg",
        title=prose("Heel raise on one leg"),
        needs=(),
        supervised=True,
        avoid=(Avoid(tear, "seated heel raise", span=at()),),
        caution=(),
        focus=None,
        stop=(prose("sharp pain in the heel"),),
        span=at(),
    )
    seated = Exercise(
        "seated heel raise",
        prose("Seated heel raise"),
        bearing="none",
        bearing_said=True,
        do=(prose("Sit. Lift your heels."),),
        dosage=Dosage(daily),
        stop=(prose("cramp that does not let go"),),
        span=at(),
    )
    heavy = Dose(rest=Rest(one("120")), frequency=Frequency(days_a_week=one("3")), supervised=1)
    squat = Exercise(
        "squat",
        prose("Squat"),
        works=("calf",),
        do=(prose("Bend your knees."),),
        dosage=Dosage(
            heavy,
            (
                WeekRow(1, 2, Dose(Sets(one("3"), one("15")), load=Load(maximum=15)), span=at()),
                WeekRow(3, 12, Dose(Sets(one("4"), one("8")), load=Load(maximum=8)), span=at()),
            ),
            (SetRow(1, Dose(Sets(one("1"), one("10"))), span=at()),),
            (Adjust(3, 4, (AdjustRow(0, 2, number("-2.5", "kg"), span=at()), AdjustRow(3, None, None)), span=at()),),
            (
                LoadStep(number("5", "kg"), _calm(), 3, number("30", "kg"), span=at()),
                LoadStep(number("-5", "kg"), _sore(), 1, None, span=at()),
            ),
        ),
        span=at(),
    )
    walk = Exercise(
        "brisk walk",
        prose("Brisk walk"),
        do=(prose("Walk."),),
        dosage=Dosage(
            Dose(
                Sets(one("1"), one("10"), "min", bare=True),
                effort=Effort(one("3", "4")),
                frequency=Frequency(times_a_day=one("2"), days_a_week=one("7")),
            )
        ),
        span=at(),
    )
    return both, single, seated, squat, walk


def progression() -> Progression:
    """Two steps, with a way up and a way down at each, and a step to start at."""
    down = Trigger(_sore(), 1, (prose("Leave one day free."),), span=at())
    up = Trigger(All((Compare(Measured("heel raises"), ">=", value("15"), Side.EACH), _calm())), 2, (), span=at())
    levels = (
        Level(
            "heel raise both legs",
            (Give("heel raise both legs", supervised=True, span=at()),),
            up=(up,),
            down=(down,),
            span=at(),
        ),
        Level("heel raise one leg", (Give("heel raise one leg", span=at()),), down=(down,), span=at()),
    )
    start = StartAt("heel raise one leg", Compare(Measured("heel raises"), ">=", value("10"), Side.EACH), span=at())
    return Progression("calf strength", prose("Calf strength"), levels, start_at=(start,), span=at())


@cache
def protocol() -> Protocol:
    """One of every line that a protocol and a phase can hold."""
    settle = Phase(
        "settle",
        prose("Up to week [weeks in brace]: settle"),
        bearing="as tolerated",
        limits=(
            Limit("ankle", "plantarflexion", "<=", number("20", "deg"), span=at()),
            Limit("", "", "<", number("3", "kg"), span=at()),
        ),
        forbids=(Forbid("resisted", "ankle", "inversion", span=at()),),
        until=(Until(weeks_gone("2"), span=at()), Until(Fact("no limp"), span=at())),
        contents=(
            Give("brisk walk", span=at()),
            Give("squat", Fact("swelling"), unless=True, supervised=True, why=prose("It readies you."), span=at()),
        ),
        calls=(Flag(Fact("swelling"), (), 1, span=at()),),
        cautions=(Caution(Fact("fever"), (prose("Rest first."),), span=at()),),
        stop=(prose("your ankle gives way"),),
        may=(prose("walk indoors"),),
        not_yet=(prose("run or jump"),),
        advice=(Advice(prose("Your brace"), (prose("Wear it for [weeks in brace]."),), span=at()),),
        span=at(),
    )
    build = Phase(
        "build",
        prose("Build strength"),
        until=(Until(Compare(Symmetry("heel raises"), ">=", value("90", "%")), span=at()),),
        back_to=(BackTo("settle", _sore(), 3, (prose("Call us as well."),), span=at()),),
        contents=(
            Give("calf strength", span=at()),
            Part(prose("Fitness"), (Choose(1, (Give("brisk walk", span=at()), Give("squat", span=at())), span=at()),)),
        ),
        span=at(),
    )
    return Protocol(
        "ankle",
        prose("After an ankle sprain"),
        "1.2.0",
        scope(),
        review=Review(date(2026, 10, 5), "outpatient lead", date(2027, 10, 5), span=at()),
        sources=(prose("A reference. Journal 2020;1:1-2."),),
        audience=prose("adults with a sprain"),
        goals=(prose("walk without a limp"),),
        lasts=number("10", "weeks"),
        emergencies=(
            Flag(Fact("chest pain"), span=at()),
            Flag(AnyOf((Fact("fainting"), Fact("fever"))), span=at()),
        ),
        red_flags=(
            Flag(Fact("calf tear"), (prose("Do not start. Call us today."),), span=at()),
            Flag(All((Fact("swelling"), Not(Fact("no limp")))), span=at()),
        ),
        calls=(Flag(Compare(Measured("pain"), ">", value("6")), (), 2, span=at()),),
        cautions=(Caution(Fact("dizzy"), (prose("Get up slowly."),), span=at()),),
        advice=(Advice(prose("Sleep"), (prose("Sleep well."),), span=at()),),
        flare_up=(prose("Leave it out for two days."),),
        zones=(
            Zone(0, 3, prose("carry on"), span=at()),
            Zone(4, 5, prose("ease off"), (prose("Do half as many."),), span=at()),
            Zone(6, 10, prose("stop"), span=at()),
        ),
        stop=(prose("a sharp pain"),),
        may=(prose("swim"),),
        not_yet=(prose("climb a ladder"),),
        phases=(settle, build),
        span=at(),
    )


def weeks_gone(weeks: str) -> Compare:
    """Weeks since the start."""
    return Compare(Elapsed("weeks", "start"), ">=", value(weeks, "weeks"))


def _calm() -> Compare:
    return Compare(Measured("pain"), "<=", value("3"))


def _sore() -> AnyOf:
    worse = Compare(Measured("pain next morning"), ">", Measured("pain", number("1")))
    return AnyOf((Compare(Measured("pain"), ">", value("5")), worse))


SOURCES = {PATH: SOURCE}


def empty_section() -> Section[Phrase]:
    """A section with nothing in it, to stand where a part was taken away."""
    return Section("empty", None, ())
