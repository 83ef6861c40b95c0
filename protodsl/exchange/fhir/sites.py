"""What every action of a plan definition needs: the draft, the language, the release, and where a line stands."""

from __future__ import annotations

from dataclasses import dataclass

from protodsl.exchange.fhir.conditions import condition
from protodsl.exchange.fhir.release import Json, Release
from protodsl.exchange.speech import Speech
from protodsl.handout.draft import Draft
from protodsl.handout.words import lines, say
from protodsl.model.exercise import Caution
from protodsl.source import Span


@dataclass(frozen=True, slots=True)
class Site:
    """A plan definition under way."""

    on: Draft
    speech: Speech
    release: Release

    def caution(self, name: str, caution: Caution) -> Json:
        """What to heed, on its condition."""
        action: Json = {
            "title": self.speech.words(say("card.caution")),
            "textEquivalent": self.speech.words(lines(caution.lines)),
            **documented(self, caution.span),
            "condition": [condition(self.speech, caution.condition)],
        }
        return self.release.numbered(name, {key: one for key, one in action.items() if one})


def documented(site: Site, span: Span) -> Json:
    """The file and line of the protocol that an action comes from."""
    place = site.speech.place(span)
    return {"documentation": [{"type": "documentation", "display": place}]} if place else {}
