"""What a mistake probably is: from the place where the parser stopped to a diagnostic, and to how to read on."""

from __future__ import annotations

from protodsl.syntax.expected import not_understood
from protodsl.syntax.first_word import first_word
from protodsl.syntax.inside_line import INSIDE
from protodsl.syntax.met import Explained, Met


def explain(met: Met) -> Explained:
    """The diagnostic for a mistake, and a repair where one is plain enough to go on with."""
    if met.at == met.line.start:
        return first_word(met)
    for explanation in INSIDE:
        if found := explanation(met):
            return found
    return not_understood(met)
