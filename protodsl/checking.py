"""One file resolved and held against every rule, or one protocol alone."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from protodsl import fonts
from protodsl.check import check
from protodsl.diagnostics.diagnostic import Diagnostic, in_order
from protodsl.diagnostics.registry import codes_of
from protodsl.joint_loads import said_of_joint_loads
from protodsl.model.clinic import Clinic
from protodsl.model.exercise import Exercise
from protodsl.model.figure import Figure
from protodsl.model.protocol import Entry, Protocol
from protodsl.model.shown import Shown
from protodsl.outcome import Outcome
from protodsl.pictured import exercises_of, said_of_approvals, said_of_figures, said_of_pictures, without_mistakes
from protodsl.project import Project, Shelf
from protodsl.resolve import Cache, resolve
from protodsl.source import Span

if TYPE_CHECKING:
    from protodsl.figure.approval import Approvals
    from protodsl.figure.figures import Figures

# What tells one diagnostic from another: its code, its words, its place.
Problem = tuple[str, str, Span]


@dataclass(frozen=True, slots=True)
class Resolved:
    """One file resolved, with all that was said up to then; `entry` is None where nothing could be made of it.

    `drawn` are its exercises with figures that can be solved.
    """

    path: str
    entry: Entry | None
    said: tuple[Diagnostic, ...]
    drawn: tuple[Exercise, ...]


@dataclass(frozen=True, slots=True)
class CheckedEntry:
    """One file, all that it reached, and what is wrong there; `value` is None where nothing could be made of it."""

    path: str
    value: Entry | None
    diagnostics: tuple[Diagnostic, ...]

    @property
    def files(self) -> tuple[str, ...]:
        """The file and the libraries it uses; empty where nothing could be made of it."""
        return self.value.files if self.value else ()


def resolve_entry(path: str, shelf: Shelf, cache: Cache) -> Resolved:
    """A file and all that it uses, read, parsed and resolved."""
    resolved = resolve(path, shelf, cache)
    files = resolved.value.files if resolved.value else (path,)
    said = tuple(one for file in files for one in shelf.said(file)) + resolved.diagnostics
    drawn = without_mistakes(exercises_of(resolved.value), said) if resolved.value else ()
    return Resolved(path, resolved.value, said, drawn)


def check_entry(
    resolved: Resolved,
    project: Project,
    as_of: date,
    figures: Callable[[], Figures],
    approvals: Callable[[], Outcome[Approvals]],
) -> CheckedEntry:
    """A file with all that is wrong in it; figures and approvals are asked for where there is something to draw."""
    entry, said, drawn = resolved.entry, resolved.said, resolved.drawn
    if entry:
        said += _checked(entry, project.clinic, as_of, drawn, figures)
        said += tuple(said_of_pictures(exercises_of(entry), project))
        if drawn:
            said += tuple(said_of_approvals(drawn, approvals(), figures()))
        said += tuple(said_of_joint_loads(entry, drawn, figures))
    return CheckedEntry(resolved.path, entry, in_order(said))


def check_alone(protocol: Protocol, clinic: Clinic, figures: Callable[[], Figures]) -> tuple[Diagnostic, ...]:
    """What the rules have to say of a protocol by itself, whenever it is reviewed."""
    alone = Entry(protocol.span.path, (), protocol.scope, (protocol,))
    return _checked(alone, clinic, None, without_mistakes(protocol.scope.exercises.values(), ()), figures)


def exercises_with_figures(entries: Iterable[CheckedEntry]) -> tuple[Exercise, ...]:
    """Every exercise with a figure in whose words there is no mistake, also as protocols changed it, each once."""
    poses = codes_of("poses")
    found: dict[int, Exercise] = {}
    for entry in entries:
        if entry.value is not None:
            # What is said of poses that cannot be is no mistake in their words.
            said = tuple(one for one in entry.diagnostics if one.code not in poses)
            found |= {id(one): one for one in without_mistakes(exercises_of(entry.value), said)}
    return tuple(found.values())


def problem_of(one: Diagnostic) -> Problem:
    """What a diagnostic is known by."""
    return one.code.id, one.message, one.primary.span


def _checked(
    entry: Entry, clinic: Clinic, as_of: date | None, drawn: tuple[Exercise, ...], figures: Callable[[], Figures]
) -> tuple[Diagnostic, ...]:
    """What the rules have to say, and what is to be said of the bodies of exercises that can be drawn."""
    if not drawn:
        return check(entry, clinic, as_of, fonts.missing_characters)
    bodies = figures()
    sound = {id(one.figure) for one in drawn}

    def shown(figure: Figure) -> tuple[Shown, ...]:
        return bodies.shown(figure) if id(figure) in sound else ()

    return (*check(entry, clinic, as_of, fonts.missing_characters, shown), *said_of_figures(drawn, bodies))
