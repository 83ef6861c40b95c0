"""Words that several families of diagnostics put together alike."""

from __future__ import annotations

from collections.abc import Sequence


def either(words: Sequence[str]) -> str:
    """`a`, `a or b`, `a, b or c`."""
    return f"{', '.join(words[:-1])} or {words[-1]}" if len(words) > 1 else "".join(words)
