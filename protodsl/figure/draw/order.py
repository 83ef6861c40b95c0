"""The painter's order: which part is before which, judged where both are seen, and which limbs are the far ones."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from protodsl.figure.draw.shape import LIMBS, SIDES, Part

# Centimetres by which a limb lies behind its fellow, and behind the trunk, to be drawn as the far one.
_BEHIND_FELLOW, _BEHIND_TRUNK = 8.0, 2.0
# Centimetres by which a limb that is the far one in some panel must lie behind its fellow in all of them.
_STILL_BEHIND = 3.0
# The shortest cone that is asked where it lies.
_LEAST = 5.0


def back_to_front(parts: Mapping[str, Part]) -> tuple[str, ...]:
    """The names of the parts, farthest first; a part waits for all that it covers."""
    names = list(parts)
    behind: dict[str, set[str]] = {name: set() for name in names}
    for at, one in enumerate(names):
        for other in names[at + 1 :]:
            ahead = _ahead(parts[one], parts[other])
            if ahead > 0:
                behind[one].add(other)
            elif ahead < 0:
                behind[other].add(one)
    depth = {name: _depth(parts[name]) for name in names}
    order: list[str] = []
    while names:
        free = [name for name in names if not behind[name] & set(names)]
        # Parts that cover each other in a ring have no right order: the farthest of them goes first.
        chosen = min(free or names, key=lambda name: (depth[name], name))
        order.append(chosen)
        names.remove(chosen)
    return tuple(order)


def far_limbs(parts: Mapping[str, Part], order: tuple[str, ...], view: str) -> frozenset[str]:
    """The limbs on the side away from the camera, which are drawn lighter; none where both sides face it alike."""
    if view not in ("side", "three-quarter"):
        return frozenset()
    trunk = _depth(parts["trunk"])
    found = set()
    for limb in LIMBS:
        far, near = sorted((f"{side} {limb}" for side in SIDES), key=lambda name: _depth(parts[name]))
        if (
            _depth(parts[near]) - _depth(parts[far]) > _BEHIND_FELLOW
            and _depth(parts[far]) < trunk - _BEHIND_TRUNK
            and order.index(far) < order.index("trunk")
        ):
            found.add(far)
    return frozenset(found)


def steady_limbs(found: Sequence[frozenset[str]], bodies: Sequence[Mapping[str, Part]]) -> frozenset[str]:
    """Of the far limbs of all panels of a figure those that never come level with their fellows.

    A limb has one tone in a figure: what turned dark between two panels would look like something that is done.
    """

    def behind(name: str, parts: Mapping[str, Part]) -> bool:
        side, limb = name.split()
        fellow = parts[f"{SIDES[SIDES[0] == side]} {limb}"]
        return _depth(fellow) - _depth(parts[name]) > _STILL_BEHIND

    return frozenset(name for name in frozenset().union(*found) if all(behind(name, parts) for parts in bodies))


def _ahead(one: Part, other: Part) -> float:
    """Above 0 where `one` covers `other` on the whole, below 0 where it is covered, 0 where they do not meet."""
    total = 0.0
    a, b = one.solid.box(), other.solid.box()
    if a[0] > b[2] or b[0] > a[2] or a[1] > b[3] or b[1] > a[3]:
        return total
    for x, y in _samples(one) + _samples(other):
        if one.solid.distance(x, y) < -0.5 and other.solid.distance(x, y) < -0.5:
            mine, theirs = one.solid.near(x, y), other.solid.near(x, y)
            if mine is not None and theirs is not None:
                total += max(-6.0, min(6.0, mine - theirs))
    return total


def _samples(part: Part) -> list[tuple[float, float]]:
    """Places along the bones of a part and half-way to its edges."""
    found = []
    for cone in part.solid.cones:
        # A neck lies within the trunk: only the head itself can be before or behind something. Short ones say little.
        if cone.segment == "neck" or cone.length < _LEAST:
            continue
        (ax, ay, _), (bx, by, _) = cone.a.at, cone.b.at
        ux, uy = cone.span
        x, y, radius = (ax + bx) / 2, (ay + by) / 2, (cone.a.radius + cone.b.radius) / 2
        reach = 0.55 * radius
        found += [(x, y), (x - uy * reach, y + ux * reach), (x + uy * reach, y - ux * reach), (bx, by)]
    return found


def _depth(part: Part) -> float:
    balls = part.solid.balls()
    return sum(ball.at[2] for ball in balls) / len(balls)
