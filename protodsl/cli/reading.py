"""`protodsl reading`: how hard each sheet is to read, exercise by exercise, with its hardest sentences."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from decimal import ROUND_HALF_EVEN, Decimal

from protodsl.asked import Asked
from protodsl.check.words.hard_to_read import FEWEST_WORDS
from protodsl.check.words.limits import limits_for
from protodsl.checking import CheckedEntry
from protodsl.cli.evidence import Places
from protodsl.cli.report import from_here, say, show, status, wants_colour
from protodsl.cli.status import WRONG_USE
from protodsl.cli.work import open_projects
from protodsl.compiler import check_files, open_run
from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.handout import Options
from protodsl.model.clinic import Limits
from protodsl.model.protocol import Protocol
from protodsl.model.text import Prose
from protodsl.project import shown
from protodsl.readability import Counts, Hard, Kind, Line, counted, hardest, levels, total
from protodsl.run import Run
from protodsl.sheet_reading import Part, SheetReading, read_sheet, said_of_sheet
from protodsl.source import Source, Span
from protodsl.translate.tags import locale_of
from protodsl.translated_words import Places as Translations

_TENTH = Decimal("0.1")
_BOUND = {Kind.GRADE: "at most", Kind.EASE: "at least", Kind.LIX: "at most"}


@dataclass(slots=True)
class _Work:
    """One project while its sheets are read."""

    run: Run
    places: Places
    arguments: argparse.Namespace
    said: list[Diagnostic] = field(default_factory=list)

    @property
    def limits(self) -> Limits:
        """What the clinic wants."""
        return self.run.project.clinic.limits


def run(arguments: argparse.Namespace) -> int:
    """Print the values of every sheet; what is past a limit is a warning."""
    if arguments.language and locale_of(arguments.language) is None:
        say(f"protodsl: `{arguments.language}` is no language tag; write it as `es`, `pt-BR` or `zh-Hans`")
        return WRONG_USE
    found: list[Diagnostic] = []
    sources: dict[str, Source] = {}
    for project, paths in open_projects(arguments.paths):
        opened = open_run(project, date.today())
        checked = check_files(opened, paths, with_cases=False)
        places = Places({}, lambda name, root=project.root: shown(root / name))  # type: ignore[misc]
        work = _Work(opened, places, arguments)
        for entry in checked.entries:
            _entry(entry, work)
        said, texts = from_here((*project.diagnostics, *work.said), opened.sources(), project.root)
        found.extend(said)
        sources.update(texts)
    show(tuple(found), sources, "text", sys.stderr, wants_colour(sys.stderr, arguments.no_color))
    return status(found, arguments.strict)


def _entry(entry: CheckedEntry, work: _Work) -> None:
    errors = [one for one in entry.diagnostics if one.severity is Severity.ERROR]
    if entry.value is None or errors:
        work.said += errors
        return
    wanted = (work.arguments.language,) if work.arguments.language else work.run.project.clinic.languages
    for protocol in entry.value.protocols:
        for language in wanted:
            _sheet(protocol, language, entry.value.files, work)


def _sheet(protocol: Protocol, language: str, files: Iterable[str], work: _Work) -> None:
    given, clinic = work.run.words(Asked(language=language), files), work.run.project.clinic
    translations = Translations(work.run.languages())

    def find(prose: Prose) -> Span:
        translated = translations.translated(language, prose) if given.written_in else None
        return translated.span if translated else prose.span

    read = read_sheet(protocol, clinic, Options(language=language, sources=work.run.sources()), given, find)
    work.said += read.diagnostics
    if read.value is not None:
        work.places.sources.update(work.run.sources())
        print("\n".join(_lines(protocol, read.value, work)) + "\n")
        work.said += said_of_sheet(protocol, clinic, read.value)


def _lines(protocol: Protocol, reading: SheetReading, work: _Work) -> Iterator[str]:
    yield f"{work.places.at(protocol.span)}: {protocol.name} ({reading.language})"
    yield from (f"  {line}" for line in _whole(reading, work))
    exercises = [part for part in reading.parts if part.exercise]
    width = max((len(part.exercise) for part in exercises), default=0)
    for part in exercises:
        yield from _exercise(part, reading.language, width, work)
    count = work.arguments.hardest
    hard = reading.hardest(count)
    yield from _named("hardest sentences", hard, reading.language, work)
    # A formula thinks little of a long sentence of short words.
    long = tuple(one for one in reading.longest(work.limits, count) if one not in hard)
    yield from _named("longest sentences", long, reading.language, work)


def _named(head: str, found: tuple[Hard, ...], language: str, work: _Work) -> Iterator[str]:
    """Sentences with their places, sizes and longest words."""
    if found:
        yield f"  {head}"
    for one in found:
        yield f"    {_at(one.line, work)}: {_size(one.counts, one.value, language)}: {one.text}"
        if one.longest:
            yield f"      longest words: {', '.join(one.longest)}"


def _whole(reading: SheetReading, work: _Work) -> Iterator[str]:
    limits = {one.kind: one for one in limits_for(work.limits, reading.language)}
    first: set[Kind] = set()
    for level in reading.levels:
        kind = level.measure.kind
        limit = limits.get(kind) if kind not in first else None
        first.add(kind)
        of = f", {_BOUND[kind]} {limit.limit}{' is usual' if limit.reason else ''}" if limit else ""
        yield f"{level.shown} {_name(kind)} ({level.measure.name}, {level.measure.published}){of}"
    if not reading.levels:
        yield "no formula is published and confirmed for this language: sentences are measured alone"
    of_limits = reading.summary(work.limits)
    unit = "words" if of_limits.in_words else "characters"
    mean = of_limits.mean.quantize(_TENTH, ROUND_HALF_EVEN)
    long = f", {of_limits.long} longer than {of_limits.most}" if of_limits.most is not None else ""
    yield f"{of_limits.sentences} sentences of {mean} {unit} on average{long}"
    if reading.left_out:
        yield f"{reading.left_out} lines have no words in this language and are left out; the rest is held to no limit"


def _exercise(part: Part, language: str, width: int, work: _Work) -> Iterator[str]:
    counts = total((line.text for line in part.lines), language)
    few = "" if counts.words >= FEWEST_WORDS or not counts.words else "  (few words)"
    yield f"  {part.exercise:<{width}}  {_value(counts, language)}{few}"
    if work.arguments.steps:
        for line in part.lines:
            of_line = counted(line.text, language)
            hard = hardest((line,), language, 1)
            longest = f" [{', '.join(hard[0].longest)}]" if hard and hard[0].longest else ""
            yield f"    {_value(of_line, language):>6}  {_at(line, work)}: {line.text}{longest}"


def _value(of: Counts, language: str) -> str:
    """By the first formula; where there is none, the mean length of a sentence."""
    found = levels(of, language)
    if found:
        return f"{found[0].shown:>5}"
    if not of.sentences:
        return "    -"
    mean = of.words_a_sentence if of.words else of.characters_a_sentence
    return f"{mean.quantize(_TENTH, ROUND_HALF_EVEN):>5}"


def _size(of: Counts, value: Decimal | None, language: str) -> str:
    size = f"{of.words} words" if of.words else f"{of.characters} characters"
    if value is None:
        return size
    return f"{value.quantize(_TENTH, ROUND_HALF_EVEN)} {_name(levels(of, language)[0].measure.kind)}, {size}"


def _name(kind: Kind) -> str:
    return {Kind.GRADE: "school grade", Kind.EASE: "reading ease", Kind.LIX: "reading index"}[kind]


def _at(line: Line, work: _Work) -> str:
    return work.places.at(line.span) or "(words of the sheet itself)"
