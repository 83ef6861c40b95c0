"""The handout as data: blocks with message keys and values, without prose or markup."""

from protodsl.handout.clinician import compose_clinician
from protodsl.handout.digest import digest
from protodsl.handout.options import Options
from protodsl.handout.questions import compose_questions
from protodsl.handout.safety import safety_items
from protodsl.handout.sheet import compose_sheet

__all__ = ["Options", "compose_clinician", "compose_questions", "compose_sheet", "digest", "safety_items"]
