"""Everything in reach of a file or a protocol, built."""

from __future__ import annotations

from protodsl.diagnostics import names as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.condition import findings_in
from protodsl.model.finding import Finding
from protodsl.model.protocol import Scope, Term
from protodsl.resolve.desk import Desk
from protodsl.resolve.names import Block, Names, Symbol
from protodsl.resolve.prose import prose
from protodsl.resolve.whole_figures import whole_figures


def build_scope(desk: Desk, before: Scope | None = None) -> Scope:
    """Every declaration of the desk's tables as it stands with what it inherits; `before` is without its changes."""
    tables = desk.tables
    findings = {name: desk.whole(symbol).model for name, symbol in tables["findings"].items()}
    desk.said += finding_circles(findings)
    exercises = {name: desk.whole(symbol).model for name, symbol in tables["exercises"].items()}
    figures = whole_figures(exercises, desk.damaged, before.exercises if before else {})
    desk.said += figures.said
    settings = ((name, symbol.setting) for name, symbol in tables["settings"].items())
    return Scope(
        findings,
        {name: setting for name, setting in settings if setting is not None},
        {name: _term(symbol, desk) for name, symbol in tables["equipment"].items()},
        {name: _term(symbol, desk) for name, symbol in tables["targets"].items()},
        figures.exercises,
        {name: desk.whole(symbol).model for name, symbol in tables["progressions"].items()},
    )


def _term(symbol: Symbol, desk: Desk) -> Term:
    term: Term = desk.own(symbol, _read_term).block["words"][0]
    return term


def _read_term(symbol: Symbol, names: Names) -> Block:
    node = symbol.node
    return {"words": [Term(symbol.name, prose(node.words, "words", names), span=node.name.span)]}


def finding_circles(findings: dict[str, Finding]) -> list[Diagnostic]:
    """Each circle of findings that follow from one another, once."""
    said: list[Diagnostic] = []
    follows = {
        name: [one for row in finding.rows for one in findings_in(row.condition) if one in findings]
        for name, finding in findings.items()
        if finding.rows
    }
    done: set[str] = set()
    for start in follows:
        path: list[str] = []
        waiting = [iter((start,))]
        while waiting:
            name = next(waiting[-1], None)
            if name is None:
                waiting.pop()
                if path:
                    done.add(path.pop())
            elif name in path:
                said.append(_circle(path[path.index(name) :], findings))
            elif name not in done and name in follows:
                path.append(name)
                waiting.append(iter(follows[name]))
    return said


def _circle(names: list[str], findings: dict[str, Finding]) -> Diagnostic:
    start = min(range(len(names)), key=lambda at: findings[names[at]].span)
    ordered = names[start:] + names[:start]
    return say.finding_in_a_circle((*ordered, ordered[0]), findings[ordered[0]].span)
