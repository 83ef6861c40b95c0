"""What the drawn figures say of every `harder than`: for whoever checks a file, and for the clinician's page."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.exercise import Exercise, Progression
from protodsl.model.joint_load import Comparison
from protodsl.model.protocol import Entry, Protocol, Scope
from protodsl.model.reach import gives_of

if TYPE_CHECKING:
    from protodsl.figure.figures import Figures
    from protodsl.figure.load.joints import Load
    from protodsl.model.figure import Figure


def said_of_joint_loads(
    entry: Entry, drawn: Iterable[Exercise], figures: Callable[[], Figures]
) -> Iterator[Diagnostic]:
    """What is to be said of the claims that an entry makes, and of those that its protocols reach.

    `drawn` are the exercises in the words of whose figures there is no mistake; of the others it is said there. The
    figures of the run are asked for where a claim needs one.
    """
    sound = {id(one.figure) for one in drawn}

    def loads(figure: Figure, joint: str, side: str) -> tuple[Load, ...] | None:
        return figures().loads(figure, joint, side) if id(figure) in sound else None

    for progression, scope in _claiming(entry):
        # Most files claim nothing of the kind.
        from protodsl.figure.load.said import said_of_claims

        yield from said_of_claims(progression, scope.exercises, loads)


def joint_loads_of(protocol: Protocol, figures: Figures) -> tuple[Comparison, ...]:
    """Every claim that a protocol reaches with its verdict, in the order of its progressions."""
    found: list[Comparison] = []
    for progression in _reached(protocol):
        if _claims(progression):
            from protodsl.figure.load.claims import comparisons

            found += comparisons(progression, protocol.scope.exercises, figures.loads)
    return tuple(found)


def _claiming(entry: Entry) -> Iterator[tuple[Progression, Scope]]:
    """Every progression with a claim once, as it was declared here and as a protocol has changed it."""
    own = [(one, entry.scope) for one in entry.scope.progressions.values() if one.span.path == entry.path]
    own += [(one, protocol.scope) for protocol in entry.protocols for one in _reached(protocol)]
    seen: set[int] = set()
    for progression, scope in own:
        if _claims(progression) and id(progression) not in seen:
            seen.add(id(progression))
            yield progression, scope


def _reached(protocol: Protocol) -> tuple[Progression, ...]:
    scope = protocol.scope.progressions
    names = dict.fromkeys(give.item for give in gives_of(protocol, None) if give.item in scope)
    return tuple(scope[name] for name in names)


def _claims(progression: Progression) -> bool:
    return bool(progression.harder) or any(level.harder for level in progression.levels)
