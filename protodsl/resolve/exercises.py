"""Exercises: their lines read, and the whole built once everything inherited is in."""

from __future__ import annotations

from typing import Any

from protodsl.diagnostics.images import no_words
from protodsl.model.exercise import Exercise, Fix, Image, Movement, Need
from protodsl.model.lists import JOINTS, POSITIONS
from protodsl.resolve.blocks import Form, Reader, damaged, every, first, flat
from protodsl.resolve.closed import in_list, movement
from protodsl.resolve.figures import figure
from protodsl.resolve.layers import adjust_line, dosage, dose_line, set_line, step_line
from protodsl.resolve.lines import (
    Word,
    allow,
    always,
    avoid,
    bearing,
    block_value,
    caution,
    focus,
    lift,
    prose_value,
    works,
)
from protodsl.resolve.names import Block, Names
from protodsl.resolve.prose import default_title, prose
from protodsl.resolve.quantities import quantity
from protodsl.source import NOWHERE
from protodsl.syntax import tree

STRONGEST = "resisted"


def _position(line: tree.NamesLine, names: Names) -> Word | None:
    word = in_list("position", line.names[0], POSITIONS, names)
    return None if word is None else Word(word, span=line.head)


def _moves(line: tree.MovesLine, names: Names) -> tuple[Movement, ...] | None:
    found = []
    for move in line.moves:
        written = movement(move.name, names)
        if written is None or quantity(move.to).dimension != "angle":  # a wrong unit the parser has named
            continue
        kind, joint, what = written
        found.append(Movement(kind or STRONGEST, joint, what, move.to.value, span=move.span))
    return tuple(found) if len(found) == len(line.moves) else None


def _still(line: tree.NamesLine, names: Names) -> tuple[str, ...] | None:
    found = [in_list("joint", name, JOINTS, names) for name in line.names]
    return tuple([joint for joint in found if joint is not None]) or None


def _needs(line: tree.NeedsLine, names: Names) -> Need | None:
    options = names.all_known("equipment", line.options)
    instead = names.known("exercises", line.instead) if line.instead else None
    return Need(tuple(options), instead, span=line.head) if options else None


def _fix(line: tree.ProseLine, names: Names) -> Fix | None:
    whole = prose(line.words, "fix", names)
    fault, colon, cure = whole.text.partition(":")
    if not colon:  # the parser has said so
        return None
    return Fix(fault.strip(), cure.strip(), whole, span=line.head)


def _image(line: tree.ImageLine, names: Names) -> Image:
    alternative = prose(line.alternative, "image", names) if line.alternative else None
    if alternative is None:
        names.say(no_words(line.path.text, line.head))
    return Image(line.path.text, alternative, span=line.head)


READERS: dict[str, Reader] = {
    "title": prose_value,
    "position": _position,
    "bearing": bearing,
    "works": works,
    "moves": _moves,
    "still": _still,
    "needs": _needs,
    "figure": figure,
    "image": _image,
    "no figure": always,
    "dose": dose_line,
    "set": set_line,
    "adjust": adjust_line,
    "add": step_line,
    "take off": step_line,
    "focus": focus,
    "do": block_value,
    "why": prose_value,
    "when": prose_value,
    "feel": prose_value,
    "normal": prose_value,
    "fix": _fix,
    "stop": prose_value,
    "supervised": always,
    "avoid if": avoid,
    "allow if": allow,
    "caution if": caution,
    "lift": lift,
}
FORM = Form("an exercise", READERS)


def build(name: tree.Name, like: str | None, block: Block, place: Any) -> Exercise:
    """The exercise that the lines come to."""
    said: Word | None = first(block, "bearing")
    position: Word | None = first(block, "position")
    return Exercise(
        name.text,
        first(block, "title") or default_title(name, f"exercise/{name.text}/"),
        like,
        position.word if position else None,
        said.word if said else "full",
        said is not None,
        flat(block, "works"),
        flat(block, "moves"),
        flat(block, "still"),
        every(block, "needs"),
        first(block, "figure"),
        first(block, "image"),
        dosage(block),
        first(block, "focus"),
        first(block, "do") or (),
        first(block, "why"),
        first(block, "when"),
        every(block, "feel"),
        every(block, "normal"),
        every(block, "fix"),
        every(block, "stop"),
        first(block, "supervised") is not None,
        every(block, "avoid if"),
        every(block, "caution if"),
        every(block, "lifted"),
        damaged(block),
        position.span if position else NOWHERE,
        span=place,
    )


