"""A handout as one column of pieces in the order they are read, for formats that know heads, lists and tables only."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from protodsl.handout.blocks import (
    Block,
    Bullets,
    Cell,
    Chain,
    ChainStop,
    Chart,
    Diary,
    ExerciseCard,
    Framed,
    Handout,
    Item,
    Lines,
    PainBand,
    PainScale,
    Pairs,
    Paragraphs,
    Picture,
    Row,
    Section,
    Stations,
    Stop,
    StopGroup,
    Table,
)
from protodsl.render.markdown import plain

TITLE, STOP, SECTION, EXERCISE, PART = "title", "stop", "section", "exercise", "part"
_DEEPEST = 6


@dataclass(frozen=True, slots=True)
class Heading:
    """A head at a level from 1; `kind` is TITLE, STOP, SECTION, EXERCISE (with its number) or PART of one of these.

    `new_page` is for documents that have pages.
    """

    text: str
    level: int
    kind: str
    number: int | None = None
    new_page: bool = False


@dataclass(frozen=True, slots=True)
class Text:
    """A paragraph; its role is "", house, about, when, dose, intro, call (a number in large type) or caption."""

    text: str
    role: str = ""


@dataclass(frozen=True, slots=True)
class Listing:
    """A list; with `origins` each line ends with the place it comes from."""

    items: tuple[Item[str], ...]
    numbered: bool = False
    origins: bool = False


@dataclass(frozen=True, slots=True)
class Labelled:
    """A head with the lines beside it: one is a paragraph, several are a list."""

    head: str
    items: tuple[Item[str], ...]
    level: int
    mark: str = ""
    numbered: bool = False


Piece = (
    Heading
    | Text
    | Listing
    | Labelled
    | StopGroup[str]
    | Table[str]
    | PainScale[str]
    | Picture[str]
    | Chart[str]
    | Diary[str]
    | Lines[str]
)


def outline(page: Handout[str], to_write_on: bool = False) -> tuple[Piece, ...]:
    """The pieces in order; parts that a pen is needed for are left out whole, unless the document is `to_write_on`."""
    return tuple(_pieces(page, to_write_on))


def _pieces(page: Handout[str], to_write_on: bool) -> Iterator[Piece]:
    masthead = page.masthead
    yield Text(" · ".join(part for part in (masthead.clinic, masthead.address) if part), "house")
    yield Heading(masthead.title, 1, TITLE)
    for line in masthead.lines:
        yield Text(line, "about")
    for section in page.sections:
        if to_write_on or not _needs_a_pen(section):
            yield from _section(section)


def _needs_a_pen(section: Section[str]) -> bool:
    return any(isinstance(block, Diary | Lines) for block in section.blocks)


def _section(section: Section[str]) -> Iterator[Piece]:
    """An exercise begins a page; the first one leaves that to the head of its section."""
    first = next((block for block in section.blocks if isinstance(block, ExerciseCard)), None)
    if section.head:
        yield Heading(section.head, 2, SECTION, new_page=section.new_page or first is not None)
    level = 3 if section.head else 2
    for block in section.blocks:
        yield from _block(block, level, new_page=block is not first or not section.head)


def _block(block: Block[str], level: int, new_page: bool = False) -> Iterator[Piece]:
    """The pieces of a block; `new_page` is for an exercise."""
    if isinstance(block, Stop):
        yield Heading(f"{block.word} {block.head}", 2, STOP)
        yield from block.groups
    elif isinstance(block, Row):
        yield Labelled(block.head, block.lines, level, block.mark, block.numbered)
    elif isinstance(block, Paragraphs):
        for item in block.lines:
            yield Text(item.text)
            if item.under:
                yield Listing(item.under)
    elif isinstance(block, Bullets):
        yield Listing(block.lines)
    elif isinstance(block, Framed):
        yield Heading(block.head, level, PART)
        if block.lines:
            yield Listing(block.lines, numbered=True, origins=True)
    elif isinstance(block, PainScale):
        yield from _pain(block, level)
    elif isinstance(block, Stations):
        yield from _stations(block, level)
    elif isinstance(block, Chain):
        yield Heading(block.name, level, PART)
        yield Listing(tuple(Item(_step(stop, at, block.now)) for at, stop in enumerate(block.stops)), numbered=True)
    elif isinstance(block, Pairs):
        yield Table(None, block.heads, tuple((Cell(text), Cell(translation)) for text, translation in block.rows))
    elif isinstance(block, ExerciseCard):
        yield from _card(block, level, new_page)
    else:
        yield block


def _card(card: ExerciseCard[str], level: int, new_page: bool) -> Iterator[Piece]:
    """An exercise in the order of its page: for whom, when and how much, then how, then what may go wrong."""
    yield Heading(card.name, level, EXERCISE, card.number, new_page)
    for row in card.first:
        yield from _block(row, level + 1)
    if card.when:
        yield Text(card.when, "when")
    if card.dose:
        yield Text(card.dose, "dose")
    if card.doses:
        yield card.doses
    if card.picture:
        yield card.picture
    blocks: tuple[Block[str], ...] = (card.steps, *card.rows, *card.stations)
    for block in blocks:
        yield from _block(block, min(level + 1, _DEEPEST))


def _pain(scale: PainScale[str], level: int) -> Iterator[Piece]:
    if scale.intro:
        yield Text(scale.intro, "intro")
    yield scale
    for band in scale.bands:
        yield Labelled(
            band.head or f"{band.low}–{band.high}", _of_band(band), level, ("feel", "change", "stop")[band.tone]
        )


def _of_band(band: PainBand[str]) -> tuple[Item[str], ...]:
    """What to do, under the word that stands over the numbers, where it does not begin with that word itself."""
    starts_so = band.lines and plain(band.lines[0].text).startswith(plain(band.word))
    return band.lines if starts_so else (Item(band.word), *band.lines)


def _stations(line: Stations[str], level: int) -> Iterator[Piece]:
    """The stops as a list, because each begins a sentence that its condition ends."""
    yield Heading(line.head, level, PART)
    words = (" ".join(part for part in (f"**{stop.head}:**", stop.what, stop.when) if part) for stop in line.stops)
    yield Listing(tuple(Item(text, stop.safety) for text, stop in zip(words, line.stops, strict=True)))


def _step(stop: ChainStop[str], at: int, now: int | None) -> str:
    """A step of a chain: a filled ring where the person is, the marks of the conditions that lead on and back."""
    ring = "" if now is None else "● " if at == now else "○ "
    moves = ", ".join(f"{arrow} {mark}" for arrow, mark in (("↑", stop.up), ("↓", stop.down)) if mark)
    detail = f": {stop.detail}" if stop.detail else ""
    return f"{ring}{stop.name}{detail}" + (f" ({moves})" if moves else "")
