"""Published programmes written in the language, and their published totals."""

from __future__ import annotations

from decimal import Decimal

import pytest

from protodsl.dose.adjust import adjusted, gaps, overlaps
from protodsl.dose.totals import day, session, week
from protodsl.model.dose import Dosage, Dose, Range
from protodsl.model.dosing import dose_of
from tests.evidence.rows import oracle, table
from tests.support import dosage, dose


def high(value: Range | None) -> Decimal:
    """The upper end, which published totals print."""
    assert value is not None
    return value.high


def weekly(programme: Dosage, weeks: int) -> list[Dose]:
    """The dose of each week."""
    return [dose_of(number, (programme,)) for number in range(1, weeks + 1)]


def test_eccentric_heel_drops() -> None:
    """Alfredson H et al. Am J Sports Med 1998;26:360-366: two exercises, 3 x 15, twice a day, every day, 12 weeks."""
    drop = dose("3 x 15, affected side, twice a day, daily")
    assert 2 * high(day(drop).repetitions) == Decimal(oracle("02_protocol_totals", "ecc_day"))
    assert 2 * high(week(drop).repetitions) == Decimal(oracle("02_protocol_totals", "ecc_week"))
    assert 2 * 12 * high(week(drop).repetitions) == Decimal(oracle("02_protocol_totals", "ecc_12wk"))


HEAVY_SLOW = (
    "dose lift 3 s, lower 3 s, rest 3 min, 3 days a week",
    "dose week 1: 3 x 15, load 15RM",
    "dose weeks 2 to 3: 3 x 12, load 12RM",
    "dose weeks 4 to 5: 4 x 10, load 10RM",
    "dose weeks 6 to 8: 4 x 8, load 8RM",
    "dose weeks 9 to 12: 4 x 6, load 6RM",
)


def test_heavy_slow_resistance() -> None:
    """Beyer R et al. Am J Sports Med 2015;43:1704-1711; weeks 6 to 8 from a secondary copy."""
    doses = weekly(dosage(*HEAVY_SLOW), 12)
    sessions = [high(session(one).repetitions) for one in doses]
    for number, first_week in enumerate((1, 2, 4, 6, 9), 1):
        assert sessions[first_week - 1] == Decimal(oracle("02_protocol_totals", f"hsr_sess_{number}"))
    assert sum(high(week(one).repetitions) for one in doses) == Decimal(oracle("02_protocol_totals", "hsr_12wk"))
    assert high(session(doses[0]).tension) == Decimal(oracle("02_protocol_totals", "hsr_tut_w1"))


NORDIC = (
    "dose week 1: 2 x 5, once a day, 1 day a week",
    "dose week 2: 2 x 6, 2 days a week",
    "dose week 3: 3 x 6 to 8, 3 days a week",
    "dose week 4: 3 x 8 to 10, 3 days a week",
    "dose weeks 5 to 10: 12 then 10 then 8, 3 days a week",
)


def test_nordic_hamstring_programme() -> None:
    """Petersen J et al. Am J Sports Med 2011;39:2296-2303: 27 sessions in ten weeks.

    The repetitions of week 4 are known from memory only, so only the sessions are an oracle here.
    """
    doses = weekly(dosage(*NORDIC), 10)
    sessions = [week(one).sets.high / session(one).sets.high for one in doses]
    assert sum(sessions) == Decimal(oracle("02_protocol_totals", "nordic_sessions"))


ADDUCTOR = (
    "2 x 6, hold 20 s",
    "2 x 6, hold 20 s",
    "3 x 6, hold 20 s",
    "3 x 8, hold 20 s",
    "3 x 8, hold 20 s",
    "3 x 6, lift 3 s, lower 3 s",
    "3 x 8, lift 3 s, lower 3 s",
    "3 x 10, lift 3 s, lower 3 s",
)


@pytest.mark.parametrize("number", range(1, 9))
def test_adductor_progression_time_under_tension(number: int) -> None:
    """BMJ Open Sport Exerc Med, table 1 of the modified progressive adductor programme; each leg, a session."""
    tension = session(dose(f"{ADDUCTOR[number - 1]}, each side")).tension
    assert high(tension) == Decimal(oracle("02_protocol_totals", f"copen_tut_w{number}"))


# Sets of 6 at 6 s, 6 at 2 s, 18 at 6 s, 18 at 2 s, as in the rows loadit_g1 to g4; rests of 2 min.
ISOMETRIC = {
    1: "4 x 6, lift 3 s, lower 3 s",
    2: "4 x 6, lift 1 s, lower 1 s",
    3: "4 x 18, lift 3 s, lower 3 s",
    4: "4 x 18, lift 1 s, lower 1 s",
}


def minutes(text: str) -> Decimal:
    """Seconds of a printed `minutes:seconds`."""
    whole, rest = text.split(":")
    return Decimal(whole) * 60 + Decimal(rest)


@pytest.mark.parametrize("group", ISOMETRIC)
def test_calf_loading_trial_times(group: int) -> None:
    """Calf loading trial protocol, Pilot Feasibility Stud 2020, table 1, s40814-020-00639-5 (CC BY): two exercises."""
    one = session(dose(f"{ISOMETRIC[group]}, rest 2 min, 3 days a week, rest day between"))
    assert high(one.tension) / 4 == Decimal(oracle("02_protocol_totals", f"loadit_set_g{group}"))
    assert 2 * high(one.tension) == Decimal(oracle("02_protocol_totals", f"loadit_tot_g{group}"))
    printed = table("02_protocol_totals")[f"loadit_sess_g{group}"]
    if group == 3:
        assert printed["status"] == "conflict"
        assert 2 * high(one.seconds) != minutes(printed["value"]), "the printed time contradicts its own numbers"
        assert 2 * high(one.seconds) == minutes(oracle("02_protocol_totals", "loadit_sess_g3_true"))
    else:
        assert 2 * high(one.seconds) == minutes(oracle("02_protocol_totals", f"loadit_sess_g{group}"))


HAMSTRING_TABLES = {
    "alonso": (
        "dose weeks 1 to 2: 2 x 6, 2 days a week",
        "dose weeks 3 to 4: 3 x 4 to 6, 3 days a week",
        "dose weeks 5 to 6: 3 x 8, 3 days a week",
        "dose weeks 7 to 8: 3 x 10, 3 days a week",
    ),
    "alt": ("dose weeks 1 to 4: 3 x 3, 3 days a week",),
    "anastasi": (
        "dose weeks 1 to 2: 3 x 6, 3 days a week",
        "dose weeks 3 to 4: 3 x 7, 3 days a week",
        "dose weeks 5 to 7: 3 x 8, 3 days a week",
        "dose weeks 8 to 10: 3 x 10, 3 days a week",
    ),
    "clark": (
        "dose week 1: 2 x 5, 1 day a week",
        "dose week 2: 2 x 6, 2 days a week",
        "dose week 3: 3 x 6, 3 days a week",
        "dose week 4: 3 x 8, 3 days a week",
    ),
    "delahunt": (
        "dose week 1: 2 x 5, 1 day a week",
        "dose week 2: 2 x 6, 2 days a week",
        "dose week 3: 3 x 6, 3 days a week",
        "dose week 4: 3 x 8, 3 days a week",
        "dose weeks 5 to 6: 12 then 10 then 8, 3 days a week",
    ),
    "freeman": (
        "dose week 1: 2 x 5, 2 days a week",
        "dose week 2: 3 x 4, 2 days a week",
        "dose week 3: 3 x 5, 2 days a week",
        "dose week 4: 3 x 6, 2 days a week",
    ),
}


@pytest.mark.parametrize("study", HAMSTRING_TABLES)
def test_hamstring_programmes_of_a_review(study: str) -> None:
    """Cuthbert M et al. Sports Med 2020;50:83-99, table 2: totals printed from the upper end of a range."""
    lines = HAMSTRING_TABLES[study]
    weeks = {"alonso": 8, "alt": 4, "anastasi": 10, "clark": 4, "delahunt": 6, "freeman": 4}[study]
    total = sum(high(week(one).repetitions) for one in weekly(dosage(*lines), weeks))
    assert total == Decimal(oracle("02_protocol_totals", f"cuth_{study}_total"))


def test_three_sets_of_half_three_quarters_and_whole() -> None:
    """DeLorme TL, Watkins AL 1948: 10 times at 50, 75 and 100 % of the 10RM; with 40 kg that is 20, 30 and 40 kg."""
    sets = dosage(
        "dose 3 x 10, 3 days a week",
        "set 1: 10 reps, load 50 % of 10RM",
        "set 2: 10 reps, load 75 % of 10RM",
        "set 3: 10 reps, load 100 % of 10RM",
    ).sets
    shares = [row.dose.load.percent for row in sets if row.dose.load is not None]
    assert [Decimal(40) * share / 100 for share in shares if share is not None] == [20, 30, 40]
    assert "20, 30, 40 kg" in table("01_dose")["pre_delorme"]["note"]


def test_oxford_technique_is_the_same_downwards() -> None:
    """Zinovieff AN 1951; the direction is confirmed by Fish DE et al. Am J Phys Med Rehabil 2003;82:903-909.

    The percentages are known from memory only, so the check is that they are the exact reversal.
    """
    sets = dosage(
        "dose 3 x 10, 3 days a week",
        "set 1: 10 reps, load 100 % of 10RM",
        "set 2: 10 reps, load 75 % of 10RM",
        "set 3: 10 reps, load 50 % of 10RM",
    ).sets
    shares = [row.dose.load.percent for row in sets if row.dose.load and row.dose.load.percent]
    assert len(shares) == 3
    assert shares == sorted(shares, reverse=True)


# Knight KL. Am J Sports Med 1979;7:336-337 and 1985. The lower end of each printed step; row 3 to 4 is from memory.
NEXT_SESSION = (
    "0 to 2: take off 2.5 kg",
    "3 to 4: same load",
    "5 to 6: add 2.5 kg",
    "7 to 10: add 2.5 kg",
    "11 or more: add 5 kg",
)


def knight(*rows: str) -> Dosage:
    """The third-set table as adjust lines."""
    return dosage(
        "dose 4 x 6, load 20 kg, 3 days a week",
        "adjust load by reps in set 3, for next session\n    " + "\n    ".join(rows),
    )


def test_daily_adjustable_table() -> None:
    """Each confirmed row of the table moves the next session's load by the step it prints."""
    adjust = knight(*NEXT_SESSION).adjusts[0]
    for repetitions, row, step in (
        (0, "dapre_s3_0_2", "-2.5"),
        (6, "dapre_s3_5_6", "2.5"),
        (7, "dapre_s3_7_10", "2.5"),
        (11, "dapre_s3_11", "5"),
    ):
        assert oracle("01_dose", row)
        assert adjusted(adjust, repetitions, Decimal(20)) == 20 + Decimal(step)
    assert gaps(adjust) == ()
    assert overlaps(adjust) == ()


def test_a_published_copy_forgets_eleven() -> None:
    """A copy of the table prints 7 to 10, then more than 11: exactly 11 repetitions fall in no row."""
    assert table("01_dose")["dapre_gap_text"]["status"] == "conflict"
    adjust = knight(*NEXT_SESSION[:4], "12 or more: add 5 kg").adjusts[0]
    assert gaps(adjust) == ((11, 11),)
    assert adjusted(adjust, 11, Decimal(20)) is None


def test_until_tired_is_a_dose_without_a_total() -> None:
    """Common practice, no source: until tired can be written, and makes no total of repetitions and no minutes."""
    totals = day(dose("3 x to fatigue, daily"))
    assert totals.repetitions is None
    assert totals.seconds is None
    assert totals.sets.high == 3
