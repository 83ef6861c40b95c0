"""Where a bundle comes from: the program by its version, and each source file by the hash of its text."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Sequence
from datetime import date

from protodsl.exchange.fhir.release import Json
from protodsl.exchange.fhir.resources import URI
from protodsl.exchange.speech import Speech
from protodsl.source import Source

_AGENT = "http://terminology.hl7.org/CodeSystem/provenance-participant-type"
_MIDNIGHT = "T00:00:00Z"


def moment(day: date) -> str:
    """The first second of a day as an instant: no clock is read, so that the same files give the same bundle."""
    return f"{day.isoformat()}{_MIDNIGHT}"


def provenance(speech: Speech, targets: Sequence[str], id: str, day: date, files: Sequence[str]) -> Json:
    """The provenance of resources (by id); `files` are the sources used.

    `day` is the date of the sheet, of a protocol that of its review.
    """
    sources = [speech.options.sources[path] for path in files if path in speech.options.sources]
    content: Json = {
        "resourceType": "Provenance",
        "id": id,
        "language": speech.language,
        "target": [{"reference": f"urn:uuid:{target}"} for target in targets],
        "recorded": moment(day),
    }
    content["agent"] = [
        {
            "type": {"coding": [{"system": _AGENT, "code": "assembler"}]},
            "who": {"type": "Device", "display": f"protodsl {speech.options.version}"},
        }
    ]
    content["entity"] = [{"role": "source", "what": _what(source)} for source in sources]
    return {key: one for key, one in content.items() if one}


def _what(source: Source) -> Json:
    """A file by its name, and by the hash of its text as a URI (RFC 6920, section 3)."""
    digest = base64.urlsafe_b64encode(hashlib.sha256(source.text.encode()).digest()).rstrip(b"=").decode()
    return {"identifier": {"system": URI, "value": f"ni:///sha-256;{digest}"}, "display": source.path}
