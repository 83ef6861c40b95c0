"""The things beside the body: each with its size, its place and the parts that hold it."""

from __future__ import annotations

from decimal import Decimal

from protodsl.diagnostics import figures as say
from protodsl.model.figure import Part, Prop
from protodsl.resolve.figure_words import centimetres, part
from protodsl.resolve.names import Names
from protodsl.syntax.print_parts import amount_text
from protodsl.syntax.tree import PropLine
from protodsl.units import UNITS

# Centimetres that such a thing can have: common practice, no source.
SIZES: dict[str, tuple[int, int]] = {
    "chair": (15, 90), "step": (3, 60), "table": (40, 150), "pillow": (3, 40), "towel": (2, 30), "ball": (5, 90),
    "stick": (30, 200), "mat": (1, 60), "wall": (50, 300), "band": (20, 300),
}  # fmt: skip
WEIGHTS = (0, 100)
# What each thing can be told: a place on the floor, ends, a part that it is under, between, around or in.
_FLOOR = ("in front", "behind", "right", "left")
_PLACES: dict[str, tuple[str, ...]] = {
    "chair": _FLOOR, "step": _FLOOR, "wall": _FLOOR, "table": _FLOOR, "mat": (), "pillow": ("under", "between"),
    "towel": ("from", "under", "between", "around", "in"), "ball": (*_FLOOR, "between", "under", "in"),
    "stick": ("from", "in"), "band": ("from", "around"), "weight": ("on",),
}  # fmt: skip
# What cannot be drawn without a place.
_TOLD = ("wall", "pillow", "band", "weight")
_EXAMPLES: dict[str, str] = {
    "chair": "chair 45 cm in front", "step": "step 15 cm in front", "wall": "wall in front", "mat": "mat",
    "table": "table 90 cm on left", "pillow": "pillow under head", "towel": "towel under right knee",
    "ball": "ball between knees", "stick": "stick in hands", "band": "band from right hand to left hand",
    "weight": "weight 2 kg on right ankle",
}  # fmt: skip
ANCHOR = "anchor"
# Where a band is fixed: in front where nothing is said.
_ANCHORS: dict[str, str] = {ANCHOR: "", f"{ANCHOR} on left": "left", f"{ANCHOR} on right": "right"}


def prop(line: PropLine, names: Names) -> Prop:
    """A thing as far as it could be understood: it is there, whatever is wrong with its line."""
    kind = line.keyword
    kilograms = _kilograms(line, names) if kind == "weight" else None
    size = None if kind == "weight" else _size(line, names)
    if (line.place and line.place not in _PLACES[kind]) or (not line.place and kind in _TOLD):
        names.say(say.wrong_place(kind, line.place, _EXAMPLES[kind], line.head))
        return Prop(kind, "", size, kilograms, span=line.head)
    where = line.place if line.place not in ("from", "in", "on") else _side_of_anchor(line)
    return Prop(kind, where, size, kilograms, _ends(line, names), span=line.head)


def _ends(line: PropLine, names: Names) -> tuple[Part | str, ...]:
    """The parts that hold a thing; both hands are two."""
    if line.keyword == "stick" and not line.place:
        return (Part("hand", "right"), Part("hand", "left"))
    found: list[Part | str] = []
    for name in line.ends:
        if name.text in _ANCHORS and line.place == "from":
            found.append(ANCHOR)
        elif (one := part(name, names)) is not None:
            both = line.place in ("in", "between") and not one.side
            found += [Part(one.name, side, span=one.span) for side in ("right", "left")] if both else [one]
    return tuple(found)


def _side_of_anchor(line: PropLine) -> str:
    """The side of the body on which a band is fixed."""
    return next((_ANCHORS[end.text] for end in line.ends if end.text in _ANCHORS), "")


def _size(line: PropLine, names: Names) -> Decimal | None:
    if line.size is None:
        return None
    kind = line.keyword
    return centimetres(line.size, f"a {kind}", _example(kind), SIZES[kind], names)


def _example(kind: str) -> str:
    """The thing with a size."""
    return next(one for one in (_EXAMPLES[kind], f"{kind} 20 cm") if any(sign.isdigit() for sign in one))


def _kilograms(line: PropLine, names: Names) -> Decimal | None:
    size = line.size
    unit = UNITS.get(size.unit or "") if size is not None else None
    if size is None:
        names.say(say.no_weight(_EXAMPLES["weight"], line.head))
        return None
    if unit is None or unit.dimension != "mass":
        names.say(say.wrong_measure(amount_text(size), "a weight", _EXAMPLES["weight"], size.span))
        return None
    kilograms = size.value * unit.factor
    if not WEIGHTS[0] < kilograms <= WEIGHTS[1]:
        names.say(say.size("a weight", *WEIGHTS, "kg", kilograms, size.span))
        return None
    return kilograms
