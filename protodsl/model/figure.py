"""What a figure says, before anybody knows whether a body can do it: props, poses, arrows, written for the right side.

Lengths are in centimetres for a stature of 170 cm, angles in degrees by the neutral-zero method. `side` is `right`,
`left` or "" (both sides, or a part in the middle of the body). A statement keeps its place, so that whoever finds it
impossible can point at it.
"""

from __future__ import annotations

from decimal import Decimal

from protodsl.frozen import frozen
from protodsl.model.condition import Placed
from protodsl.model.text import Prose

VIEWS: tuple[str, ...] = ("side", "front", "back", "three-quarter")

# What a part may touch. A part may also touch another part of the body (`Touch`).
SURFACES: tuple[str, ...] = ("floor", "chair", "wall", "step", "table", "pillow", "towel", "ball")

PROPS: tuple[str, ...] = (
    "chair", "step", "wall", "table", "mat", "pillow", "band", "towel", "weight", "stick", "ball",
)  # fmt: skip

# Parts that come in pairs, in the singular; written in the plural for both (`feet`, `hands`).
PAIRED_PARTS: tuple[str, ...] = (
    "foot", "heel", "forefoot", "toes", "instep", "outer foot", "ankle", "shin", "calf", "knee", "thigh", "leg",
    "hip", "shoulder", "upper arm", "elbow", "forearm", "wrist", "hand", "fingers", "arm",
)  # fmt: skip
MIDDLE_PARTS: tuple[str, ...] = (
    "head", "forehead", "chin", "neck", "chest", "belly", "upper back", "lower back", "back", "pelvis", "seat", "trunk",
)  # fmt: skip

# Joints of the body that is drawn, with their movements; the first movement is meant where none is written.
JOINTS: dict[str, tuple[str, ...]] = {
    "hip": ("flexion", "extension", "abduction", "adduction", "internal rotation", "external rotation"),
    "knee": ("flexion", "extension"),
    "ankle": ("dorsiflexion", "plantarflexion", "inversion", "eversion"),
    "toe": ("extension", "flexion"),
    "shoulder": ("flexion", "extension", "abduction", "adduction", "internal rotation", "external rotation"),
    "elbow": ("flexion", "extension"),
    "forearm": ("pronation", "supination"),
    "wrist": ("extension", "flexion", "radial deviation", "ulnar deviation"),
    "neck": ("flexion", "extension", "side bending", "rotation"),
    "trunk": ("flexion", "extension", "side bending", "rotation"),
    "lower back": ("flexion", "extension", "side bending", "rotation"),
    "upper back": ("flexion", "extension", "side bending", "rotation"),
}

# Whole-body words, each a bundle of angles or directions that the body's own table spells out.
POSTURES: tuple[str, ...] = (
    "body straight", "trunk straight", "trunk upright", "look ahead", "arms by sides", "arms forward", "arms overhead",
    "arms across chest", "hands on hips", "hands behind head",
)  # fmt: skip

DIRECTIONS: tuple[str, ...] = ("up", "down", "forward", "back", "in", "out", "left", "right")


@frozen
class Part(Placed):
    """A part of the body: one of PAIRED_PARTS with a side ("": both), or of MIDDLE_PARTS without one."""

    name: str
    side: str = ""


@frozen
class Angle(Placed):
    """`right knee flexion 90`, `hips 0`: fixed exactly. `movement` is always said here; `towards` is the side of a
    side bending or rotation of the spine (`right` or `left`), else "".
    """

    joint: str
    movement: str
    degrees: Decimal
    side: str = ""
    towards: str = ""


@frozen
class Contact(Placed):
    """`feet flat on floor`, `back against wall`: holds exactly; `edge` of a step (`forefeet on step edge`).

    A contact stays in the poses after it until `lift`ed or written anew, and does not slide unless `Slide` says so.
    """

    part: Part
    surface: str
    edge: bool = False


@frozen
class Touch(Placed):
    """`right hand on right thigh`, `left ankle on right knee`: one part rests on another."""

    part: Part
    on: Part


@frozen
class Lift(Placed):
    """`lift pelvis`: ends the contacts of a part, written or implied by the position."""

    part: Part


@frozen
class Slide(Placed):
    """`slide heels`: the contact holds, but not at the same place as in the pose before."""

    part: Part


@frozen
class Under(Placed):
    """`hands under shoulders`: the first straight below the second."""

    part: Part
    other: Part


@frozen
class Line(Placed):
    """`thighs horizontal`, `shins vertical`: a limb's direction; `direction` is `horizontal` or `vertical`."""

    part: Part
    direction: str


@frozen
class Lean(Placed):
    """`trunk lean forward 40`: the trunk's angle from upright, in degrees; `direction` is `forward` or `back`."""

    direction: str
    degrees: Decimal


@frozen
class Distance(Placed):
    """`feet 45 cm from wall`, `feet 30 cm apart` (other is None, surface ""), `right foot 40 cm in front of left foot`.

    `relation` is `from`, `apart`, `in front of` or `behind`; `centimetres` is the distance. `right foot 30 cm to right`
    has `right` or `left` and neither surface nor other: so far from where it was in the pose before.
    """

    part: Part
    centimetres: Decimal
    relation: str
    surface: str = ""
    other: Part | None = None


@frozen
class Height(Placed):
    """`hands at shoulder height`: level with another part."""

    part: Part
    other: Part


@frozen
class Posture(Placed):
    """One of POSTURES, for one side where its words allow it (`right arm overhead`)."""

    name: str
    side: str = ""


Statement = (
    Angle | Contact | Touch | Lift | Slide | Under | Line | Lean | Distance | Height | Posture
)  # fmt: skip


@frozen
class Pose(Placed):
    """One pose: `role` is `start`, `then` or `end`. `position` is one of POSITIONS; None: the pose before goes on.

    `forward` is the side of the foot in front in half-kneeling. Statements keep the order of the text.
    """

    role: str
    position: str | None
    forward: str
    statements: tuple[Statement, ...]
    but: bool = False


@frozen
class Prop(Placed):
    """A thing beside the body. `where` is `in front`, `behind`, `left`, `right` or ""; `centimetres` a height or None.

    A band, stick or towel runs between `ends`, parts or `anchor`; a weight of `kilograms` is on `ends[0]`.
    """

    kind: str
    where: str = ""
    centimetres: Decimal | None = None
    kilograms: Decimal | None = None
    ends: tuple[Part | str, ...] = ()


@frozen
class Arrow(Placed):
    """`arrow right foot up`: which part moves where from the pose before the last to the last; checked, then drawn."""

    part: Part
    direction: str


@frozen
class Figure(Placed):
    """A figure whole, after `figure like`: at least one pose. `lines` are its own lines as written, for the digest.

    `span` is the whole block. Sitting has brought its chair and lying its mat. Until a figure is whole, `view` is ""
    where none was written.
    """

    lines: tuple[Prose, ...]
    like: str | None = None
    view: str = "side"
    props: tuple[Prop, ...] = ()
    poses: tuple[Pose, ...] = ()
    arrows: tuple[Arrow, ...] = ()
