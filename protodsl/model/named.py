"""Names that a patient reads where nothing else was written, as prose with a key of its own."""

from __future__ import annotations

from protodsl.model.dose import Leg
from protodsl.model.exercise import Level
from protodsl.model.finding import Finding, Kind
from protodsl.model.text import Prose


def finding_name(finding: Finding) -> Prose:
    """The name of a finding, which heads its column in the diary and stands for it where it has no `means`."""
    return Prose(finding.name, f"{finding.role}/{finding.name}/name", finding.span)


def choice(finding: Finding, value: str) -> Prose:
    """One value of a choice."""
    return Prose(value, f"{finding.role}/{finding.name}/answer", finding.span)


def activity(leg: Leg) -> Prose:
    """What is done in a stretch of an interval: the same words wherever it is done."""
    return Prose(leg.activity, f"activity/{leg.activity}/name", leg.span)


def level_name(level: Level) -> Prose:
    """The label of a step that is not named for its one exercise."""
    return Prose(level.name, f"level/{level.name}/name", level.span)


def values(finding: Finding) -> tuple[str, ...]:
    """The values of a choice; none for any other kind of answer."""
    return finding.answer.choices if finding.answer.kind is Kind.CHOICE else ()
