"""`protodsl reference`: the words of the language, from the tables that the compiler itself reads."""

from __future__ import annotations

import argparse
from collections.abc import Iterator

from protodsl import __version__
from protodsl.cli.report import say
from protodsl.cli.status import CLEAN, WRONG_USE
from protodsl.cli.topics import TOPICS, Topic, topic
from protodsl.diagnostics.suggest import nearest
from protodsl.model.figure import DIRECTIONS, JOINTS, MIDDLE_PARTS, PAIRED_PARTS, POSTURES, SURFACES, VIEWS
from protodsl.model.lists import BEARING, KINDS, MOVEMENTS, POSITIONS
from protodsl.syntax.keywords import CONTAINERS, Entry, entries
from protodsl.units import UNITS

_OFTEN = {
    "1": "once, and it is needed",
    "0-1": "at most once",
    "1+": "once or more, and it is needed",
    "*": "any number",
}


def run(arguments: argparse.Namespace) -> int:
    """Print one word, the list of all words, or with `--all` the whole reference as Markdown."""
    if arguments.all:
        print("\n".join(_everything()))
        return CLEAN
    if not arguments.word:
        print("\n".join(_overview()))
        return CLEAN
    word = " ".join(arguments.word)
    lines = list(look_up(word))
    if not lines:
        meant = nearest(word, _words())
        say(f"protodsl: the language has no word `{word}`" + (f"; did you mean `{meant}`?" if meant else ""))
        return WRONG_USE
    print("\n".join(lines))
    return CLEAN


def look_up(word: str) -> Iterator[str]:
    """What is known of a keyword, a topic, a unit, a closed list or a word on one; nothing for any other word."""
    shown = [one for one in entries() if one.keyword == word]
    for number, one in enumerate(shown):
        yield from ([""] if number else [])
        yield from _statement(one)
    if shown:
        return
    if (found := topic(word)) is not None:
        yield from _topic(found)
        return
    if word == "units":
        yield from (f"{unit.name}  a unit of {unit.dimension}" for unit in UNITS.values())
        return
    if word == "closed lists":
        yield from (f"{title}: {', '.join(words)}" for title, words in _lists())
        return
    if word in UNITS:
        unit = UNITS[word]
        yield f"{word}  a unit of {unit.dimension}; UCUM code {unit.ucum}"
        return
    for title, words in _lists():
        if word == title or word in words or title.endswith(f" {word}"):
            yield f"{title}: {', '.join(words)}"


def _overview() -> Iterator[str]:
    """Every statement under the containers it stands in, one line each."""
    widest = max(len(one.keyword) for one in entries())
    for container, called in CONTAINERS.items():
        inside = [one for one in entries() if container in one.where]
        if inside:
            yield f"at {called}" if not container else f"under `{called}`"
            yield from (f"  {one.keyword:<{widest}}  {one.meaning}" for one in inside)
            yield ""
    yield f"units: {', '.join(UNITS)}"
    yield f"closed lists: {', '.join(title for title, _ in _lists())}"
    yield f"topics: {', '.join((*(one.name for one in TOPICS), 'units', 'closed lists'))}"


def _topic(one: Topic) -> Iterator[str]:
    """A topic for the terminal: what is said of it, then its rows, the meaning behind or below each example."""
    yield one.name
    yield from (f"  {line}" for line in one.about)
    short = all("\n" not in example for example, _ in one.rows)
    widest = max(len(example) for example, _ in one.rows) if short else 0
    for example, meaning in one.rows:
        if widest:
            yield f"  {example:<{widest}}  {meaning}"
        else:
            yield f"  {meaning}:"
            yield from (f"    {line}" for line in example.splitlines())


def _statement(one: Entry) -> Iterator[str]:
    yield one.form
    yield f"  {one.meaning}"
    yield f"  where: {', '.join(CONTAINERS[place] for place in one.where)}{' (case file)' if one.case else ''}"
    yield f"  how often: {_OFTEN[one.often]}"
    yield "  for example:"
    yield from (f"    {line}" for line in one.example.splitlines())


def _everything() -> Iterator[str]:
    yield f"# The language, version {__version__}"
    for case, title in ((False, "Protocols and libraries (`.protocol`)"), (True, "Cases (`.case`)")):
        yield f"\n## {title}"
        for one in entries():
            if one.case == case:
                yield from _section(one)
    for found in TOPICS:
        yield f"\n## {found.name[0].upper()}{found.name[1:]}\n"
        yield from (f"{line}\n" for line in found.about)
        yield from (f"- `{' / '.join(example.split(chr(10)))}`: {meaning}" for example, meaning in found.rows)
    yield "\n## Closed lists\n"
    yield from (f"- **{title}**: {', '.join(words)}" for title, words in _lists())
    yield "\n## Units\n\n| written | of | UCUM |\n| --- | --- | --- |"
    yield from (f"| `{unit.name}` | {unit.dimension} | `{unit.ucum}` |" for unit in UNITS.values())


def _section(one: Entry) -> Iterator[str]:
    yield f"\n### {one.keyword}\n\n{one.meaning}\n"
    yield f"- form: `{one.form}`"
    yield f"- where: {', '.join(CONTAINERS[place] for place in one.where)}"
    yield f"- how often: {_OFTEN[one.often]}"
    yield f"\n```{'case' if one.case else 'protocol'}\n{one.example}\n```"


def _lists() -> tuple[tuple[str, tuple[str, ...]], ...]:
    movements = tuple((f"movements of the {joint}", words) for joint, words in MOVEMENTS.items())
    general = ("positions", POSITIONS), ("bearing", BEARING), ("kinds of movement", KINDS)
    return *general, *movements, *_lists_of_figures()


def _lists_of_figures() -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The words of poses; of each joint first the movement that is meant where none is written."""
    joints = tuple(f"{joint} ({' / '.join(words)})" for joint, words in JOINTS.items())
    return (
        ("parts of a figure", (*PAIRED_PARTS, *MIDDLE_PARTS)),
        ("surfaces", SURFACES),
        ("postures", POSTURES),
        ("directions", DIRECTIONS),
        ("views", VIEWS),
        ("joints of a figure", joints),
    )


def _words() -> set[str]:
    on_lists = {word for title, words in _lists() for word in (title, title.split()[-1], *words)}
    return {one.keyword for one in entries()} | set(UNITS) | on_lists | {one.name for one in TOPICS}
