"""A line to be added to a case, as it was asked for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Addition:
    """A line to add on a date, and the lines under it; `joins`: these may go under an `on` line that stands there."""

    day: date
    head: str
    under: tuple[str, ...] = ()
    joins: bool = False

    @property
    def facts(self) -> int:
        """How many facts it adds: each answer of a day is one, a line with its reason is one."""
        return len(self.under) if self.joins else 1
