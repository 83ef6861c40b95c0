"""Conditions as expressions in the product's own language, with their words beside them.

They are neither FHIRPath nor CQL: they look at findings by their names, count sessions, and know *unknown* as a third
value, which both would take for nothing there. The media type says so (an unregistered one, RFC 6838, section 3.4).
"""

from __future__ import annotations

from protodsl.exchange.fhir.release import Json
from protodsl.exchange.speech import Speech
from protodsl.exchange.written import condition_text
from protodsl.handout.phrase import InWords
from protodsl.model.condition import Condition

LANGUAGE = "text/x.protodsl"
APPLICABILITY, START = "applicability", "start"


def condition(
    speech: Speech, of: Condition, streak: int = 1, negated: bool = False, kind: str = APPLICABILITY
) -> Json:
    """A condition of an action; several of one kind hold together (hl7.org/fhir/R5/plandefinition.html)."""
    words = speech.words(InWords(of, streak, negated))
    text = condition_text(of, streak, negated)
    return {"kind": kind, "expression": {"description": words, "language": LANGUAGE, "expression": text}}
