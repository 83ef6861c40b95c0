"""A bundle as the bytes of a file."""

from __future__ import annotations

import json

from protodsl.exchange.fhir.release import Json


def written(bundle: Json) -> bytes:
    """JSON in UTF-8 (media type `application/fhir+json`), its elements in the order given."""
    return (json.dumps(bundle, ensure_ascii=False, indent=1, allow_nan=False) + "\n").encode()
