"""The words of `protodsl record` as lines of a case."""

from __future__ import annotations

import argparse
import re
from collections.abc import Iterator
from datetime import date

from protodsl.record import Addition

_DATES = re.compile(r"(\d{4}-\d\d-\d\d)(?:(?: *, *| +to +)\d{4}-\d\d-\d\d)*\Z")
_ONE = re.compile(r"\d{4}-\d\d-\d\d")
_SPAN = re.compile(r"(\d{4}-\d\d-\d\d)(?: +to +\d{4}-\d\d-\d\d)?")
# What would end the line, and signs that nobody sees.
_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ufeff]")


class WrongUse(Exception):
    """What was asked for on the command line cannot be meant; the words say why."""


def additions(arguments: argparse.Namespace) -> tuple[Addition, ...]:
    """The lines asked for, in the order of their dates and options; WrongUse where there are none or one cannot be."""
    found = (
        *_answers(arguments.on or []),
        *_sessions(arguments.session or []),
        *_reasoned(arguments.reasoned or [], arguments.because or []),
        *(Addition(_day(day), f"note {_day(day)} {_words(words)}") for day, words in arguments.note or []),
    )
    if not found:
        raise WrongUse("nothing to record; say `--on`, `--session`, `--correct`, `--place`, `--from` or `--note`")
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


def _reasoned(given: list[tuple[str, list[str]]], reasons: list[str]) -> Iterator[Addition]:
    """Lines that each need a reason; a new version alone says by itself why."""
    needing = [one for one in given if not _is_version(one)]
    if len(needing) != len(reasons):
        needs = "each `--correct`, `--place` and `--from` needs its `--because`, in the same order"
        raise WrongUse(f"{needs}; `--from DATE version V` takes none")
    left = iter(reasons)
    for option, words in given:
        because = () if _is_version((option, words)) else (f"because {_words(next(left))}",)
        if option == "--from":
            yield _from(words, because)
        else:
            keyword = {"--correct": "corrected", "--place": "place"}[option]
            day, what = words
            yield Addition(_one_day(day), f"{keyword} {_one_day(day)} {_words(what)}", because)


def _is_version(given: tuple[str, list[str]]) -> bool:
    option, words = given
    return option == "--from" and len(words) > 1 and words[1].split()[:1] == ["version"]


def _from(words: list[str], because: tuple[str, ...]) -> Addition:
    """A change for this person; further words are the lines under it, their own blanks before them kept."""
    days, *lines = words
    found = _SPAN.fullmatch(days.strip())
    if found is None:
        raise WrongUse(f"`{days}` is no date; write it as 2026-10-05, or as `2026-10-05 to 2026-10-12`")
    if not lines:
        raise WrongUse(f"`--from {days}` changes nothing; say what behind the date, as in \"leave out calf strength\"")
    change, *under = lines
    deeper = tuple(" " * (len(line) - len(line.lstrip(" "))) + _words(line) for line in under)
    return Addition(_day(found[1]), f"from {days.strip()} {_words(change)}", (*deeper, *because))


def _one_day(text: str) -> date:
    if not _ONE.fullmatch(text.strip()):
        raise WrongUse(f"`{text}` is no date; write it as 2026-10-05")
    return _day(text)


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
