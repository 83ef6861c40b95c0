"""A bar on the terminal for work that takes longer than a second."""

from __future__ import annotations

import time
from types import TracebackType
from typing import Self, TextIO

_PATIENCE = 1.0
_WIDTH = 24


class Progress:
    """Counts steps; draws only on a terminal, only after a second, and leaves nothing behind."""

    def __init__(self, total: int, stream: TextIO) -> None:
        self._total = max(total, 1)
        self._stream = stream
        self._done = 0
        self._begun = time.monotonic()
        self._drawn = 0

    def step(self, name: str) -> None:
        """Say what is being made now."""
        if self._stream.isatty() and time.monotonic() - self._begun >= _PATIENCE:
            filled = _WIDTH * self._done // self._total
            self._draw(f"[{'=' * filled}{' ' * (_WIDTH - filled)}] {self._done} of {self._total}  {name[:40]}")
        self._done += 1

    def clear(self) -> None:
        """Take the bar away, before something else is printed."""
        if self._drawn:
            self._draw("")
            self._stream.write("\r")
            self._drawn = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.clear()

    def _draw(self, text: str) -> None:
        self._stream.write("\r" + text.ljust(self._drawn))
        self._stream.flush()
        self._drawn = len(text)
