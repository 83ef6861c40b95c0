"""Where the two releases of FHIR differ in what is used here, each difference in one place.

R5 is 5.0.0 (hl7.org/fhir/R5), R4B 4.3.0 (hl7.org/fhir/R4B).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

Json = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Release:
    """A release by its name and the number of its version."""

    name: str
    version: str
    is_r5: bool

    def numbered(self, name: str, action: Json) -> Json:
        """An action with the name by which another one points to it: `linkId`, in R4B the element's own `id`."""
        return {"linkId" if self.is_r5 else "id": name, **action}

    def related(self, name: str, relationship: str) -> Json:
        """A pointer to another action: `targetId`, in R4B `actionId`."""
        return {"targetId" if self.is_r5 else "actionId": name, "relationship": relationship}

    def choice_type(self) -> Json:
        """The type of a question with words to choose from."""
        return {"type": "string", "answerConstraint": "optionsOnly"} if self.is_r5 else {"type": "choice"}


R5 = Release("R5", "5.0.0", True)
R4B = Release("R4B", "4.3.0", False)
