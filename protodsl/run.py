"""What is known in one run: each file is read and checked once, each figure drawn once, whoever asks for it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

from protodsl.asked import Asked, plate_of, style
from protodsl.checking import CheckedEntry, Problem, Resolved, check_alone, check_entry, problem_of, resolve_entry
from protodsl.diagnostics.diagnostic import Severity
from protodsl.model.exercise import Exercise
from protodsl.model.protocol import Protocol
from protodsl.outcome import Outcome
from protodsl.pictured import (
    Parallel,
    Pictured,
    approvals_of,
    drawn_ahead,
    pictures_for,
    pictures_of,
    solved_ahead,
)
from protodsl.project import Project, Shelf
from protodsl.resolve import Cache
from protodsl.source import Source

if TYPE_CHECKING:
    from protodsl.decide.plan import Plan
    from protodsl.figure.approval import Approvals
    from protodsl.figure.figures import Figures
    from protodsl.figure.pictures import Plate
    from protodsl.languages import Languages, Words
    from protodsl.register import Register

# The exercises of a sheet that have a figure, with the sides of their dose and the affected side of the person.
Drawings = tuple[tuple[str, str | None, str | None], ...]


@dataclass(slots=True)
class Run:
    """What is known in one run: each file is checked once, whether it was asked for or a case follows it."""

    project: Project
    shelf: Shelf
    cache: Cache
    as_of: date
    parallel: Parallel | None = None
    _register: Register | None = None
    _languages: Languages | None = None
    _resolved: dict[str, Resolved] = field(default_factory=dict)
    _entries: dict[str, CheckedEntry] = field(default_factory=dict)
    _alone: dict[int, frozenset[Problem]] = field(default_factory=dict)
    # By identity; a protocol that is kept here cannot give its place to another.
    _pictured: dict[tuple[int, Plate], tuple[Protocol, Pictured]] = field(default_factory=dict)
    _pictured_for: dict[tuple[int, Plate, Drawings], tuple[Protocol, Pictured]] = field(default_factory=dict)
    _figures: Figures | None = None
    _approvals: tuple[Source | None, Outcome[Approvals]] | None = None
    _templates: str = ""

    def resolved(self, path: str) -> Resolved:
        """A protocol file or library before it is checked."""
        if path not in self._resolved:
            self._resolved[path] = resolve_entry(path, self.shelf, self.cache)
        return self._resolved[path]

    def entry(self, path: str) -> CheckedEntry:
        """A protocol file or library with all that is wrong in it."""
        if path not in self._entries:
            resolved = self.resolved(path)
            self._entries[path] = check_entry(resolved, self.project, self.as_of, self.figures, self.approvals)
        return self._entries[path]

    def is_broken(self, path: str) -> bool:
        """Whether some line of a file could not be read."""
        return any(one.severity is Severity.ERROR for one in self.shelf.said(path))

    def problems(self, protocol: Protocol) -> frozenset[Problem]:
        """What the rules have to say of a protocol as it stands in its file; the register keeps it alive."""
        if id(protocol) not in self._alone:
            said = check_alone(protocol, self.project.clinic, self.figures)
            self._alone[id(protocol)] = frozenset(map(problem_of, said))
        return self._alone[id(protocol)]

    def solve_ahead(self, paths: Iterable[str]) -> None:
        """Solve the figures of files on all processors, where there is something to hand them out with."""
        if self.parallel is not None:
            drawn = self._drawn(paths)
            if drawn:
                solved_ahead(drawn, self.approvals(), self.figures(), self.parallel)

    def draw_ahead(self, paths: Iterable[str]) -> None:
        """Draw the figures of files on all processors, where there is something to hand them out with."""
        if self.parallel is not None:
            drawn_ahead(self._drawn(paths), self.figures(), self.parallel)

    def pictured(self, protocol: Protocol, asked: Asked) -> Pictured:
        """The pictures of a protocol for anybody, drawn and read once for all who follow it."""
        plate = plate_of(self.project, asked)
        found = self._pictured.get((id(protocol), plate))
        if found is None:
            made = pictures_of(protocol, self.project, self.figures(), plate)
            found = self._pictured[id(protocol), plate] = protocol, made
        return found[1]

    def pictured_for(self, plan: Plan, asked: Asked) -> Pictured:
        """The pictures of one person's sheet; drawn once for all whose sheets show the same."""
        protocol, plate = plan.protocol, plate_of(self.project, asked)
        drawn = tuple(
            (item.exercise.name, item.dose.sides, plan.side.worse) for item in plan.items if item.exercise.figure
        )
        if not drawn:
            return self.pictured(protocol, asked)
        found = self._pictured_for.get((id(protocol), plate, drawn))
        if found is None:
            made = pictures_for(plan, self.project, self.figures(), plate)
            found = self._pictured_for[id(protocol), plate, drawn] = protocol, made
        return found[1]

    def figures(self) -> Figures:
        """The figures of this run, solved and drawn once."""
        # Most protocols draw nothing.
        from protodsl.figure.figures import Figures

        self._figures = self._figures or Figures()
        return self._figures

    def approvals(self) -> Outcome[Approvals]:
        """Which drawings somebody has approved, read once."""
        self._approvals = self._approvals or approvals_of(self.project)
        return self._approvals[1]

    def register(self) -> Register:
        """The protocols of the project by name."""
        # Most checks are of protocols alone.
        from protodsl.register import Register

        self._register = self._register or Register(self.shelf, self.cache)
        return self._register

    def languages(self) -> Languages:
        """The catalogues of the project."""
        # A project in one language has none.
        from protodsl.languages import Languages

        self._languages = self._languages or Languages(self.project)
        return self._languages

    def words(self, asked: Asked, files: Iterable[str]) -> Words:
        """What there is in a language for a page that is made from these files."""
        return self.languages().words(asked.language, tuple(files))

    def templates(self, asked: Asked) -> str:
        """The digest of the templates, read once."""
        from protodsl import render

        self._templates = self._templates or render.template_digest(style(self.project, asked))
        return self._templates

    def sources(self) -> dict[str, Source]:
        """Every text read so far, by its path."""
        clinic = self.project.clinic_source
        catalogues = self._languages.sources if self._languages else {}
        approvals = self._approvals[0] if self._approvals else None
        others = {source.path: source for source in (clinic, approvals) if source is not None}
        return {**self.shelf.sources, **catalogues, **others}

    def _drawn(self, paths: Iterable[str]) -> list[Exercise]:
        return [one for path in paths for one in self.resolved(path).drawn]
