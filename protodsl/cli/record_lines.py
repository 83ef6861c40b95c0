"""The words of `protodsl record` as lines of a case."""

from __future__ import annotations

import argparse
import re
from collections.abc import Iterator
from datetime import date

from protodsl.record import Addition

_DATES = re.compile(r"(\d{4}-\d\d-\d\d)(?:(?: *, *| +to +)\d{4}-\d\d-\d\d)*\Z")
# What would end the line, and signs that nobody sees.
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff]")


class WrongUse(Exception):
    """What was asked for on the command line cannot be meant; the words say why."""


def additions(arguments: argparse.Namespace) -> tuple[Addition, ...]:
    """The lines asked for, in the order of their dates and options; WrongUse where there are none or one cannot be."""
    corrections, reasons = arguments.correct or [], arguments.because or []
    if len(corrections) != len(reasons):
        raise WrongUse("each `--correct` needs its `--because`, in the same order")
    found = (
        *_answers(arguments.on or []),
        *_sessions(arguments.session or []),
        *_corrections(corrections, reasons),
        *(Addition(_day(day), f"note {_day(day)} {_words(words)}") for day, words in arguments.note or []),
    )
    if not found:
        raise WrongUse("nothing to record; say `--on`, `--session`, `--correct` or `--note`")
    return found


def _answers(given: list[list[str]]) -> Iterator[Addition]:
    for day, *answers in given:
        if not answers:
            raise WrongUse(f"`--on {day}` has no answers; write them behind the date, each in quotes")
        yield Addition(_day(day), f"on {_day(day)}", tuple(map(_words, answers)), True)


def _sessions(given: list[list[str]]) -> Iterator[Addition]:
    for days, *sessions in given:
        if not sessions:
            raise WrongUse(f"`--session {days}` says nothing on the session; write it behind the date, in quotes")
        for one in map(_words, sessions):
            yield Addition(_day(days), f"session {days.strip()}{' ' if ':' in one else ': '}{one}")


def _corrections(given: list[list[str]], reasons: list[str]) -> Iterator[Addition]:
    for (day, answer), reason in zip(given, reasons, strict=True):
        yield Addition(_day(day), f"corrected {_day(day)} {_words(answer)}", (f"because {_words(reason)}",))


def _day(text: str) -> date:
    """The date, or the first of several (`2026-11-03 to 2026-11-05`, `2026-11-03, 2026-11-05`)."""
    found = _DATES.match(text.strip())
    try:
        return date.fromisoformat(found[1] if found else "")
    except ValueError:
        raise WrongUse(f"`{text}` is no date; write it as 2026-10-05") from None


def _words(text: str) -> str:
    """Words for one line."""
    if _CONTROL.search(text):
        raise WrongUse(f"{text!r} holds a line end or another sign that cannot stand in a line")
    if not text.strip():
        raise WrongUse("an empty answer records nothing")
    return text.strip()
