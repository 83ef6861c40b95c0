"""What a picture file may be, and why there may be none."""

from __future__ import annotations

from enum import Enum

# Bytes; a page with twenty of these is still one that can be sent. Common practice, no source.
LARGEST = 2_000_000


class Unread(Enum):
    """Why a picture has no bytes: nothing is there that may be read, or it lies outside the project."""

    MISSING = "missing"
    OUTSIDE = "outside"
