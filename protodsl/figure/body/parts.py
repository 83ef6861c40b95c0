"""From the words for a part of the body to its landmarks: what of it touches, what is lifted, where it is measured."""

from __future__ import annotations

from protodsl.figure.body.skeleton import SIDES

FOOT: tuple[str, ...] = ("heel", "ball of big toe", "ball of little toe", "toes")
HAND: tuple[str, ...] = ("palm", "index knuckle", "little knuckle")

# What of a paired part touches a surface, where no position says otherwise.
_TOUCHING: dict[str, tuple[str, ...]] = {
    "foot": FOOT,
    "heel": ("heel",),
    "forefoot": FOOT[1:],
    "toes": FOOT[1:],
    "instep": ("toes",),
    "outer foot": ("ball of little toe",),
    "ankle": ("ankle",),
    "shin": ("shin",),
    "calf": ("calf",),
    "knee": ("kneecap",),
    "thigh": ("thigh",),
    "leg": ("heel", "calf"),
    "hip": ("side of hip",),
    "shoulder": ("shoulder",),
    "upper arm": ("upper arm",),
    "elbow": ("elbow",),
    "forearm": ("elbow", "wrist"),
    "wrist": ("wrist",),
    "hand": HAND,
    "fingers": ("fingertips",),
    "arm": ("elbow", "wrist"),
}
_MIDDLE: dict[str, tuple[str, ...]] = {
    "head": ("back of head",),
    "forehead": ("forehead",),
    "chin": ("chin",),
    "neck": ("nape",),
    "chest": ("chest",),
    "belly": ("belly",),
    "upper back": ("upper back",),
    "lower back": ("lower back",),
    "back": ("upper back", "right seat", "left seat"),
    "pelvis": ("right seat", "left seat"),
    "seat": ("right seat", "left seat"),
    "trunk": ("upper back", "right seat", "left seat"),
}
# What differs in a position, by the words for the part.
_IN_POSITION: dict[str, dict[str, tuple[str, ...]]] = {
    "lying face down": {"head": ("forehead",), "pelvis": ("pubis",), "trunk": ("chest", "pubis"),
                        "leg": ("kneecap", "toes")},
    "on all fours": {"head": ("forehead",), "leg": ("kneecap", "toes")},
    "kneeling": {"leg": ("kneecap", "toes")},
    "lying on back": {"knee": ("knee",)},
    "long sitting": {"knee": ("knee",)},
    "sitting": {"knee": ("knee",)},
    "lying on right side": {"head": ("right temple",), "pelvis": ("right side of hip",),
                            "trunk": ("right side of hip",)},
    "lying on left side": {"head": ("left temple",), "pelvis": ("left side of hip",), "trunk": ("left side of hip",)},
}  # fmt: skip
_SIDE_LYING: dict[str, tuple[str, ...]] = {
    "knee": ("knee",),
    "leg": ("knee", "ankle"),
    "foot": ("ankle",),
    "outer foot": ("ankle",),
    "thigh": ("thigh",),
}

# What lifting a part ends, beyond what of it touches.
_LIFTED: dict[str, tuple[str, ...]] = {
    "foot": (*FOOT, "ankle", "instep"),
    "knee": ("knee", "kneecap"),
    "leg": (*FOOT, "ankle", "instep", "knee", "kneecap", "shin", "calf", "thigh"),
    "hand": (*HAND, "fingertips"),
    "forearm": ("elbow", "wrist", "forearm", *HAND, "fingertips"),
    "arm": ("shoulder", "upper arm", "elbow", "wrist", "forearm", *HAND, "fingertips"),
}
_HEAD = ("back of head", "forehead", "chin", "right temple", "left temple")
_UPPER = ("chest", "upper back", "right shoulder", "left shoulder", *_HEAD)
_LOWER = ("right seat", "left seat", "sacrum", "pubis", "belly", "right side of hip", "left side of hip")
_LIFTED_MIDDLE: dict[str, tuple[str, ...]] = {
    "head": _HEAD,
    "chest": _UPPER,
    "upper back": _UPPER,
    "pelvis": _LOWER,
    "seat": _LOWER,
    "belly": ("belly",),
    "back": _UPPER + _LOWER,
    "trunk": _UPPER + _LOWER,
}
# The landmark a part is measured from and an arrow follows, in one word.
_MEASURED: dict[str, str] = {
    "foot": "ankle", "forefoot": "ball of big toe", "outer foot": "ankle", "leg": "ankle", "arm": "palm",
    "hand": "palm",     "fingers": "fingertips", "forearm": "wrist",
}  # fmt: skip
_ENDS: dict[str, str] = {"hand": "fingertips", "foot": "toes"}
_MEASURED_MIDDLE: dict[str, str] = {
    "head": "back of head", "neck": "nape", "upper back": "upper back", "back": "middle back", "pelvis": "sacrum",
    "seat": "right seat", "trunk": "middle back",
}  # fmt: skip

LEG: frozenset[str] = frozenset((*_LIFTED["leg"],))
ARM: frozenset[str] = frozenset(_LIFTED["arm"])
FEET: frozenset[str] = frozenset(_LIFTED["foot"])


def sides_of(side: str) -> tuple[str, ...]:
    """The sides that are meant: both where none is said."""
    return (side,) if side else SIDES


def touching(part: str, side: str, position: str) -> tuple[str, ...]:
    """The landmarks of a part that lie on a surface in a position."""
    middle = _IN_POSITION.get(position, {}).get(part) or _MIDDLE.get(part)
    if part in _MIDDLE and middle:
        return middle
    if part == "shoulder" and not side:
        return ("chest",) if position == "lying face down" else ("upper back",)
    names = _IN_POSITION.get(position, {}).get(part) or _TOUCHING[part]
    if position.endswith("side"):
        names = _SIDE_LYING.get(part, names)
    return tuple(f"{one} {name}" for one in sides_of(side) for name in names)


def lifted(part: str, side: str, position: str) -> frozenset[str]:
    """The landmarks whose contacts end when a part is lifted."""
    here = frozenset(touching(part, side, position))
    if part in _MIDDLE or (part == "shoulder" and not side):
        return here | frozenset(_LIFTED_MIDDLE.get("chest" if part == "shoulder" else part, ()))
    return here | {f"{one} {name}" for one in sides_of(side) for name in _LIFTED.get(part, ())}


def measured(part: str, side: str) -> str:
    """The one landmark that says where a part is; of a pair without a side, the right one."""
    if part in _MIDDLE:
        return _MEASURED_MIDDLE.get(part, part)
    return f"{side or 'right'} {_MEASURED.get(part, part)}"


def followed(part: str, side: str) -> tuple[str, ...]:
    """The landmarks an arrow may follow: the one a part is measured from, and its end where it turns about that one.

    Bending the ankle moves the foot, though the ankle itself stays where it is.
    """
    end = _ENDS.get(part)
    return (measured(part, side), *((f"{side or 'right'} {end}",) if end else ()))


def limb_of(landmark: str) -> tuple[str, str]:
    """The side and `arm` or `leg` that a landmark belongs to; two empty strings for the trunk and head."""
    side, _, name = landmark.partition(" ")
    if side not in SIDES:
        return "", ""
    return (side, "arm") if name in ARM else (side, "leg") if name in LEG else ("", "")
