"""The hull of what carries, and how far inside it a point is: worked out by hand."""

import pytest

from protodsl.figure.solve.base_of_support import hull, inside_hull

SQUARE = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (2.0, 2.0), (1.0, 3.0)]


def test_the_hull_leaves_out_what_lies_inside() -> None:
    assert set(hull(SQUARE)) == {(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)}


@pytest.mark.parametrize(
    ("point", "margin"),
    [((2.0, 2.0), 2.0), ((3.5, 2.0), 0.5), ((5.0, 2.0), -1.0), ((7.0, 8.0), -5.0), ((0.0, 1.0), 0.0)],
)
def test_the_margin_is_the_way_to_the_nearest_edge(point: tuple[float, float], margin: float) -> None:
    """3, 4, 5 from a corner; half a centimetre from an edge."""
    assert inside_hull(point, hull(SQUARE)) == pytest.approx(margin)


def test_a_line_and_a_point_carry_nobody() -> None:
    assert inside_hull((1.0, 1.0), hull([(0.0, 0.0), (2.0, 0.0)])) == pytest.approx(-1.0)
    assert inside_hull((3.0, 4.0), hull([(0.0, 0.0)])) == pytest.approx(-5.0)
