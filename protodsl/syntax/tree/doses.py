"""The parts of a dose, each as it stands between two commas."""

from __future__ import annotations

from decimal import Decimal

from protodsl.frozen import frozen
from protodsl.syntax.tree.base import Amount, Name, Node, Range


@frozen
class Sets(Node):
    """`3 x 12`, `3 x 8 to 12`, `3 x 30 s`; `amount` None is `to fatigue`; `unit` None is repetitions.

    `sets` None is an amount alone: `12 reps`, `20 min`, `400 m`, `to fatigue`.
    """

    sets: Range | None
    amount: Range | None
    unit: str | None = None


@frozen
class SetsOf(Node):
    """`12 then 10 then 8`: repetitions of each set."""

    counts: tuple[int, ...]


@frozen
class Leg(Node):
    """`4 min walk` inside intervals."""

    amount: Amount
    activity: Name


@frozen
class Intervals(Node):
    """`5 x (4 min walk + 1 min run)`."""

    rounds: Range
    legs: tuple[Leg, ...]


@frozen
class Timing(Node):
    """`lift 2 s`, `hold 2 to 5 s`, `lower 3 s`; `seconds` None is `until settled`."""

    phase: str
    seconds: Range | None


@frozen
class Rest(Node):
    """`rest 60 s`, `rest 2 min`; `amount` None is `until settled`."""

    amount: Range | None
    unit: str | None = None


@frozen
class Sides(Node):
    """`each side` (which = each) or `affected side` (which = affected)."""

    which: str


@frozen
class Load(Node):
    """`load 5 kg`, `load 70 % of 1RM`, `load 8RM`, `load light band`, `load body weight + 5 kg`.

    `percent` with `of` (a finding or `1RM`); `maximum` is n of nRM; `name` with or without `amount`; else `amount`.
    """

    amount: Amount | None = None
    percent: Decimal | None = None
    of: Name | None = None
    maximum: int | None = None
    name: Name | None = None
    up_to: Amount | None = None


@frozen
class Effort(Node):
    """`effort 6 to 7` (form effort) or `2 reps in reserve` (form reserve)."""

    form: str
    amount: Range


@frozen
class Often(Node):
    """How often: form is daily, hourly, every hours, every other day, times a day, days a week, rest day between."""

    form: str
    amount: Range | None = None


@frozen
class Supervised(Node):
    """`1 supervised` inside a dose."""

    count: int


@frozen
class Lasting(Node):
    """`for 6 weeks` inside a dose."""

    amount: Amount


DosePart = Sets | SetsOf | Intervals | Timing | Rest | Sides | Load | Effort | Often | Supervised | Lasting
