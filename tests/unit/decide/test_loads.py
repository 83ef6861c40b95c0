"""Loads and steps, focus, the week of the sheet: 5.4, 5.7, and the set-by-set adjustment."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from protodsl.decide import Plan
from tests.unit.decide.cases import case_text, exercise, moves, plan, protocol_text

WEIGHT = "test strength: How much at most.\n  answer kg from 0 to 200\n  fresh for 4 weeks\n"


def lifted(load: str, *lines: str, below: tuple[str, ...] = (), text: str = "", as_of: str | None = None) -> Plan:
    """A plan with one exercise that has a load."""
    lift = exercise("lift", "works calf", *below, dose=f"3 x 10, load {load}, daily")
    return plan(protocol_text(WEIGHT + lift + text, "give lift"), case_text("\n".join(lines)), as_of)


def kilograms(found: Plan) -> Decimal | None:
    """The load of the first item."""
    return found.items[0].load.kilograms if found.items[0].load else None


def test_a_weight_as_written() -> None:
    assert kilograms(lifted("6 kg")) == 6
    assert kilograms(lifted("body weight")) == 0
    assert kilograms(lifted("light band")) is None


def test_a_share_of_a_measured_weight_is_rounded_down_to_what_there_is() -> None:
    """70 % of 20 kg is 14 kg; the clinic has 12.5 and 15."""
    found = lifted("70 % of strength", "on 2026-11-02\n  strength: 20 kg")
    assert (kilograms(found), found.items[0].load and found.items[0].load.exact) == (Decimal("12.5"), Decimal("14.0"))
    unknown = lifted("70 % of strength")
    assert kilograms(unknown) is None
    assert "strength" in [one.finding for one in unknown.questions]
    stale = lifted("70 % of strength", "on 2026-11-02\n  strength: 20 kg", as_of="2026-12-01")
    assert kilograms(stale) is None


def test_n_rm_from_the_last_set_until_tired() -> None:
    """Epley: 1RM = load x (1 + repetitions / 30); ten with 15 kg are 20 kg, of which 15RM cannot be told.

    Epley B. Poundage chart. Boyd Epley Workout. Lincoln, 1985, as compiled by LeSuer et al. 1997.
    """
    done = "session 2026-11-03 lift: 10 then 8 then 7, load 15 kg"
    assert kilograms(lifted("1RM", done)) == 20
    assert kilograms(lifted("10RM", done)) == 15
    assert kilograms(lifted("5RM", done)) == 15  # 20 / (1 + 5/30) = 17.1, rounded down
    assert kilograms(lifted("50 % of 1RM", done)) == 10
    assert kilograms(lifted("15RM", done)) is None
    assert kilograms(lifted("10RM")) is None
    found = lifted("10RM", done)
    assert found.items[0].load is not None and found.items[0].load.equation == "epley"


ADD = ("add 2.5 kg when pain <= 2, 3 sessions in a row, up to 10 kg",)


def test_steps_are_replayed_up_to_their_bound() -> None:
    """Every three good sessions one step, not every session after the third."""
    good = "session 2026-11-03 to 2026-11-{} lift: as given, pain 1"
    assert [kilograms(lifted("5 kg", good.format(f"{last:02}"), below=ADD)) for last in (4, 5, 7, 8, 11, 20)] == [
        5, Decimal("7.5"), Decimal("7.5"), 10, 10, 10,
    ]  # fmt: skip
    found = lifted("5 kg", good.format("05"), below=ADD)
    assert moves(found)[-1] == "05 add lift: 5 kg > 7.5 kg"


def test_take_off_goes_before_add_and_down_to_its_bound() -> None:
    both = ("add 2.5 kg when pain <= 2", "take off 2.5 kg when pain > 1, down to 1 kg")
    assert kilograms(lifted("5 kg", "session 2026-11-03 lift: as given, pain 2", below=both)) == Decimal("2.5")
    assert kilograms(lifted("5 kg", "session 2026-11-03 to 2026-11-06 lift: as given, pain 2", below=both)) == 1
    assert kilograms(lifted("5 kg", "session 2026-11-03 lift: as given, pain 1", below=both)) == Decimal("7.5")
    assert kilograms(lifted("5 kg", "session 2026-11-03 lift: as given", below=both)) == 5


def test_a_step_of_repetitions() -> None:
    found = lifted("5 kg", "session 2026-11-03 lift: as given, pain 1", below=("add 2 reps when pain <= 2",))
    assert "Decimal('12')" in str(found.items[0].dose.volume)


def test_a_step_in_pounds() -> None:
    """5 kg and 5 lb are 7.267 kg (1 lb = 0.45359237 kg, 1959); the clinic has 5 and 7.5."""
    found = lifted("5 kg", "session 2026-11-03 lift: as given, pain 1", below=("add 5 lb when pain <= 2",))
    assert found.items[0].load is not None
    assert found.items[0].load.exact == Decimal("7.26796185")
    assert kilograms(found) == 5


def test_steps_begin_anew_in_a_level() -> None:
    climb = "progression climb\n  down when pain > 5\n  up when heel raises >= 5 on each side\n"
    climb += "  level lift\n  level lift more\n"
    more = exercise("lift more", "add 2.5 kg when pain <= 2", dose="3 x 10, load 5 kg, daily")
    text = protocol_text(exercise("lift", *ADD, dose="3 x 10, load 5 kg, daily") + more + climb, "give climb")
    lines = "session 2026-11-03 to 2026-11-05 climb: as given, pain 1\non 2026-11-06\n  heel raises: left 9, right 9"
    up = plan(text, case_text(f"{lines}\n  pain: 1"))
    assert [one.split()[1] for one in moves(up)] == ["start", "add", "up"]
    assert (up.items[0].exercise.name, kilograms(up)) == ("lift more", Decimal(5))
    down = plan(text, case_text(f"{lines}\n  pain: 1\nsession 2026-11-07 climb: as given, pain 7"))
    assert (down.items[0].exercise.name, kilograms(down)) == ("lift", Decimal(5))


# The daily adjustable table: Knight KL. Am J Sports Med 1979;7:336-337, with the rows written here for the test.
DAILY = (
    "adjust load by reps in set 3, for set 4",
    "  0 to 4: take off 5 kg",
    "  5 to 7: same load",
    "  8 or more: add 5 kg",
    "adjust load by reps in set 4, for next session",
    "  0 to 4: take off 2.5 kg",
    "  5 to 7: same load",
    "  8 or more: add 2.5 kg",
)


def test_the_next_load_follows_from_the_set_and_its_own_adjustment() -> None:
    for counts, next_load in (("10 then 6 then 6 then 6", 10), ("10 then 6 then 8 then 6", 15),
                              ("10 then 6 then 8 then 8", Decimal("17.5")), ("10 then 6 then 3 then 5", 5),
                              ("10 then 6 then 6 then 2", Decimal("7.5"))):  # fmt: skip
        lift = exercise("lift", *DAILY, dose="4 x to fatigue, load 10 kg, daily")
        found = plan(
            protocol_text(lift, "give lift"), case_text(f"session 2026-11-03 lift: {counts}, load 10 kg, pain 1")
        )
        assert found.items[0].load is not None
        assert found.items[0].load.exact == next_load, counts


# Focus.


def focus(*lines: str, better: str = "", side: str = "") -> tuple[str | None, list[str]]:
    """The side worked on more, and what is asked."""
    test = f"test balance: Balance.\n  answer s from 0 to 60, each side\n  fresh for 4 weeks\n{better}"
    lift = exercise("lift", "focus weaker side by balance, 1 extra set")
    found = plan(protocol_text(test + lift, "give lift"), case_text("\n".join((*lines, side))))
    chosen = found.items[0].focus
    return chosen.side if chosen else None, [one.finding for one in found.questions]


def test_the_weaker_side_whichever_side_hurts() -> None:
    values = "on 2026-11-02\n  balance: left 12 s, right 20 s"
    assert focus(values) == ("left", [])
    assert focus(values, side="side left") == ("left", [])
    assert focus(values, better="  better lower\n") == ("right", [])
    assert focus(values, side="side none") == ("left", [])


def test_equal_or_unknown_is_no_focus_and_is_asked() -> None:
    assert focus("on 2026-11-02\n  balance: left 12 s, right 12 s") == (None, ["balance"])
    assert focus("on 2026-11-02\n  balance: left 12 s") == (None, ["balance"])


def test_extra_sets_take_time() -> None:
    lift = exercise("lift", "focus weaker side by heel raises, 1 extra set", dose="3 x 60 s, daily")
    text = protocol_text(lift, "give lift")
    assert plan(text, case_text("")).items[0].minutes == 3
    assert plan(text, case_text("on 2026-11-02\n  heel raises: left 2, right 4")).items[0].minutes == 4


# The period.


def test_the_period_ends_the_day_before_the_next_visit_else_after_fourteen_days() -> None:
    text = protocol_text(exercise("lift"), "give lift")
    found = plan(text, case_text("next visit 2026-11-09"))
    assert (found.first, found.last) == (date(2026, 11, 2), date(2026, 11, 8))
    assert len(found.items[0].dates) == 7
    found = plan(text, case_text(""))
    assert (found.last - found.first).days == 13
    found = plan(text, case_text("next visit 2026-11-01"))
    assert (found.last - found.first).days == 13


def test_days_are_spread_and_minutes_compared_with_the_budget() -> None:
    lift = exercise("lift", "works calf", dose="3 x 60 s, load 5 kg, rest 60 s, 3 days a week, rest day between")
    text = protocol_text(lift + exercise("walk", dose="10 min, daily"), "budget 12 min a day\ngive lift\ngive walk")
    found = plan(text, case_text(""))
    assert [item.days for item in found.items] == [(0, 2, 4), (0, 1, 2, 3, 4, 5, 6)]
    assert [(int(day.minutes), day.over_budget) for day in found.week[:2]] == [(15, True), (10, False)]


def test_what_cannot_be_timed_is_named_and_left_out() -> None:
    text = protocol_text(exercise("lift", dose="3 x to fatigue, daily"), "give lift")
    day = plan(text, case_text("")).week[0]
    assert (int(day.minutes), day.untimed) == (0, ("lift",))


def test_later_doses_of_the_period() -> None:
    table = exercise("table", "dose week 1: 2 x 5", "dose week 2: 3 x 5", dose="daily")
    found = plan(protocol_text(table, "give table"), case_text("next visit 2026-11-30"))
    (item,) = found.items
    assert [(str(one.date), one.week, one.dose is None) for one in item.later] == [
        ("2026-11-09", 2, False),
        ("2026-11-16", 3, True),
    ]
    assert max(item.dates) == date(2026, 11, 15)


def test_a_dose_for_some_weeks_ends() -> None:
    short = exercise("table", dose="3 x 5, daily, for 2 weeks")
    text = protocol_text(short, "give table")
    assert len(plan(text, case_text(""), "15").items) == 1
    ended = plan(text, case_text(""), "16")
    assert not ended.items
    assert ended.not_given[0].reasons[-1].kind == "dose ended"


def test_an_adjustment_rises_only_where_nothing_leads_back_and_falls_always() -> None:
    """Of two sessions on a date the lower load stands; an unknown `take off` holds what would rise."""
    line = "session 2026-11-03 lift: {}, load 10 kg, pain {}"
    rules = (*DAILY[4:], "take off 1 kg when pain next morning > 5")
    lift = exercise("lift", *rules, dose="4 x to fatigue, load 10 kg, daily")
    text = protocol_text(lift, "give lift")

    def exact(*lines: str) -> Decimal | None:
        load = plan(text, case_text("\n".join(lines))).items[0].load
        return load.exact if load else None

    good, bad = "10 then 8 then 8 then 8", "10 then 6 then 6 then 2"
    assert exact(line.format(good, "1, pain next morning 1")) == Decimal("12.5")
    assert exact(line.format(good, "1")) == 10
    assert exact(line.format(bad, "1")) == Decimal("7.5")
    both = (line.format(good, "1, pain next morning 1"), line.format(bad, "1, pain next morning 1"))
    assert exact(*both) == Decimal("7.5")
