"""1RM equations and the table of percentages against their published constants and worked values."""

from __future__ import annotations

from decimal import Decimal

import pytest

from protodsl.dose.one_rep_max import (
    EQUATIONS,
    PERCENT_OF_1RM,
    load_for,
    one_rep_max,
    predicted,
    to_available,
)
from tests.evidence.rows import oracle, table

WORKED = [(equation, repetitions) for equation in EQUATIONS for repetitions in (1, 2, 3, 5, 8, 10, 12)]


@pytest.mark.parametrize(("equation", "repetitions"), WORKED)
def test_worked_values(equation: str, repetitions: int) -> None:
    """Epley 1985, Brzycki 1993, Lander 1985, Lombardi 1989, Mayhew 1992, O'Conner 1989 and Wathan 1994.

    As compared by LeSuer DA et al. J Strength Cond Res 1997;11:211-213; values in closed form from their constants.
    """
    expected = Decimal(oracle("01_dose", f"rm_{equation}_100x{repetitions}"))
    assert abs(predicted(equation, Decimal(100), repetitions) - expected) <= Decimal("0.01")


def test_all_seven_equations_have_a_published_formula() -> None:
    """No equation is shipped that the evidence does not name, and none of the seven is missing."""
    named = {id.split("_")[1] for id in table("01_dose") if id.startswith("rm_") and id.endswith("_formula")}
    assert set(EQUATIONS) == named


def test_one_repetition_is_the_maximum_itself() -> None:
    """Five of seven equations do not give the load back at one repetition; a person lifted just that."""
    for equation in EQUATIONS:
        assert one_rep_max(equation, Decimal(100), 1) == 100
        assert load_for(equation, Decimal(100), 1) == 100


@pytest.mark.parametrize("repetitions", [0, 13, 37, 38])
def test_past_their_range_the_equations_are_refused(repetitions: int) -> None:
    """Brzycki has a pole at 37 and Lander near 37.9; linear equations hold to about 10 (Reynolds 2006)."""
    for equation in EQUATIONS:
        with pytest.raises(ValueError, match="repetitions"):
            predicted(equation, Decimal(100), repetitions)


@pytest.mark.parametrize("equation", EQUATIONS)
@pytest.mark.parametrize("repetitions", range(1, 13))
def test_load_and_maximum_undo_each_other(equation: str, repetitions: int) -> None:
    """What nRM gives as a load, the equation predicts back to the 1RM."""
    load = load_for(equation, Decimal(80), repetitions)
    assert abs(one_rep_max(equation, load, repetitions) - 80) < Decimal("0.000001")


@pytest.mark.parametrize("repetitions", range(1, 13))
def test_table_of_percentages(repetitions: int) -> None:
    """The general load chart of the National Strength and Conditioning Association."""
    assert PERCENT_OF_1RM[repetitions] == int(oracle("01_dose", f"pct_nsca_{repetitions}"))


def test_printed_uses_of_the_percentages() -> None:
    """Worked uses printed beside the chart: 365 as a 4RM, 275 nine times, and the chart cell 250 at 93 %."""
    assert round(Decimal(365) * 100 / PERCENT_OF_1RM[4], 1) == Decimal(oracle("01_dose", "pct_load_365x4"))
    assert round(Decimal(275) * 100 / PERCENT_OF_1RM[9], 1) == Decimal(oracle("01_dose", "pct_load_275x9"))
    assert Decimal(250) * PERCENT_OF_1RM[3] / 100 == Decimal(oracle("01_dose", "rounding_pct"))


def test_rounding_never_goes_up() -> None:
    """The clinic's weights are rounded down to; below the lightest there is none (a rule of the project's own)."""
    weights = (Decimal(1), Decimal("2.5"), Decimal(5))
    assert to_available(Decimal("4.99"), weights) == Decimal("2.5")
    assert to_available(Decimal(5), weights) == 5
    assert to_available(Decimal("0.5"), weights) == 0
    assert to_available(Decimal("3.7"), ()) == Decimal("3.7")
