"""A protocol as a table: a row for each dose that an exercise can have, by phase, step and week."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.exchange.speech import Speech
from protodsl.exchange.table.cells import table
from protodsl.exchange.table.columns import dose_cells, dose_header
from protodsl.exchange.written import condition_text
from protodsl.handout.dosage import Stretch, stretches
from protodsl.handout.draft import Draft, Use, draft
from protodsl.handout.phrase import DoseInWords, InWords, Written
from protodsl.model.exercise import Exercise, Give
from protodsl.model.protocol import Protocol

_BEFORE = (
    "protocol", "version", "language", "number", "exercise", "title", "phase", "item", "level", "given",
    "week_first", "week_last", "supervised", "if", "if_words", "avoid_if", "avoid_if_words", "instead",
)  # fmt: skip
_AFTER = ("dose_words", "place")


def protocol_table(protocol: Protocol, speech: Speech) -> bytes:
    """The table of a protocol; a row whose column `given` says `instead` only stands in for another exercise."""
    on = draft(protocol, speech.clinic, speech.options)
    return table((*_BEFORE, *dose_header(), *_AFTER), _rows(on, speech))


def _rows(on: Draft, speech: Speech) -> Iterator[tuple[str, ...]]:
    for exercise in on.exercises():
        for use in on.uses[exercise.name]:
            for stretch in stretches(use.layers):
                dose = stretch.dose
                words = speech.words(DoseInWords(dose, "short"))
                yield (
                    *_what(on, speech, exercise),
                    *_where(use),
                    *_weeks(stretch),
                    *_conditions(speech, exercise, use),
                    *dose_cells(dose),
                    words,
                    speech.place(use.given.give.span if use.given else exercise.span),
                )


def _what(on: Draft, speech: Speech, exercise: Exercise) -> tuple[str, ...]:
    protocol = on.protocol
    number, title = str(on.numbers[exercise.name]), speech.words(Written(exercise.title))
    return protocol.name, protocol.version, speech.language, number, exercise.name, title


def _where(use: Use) -> tuple[str, ...]:
    phase = use.phase.name if use.phase else ""
    given = use.given
    if given is None:
        return phase, "", "", "instead"
    return phase, given.progression or given.exercise, given.level or "", "given"


def _weeks(stretch: Stretch) -> tuple[str, ...]:
    return str(stretch.first), "" if stretch.last is None else str(stretch.last)


def _conditions(speech: Speech, exercise: Exercise, use: Use) -> tuple[str, ...]:
    gives = tuple(_gives(use))
    supervised = exercise.supervised or any(give.supervised for give in gives)
    conditions = [(give.condition, give.unless) for give in gives if give.condition is not None]
    written = " and ".join(f"({condition_text(one, unless=unless)})" for one, unless in conditions)
    words = "; ".join(speech.words(InWords(one, negated=unless)) for one, unless in conditions)
    avoid = " or ".join(f"({condition_text(one.condition)})" for one in exercise.avoid)
    avoided = "; ".join(speech.words(InWords(one.condition)) for one in exercise.avoid)
    instead = "; ".join(one.instead or "" for one in exercise.avoid)
    return "yes" if supervised else "no", written, words, avoid, avoided, instead


def _gives(use: Use) -> Iterator[Give]:
    """The gives on the way to an exercise, the outermost first."""
    if use.given is not None:
        if use.given.outer is not None:
            yield use.given.outer
        yield use.given.give
