"""Which drawings somebody has looked at and found right: a text file in the project, one line a figure."""

from __future__ import annotations

import datetime
import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from xml.etree.ElementTree import fromstring

from protodsl.diagnostics import approvals as say
from protodsl.outcome import Outcome
from protodsl.source import Source, Span

FILE = "figures-approved.toml"
FORMAT = 1
APPROVED, CHANGED, NEVER = "approved", "changed", "never"

_HEAD = (
    "# Figures that somebody has looked at and found right: `protodsl figures --approve`. One line a figure, by name;\n"
    "# where two people approved at once, keep the lines of both.\n"
)
_LINE = re.compile(r"\(at line (\d+), column \d+\)")
_DIGITS = 16


@dataclass(frozen=True, slots=True, order=True)
class Approval:
    """One line: the exercise, the digest of the drawing, the day, and the role of whoever looked (no name)."""

    exercise: str
    drawing: str
    on: datetime.date
    by: str


@dataclass(frozen=True, slots=True)
class Approvals:
    """All lines; an exercise may have several, since two protocols can draw it differently."""

    lines: tuple[Approval, ...] = ()

    def state(self, exercise: str, drawing: str) -> str:
        """APPROVED, CHANGED (another drawing of this exercise was approved) or NEVER."""
        of_it = [line for line in self.lines if line.exercise == exercise]
        if any(line.drawing == drawing for line in of_it):
            return APPROVED
        return CHANGED if of_it else NEVER

    def line(self, exercise: str, drawing: str) -> Approval | None:
        """The approval of this very drawing, else the last of another drawing of the exercise; None where none is."""
        of_it = sorted((line for line in self.lines if line.exercise == exercise), key=lambda line: line.on)
        return next((line for line in of_it if line.drawing == drawing), of_it[-1] if of_it else None)

    def knows(self, exercise: str) -> bool:
        """Whether any drawing of an exercise was ever approved."""
        return any(line.exercise == exercise for line in self.lines)


def drawing_digest(svg: str) -> str:
    """A digest of what is drawn and where: not of colours, line widths, size on paper or names inside the file.

    Taken of the drawing as written, for the right side, at the scale of one sheet (`drawn.SCALE`).
    """
    root = fromstring(svg)
    parts = [root.get("viewBox", "")]
    for one in root.iter():
        tag = one.tag.rpartition("}")[2]
        if tag == "path":
            parts.append(one.get("d", ""))
        elif tag == "use":
            parts.append(f"use {one.get('x', '0')}")
    return sha256("\n".join(parts).encode()).hexdigest()[:_DIGITS]


def read_approvals(source: Source) -> Outcome[Approvals]:
    """The approvals of a file; no value where it cannot be read, since then nothing is known of any figure."""
    try:
        table = tomllib.loads(source.text)
    except tomllib.TOMLDecodeError as error:
        return Outcome(None, (say.not_readable(FILE, str(error), _place(source, str(error))),))
    if table.get("format") != FORMAT or not isinstance(table.get("approved", []), list):
        reason = f"It has no `format = {FORMAT}` with a list `approved` under it"
        return Outcome(None, (say.not_readable(FILE, reason, Span(source.path, 0, 0)),))
    lines = []
    for one in table.get("approved", []):
        line = _approval(one)
        if line is None:
            return Outcome(None, (say.not_readable(FILE, f"This is no approval: {one}", Span(source.path, 0, 0)),))
        lines.append(line)
    return Outcome(Approvals(tuple(lines)))


def written(approvals: Approvals) -> str:
    """The text of the file: sorted, so that it is the same whoever wrote it, and a colleague's lines lie apart."""
    rows = [
        f"  {{ exercise = {_quoted(one.exercise)}, drawing = {_quoted(one.drawing)}, "
        f"on = {one.on.isoformat()}, by = {_quoted(one.by)} }},\n"
        for one in sorted(set(approvals.lines))
    ]
    return f"{_HEAD}format = {FORMAT}\n\napproved = [\n{''.join(rows)}]\n"


def approve(
    before: Approvals, drawings: Mapping[str, Iterable[str]], on: datetime.date, by: str, whole: bool = True
) -> Approvals:
    """With these drawings of exercises approved; a drawing that was approved before keeps its line.

    Lines of these exercises for other drawings are gone where the `whole` project was looked at: elsewhere one of its
    protocols may still draw them so.
    """
    now = {name: frozenset(digests) for name, digests in drawings.items()}
    kept = [
        line for line in before.lines if not whole or line.exercise not in now or line.drawing in now[line.exercise]
    ]
    known = {(line.exercise, line.drawing) for line in kept}
    fresh = [(name, digest) for name, digests in now.items() for digest in digests if (name, digest) not in known]
    return Approvals(tuple(sorted((*kept, *(Approval(name, digest, on, by) for name, digest in fresh)))))


def _approval(data: object) -> Approval | None:
    if not isinstance(data, dict):
        return None
    exercise, drawing, on, by = (data.get(name) for name in ("exercise", "drawing", "on", "by"))
    if not (isinstance(exercise, str) and isinstance(drawing, str) and isinstance(by, str)):
        return None
    if isinstance(on, datetime.datetime) or not isinstance(on, datetime.date):
        return None
    return Approval(exercise, drawing, on, by)


def _place(source: Source, reason: str) -> Span:
    """The line that the reader names, whole; the start of the file where it names none."""
    found = _LINE.search(reason)
    lines = source.text.splitlines(keepends=True)
    at = int(found[1]) - 1 if found else 0
    start = sum(map(len, lines[:at]))
    return Span(source.path, start, start + len(lines[at].rstrip("\n")) if at < len(lines) else start)


def _quoted(text: str) -> str:
    """A basic string of TOML 1.0."""
    return f'"{"".join(map(_escaped, text))}"'


def _escaped(sign: str) -> str:
    if ord(sign) < 32 or ord(sign) == 127:
        return f"\\u{ord(sign):04x}"
    return f"\\{sign}" if sign in "\\\"" else sign
