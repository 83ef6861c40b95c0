"""A protocol as JSON: every rule as a tree and in words, every dose, and where each line stands."""

from __future__ import annotations

from typing import Any

from protodsl.exchange.json.document import document
from protodsl.exchange.json.encode import Encoder
from protodsl.exchange.reached import equipment, findings, targets, used
from protodsl.exchange.speech import Speech
from protodsl.handout.draft import Draft, draft
from protodsl.model.protocol import Protocol


def protocol_json(protocol: Protocol, speech: Speech) -> bytes:
    """The document of a protocol with all that it can come to give."""
    return document("protocol", speech, _content(draft(protocol, speech.clinic, speech.options), Encoder(speech)))


def _content(on: Draft, encoder: Encoder) -> dict[str, Any]:
    protocol = on.protocol
    review = protocol.review
    return {
        "protocol": encoder.of(protocol),
        # By whom it was reviewed is not handed on: it may name a person.
        "review": review and {"date": review.date.isoformat(), "nextBy": review.next_by.isoformat()},
        "findings": encoder.of(findings(on)),
        "settings": encoder.of(protocol.scope.settings),
        "equipment": encoder.of(equipment(on)),
        "targets": encoder.of(targets(on)),
        "exercises": [{"number": on.numbers[one.name], **encoder.of(one)} for one in on.exercises()],
        "progressions": encoder.of(used(on)),
    }
