"""How far catalogues are, as a table."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.translate.state import State

_HEADS = ("texts", "missing", "outdated", "not reviewed", "reviewed")


def table(rows: Sequence[tuple[str, State]]) -> str:
    """A line for each catalogue and its counts, the numbers in columns."""
    width = max(len(path) for path, _ in rows)
    lines = [f"{'':{width}}  " + "  ".join(_HEADS)]
    for path, state in rows:
        counts = (len(state.missing), len(state.outdated), len(state.unread), len(state.reviewed))
        cells = (f"{count:{len(head)}}" for count, head in zip((state.total, *counts), _HEADS, strict=True))
        lines.append(f"{path:{width}}  " + "  ".join(cells))
    return "\n".join(lines)
