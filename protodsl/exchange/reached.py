"""What of all declarations a protocol comes to: those that its exercises and its rules look at."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from protodsl.handout.draft import Draft
from protodsl.handout.rules import conditions, progressions
from protodsl.model.condition import findings_in
from protodsl.model.exercise import Progression
from protodsl.model.finding import Finding
from protodsl.model.protocol import Scope, Term
from protodsl.source import Span


def findings(on: Draft) -> tuple[Finding, ...]:
    """The findings that a rule looks at, and those that they follow from, in the order in which they are met."""
    scope = on.protocol.scope.findings
    waiting = [name for condition in conditions(on) for name in findings_in(condition)]
    waiting += [name for exercise in on.exercises() if exercise.focus for name in (exercise.focus.finding,)]
    found: dict[str, Finding] = {}
    while waiting:
        name = waiting.pop(0)
        finding = scope.get(name)
        if finding is None or name in found:
            continue
        found[name] = finding
        waiting += [inner for row in finding.rows for inner in findings_in(row.condition)]
    return tuple(found.values())


def equipment(on: Draft) -> tuple[Term, ...]:
    """What the exercises need, and what they are loaded with."""
    needed = [option for exercise in on.exercises() for need in exercise.needs for option in need.options]
    return _terms(needed, on.protocol.scope.equipment)


def targets(on: Draft) -> tuple[Term, ...]:
    """What the exercises and progressions work on."""
    works = [name for exercise in on.exercises() for name in exercise.works]
    works += [name for progression in used(on) for name in progression.works]
    return _terms(works, on.protocol.scope.targets)


def used(on: Draft) -> tuple[Progression, ...]:
    """The progressions that stand behind the exercises."""
    return progressions(on)


def _terms(names: Iterable[str], known: Mapping[str, Term]) -> tuple[Term, ...]:
    return tuple(known[name] for name in dict.fromkeys(names) if name in known)


def files_of(on: Draft) -> tuple[str, ...]:
    """The files that what is handed on was written in, sorted."""
    parts = (on.protocol, on.exercises(), used(on), findings(on), equipment(on), targets(on))
    return tuple(sorted({span.path for span in _spans(parts) if span.path}))


def _spans(node: Any) -> Iterator[Span]:
    """The places of a part and of all in it; declarations in reach are looked at where they are used."""
    if isinstance(node, Span):
        yield node
    elif isinstance(node, tuple):
        for one in node:
            yield from _spans(one)
    elif is_dataclass(node) and not isinstance(node, Scope):
        for field in fields(node):
            yield from _spans(getattr(node, field.name))
