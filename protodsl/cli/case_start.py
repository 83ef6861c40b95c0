"""The text of a case file to start from: every question of its protocol, each still unknown."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from protodsl.handout.questions import GROUPS, Question
from protodsl.model.protocol import Protocol

_HEADS = {
    "flag": "Is it safe to start? Until each of these is answered no sheet is made.",
    "patient": "What the patient answers.",
    "measured": "What is measured.",
    "session": "What is told with each session.",
}


def case_text(
    name: str, protocol: Protocol, started: date, language: str, side: str, asked: tuple[Question, ...]
) -> str:
    """The whole file; the words of each question stand over it as a comment."""
    return "\n".join(_lines(name, protocol, started, language, side, asked)) + "\n"


def _lines(
    name: str, protocol: Protocol, started: date, language: str, side: str, asked: tuple[Question, ...]
) -> Iterator[str]:
    yield f"case {name}"
    yield f"  protocol {protocol.name}, version {protocol.version}"
    yield f"  started {started.isoformat()}"
    yield f"  language {language}"
    yield f"  side {side}"
    if asked:
        yield "  # Put each answer in the place of its `unknown`, here or with `protodsl record`."
        yield f"  on {started.isoformat()}"
    for group in GROUPS:
        own = [one.finding for one in asked if one.group == group]
        if own:
            yield f"    # {_HEADS[group]}"
        for finding in own:
            if finding.words is not None:
                yield f"    # {finding.words.text}"
            yield f"    unknown: {finding.name}"
