"""What is asked of a page: its kind, its formats and its look, and what it is composed, drawn and told apart with."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from protodsl import __version__, fonts
from protodsl.formats import SHEET, USUAL
from protodsl.pictured import Pictured
from protodsl.project import Project
from protodsl.source import Source

if TYPE_CHECKING:
    from protodsl.figure.pictures import Plate
    from protodsl.handout import Options
    from protodsl.render import Style


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a handout: its kind (SHEET, CLINICIAN or QUESTIONS), its formats and its look.

    `draft`: a translation that is not whole or not reviewed is made all the same, and says so on every page. `beside`:
    not the page itself but its text beside the translation, for the reviewer; that is a draft, too. `archive`: the PDF
    is one to be kept, with what it was made from inside.
    """

    kind: str = SHEET
    language: str = "en"
    formats: tuple[str, ...] = USUAL
    paper: str = "A4"
    large_print: bool = False
    compact: bool = False
    draft: bool = False
    beside: bool = False
    archive: bool = False


def style(project: Project, asked: Asked) -> Style:
    """How a page asked for is set."""
    # A check has no use for the page makers, and they take longer to load than a check to run.
    from protodsl import localise, render

    # The text beside its translation is a page in the language of the text.
    language = project.clinic.languages[0] if asked.beside else asked.language
    return render.Style(
        paper=asked.paper,
        large_print=asked.large_print,
        compact=asked.compact,
        language=language,
        direction=localise.direction(language),
        template_folder=project.template_folder,
    )


def plate_of(project: Project, asked: Asked) -> Plate:
    """The room that figures have on a page asked for."""
    from protodsl.figure.pictures import Plate

    look = style(project, asked)
    return Plate(look.plate, look.wide_plate, look.direction == "rtl")


def options_of(asked: Asked, digest: str, sources: Mapping[str, Source], pictured: Pictured) -> Options:
    """What a handout asked for is composed with."""
    from protodsl import handout

    return handout.Options(
        language=asked.language,
        paper=asked.paper,
        large_print=asked.large_print,
        compact=asked.compact,
        digest=digest,
        version=__version__,
        sources=sources,
        pictures=pictured.pictures,
    )


def inputs_of(asked: Asked, templates: str) -> dict[str, str]:
    """What a digest covers of every page besides texts and subject; `templates` is the digest of those."""
    return {
        "language": asked.language,
        "draft": "beside" if asked.beside else "draft" if asked.draft else "",
        "paper": asked.paper,
        "print": "large" if asked.large_print else "compact" if asked.compact else "normal",
        "templates": templates,
        "fonts": fonts.digest(),
        "version": __version__,
    }
