"""What is asked of a handout besides its content."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from protodsl.handout.blocks import Picture
from protodsl.handout.phrase import Phrase
from protodsl.model.joint_load import Comparison
from protodsl.readability import Summary
from protodsl.source import Source


@dataclass(frozen=True, slots=True)
class Options:
    """How a handout is made; `sources` turn places into line numbers, `pictures` are drawn beforehand, by exercise.

    `joint_loads` are the verdicts of figures on `harder than`, `reading` is how hard the patient's sheet is to read;
    both are for the clinician's page alone.
    `digest` is what `handout.digest` made of the inputs; `version` is the product's own.
    """

    language: str = "en"
    paper: str = "A4"
    large_print: bool = False
    compact: bool = False
    digest: str = ""
    version: str = ""
    sources: Mapping[str, Source] = field(default_factory=dict)
    pictures: Mapping[str, Picture[Phrase]] = field(default_factory=dict)
    joint_loads: tuple[Comparison, ...] = ()
    reading: Summary | None = None
