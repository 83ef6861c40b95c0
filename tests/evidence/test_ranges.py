"""The numbers that the checks hold a protocol to are those of their published source."""

from __future__ import annotations

from decimal import Decimal

import pytest

from protodsl.check.dose.out_of_the_ordinary import DAYS
from protodsl.check.safety.normal_ranges import NORMAL_RANGES
from protodsl.model.lists import MOVEMENTS
from tests.evidence.rows import oracle, table
from tests.unit.check.saying import exercise, messages, protocol


def row_of(joint: str, movement: str, source: str) -> str:
    """The id of a row: va_wrist_radial_deviation."""
    return f"{source}_{joint}_{movement.replace(' ', '_')}"


@pytest.mark.parametrize(("joint", "movement"), NORMAL_RANGES)
def test_normal_range_of_motion(joint: str, movement: str) -> None:
    """38 CFR 4.71, plates I and II, and 4.71a: normal ranges of motion, in degrees from the neutral position."""
    assert NORMAL_RANGES[joint, movement] == Decimal(oracle("05_rom", row_of(joint, movement, "va")))


def test_every_published_range_is_used_and_each_is_a_movement_of_the_language() -> None:
    published = {id for id in table("05_rom") if id.startswith("va_")}
    assert published == {row_of(joint, movement, "va") for joint, movement in NORMAL_RANGES}
    assert all(movement in MOVEMENTS[joint] for joint, movement in NORMAL_RANGES)


def test_a_second_table_agrees_where_it_is_known() -> None:
    """American Academy of Orthopaedic Surgeons. Joint motion: method of measuring and recording. 1965."""
    for joint, movement in NORMAL_RANGES:
        id = row_of(joint, movement, "aaos")
        if id in table("05_rom"):
            assert NORMAL_RANGES[joint, movement] == Decimal(oracle("05_rom", id))


@pytest.mark.parametrize(("joint", "movement"), NORMAL_RANGES)
def test_the_end_of_the_range_is_in_it(joint: str, movement: str) -> None:
    """At the end of the range nothing is said; one degree further it is."""
    end = NORMAL_RANGES[joint, movement]
    for to, said in ((end, 0), (end + 1, 1)):
        text = exercise("heel raise", f"moves active {joint} {movement} to {to} deg") + protocol("give heel raise")
        assert len(messages(text, "S607")) == said


def test_days_of_heavy_training() -> None:
    """American College of Sports Medicine. Med Sci Sports Exerc 2009;41:687-708: 2-3, 3-4 and 4-5 days a week."""
    ranges = oracle("01_dose", "acsm_freq_nov").split(" / ")
    ends = [Decimal(end) for written in ranges for end in written.split("-")]
    assert (DAYS.low, DAYS.high) == (min(ends), max(ends))


@pytest.mark.parametrize("repetitions", range(1, 13))
def test_repetitions_that_a_share_of_the_maximum_allows(repetitions: int) -> None:
    """Load chart of the National Strength and Conditioning Association; charts differ by up to 2 % (its own note)."""
    percent = int(oracle("01_dose", f"pct_nsca_{repetitions}"))
    for share, said in ((percent, 0), (percent + 2, 0), (percent + 3, 1)):
        dose = f"dose 3 x {repetitions}, load {share} % of 1RM, 3 days a week"
        assert len(messages(exercise(dose=dose) + protocol("give heel raise"), "D708")) == said


def test_the_gap_of_a_printed_table() -> None:
    """Knight KL. Am J Sports Med 1979;7:336-337, and 1985: a printed copy goes from "7-10" to "more than 11"."""
    assert table("01_dose")["dapre_gap_text"]["value"] == "11 unassigned"
    rows = ("0 to 2: take off 2.5 kg", "3 to 4: take off 1 kg", "5 to 6: same load", "7 to 10: add 2.5 kg")
    adjust = ("adjust load by reps in set 3, for set 4", *(f"  {row}" for row in rows), "  12 or more: add 5 kg")
    text = exercise("knee lift", *adjust, dose="dose 4 x to fatigue, load 10 kg, daily") + protocol("give knee lift")
    assert messages(text, "R507") == ["nothing is said of 11 repetitions"]
    assert messages(text.replace("12 or more", "11 or more"), "R507") == []
