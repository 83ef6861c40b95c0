"""How much each kind of demand counts, and the positions that are alike in something."""

from __future__ import annotations

# Weights in 1/cm: an equality that is kept; a foot that stays where it was; what merely rests; what is only a wish.
FIRM, STAYS, RESTS, WISH, LOOSE = 60.0, 20.0, 0.5, 0.5, 0.3
# What lay on a limb and still does: where it was on it; where it slides, on the same side of it.
SAME_PLACE, SAME_SIDE = 1.5, 0.15
# How far a lifted part is at least from what it lay on, in cm: where angles say the rest, and where nothing else does.
CLEAR, CLEARLY = 3.0, 12.0
UPRIGHT: tuple[str, ...] = ("standing", "sitting", "long sitting", "kneeling", "half-kneeling")
# Forward is where the head points.
HEADWARDS: tuple[str, ...] = ("lying face down", "on all fours")
# Nothing but the base of support keeps a person from falling.
CAN_FALL: tuple[str, ...] = ("standing", "kneeling", "half-kneeling")
