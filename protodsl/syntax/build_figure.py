"""Nodes of the lines under `figure`, one function for each form in grammar/figure.lark."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from protodsl.syntax import tree
from protodsl.syntax.building import Building
from protodsl.syntax.figure_words import SIDES, movement, singular, spelled, split_side
from protodsl.syntax.tree import Amount, Item, Name, Statement

NOTHING = Decimal(0)
# Whole parts that are straight in a way of their own, which is no angle.
_STRAIGHT = frozenset(("body", "trunk", "back"))


def figure(
    b: Building, start: int, end: int, keyword: str, like: Name | None, head_end: int,
    lines: tuple[Statement, ...] | None,
) -> Statement:  # fmt: skip
    return tree.FigureLine(keyword, like, lines or (), span=b.span(start, end), head=b.span(start, head_end))


def view(b: Building, start: int, end: int, keyword: str, side: Name, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.ViewLine(keyword, _spelled(side), span=place, head=place)


def arrow(b: Building, start: int, end: int, keyword: str, part: Name, line_end: int) -> Statement:
    place = b.span(start, line_end)
    return tree.ArrowLine(keyword, _spelled(part), span=place, head=place)


Place = tuple[str, tuple[Name, ...]]


def thing(
    b: Building, start: int, end: int, keyword: str, size: Amount | None, where: Place | None, line_end: int
) -> Statement:
    place = b.span(start, line_end)
    word, ends = where or ("", ())
    return tree.PropLine(keyword, size, word, ends, span=place, head=place)


def weight(
    b: Building, start: int, end: int, keyword: str, size: Amount | None, part: Name, line_end: int
) -> Statement:
    return thing(b, start, end, keyword, size, ("on", (_spelled(part),)), line_end)


def place_word(b: Building, start: int, end: int, word: str) -> Place:
    side = next((side for side in SIDES if side in word.split()), None)
    return side or word, ()


def place_ends(b: Building, start: int, end: int, one: Name, other: Name, beside: str | None) -> Place:
    other = _spelled(other)
    side = next((side for side in SIDES if side in (beside or "").split()), "")
    return "from", (_spelled(one), replace(other, text=f"{other.text} on {side}") if side else other)


def place_part(b: Building, start: int, end: int, word: str, part: Name) -> Place:
    return word, (_spelled(part),)


Row = tuple[Item, ...]


def pose(
    b: Building, start: int, end: int, keyword: str, but: str | None, row: Row | None, head_end: int, *rows: Row | None
) -> Statement:
    under = tuple(one for one in rows if one)
    return tree.PoseLine(
        keyword, but is not None, (row or (), *under), span=b.span(start, end), head=b.span(start, head_end)
    )


def pose_line(b: Building, start: int, end: int, row: Row, line_end: int) -> Row:
    return row


def pose_row(b: Building, start: int, end: int, *items: Item | None) -> Row:
    return tuple(item for item in items if item is not None)


def said(b: Building, start: int, end: int, words: Name) -> Item:
    return Item("said", _spelled(words), span=b.span(start, end))


def said_straight(b: Building, start: int, end: int, part: Name, word: str) -> Item:
    whole = spelled(part.text)
    if whole in _STRAIGHT and word == "straight":
        return Item("said", replace(part, text=spelled(f"{whole} straight")), span=b.span(start, end))
    return Item("angle", _spelled(part), Amount(NOTHING), span=b.span(start, end))


def angle(b: Building, start: int, end: int, joint: Name, amount: Amount, towards: str | None) -> Item:
    """A side behind a movement of the spine may stand before or after the number; it is written after it."""
    words = spelled(joint.text)
    front, _, last = words.rpartition(" ")
    side = next((side for side in SIDES if side in (towards or "").split()), "")
    if not side and front and last in SIDES:
        words, side = front, last
    words = movement(words)
    if amount.unit in ("deg", "degree", "degrees", "°"):
        amount = replace(amount, unit=None)
    return Item("angle", replace(joint, text=words), amount, towards=side, span=b.span(start, end))


def lean(b: Building, start: int, end: int, part: Name | None, way: Name | None, amount: Amount) -> Item:
    trunk = _spelled(part) if part is not None else Name("trunk", span=b.span(start, end))
    way = Name("forward", span=trunk.span) if way is None else _spelled(way)
    if amount.unit in ("deg", "degree", "degrees", "°"):
        amount = replace(amount, unit=None)
    return Item("lean", trunk, amount, way, span=b.span(start, end))


def lifted(b: Building, start: int, end: int, keyword: str, part: Name) -> Item:
    return Item("lift", _spelled(part), span=b.span(start, end))


def slid(b: Building, start: int, end: int, keyword: str, part: Name) -> Item:
    return Item("slide", _spelled(part), span=b.span(start, end))


def part_off(b: Building, start: int, end: int, part: Name, surface: Name) -> Item:
    return Item("off", _spelled(part), None, _spelled(surface), span=b.span(start, end))


def part_on(b: Building, start: int, end: int, part: Name, flat: str | None, other: Name) -> Item:
    return Item("on", _spelled(part), None, _beside(part, other), flat=flat is not None, span=b.span(start, end))


def part_against(b: Building, start: int, end: int, part: Name, other: Name) -> Item:
    return Item("against", _spelled(part), None, _beside(part, other), span=b.span(start, end))


def part_under(b: Building, start: int, end: int, part: Name, word: str, other: Name) -> Item:
    return Item("under", _spelled(part), None, _beside(part, other), span=b.span(start, end))


def part_behind(b: Building, start: int, end: int, part: Name, word: str, other: Name) -> Item:
    return Item("behind", _spelled(part), None, _beside(part, other), span=b.span(start, end))


def apart_from(b: Building, start: int, end: int, part: Name, amount: Amount, other: Name) -> Item:
    return Item("from", _spelled(part), amount, _beside(part, other), span=b.span(start, end))


def apart(b: Building, start: int, end: int, part: Name, amount: Amount) -> Item:
    return Item("apart", _spelled(part), amount, span=b.span(start, end))


def in_front_of(b: Building, start: int, end: int, part: Name, amount: Amount, other: Name) -> Item:
    return Item("in front of", _spelled(part), amount, _beside(part, other), span=b.span(start, end))


def far_behind(b: Building, start: int, end: int, part: Name, amount: Amount, word: str, other: Name) -> Item:
    return Item("far behind", _spelled(part), amount, _beside(part, other), span=b.span(start, end))


def level_with(b: Building, start: int, end: int, part: Name, other: Name) -> Item:
    return Item("level", _spelled(part), None, replace(other, text=singular(other.text)), span=b.span(start, end))


def measure(b: Building, start: int, end: int, value: Decimal, unit: str | None) -> Amount:
    return Amount(value, unit, span=b.span(start, end))


def _spelled(name: Name) -> Name:
    return replace(name, text=spelled(name.text))


def _beside(part: Name, other: Name) -> Name:
    """The second part of a pair: `in front of left` means the part that the first is, `the other foot` has its side."""
    side, noun = split_side(spelled(part.text))
    text = spelled(other.text)
    across = {"right": "left", "left": "right"}.get(side, "")
    if text in SIDES:
        text = f"{text} {noun}"
    elif across and text == "other":
        text = f"{across} {noun}"
    elif across and text.startswith("other "):
        text = spelled(f"{across} {text.removeprefix('other ')}")
    return replace(other, text=text)
