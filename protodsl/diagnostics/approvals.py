"""What is said of figures that nobody has looked at, and of the file in which it stands who has."""

from __future__ import annotations

import datetime

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span

NEVER_APPROVED = Code("F501", "figure-not-approved", Severity.WARNING)
CHANGED = Code("F502", "figure-changed-since-approval", Severity.WARNING)
NOT_READABLE = Code("F503", "approvals-not-readable", Severity.WARNING)


LEFT = "it moves the left side alone, and a figure is written for somebody whose right side is treated"


def never_approved(exercise: str, at: Span, left: bool = False) -> Diagnostic:
    """A figure that can be drawn, and that nobody has looked at; `left`: all that moves is on the left."""
    return Diagnostic(
        NEVER_APPROVED,
        f"nobody has approved the figure of `{exercise}` yet",
        Label(at),
        notes=(LEFT,) if left else (),
        help="look at it on the page of `protodsl figures`, and approve it if it is the pose that is meant",
        args={"exercise": exercise},
    )


def changed(exercise: str, on: datetime.date, by: str, at: Span) -> Diagnostic:
    """A figure that is drawn otherwise than when somebody looked at it."""
    return Diagnostic(
        CHANGED,
        f"the figure of `{exercise}` is drawn otherwise than when it was approved",
        Label(at),
        notes=(f"approved on {on.isoformat()} by {by}",),
        help="look at it on the page of `protodsl figures`, and approve it again if it is right",
        args={"exercise": exercise, "on": on, "by": by},
    )


def not_readable(file: str, reason: str, at: Span) -> Diagnostic:
    """The file of approvals is broken, so nothing is known of any figure."""
    return Diagnostic(
        NOT_READABLE,
        f"`{file}` cannot be read, so it is not known which figures were approved",
        Label(at),
        notes=(f"the reader says: {reason[:1].lower()}{reason[1:]}",),
        help="after a merge, keep the lines of both sides and take out the marks between them",
        args={"reason": reason},
    )
