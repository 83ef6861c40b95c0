"""What stands around the body: the planes it can touch, and where the props are once the body is there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from protodsl.figure.body.landmarks import LANDMARKS
from protodsl.figure.body.parts import limb_of, measured, touching
from protodsl.figure.posture import PlacedProp, Vector
from protodsl.figure.solve.contacts import Hold, Underlay
from protodsl.figure.solve.motion import Placement
from protodsl.model.figure import Contact, Figure, Part, Prop

# Usual heights in cm where none is written: common practice, no source.
HEIGHTS: dict[str, float] = {
    "chair": 45.0,
    "table": 75.0,
    "step": 15.0,
    "pillow": 5.0,
    "towel": 8.0,
    "ball": 55.0,
    "mat": 1.0,
}
# And how broad they are between two parts.
BREADTHS: dict[str, float] = {"ball": 20.0, "pillow": 10.0, "towel": 6.0}
# A pillow under the head of somebody who lies on the side fills the height of the shoulder.
SIDE_PILLOW = 12.5
WALL_HEIGHT = 184.0
# From the seat of a chair to the top of its back, in cm: common practice, no source.
CHAIR_BACK = 40.0
# How deep the props are that have a front edge, in cm, from front to back.
DEPTHS: dict[str, float] = {"chair": 42.0, "table": 50.0, "step": 30.0}
# Half of how broad a seat and a step are; how far the middle of a chair is ahead of who sits on it, as a share of its
# depth; and how far the edge of a step is behind the heel on it, or behind the balls of the feet where heels are free.
HALF_SEAT, HALF_STEP = 20.0, 30.0
SEAT_AHEAD = 0.2
BEHIND_HEEL, BEHIND_FOREFOOT = 4.0, 2.5
# So far from its middle a hand may be on a thing beside the body, in cm.
BESIDE = 28.0

# From a wall to the body, by where the wall is.
_WALLS: dict[str, Vector] = {
    "": (-1.0, 0.0, 0.0), "in front": (-1.0, 0.0, 0.0), "behind": (1.0, 0.0, 0.0),
    "left": (0.0, -1.0, 0.0), "right": (0.0, 1.0, 0.0),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Surface:
    """A plane: all points that reach `offset` (cm) along `normal`; the body is on the side of the normal."""

    normal: Vector
    offset: float


@dataclass(frozen=True, slots=True)
class Scene:
    """The surfaces by name; a wall runs through the world's origin. `under` are the things that lie under a part,
    `between` two parts that hold something between them, with its breadth in cm, `rigid` two parts that hold one stick;
    with `step_ahead` a step is gone up or down forwards.
    """

    surfaces: dict[str, Surface]
    side_pillow: Surface
    under: tuple[Underlay, ...] = ()
    between: tuple[tuple[Part, Part, float], ...] = ()
    rigid: tuple[tuple[Part, Part], ...] = ()
    step_ahead: bool = False

    def surface(self, name: str, position: str, landmark: str) -> Surface:
        """The plane that a landmark lies on: for somebody on the side a head pillow is higher, and who stands holds a
        chair by its back. KeyError where there is no such thing.
        """
        if name == "pillow" and position.endswith("side"):
            return self.side_pillow
        plane = self.surfaces[name]
        if name == "chair" and holds_the_back(position, landmark):
            return Surface(plane.normal, plane.offset + CHAIR_BACK)
        return plane

    def below(self, kind: str) -> str:
        """What a thing lies on, where it is one that lies under a part; else itself."""
        return next((one.on for one in self.under if one.kind == kind), kind)


def scene_of(figure: Figure) -> Scene:
    """The surfaces of a figure: the floor, a chair and a pillow always, the rest where its props say so."""
    up = (0.0, 0.0, 1.0)
    surfaces = {
        "floor": Surface(up, 0.0),
        "chair": Surface(up, HEIGHTS["chair"]),
        "pillow": Surface(up, HEIGHTS["pillow"]),
    }
    side = SIDE_PILLOW
    for prop in figure.props:
        if prop.where == "between":
            continue
        if prop.kind == "wall":
            surfaces["wall"] = Surface(_WALLS[prop.where], 0.0)
        elif prop.kind in HEIGHTS:
            surfaces[prop.kind] = Surface(up, height_of(prop))
            if prop.kind == "pillow" and prop.centimetres is not None:
                side = height_of(prop)
    under = tuple(_under_parts(figure))
    for one in under:
        if one.on in surfaces and one.on != "floor":
            surfaces[one.kind] = Surface(up, surfaces[one.on].offset + surfaces[one.kind].offset)
    ahead = any(prop.kind == "step" and prop.where not in ("left", "right") for prop in figure.props)
    return Scene(surfaces, Surface(up, side), under, tuple(_between(figure)), tuple(_rigid(figure)), ahead)


def _under_parts(figure: Figure) -> Iterator[Underlay]:
    for prop in figure.props:
        for end in prop.ends if prop.where == "under" and prop.kind in HEIGHTS else ():
            if isinstance(end, Part):
                yield _underlay(end, prop.kind, figure)


def _underlay(part: Part, kind: str, figure: Figure) -> Underlay:
    """A thing lies on what the part is put on; where nothing is said of that, on what the position rests it on."""
    position = next((pose.position for pose in figure.poses if pose.position is not None), "standing")
    own = set(touching(part.name, part.side, position))
    for pose in figure.poses:
        for one in pose.statements:
            if not isinstance(one, Contact) or one.surface in (kind, "wall"):
                continue
            if own & set(touching(one.part.name, one.part.side, position)):
                return Underlay(part, kind, one.surface, put=one.surface != "floor")
    seated = position == "sitting" and part.name in ("thigh", "seat", "pelvis", "hip")
    return Underlay(part, kind, "chair" if seated else "floor")


def _between(figure: Figure) -> Iterator[tuple[Part, Part, float]]:
    for prop in figure.props:
        match prop:
            case Prop(where="between", ends=(Part() as one, Part() as other)):
                written = float(prop.centimetres) if prop.centimetres is not None else None
                yield one, other, written or BREADTHS.get(prop.kind, 10.0)


def _rigid(figure: Figure) -> Iterator[tuple[Part, Part]]:
    for prop in figure.props:
        match prop:
            case Prop(kind="stick", ends=(Part() as one, Part() as other)):
                yield one, other


def holds_the_back(position: str, landmark: str) -> bool:
    """Whether who touches a chair with this landmark holds its back."""
    return position == "standing" and limb_of(landmark)[1] == "arm"


def height_of(prop: Prop) -> float:
    """How high a prop is, in cm."""
    return float(prop.centimetres) if prop.centimetres is not None else HEIGHTS.get(prop.kind, 0.0)


def props_of(
    figure: Figure, scene: Scene, bodies: Sequence[tuple[Placement, dict[str, Hold], str]]
) -> tuple[PlacedProp, ...]:
    """Every prop where it stands, those that a position brings with it too."""
    written = {prop.kind for prop in figure.props}
    used = {scene.below(hold.surface) for _, holds, _ in bodies for hold in holds.values()}
    brought = tuple(Prop(kind) for kind in ("chair", "pillow") if kind in used - written)
    return tuple(_placed(prop, scene, bodies) for prop in (*figure.props, *brought))


def _placed(prop: Prop, scene: Scene, bodies: Sequence[tuple[Placement, dict[str, Hold], str]]) -> PlacedProp:
    ends = tuple(end if isinstance(end, str) else _words(end) for end in prop.ends)
    kilograms = float(prop.kilograms or 0)
    height = WALL_HEIGHT if prop.kind == "wall" and prop.centimetres is None else height_of(prop)
    if (
        prop.kind == "pillow"
        and prop.centimetres is None
        and any(position.endswith("side") for _, _, position in bodies)
    ):
        height = scene.side_pillow.offset
    middle = bodies[0][0].origins[0]
    if prop.kind == "wall":
        normal = scene.surfaces["wall"].normal
        at = (0.0, middle[1], 0.0) if normal[0] else (middle[0], 0.0, 0.0)
        return PlacedProp(prop.kind, _rounded(at), normal, height, ends, kilograms)
    touching = _ends_of(prop, bodies[0][0]) or _touching(prop.kind, scene, bodies)
    if not touching:
        return PlacedProp(prop.kind, _rounded(_beside(prop, middle)), _facing(prop.where), height, ends, kilograms)
    held_by_back = any(
        hold.surface == "chair" and holds_the_back(position, name)
        for _, holds, position in bodies[:1]
        for name, hold in holds.items()
    )
    at, facing = _under(prop, touching, middle, held_by_back)
    if prop.where == "under":
        at = (at[0], at[1], scene.surfaces[prop.kind].offset - height_of(prop))
    return PlacedProp(prop.kind, _rounded(at), facing, height, ends, kilograms)


def _ends_of(prop: Prop, body: Placement) -> list[tuple[str, Vector]]:
    """The landmarks of the parts that hold a thing."""
    if prop.where == "under":
        return []
    names = [measured(end.name, end.side) for end in prop.ends if isinstance(end, Part)]
    return [(name, body.centre(LANDMARKS[name])) for name in names]


def _touching(
    kind: str, scene: Scene, bodies: Sequence[tuple[Placement, dict[str, Hold], str]]
) -> list[tuple[str, Vector]]:
    """The landmarks that touch a prop, where they do so first."""
    for body, holds, _ in bodies:
        found = [
            (name, body.centre(LANDMARKS[name]))
            for name, hold in holds.items()
            if hold.surface == kind or scene.below(hold.surface) == kind
        ]
        if found:
            return found
    return []


def _under(
    prop: Prop, touching: Sequence[tuple[str, Vector]], middle: Vector, held_by_back: bool
) -> tuple[Vector, Vector]:
    """Where a prop stands that is touched, and the way from it to the body."""
    depth = DEPTHS.get(prop.kind, 0.0)
    x = sum(at[0] for _, at in touching) / len(touching)
    y = sum(at[1] for _, at in touching) / len(touching)
    names = {name.partition(" ")[2] for name, _ in touching}
    if prop.kind == "chair" and "seat" in names:
        return (x + SEAT_AHEAD * depth, middle[1], 0.0), (1.0, 0.0, 0.0)
    if prop.kind == "chair" and held_by_back:
        ahead = 1.0 if x > middle[0] else -1.0
        return (x + ahead * (0.5 * depth - 2.0), middle[1], 0.0), (ahead, 0.0, 0.0)
    if prop.kind == "step":
        edge = min(at[0] for _, at in touching) - (BEHIND_HEEL if "heel" in names else BEHIND_FOREFOOT)
        return (edge + depth / 2, middle[1], 0.0), (-1.0, 0.0, 0.0)
    aside = prop.where in ("left", "right") or (not prop.where and abs(y - middle[1]) > abs(x - middle[0]))
    if prop.kind in DEPTHS and aside:
        outward = 1.0 if y > middle[1] else -1.0
        # One that is said to be beside somebody reaches along the whole body, with the hand still on it.
        x = min(max(middle[0], x - BESIDE), x + BESIDE) if prop.where else x
        return (x, y + outward * 0.25 * depth, 0.0), (0.0, -outward, 0.0)
    if prop.kind in DEPTHS:
        forward = 1.0 if x > middle[0] else -1.0
        return (x + forward * 0.3 * depth, 0.0, 0.0), (-forward, 0.0, 0.0)
    return (x, y, 0.0), _facing(prop.where)


def _beside(prop: Prop, middle: Vector) -> Vector:
    away = {"in front": (60.0, 0.0), "behind": (-60.0, 0.0), "left": (0.0, 60.0), "right": (0.0, -60.0)}
    x, y = away.get(prop.where, (0.0, 0.0) if prop.kind == "mat" or prop.ends else (60.0, 0.0))
    return (middle[0] + x, middle[1] + y, 0.0)


def _facing(where: str) -> Vector:
    return _WALLS.get(where, _WALLS[""])


def _words(part: Part) -> str:
    return f"{part.side} {part.name}".strip()


def _rounded(at: Vector) -> Vector:
    return (round(at[0], 3) + 0.0, round(at[1], 3) + 0.0, round(at[2], 3) + 0.0)
