"""What every document begins with, and its bytes."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from protodsl.exchange.speech import Speech

FORMAT = 1


def document(kind: str, speech: Speech, content: Mapping[str, Any]) -> bytes:
    """A document of a kind (`plan` or `protocol`) in UTF-8, its keys in the order given, a line end behind it."""
    head = {
        "format": FORMAT,
        "is": kind,
        "product": "protodsl",
        "version": speech.options.version,
        "digest": speech.options.digest,
        "language": speech.language,
        "clinic": speech.clinic.name,
    }
    return (json.dumps({**head, **content}, ensure_ascii=False, indent=1, allow_nan=False) + "\n").encode()
