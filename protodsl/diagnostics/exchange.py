"""What is said where a plan or a protocol is not handed on to other programs."""

from __future__ import annotations

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span

# The refusal itself is a warning of its own; under --strict a second one would keep the referral page from being made.
NOT_HANDED_ON = Code("P960", "not-handed-on", Severity.HINT)

CODES = (NOT_HANDED_ON,)


def not_handed_on(case: str, form: str, at: Span) -> Diagnostic:
    """A case with a danger sign that is there or unanswered, in a format that has no place to say so."""
    return Diagnostic(
        NOT_HANDED_ON,
        f"no {form} is made for `{case}`: a danger sign is there or unanswered",
        Label(at),
        notes=("what was handed on before goes on saying what it said, wherever it was taken",),
        help="see the person or ask; have them delete what they took over, such as the entries of a calendar",
        args={"case": case, "form": form},
    )
