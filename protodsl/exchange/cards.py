"""The card of an exercise as lines of text: everything that the sheet says of it, head by head."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from protodsl.exchange.speech import Speech
from protodsl.handout.blocks import ExerciseCard, Row, Section, Stations, Table
from protodsl.handout.phrase import Message, Phrase


def cards_by_name(sections: tuple[Section[Phrase], ...]) -> Mapping[str, ExerciseCard[Phrase]]:
    """The cards of sections by the name of their exercise."""
    return {one.id: one for section in sections for one in section.blocks if isinstance(one, ExerciseCard)}


def step_lines(card: ExerciseCard[Phrase], speech: Speech) -> tuple[str, ...]:
    """The steps, numbered."""
    return tuple(f"{at}. {speech.words(item.text)}" for at, item in enumerate(card.steps.lines, 1))


def card_lines(
    card: ExerciseCard[Phrase], speech: Speech, without: frozenset[str] = frozenset()
) -> tuple[str, ...]:
    """All besides the steps: for whom and when it is, how much, what to feel, when to stop, when to leave it out.

    `without` names heads of rows by their message, and `card.dose` for the dose, that are told elsewhere.
    """
    return tuple(_lines(card, speech, without))


def _lines(card: ExerciseCard[Phrase], speech: Speech, without: frozenset[str]) -> Iterator[str]:
    for row in card.first:
        yield _row(row, speech)
    if card.when is not None:
        yield speech.words(card.when)
    if "card.dose" not in without:
        if card.dose is not None:
            yield speech.words(card.dose)
        if card.doses is not None:
            yield from _table(card.doses, speech)
    for row in card.rows:
        if not (isinstance(row.head, Message) and row.head.key in without):
            yield _row(row, speech)
    for stations in card.stations:
        yield from _stations(stations, speech)


def _row(row: Row[Phrase], speech: Speech) -> str:
    return f"{speech.words(row.head)}: {' '.join(speech.words(item.text) for item in row.lines)}"


def _table(table: Table[Phrase], speech: Speech) -> Iterator[str]:
    if table.caption is not None:
        yield speech.words(table.caption)
    heads = [speech.words(head) for head in table.heads]
    for first, *cells in table.rows:
        said = (f"{head} {speech.words(cell.text)}" for head, cell in zip(heads[1:], cells, strict=True))
        yield f"{speech.words(first.text)}: {'; '.join(said)}"


def _stations(stations: Stations[Phrase], speech: Speech) -> Iterator[str]:
    yield speech.words(stations.head)
    for stop in stations.stops:
        when = "" if stop.when is None else f" ({speech.words(stop.when)})"
        yield f"{speech.words(stop.head)}: {speech.words(stop.what)}{when}"
