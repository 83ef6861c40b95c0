"""Figures from their lines in the language, for the tests of the solver."""

from __future__ import annotations

from protodsl.model.figure import Figure
from protodsl.resolve import resolve
from tests.unit.resolve.shelf import Files


def figure(text: str) -> Figure:
    """The figure of these lines; they must have no mistake."""
    under = "".join(f"    {line.strip()}\n" for line in text.strip().splitlines())
    found = resolve("p.protocol", Files({"p.protocol": f"exercise x\n  do\n    Lift.\n  figure\n{under}"}))
    said = [one.message for one in found.diagnostics if not one.code.id.startswith("N20")]
    assert found.value is not None and said == [], said
    drawn = dict(found.value.scope.exercises)["x"].figure
    assert drawn is not None
    return drawn
