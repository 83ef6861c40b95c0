"""Doses: parts in groups, each said once, and layers laid over one another."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from protodsl.model.dose import (
    NO_DOSE,
    Dosage,
    Dose,
    Effort,
    Frequency,
    Intervals,
    Leg,
    Load,
    Range,
    Repetition,
    Rest,
    Sets,
    SetsOf,
    WeekRow,
)
from protodsl.model.dosing import dose_of, merge, table_end
from protodsl.units import UNITS, Quantity
from tests.support import compiled


def some(low: str, high: str = "") -> Range:
    return Range(Decimal(low), Decimal(high or low))


def amount(value: str, unit: str) -> Quantity:
    return Quantity(Decimal(value), UNITS[unit])


def dosage(*lines: str) -> tuple[Dosage, list[str]]:
    """What dose lines of an exercise come to, and the codes of what is said."""
    text = "equipment light band: a light band\ntest best squat: Once.\n  answer kg from 0 to 300\n"
    text += "question pain: How strong?\n  answer 0 to 10\n"
    text += "exercise practice\n  do\n    Do it.\n" + "".join(f"  {line}\n" for line in lines)
    entry, diagnostics = compiled(text)
    assert entry is not None
    return entry.scope.exercises["practice"].dosage, [one.code.id for one in diagnostics]


DOSES: dict[str, Dose] = {
    "3 x 12": Dose(volume=Sets(some("3"), some("12"))),
    "3 x 8 to 12": Dose(volume=Sets(some("3"), some("8", "12"))),
    "3 x 30 s": Dose(volume=Sets(some("3"), some("30"), "s")),
    "3 x to fatigue": Dose(volume=Sets(some("3"), None)),
    "12 reps": Dose(volume=Sets(some("1"), some("12"), bare=True)),
    "20 min": Dose(volume=Sets(some("1"), some("20"), "min", True)),
    "1 hour": Dose(volume=Sets(some("1"), some("60"), "min", True)),
    "400 m": Dose(volume=Sets(some("1"), some("400"), "m", True)),
    "10 breaths": Dose(volume=Sets(some("1"), some("10"), "breaths", True)),
    "to fatigue": Dose(volume=Sets(some("1"), None, bare=True)),
    "12 then 10 then 8": Dose(volume=SetsOf((12, 10, 8))),
    "5 x (4 min walk + 1 min run)": Dose(
        volume=Intervals(some("5"), (Leg(amount("4", "min"), "walk"), Leg(amount("1", "min"), "run")))
    ),
    "lift 2 s, hold 2 to 5 s, lower 3 s": Dose(repetition=Repetition(some("2"), some("2", "5"), some("3"))),
    "hold until settled": Dose(repetition=Repetition(settled=("hold",))),
    "rest 2 min": Dose(rest=Rest(some("120"))),
    "rest until settled": Dose(rest=Rest(None)),
    "each side": Dose(sides="each"),
    "load 5 kg": Dose(load=Load(weight=amount("5", "kg"))),
    "load 70 % of 1RM": Dose(load=Load(percent=Decimal(70), of="1RM")),
    "load 70 % of best squat": Dose(load=Load(percent=Decimal(70), of="best squat")),
    "load 8RM": Dose(load=Load(maximum=8)),
    "load light band": Dose(load=Load(name="light band")),
    "load body weight + 5 kg": Dose(load=Load(name="body weight", weight=amount("5", "kg"))),
    "load 15RM up to 20 kg": Dose(load=Load(maximum=15, up_to=amount("20", "kg"))),
    "effort 6 to 7": Dose(effort=Effort(some("6", "7"))),
    "2 reps in reserve": Dose(effort=Effort(some("2"), True)),
    "daily": Dose(frequency=Frequency(days_a_week=some("7"))),
    "hourly": Dose(frequency=Frequency(every_hours=1)),
    "every 2 hours": Dose(frequency=Frequency(every_hours=2)),
    "twice a day, 3 days a week, rest day between": Dose(
        frequency=Frequency(some("2"), some("3"), rest_day_between=True)
    ),
    "3 times a day, every other day": Dose(frequency=Frequency(some("3"), every_other_day=True)),
    "1 supervised": Dose(supervised=1),
    "for 6 weeks": Dose(lasting=amount("6", "weeks")),
}


@pytest.mark.parametrize("text", DOSES)
def test_a_dose_means(text: str) -> None:
    found, codes = dosage(f"dose {text}")
    assert codes == []
    assert found.common == DOSES[text]


WRONG: dict[str, list[str]] = {
    "3 x 12, 20 min": ["K319"],
    "lift 2 s, lift 3 s": ["K319"],
    "rest 30 s, rest 60 s": ["K319"],
    "each side, affected side": ["K319"],
    "load 5 kg, load 8RM": ["K319"],
    "effort 6, 2 reps in reserve": ["K319"],
    "daily, 3 days a week": ["K319"],
    "every other day, 3 days a week": ["K319"],
    "hourly, twice a day": ["K319"],
    "1 supervised, 2 supervised": ["K319"],
    "0 x 12": ["K317"],
    "3 x 0": ["K317"],
    "8 days a week": ["K317"],
    "effort 12": ["K317"],
    "load 0RM": ["K317"],
    "load 0 % of 1RM": ["K317"],
    "0 supervised": ["K317"],
    "load 5": ["K309"],
    "load 5 cm": ["K320"],
    "load heavy band": ["N201"],
    "load 70 % of pain": ["K314"],
    "load 70 % of best sqat": ["N201"],
}


@pytest.mark.parametrize("text", WRONG)
def test_a_wrong_dose_is_said(text: str) -> None:
    assert dosage(f"dose {text}")[1] == WRONG[text]


def test_rows_of_weeks_and_sets_stand_beside_the_common_line() -> None:
    found, codes = dosage(
        "dose lift 3 s, daily", "dose week 1: 3 x 15", "dose weeks 2 to 3: 3 x 12", "dose weeks 4 on: 4 x 10",
        "set 1: 10 reps", "set 2: 6 reps, load 5 kg",
    )  # fmt: skip
    assert codes == []
    assert [(row.first, row.last) for row in found.weeks] == [(1, 1), (2, 3), (4, None)]
    assert [row.number for row in found.sets] == [1, 2]
    assert found.common.repetition == Repetition(lift=some("3"))


def test_a_second_common_line_or_set_is_said() -> None:
    assert dosage("dose 3 x 12", "dose daily")[1] == ["K321"]
    assert dosage("set 1: 3 x 12", "set 1: 10 reps")[1] == ["K321"]


def test_steps_are_signed() -> None:
    found, codes = dosage(
        "add 2.5 kg when pain <= 2, 3 sessions in a row, up to 30 kg", "take off 5 kg when pain > 5, down to 5 kg"
    )
    assert codes == []
    assert [(step.change, step.streak, step.bound) for step in found.steps] == [
        (amount("2.5", "kg"), 3, amount("30", "kg")),
        (amount("-5", "kg"), 1, amount("5", "kg")),
    ]


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("add 2.5 when pain <= 2", "K309"),
        ("add 2.5 deg when pain <= 2", "K320"),
        ("add 0 kg when pain <= 2", "K317"),
        ("add 2.5 kg when pain <= 2, up to 30 s", "K320"),
        ("add 2.5 kg when pain <= 2, 0 sessions in a row", "K317"),
        ("add 2.5 kg when pain <= 2 cm", "K308"),
    ],
)
def test_a_wrong_step_is_said(line: str, code: str) -> None:
    assert dosage(line)[1] == [code]


GROUPS = st.builds(
    Dose,
    volume=st.sampled_from([None, Sets(some("3"), some("12")), SetsOf((12, 10))]),
    repetition=st.sampled_from([None, Repetition(lift=some("2")), Repetition(hold=some("5"))]),
    rest=st.sampled_from([None, Rest(None), Rest(some("60"))]),
    load=st.sampled_from([None, Load(maximum=8), Load(name="light band")]),
    frequency=st.sampled_from([None, Frequency(every_hours=2), Frequency(days_a_week=some("3"))]),
    supervised=st.sampled_from([None, 1]),
)


@given(GROUPS, GROUPS, GROUPS)
def test_laying_over_is_associative_and_nothing_is_neutral(over: Dose, middle: Dose, under: Dose) -> None:
    """What is said anywhere is in the result; the strongest that says a group decides it whole."""
    assert merge(over, merge(middle, under)) == merge(merge(over, middle), under)
    assert merge(over, NO_DOSE) == over == merge(NO_DOSE, over)
    result = merge(over, under)
    for group in ("volume", "repetition", "rest", "load", "frequency", "supervised"):
        said = getattr(over, group)
        assert getattr(result, group) == (getattr(under, group) if said is None else said)


def test_a_group_is_replaced_whole() -> None:
    """`lift 3 s` over `lift 2 s, hold 2 s` leaves no hold."""
    under = Dose(repetition=Repetition(some("2"), some("2")))
    assert merge(Dose(repetition=Repetition(some("3"))), under).repetition == Repetition(some("3"))


def test_a_week_row_lies_over_its_own_common_line_and_both_over_weaker_layers() -> None:
    level = Dosage(
        Dose(volume=Sets(some("3"), some("12"))),
        (WeekRow(1, 2, Dose(rest=Rest(some("60")))), WeekRow(3, None, Dose(volume=SetsOf((12, 10))))),
    )
    exercise = Dosage(Dose(volume=SetsOf((5, 5)), sides="each", rest=Rest(None)))
    assert dose_of(1, [level, exercise]) == Dose(Sets(some("3"), some("12")), rest=Rest(some("60")), sides="each")
    assert dose_of(7, [level, exercise]) == Dose(SetsOf((12, 10)), rest=Rest(None), sides="each")


def test_the_table_of_the_strongest_layer_ends() -> None:
    short = Dosage(weeks=(WeekRow(1, 2, NO_DOSE), WeekRow(3, 6, NO_DOSE)))
    open_ended = Dosage(weeks=(WeekRow(1, None, NO_DOSE),))
    assert table_end([Dosage(), short, open_ended]) == 6
    assert table_end([open_ended, short]) is None
    assert table_end([Dosage()]) is None
