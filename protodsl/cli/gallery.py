"""The figures of one project, as `protodsl figures` looks at them."""

from __future__ import annotations

from dataclasses import dataclass

from protodsl.compiler import Checked
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.registry import codes_of
from protodsl.figure.approval_state import Sight
from protodsl.project import Project
from protodsl.run import Run
from protodsl.source import Span


@dataclass(frozen=True, slots=True)
class Gallery:
    """The figures in the order of their places; `whole` says that no protocol of the project was left out."""

    run: Run
    checked: Checked
    sights: tuple[Sight, ...]
    whole: bool

    @property
    def project(self) -> Project:
        """The project."""
        return self.checked.project

    @property
    def said(self) -> tuple[Diagnostic, ...]:
        """What is said of the words and the poses of figures; whether they are approved stands on the page."""
        wanted = {*codes_of("figures"), *codes_of("poses")}
        return tuple(one for one in self.checked.diagnostics if one.code in wanted)

    def said_of(self, place: Span) -> tuple[Diagnostic, ...]:
        """What is said of one of them."""
        return tuple(
            one
            for one in self.said
            if one.primary.span.path == place.path and place.start <= one.primary.span.start <= place.end
        )
