"""The document as blocks, generic in what a phrase is: data when composed, a string of inline Markdown once localised.

Every block that keeps somebody safe carries `safety`, an id such as `stop/emergency/1`; after rendering, each is looked
for on the page.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Generic, TypeVar

P = TypeVar("P")


@dataclass(frozen=True, slots=True)
class Item(Generic[P]):
    """One line of a list; `origin` is the file and line of the protocol it comes from (`ankle.protocol:41`).

    `under` are lines of which this one says what they have in common; each is found on the page by itself.
    """

    text: P
    safety: str = ""
    origin: str = ""
    under: tuple[Item[P], ...] = ()


@dataclass(frozen=True, slots=True)
class Row(Generic[P]):
    """A ruled row: a side-head in the margin column, lines beside it.

    `mark` is one of the signs learned once: feel, normal, change, stop, side, out, up, down, or "" for none.
    `numbered` makes the lines steps; one line alone is a paragraph, several are a list.
    """

    head: P
    lines: tuple[Item[P], ...]
    mark: str = ""
    numbered: bool = False


@dataclass(frozen=True, slots=True)
class Masthead(Generic[P]):
    """Whose, what, from when: at most four lines, over everything."""

    clinic: P
    address: P
    title: P
    lines: tuple[P, ...]


@dataclass(frozen=True, slots=True)
class StopGroup(Generic[P]):
    """What to do, the number in the margin column (with words for other hours), and the signs beside it."""

    head: P
    phone: P
    lines: tuple[Item[P], ...]
    urgent: bool = False
    other_hours: P | None = None
    other_phone: P | None = None


@dataclass(frozen=True, slots=True)
class Stop(Generic[P]):
    """The black STOP frame: first after the masthead, unmissable without colour."""

    word: P
    head: P
    groups: tuple[StopGroup[P], ...]


@dataclass(frozen=True, slots=True)
class Cell(Generic[P]):
    """A cell of a table; `on` tints a planned day (it also has a number), `strong` is a total."""

    text: P
    on: bool = False


@dataclass(frozen=True, slots=True)
class Table(Generic[P]):
    """A table with a caption, column heads, rows whose first cell is the row head, and a foot row."""

    caption: P | None
    heads: tuple[P, ...]
    rows: tuple[tuple[Cell[P], ...], ...]
    foot: tuple[Cell[P], ...] = ()
    kind: str = "plain"
    widths: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class PainBand(Generic[P]):
    """One band of the pain scale: its numbers, its word, what to do; `tone` 0 plain, 1 hatched, 2 black.

    `head` is its numbers in words, which head its lines (None: its word).
    """

    low: int
    high: int
    word: P
    lines: tuple[Item[P], ...]
    tone: int
    head: P | None = None


@dataclass(frozen=True, slots=True)
class PainScale(Generic[P]):
    """The pain scale from 0 to 10 as the protocol's `pain zones` say."""

    intro: P
    bands: tuple[PainBand[P], ...]


@dataclass(frozen=True, slots=True)
class Station(Generic[P]):
    """A stop on the line of a progression: role is back, now or next; `when` the condition that leads there."""

    role: str
    head: P
    what: P
    when: P | None = None
    safety: str = ""
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Stations(Generic[P]):
    """The line of stations: go back, now, move on."""

    head: P
    stops: tuple[Station[P], ...]


@dataclass(frozen=True, slots=True)
class Picture(Generic[P]):
    """A drawn figure (`svg`) or an image (`data` URI) with its text alternative and a caption a panel.

    `note` is said of the whole under it, where the picture is: what its stripes mark, which side it shows.
    """

    alternative: P
    captions: tuple[P, ...]
    svg: str = ""
    data: str = ""
    note: P | None = None


@dataclass(frozen=True, slots=True)
class ExerciseCard(Generic[P]):
    """One exercise on its own ruled page: numeral, name, `first`, when, dose, picture, steps, rows in order, stations.

    `first` says for whom and when it is at all: with us only, in one part of the plan only, on a condition only.
    `continued` heads the second page of an exercise too long for one (None: the name again).
    """

    id: str
    number: int
    name: P
    when: P | None
    dose: P | None
    doses: Table[P] | None
    picture: Picture[P] | None
    steps: Row[P]
    rows: tuple[Row[P], ...]
    stations: tuple[Stations[P], ...] = ()
    origin: str = ""
    continued: P | None = None
    first: tuple[Row[P], ...] = ()


@dataclass(frozen=True, slots=True)
class Paragraphs(Generic[P]):
    """Plain paragraphs."""

    lines: tuple[Item[P], ...]


@dataclass(frozen=True, slots=True)
class Bullets(Generic[P]):
    """A list, set in `columns` columns where short."""

    lines: tuple[Item[P], ...]
    columns: int = 1


@dataclass(frozen=True, slots=True)
class Lines(Generic[P]):
    """Empty lines to write on."""

    label: P
    count: int


@dataclass(frozen=True, slots=True)
class Diary(Generic[P]):
    """A table to fill in: a body a week with a caption, a row a day, boxes for what is planned then, blank columns."""

    heads: tuple[P, ...]
    weeks: tuple[DiaryWeek[P], ...]
    blanks: int


@dataclass(frozen=True, slots=True)
class DiaryWeek(Generic[P]):
    """A week of the diary: its caption and its days, each with the numbers of what is due (empty: none, or any)."""

    caption: P
    days: tuple[tuple[P, tuple[P, ...]], ...]


@dataclass(frozen=True, slots=True)
class ChainStop(Generic[P]):
    """A step of a chain: its words, and the marks (i, ii ...) of the conditions that lead on and back."""

    name: P
    detail: P
    up: str = ""
    down: str = ""


@dataclass(frozen=True, slots=True)
class Chain(Generic[P]):
    """A progression drawn as a line for the clinician; `now` is the index of the present step, or None."""

    name: P
    stops: tuple[ChainStop[P], ...]
    alternative: P
    now: int | None = None


@dataclass(frozen=True, slots=True)
class Framed(Generic[P]):
    """A framed numbered list: the clinician's open points."""

    head: P
    lines: tuple[Item[P], ...]


@dataclass(frozen=True, slots=True)
class ChartLine(Generic[P]):
    """One line of a chart: its name, and its points as days from the left edge and values, in order of day."""

    name: P
    points: tuple[tuple[int, Decimal], ...]


@dataclass(frozen=True, slots=True)
class ChartMark:
    """A day on which something moved, with the letters of its moves."""

    day: int
    letters: str


@dataclass(frozen=True, slots=True)
class Chart(Generic[P]):
    """Values over time; `dates` and `values` are the ticks of the axes with their words, `days` the width in days.

    `alternative` says in words what the lines show.
    """

    caption: P
    alternative: P
    days: int
    lines: tuple[ChartLine[P], ...]
    marks: tuple[ChartMark, ...]
    dates: tuple[tuple[int, P], ...]
    values: tuple[tuple[Decimal, P], ...]


@dataclass(frozen=True, slots=True)
class Pairs(Generic[P]):
    """A text beside its translation, row by row, with a head, a language (BCP 47) and a direction for each column."""

    heads: tuple[P, P]
    rows: tuple[tuple[P, P], ...]
    languages: tuple[str, str]
    directions: tuple[str, str]


Block = (
    Stop[P]
    | Row[P]
    | Table[P]
    | PainScale[P]
    | ExerciseCard[P]
    | Paragraphs[P]
    | Bullets[P]
    | Lines[P]
    | Diary[P]
    | Chain[P]
    | Framed[P]
    | Stations[P]
    | Chart[P]
    | Pairs[P]
)


@dataclass(frozen=True, slots=True)
class Section(Generic[P]):
    """A section with its head; `whole` never breaks over pages, `new_page` begins one."""

    id: str
    head: P | None
    blocks: tuple[Block[P], ...]
    whole: bool = False
    new_page: bool = False


@dataclass(frozen=True, slots=True)
class Footer(Generic[P]):
    """What stands at the foot of every page beside `page x of y`.

    `page` is those words with `{page}` and `{pages}` where the numbers go (None: the numbers alone).
    """

    left: tuple[P, ...]
    right: P
    page: P | None = None


@dataclass(frozen=True, slots=True)
class Handout(Generic[P]):
    """A whole handout; kind is sheet, clinician or referral; `title` is the document's title.

    `draft` are lines for the head of every page of a translation that nobody has reviewed yet (empty: it is none).
    """

    kind: str
    title: P
    masthead: Masthead[P]
    sections: tuple[Section[P], ...]
    footer: Footer[P]
    digest: str = ""
    draft: tuple[P, ...] = ()
