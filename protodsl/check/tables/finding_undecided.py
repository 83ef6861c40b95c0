"""A derived finding decides every case, or says what it is otherwise."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.damage import lost
from protodsl.check.logic.formula import TooLong
from protodsl.check.logic.possible import example_of
from protodsl.check.logic.regions import number_of, undecided
from protodsl.check.logic.words import as_words
from protodsl.check.tables.measures import named, words
from protodsl.diagnostics import tables as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.condition import IsOneOf
from protodsl.model.finding import Finding
from protodsl.model.protocol import Entry, Scope


def finding_undecided(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A finding without `otherwise` whose rows leave values out: it says which."""
    for finding in context.findings:
        if finding.rows and finding.otherwise is None and not lost(finding.damaged, "if", "otherwise", "answer"):
            of, values = _left_out(finding, entry.scope)
            if values:
                rows = [row.span for row in finding.rows]
                yield say.finding_undecided(finding.name, of, values, finding.span, rows)


def _left_out(finding: Finding, scope: Scope) -> tuple[str, str]:
    """What is measured, and the values of it that no row takes; both empty where there are none."""
    found = [number_of(row.condition, scope) for row in finding.rows]
    known = [one for one in found if one is not None]
    if len(known) == len(found) and len({number for number, _ in known}) == 1:
        number = known[0][0]
        left = undecided(number, (stretches for _, stretches in known))
        return (named(number), words(number, left)) if left else ("", "")
    choice = _choices_left(finding, scope)
    if choice is not None:
        return choice
    try:
        example = example_of(scope, *((row.condition, False) for row in finding.rows))
    except TooLong:
        return "", ""
    return "", as_words(example, scope) if example else ""


def _choices_left(finding: Finding, scope: Scope) -> tuple[str, str] | None:
    """The answers that no row takes, where every row asks for the answers of one question."""
    asked = {(row.condition.finding, row.condition.side) for row in finding.rows if isinstance(row.condition, IsOneOf)}
    if len(asked) != 1 or not all(isinstance(row.condition, IsOneOf) for row in finding.rows):
        return None
    ((name, side),) = asked
    source = scope.findings.get(name)
    if source is None or source.rows:
        return None
    left = dict.fromkeys(source.answer.choices)
    for row in finding.rows:
        if isinstance(row.condition, IsOneOf):
            taken = row.condition.values
            left = {value: None for value in left if (value in taken) is row.condition.negated}
    return say.measured("", name, side.value if side else ""), " or ".join(f"`{value}`" for value in left)
