"""The linear programme, against problems worked out by hand and against scipy's solver."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from protodsl.figure.load.simplex import Tableau

NUMBERS = st.integers(-6, 6).map(float)


def test_the_corner_of_a_triangle() -> None:
    """x + y + z = 4 with all at least 0: x + 2y is least at (0, 0, 4) and most at (0, 4, 0)."""
    one = Tableau([[1.0, 1.0, 1.0]], [4.0])
    assert one.least([1.0, 2.0, 0.0]) == pytest.approx(0.0)
    assert -one.least([-1.0, -2.0, 0.0]) == pytest.approx(8.0)


def test_a_problem_with_two_limits() -> None:
    """Worked by hand: 3x + 5y is most under x <= 4, 2y <= 12, 3x + 2y <= 18 at (2, 6), where it is 36."""
    rows = [[1.0, 0.0, 1.0, 0.0, 0.0], [0.0, 2.0, 0.0, 1.0, 0.0], [3.0, 2.0, 0.0, 0.0, 1.0]]
    one = Tableau(rows, [4.0, 12.0, 18.0])
    assert -one.least([-3.0, -5.0, 0.0, 0.0, 0.0]) == pytest.approx(36.0)
    assert one.point() == pytest.approx([2.0, 6.0, 2.0, 0.0, 0.0])


def test_what_cannot_be_and_what_has_no_bottom() -> None:
    assert not Tableau([[1.0, 1.0]], [-1.0]).feasible
    assert not Tableau([[1.0, 1.0], [1.0, 1.0]], [1.0, 2.0]).feasible
    open_below = Tableau([[1.0, -1.0]], [0.0])
    assert open_below.feasible and open_below.least([-1.0, 0.0]) == -inf


def test_a_row_that_says_nothing_new_is_no_hindrance() -> None:
    one = Tableau([[1.0, 1.0, 0.0], [2.0, 2.0, 0.0], [0.0, 0.0, 0.0]], [3.0, 6.0, 0.0])
    assert one.feasible and one.least([0.0, 1.0, 1.0]) == pytest.approx(0.0)


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_scipy_finds_the_same(data: st.DataObject) -> None:
    optimize = pytest.importorskip("scipy.optimize")
    columns, rows = data.draw(st.integers(1, 7)), data.draw(st.integers(1, 4))
    matrix = data.draw(st.lists(st.lists(NUMBERS, min_size=columns, max_size=columns), min_size=rows, max_size=rows))
    right = data.draw(st.lists(NUMBERS, min_size=rows, max_size=rows))
    cost = data.draw(st.lists(NUMBERS, min_size=columns, max_size=columns))
    theirs = optimize.linprog(cost, A_eq=matrix, b_eq=right, bounds=(0, None), method="highs")
    ours = Tableau(matrix, right)
    if theirs.status == 0:
        assert ours.feasible and ours.least(cost) == pytest.approx(theirs.fun, abs=1e-6)
    elif theirs.status == 2:
        assert not ours.feasible
    elif theirs.status == 3:
        assert ours.feasible and ours.least(cost) == -inf
