"""The heaviest load for one repetition (1RM), predicted from a lighter one by published equations, and back again.

Equations as compiled by LeSuer DA, McCormick JH, Mayhew JL, Wasserstein RL, Arnold MD. The accuracy of prediction
equations for estimating 1-RM performance. J Strength Cond Res 1997;11:211-213.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from types import MappingProxyType

# Linear equations are not valid past this (Reynolds JM, Gordon TJ, Robergs RA. J Strength Cond Res 2006;20:584-592).
MOST_REPETITIONS = 12

_Ratio = Callable[[Decimal], Decimal]


def _exp(value: Decimal) -> Decimal:
    return Decimal(repr(math.exp(float(value))))


# 1RM divided by the load lifted r times to failure.
EQUATIONS: Mapping[str, _Ratio] = MappingProxyType(
    {
        "epley": lambda r: 1 + r / 30,
        "brzycki": lambda r: 36 / (37 - r),
        "lander": lambda r: 100 / (Decimal("101.3") - Decimal("2.67123") * r),
        "lombardi": lambda r: Decimal(repr(float(r) ** 0.1)),
        "mayhew": lambda r: 100 / (Decimal("52.2") + Decimal("41.9") * _exp(Decimal("-0.055") * r)),
        "oconner": lambda r: 1 + Decimal("0.025") * r,
        "wathan": lambda r: 100 / (Decimal("48.8") + Decimal("53.8") * _exp(Decimal("-0.075") * r)),
    }
)

# Percent of 1RM that can be lifted n times; general load chart of the National Strength and Conditioning Association
# (Baechle TR, Earle RW, eds. Essentials of Strength Training and Conditioning). Other charts differ by up to 2 %.
PERCENT_OF_1RM: Mapping[int, int] = MappingProxyType(
    {1: 100, 2: 95, 3: 93, 4: 90, 5: 87, 6: 85, 7: 83, 8: 80, 9: 77, 10: 75, 11: 73, 12: 70}
)


def predicted(equation: str, weight: Decimal, repetitions: int) -> Decimal:
    """1RM in the unit of `weight` as the bare equation gives it; KeyError for an unknown equation.

    ValueError for fewer than 1 or more than MOST_REPETITIONS repetitions: two equations have a pole near 37.
    """
    if not 1 <= repetitions <= MOST_REPETITIONS:
        raise ValueError(f"{repetitions} repetitions predict no 1RM; 1 to {MOST_REPETITIONS} do")
    return weight * EQUATIONS[equation](Decimal(repetitions))


def one_rep_max(equation: str, weight: Decimal, repetitions: int) -> Decimal:
    """1RM in the unit of `weight`; what was lifted once to failure *is* the 1RM, though five equations say more."""
    return weight if repetitions == 1 else predicted(equation, weight, repetitions)


def load_for(equation: str, maximum: Decimal, repetitions: int) -> Decimal:
    """The load that can be lifted `repetitions` times (nRM) from a 1RM, in its unit; the equation turned round."""
    if repetitions == 1:
        return maximum
    return maximum / predicted(equation, Decimal(1), repetitions)


def to_available(load: Decimal, weights: Sequence[Decimal]) -> Decimal:
    """The heaviest of the clinic's weights not above `load`, or `load` itself where the clinic lists none.

    Always rounded down: the lighter load is the safe one. Where all are heavier the answer is 0.
    """
    if not weights:
        return load
    return max((weight for weight in weights if weight <= load), default=Decimal(0))
