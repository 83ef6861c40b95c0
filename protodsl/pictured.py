"""Pictures on their way from the files of a project into its handouts, and what is wrong with them."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.figure.picture_file import Unread
from protodsl.model.exercise import Exercise
from protodsl.model.figure import Figure
from protodsl.model.protocol import Entry, Protocol
from protodsl.model.reach import exercises_reached
from protodsl.outcome import Outcome
from protodsl.project import Project, read_bytes
from protodsl.source import Source, Span

if TYPE_CHECKING:
    from protodsl.decide.plan import Plan
    from protodsl.figure.approval import Approvals
    from protodsl.figure.figures import Figures
    from protodsl.figure.pictures import Plate, Shown
    from protodsl.handout.blocks import Picture
    from protodsl.handout.phrase import Phrase


# What makes something of many jobs at once, in any order; a job that was lost comes back as something else.
Parallel = Callable[[Sequence[int], Callable[[int], Any]], Iterator[Any]]


@dataclass(frozen=True, slots=True)
class Pictured:
    """The pictures of a protocol's exercises by name; `inputs` is what a digest has to cover, empty without files."""

    pictures: Mapping[str, Picture[Phrase]] = field(default_factory=dict)
    inputs: Mapping[str, str] = field(default_factory=dict)


def pictures_of(protocol: Protocol, project: Project, figures: Figures, plate: Plate) -> Pictured:
    """The picture of every exercise that a protocol can give, for anybody; what is wrong with one, a check has said."""
    reached = _reached(protocol)
    shown = {}
    if any(exercise.figure is not None for exercise in reached.values()):
        from protodsl.figure.pictures import shown_to

        shown = {name: shown_to(one.figure) for name, one in reached.items() if one.figure is not None}
    return _pictured(protocol, reached, shown, project, figures, plate)


def pictures_for(plan: Plan, project: Project, figures: Figures, plate: Plate) -> Pictured:
    """The pictures of one person's sheet: a figure that shows one side shows the one that is this person's."""
    reached = _reached(plan.protocol)
    items = [item for item in plan.items if item.exercise.figure is not None]
    shown = {}
    if items:
        from protodsl.figure.pictures import shown_to

        # What else the protocol can give is not on this sheet, and has no say in the scale of what is.
        given = {item.exercise.name: item.exercise for item in plan.items}
        reached = {**{name: one for name, one in reached.items() if one.figure is None}, **given}
        shown = {
            item.exercise.name: shown_to(item.exercise.figure, item.dose.sides, plan.side.worse)
            for item in items
            if item.exercise.figure is not None
        }
    return _pictured(plan.protocol, reached, shown, project, figures, plate)


def solved_ahead(
    exercises: Iterable[Exercise], approvals: Outcome[Approvals], figures: Figures, parallel: Parallel
) -> None:
    """Solve figures on all processors, and draw those of which an approval has to be looked at."""
    exercises = tuple(exercises)
    figures.solve_all([one.figure for one in exercises if one.figure is not None], parallel)
    known = approvals.value
    if known is not None:
        drawn_ahead([one for one in exercises if known.knows(one.name)], figures, parallel)


def drawn_ahead(exercises: Iterable[Exercise], figures: Figures, parallel: Parallel) -> None:
    """Draw figures on all processors, as most sheets show them."""
    figures.draw_all([(one.figure, one.works) for one in exercises if one.figure is not None], parallel)


def said_of_figures(exercises: Iterable[Exercise], figures: Figures) -> Iterator[Diagnostic]:
    """What is to be said of the bodies in figures."""
    for figure in {id(one.figure): one.figure for one in exercises if one.figure is not None}.values():
        yield from figures.solved(figure).diagnostics


def approvals_of(project: Project) -> tuple[Source | None, Outcome[Approvals]]:
    """The file of approvals, None where there is none, and what stands in it."""
    from protodsl.figure.approval import FILE, Approvals, read_approvals

    path = project.root / FILE
    if not path.is_file():
        return None, Outcome(Approvals())
    data = read_bytes(path)
    if isinstance(data, Diagnostic):
        return None, Outcome(None, (data,))
    source = Source(FILE, data.decode("utf-8-sig", "replace").replace("\r\n", "\n"))
    return source, read_approvals(source)


def said_of_approvals(
    exercises: Iterable[Exercise], approvals: Outcome[Approvals], figures: Figures
) -> Iterator[Diagnostic]:
    """The figures that can be drawn and that nobody has approved as they are drawn now."""
    from protodsl.figure.approval_state import said_of, sights

    yield from approvals.diagnostics
    if approvals.value is not None:
        yield from said_of(sights(exercises, approvals.value, figures))


def without_mistakes(exercises: Iterable[Exercise], said: Collection[Diagnostic]) -> tuple[Exercise, ...]:
    """The exercises that have a figure in whose words, its own and those of the figure it is like, is no mistake."""
    drawn = tuple(exercise for exercise in exercises if exercise.figure is not None)
    if not drawn:
        return ()
    wrong = [one.primary.span for one in said if one.severity is Severity.ERROR]
    return tuple(
        one for one in drawn if one.figure is not None and not any(_around(at, wrong) for at in _places(one.figure))
    )


def _places(figure: Figure) -> Iterator[Span]:
    yield figure.span
    yield from (one.span for one in (*figure.props, *figure.poses, *figure.arrows))


def exercises_of(entry: Entry) -> tuple[Exercise, ...]:
    """Every exercise of an entry, also as its protocols changed it, each once."""
    scopes = (entry.scope, *(protocol.scope for protocol in entry.protocols))
    return tuple({id(one): one for scope in scopes for one in scope.exercises.values()}.values())


def said_of_pictures(exercises: Iterable[Exercise], project: Project) -> Iterator[Diagnostic]:
    """What is wrong with the picture files that exercises name."""
    named = [exercise for exercise in exercises if exercise.image is not None]
    if not named:
        return
    # Most protocols name no file, and what takes a picture apart is not loaded for them.
    from protodsl.figure.images import picture_of

    files = picture_files(named, project)
    for exercise in named:
        if exercise.image is not None:
            yield from picture_of(exercise.image, files[exercise.image.path]).diagnostics


def picture_files(exercises: Iterable[Exercise], project: Project) -> dict[str, bytes | Unread]:
    """The bytes of the picture files that exercises name, by path, each read once."""
    paths = dict.fromkeys(exercise.image.path for exercise in exercises if exercise.image is not None)
    return {path: project.picture(path) for path in paths}


def _pictured(
    protocol: Protocol,
    exercises: Mapping[str, Exercise],
    shown: Mapping[str, Shown],
    project: Project,
    figures: Figures,
    plate: Plate,
) -> Pictured:
    from protodsl.figure.pictures import drawings, pictures

    files = picture_files(_reached(protocol).values(), project)
    found = dict(pictures(exercises, files).value or {})
    if shown:
        targets = {name: term.words for name, term in protocol.scope.targets.items()}
        found |= drawings(exercises, shown, targets, plate, figures)
    inputs = {f"picture/{path}": _content(data) for path, data in files.items()}
    return Pictured(found, inputs)


def _reached(protocol: Protocol) -> dict[str, Exercise]:
    scope = protocol.scope.exercises
    return {one.exercise: scope[one.exercise] for one in exercises_reached(protocol) if one.exercise in scope}


def _around(place: Span, others: Iterable[Span]) -> bool:
    return any(one.path == place.path and place.start <= one.start <= place.end for one in others)


def _content(data: bytes | Unread) -> str:
    return data.value if isinstance(data, Unread) else hashlib.sha256(data).hexdigest()
