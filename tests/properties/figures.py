"""Hypothesis strategies for the lines under `figure`, in the one spelling of their words."""

from __future__ import annotations

from decimal import Decimal
from typing import TypeVar

from hypothesis import strategies as st

from protodsl.model.figure import DIRECTIONS, JOINTS, MIDDLE_PARTS, POSTURES, SURFACES, VIEWS
from protodsl.model.lists import POSITIONS
from protodsl.syntax import tree
from protodsl.syntax.figure_words import PLURALS

T = TypeVar("T")
SIDES = ("right", "left")
# The spine bends and turns to a side; the limbs have sides of their own.
_SPINE = ("neck", "trunk", "lower back", "upper back")


def _name(texts: st.SearchStrategy[str]) -> st.SearchStrategy[tree.Name]:
    return texts.map(tree.Name)


paired = st.sampled_from(tuple(PLURALS))
sided = st.builds(lambda side, part: f"{side} {part}", st.sampled_from(SIDES), paired)
parts = _name(sided | paired.map(PLURALS.__getitem__) | st.sampled_from(MIDDLE_PARTS))
degrees = st.decimals("-60", "180", places=1).map(lambda number: tree.Amount(number.normalize() + 0))
lengths = st.builds(
    lambda number, unit: tree.Amount(number.normalize(), unit),
    st.decimals("1", "150", places=1),
    st.sampled_from(["cm", "in", "mm", None]),
)
kilograms = st.integers(1, 20).map(lambda number: tree.Amount(Decimal(number), "kg"))


@st.composite
def _angles(draw: st.DrawFn) -> tree.Item:
    joint = draw(st.sampled_from(tuple(JOINTS)))
    movement = draw(st.sampled_from(("", *JOINTS[joint])))
    towards = ""
    if joint in _SPINE:
        words, towards = joint, draw(st.sampled_from(("", *SIDES)))
    else:
        side = draw(st.sampled_from(("", *SIDES)))
        one = "toes" if joint == "toe" else joint
        words = f"{side} {one}" if side else PLURALS[one]
    return tree.Item("angle", tree.Name(f"{words} {movement}".strip()), draw(degrees), towards=towards)


positions = st.sampled_from((*POSITIONS, "half-kneeling left foot forward"))
said = _name(positions | st.sampled_from([one for one in POSTURES if not one.startswith("hands")])).map(
    lambda name: tree.Item("said", name)
)
directed = st.builds(
    lambda part, way: tree.Item("said", tree.Name(f"{part} {way}")),
    sided | paired.map(PLURALS.__getitem__),
    st.sampled_from(["horizontal", "vertical"]),
)
surfaces = _name(st.sampled_from((*SURFACES, "step edge")))
items = (
    said
    | directed
    | _angles()
    | st.builds(lambda form, part: tree.Item(form, part), st.sampled_from(["lift", "slide"]), parts)
    | st.builds(
        lambda part, other, flat: tree.Item("on", part, None, other, flat=flat),
        parts, surfaces | parts, st.booleans(),
    )
    | st.builds(
        lambda form, part, other: tree.Item(form, part, None, other),
        st.sampled_from(["against", "under", "behind", "off"]), parts, surfaces | parts,
    )
    | st.builds(
        lambda form, part, far, other: tree.Item(form, part, far, other),
        st.sampled_from(["from", "in front of", "far behind"]), parts, lengths, surfaces | parts,
    )
    | st.builds(lambda part, far: tree.Item("apart", part, far), parts, lengths)
    | st.builds(
        lambda part, far, side: tree.Item("angle", part, far, towards=side),
        parts, lengths, st.sampled_from(["right", "left"]),
    )
    | st.builds(
        lambda way, far: tree.Item("lean", tree.Name("trunk"), far, tree.Name(way)),
        st.sampled_from(["forward", "back"]), degrees,
    )
    | st.builds(
        lambda part, other: tree.Item("level", part, None, tree.Name(other)),
        parts, st.sampled_from(["shoulder", "head", "chest", "right hip"]),
    )
)  # fmt: skip
rows = st.lists(items, min_size=1, max_size=4).map(tuple)
poses = st.builds(
    lambda keyword, but, first, more: tree.PoseLine(keyword, but, (first, *more)),
    st.sampled_from(["start", "then", "end"]), st.booleans(), st.just(()) | rows, st.lists(rows, max_size=2),
)  # fmt: skip
_anchors = st.sampled_from(["anchor", "anchor on left", "anchor on right"]).map(tree.Name)
_ends = st.builds(lambda one, other: (one, other), parts, parts | _anchors)
_places = (
    st.sampled_from([("", ()), ("in front", ()), ("behind", ()), ("right", ()), ("left", ())])
    | _ends.map(lambda ends: ("from", ends))
    | st.builds(lambda word, part: (word, (part,)), st.sampled_from(["under", "between", "around"]), parts)
    | st.sampled_from(["hands", "right hand"]).map(lambda part: ("in", (tree.Name(part),)))
)
props = st.builds(
    lambda keyword, size, place: tree.PropLine(keyword, size, *place),
    st.sampled_from(["chair", "step", "wall", "table", "mat", "pillow", "towel", "ball", "stick", "band"]),
    st.none() | lengths, _places,
) | st.builds(
    lambda size, part: tree.PropLine("weight", size, "on", (part,)), st.none() | kilograms, parts
)  # fmt: skip
views = st.sampled_from(VIEWS).map(lambda view: tree.ViewLine("view", tree.Name(view)))
arrows = st.builds(
    lambda part, way: tree.ArrowLine("arrow", tree.Name(f"{part.text} {way}")),
    parts, st.sampled_from(DIRECTIONS),
)  # fmt: skip
lines = st.lists(views | props | poses | arrows, max_size=5).map(tuple)
