"""What a stage returns: maybe a value, and always what it has to say."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic, TypeVar

from protodsl.diagnostics.diagnostic import Diagnostic

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Outcome(Generic[T]):
    """A value, or None where the input allowed none, with the diagnostics met on the way."""

    value: T | None
    diagnostics: tuple[Diagnostic, ...] = ()
