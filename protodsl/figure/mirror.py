"""For which side a figure is drawn: it is written for the right, and turned round for whoever needs the left."""

from __future__ import annotations

from protodsl.model.figure import Figure
from protodsl.model.figure_sides import names_a_side

EACH = "each"


def is_mirrored(figure: Figure, dose_sides: str | None, affected: str | None) -> bool:
    """Whether a figure is drawn for the left.

    `affected` is the (worse) affected side of the person, None where there is none or nobody is meant; `dose_sides` as
    in the dose that is printed. The language that is read has no part in it: left stays left.
    """
    return affected == "left" and dose_sides != EACH and names_a_side(figure)


def shown_side(figure: Figure, dose_sides: str | None, affected: str | None) -> str | None:
    """The side that a reader has to be told is drawn, because it may not be theirs; None where that is settled."""
    if not names_a_side(figure) or (affected is not None and dose_sides != EACH):
        return None
    return "right"
