"""Lines that could not be understood: what they may have said is never reported as missing."""

from __future__ import annotations

# The mark of a declaration of which lines are missing altogether.
UNREADABLE = "unreadable"
# The lines that a dose is made of.
DOSE_KEYWORDS = ("dose", "set", "adjust", "add", "take off")


def lost(damaged: tuple[str, ...], *keywords: str) -> bool:
    """Whether a line with one of the keywords may have stood there."""
    return bool(damaged) and (UNREADABLE in damaged or any(keyword in damaged for keyword in keywords))
