"""An orthographic camera: from the world's axes to right, down and towards the viewer, all in centimetres."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin

from protodsl.figure.posture import Frame, Vector

# View: yaw from the body's right side towards its front, and elevation above the floor, in degrees. A side view is
# turned a little, so that the far limb shows beside the near one.
_VIEWS: dict[str, tuple[float, float]] = {
    "side": (10, 4),
    "three-quarter": (42, 7),
    "front": (90, 4),
    "back": (-90, 4),
}


@dataclass(frozen=True, slots=True)
class Camera:
    """Three unit vectors in world axes; parallel rays, so distance changes no size."""

    right: Vector
    down: Vector
    towards: Vector

    def point(self, at: Vector) -> Vector:
        """A place in the world: right and down on the page, and how near it is."""
        return self.turned(at)

    def turned(self, direction: Vector) -> Vector:
        """A direction in the world, in the camera's axes."""
        x, y, z = direction
        a, b, c = self.right, self.down, self.towards
        return (
            a[0] * x + a[1] * y + a[2] * z,
            b[0] * x + b[1] * y + b[2] * z,
            c[0] * x + c[1] * y + c[2] * z,
        )


def camera(view: str) -> Camera:
    """The camera of a view named in model.figure.VIEWS."""
    yaw, elevation = (radians(angle) for angle in _VIEWS[view])
    ahead = (sin(yaw), -cos(yaw))
    return Camera(
        right=(cos(yaw), sin(yaw), 0.0),
        down=(ahead[0] * sin(elevation), ahead[1] * sin(elevation), -cos(elevation)),
        towards=(ahead[0] * cos(elevation), ahead[1] * cos(elevation), sin(elevation)),
    )


def placed(frame: Frame, local: Vector) -> Vector:
    """A place given in a segment's own axes, in the world."""
    x, y, z = local
    o, m = frame.origin, frame.axes
    return (
        o[0] + m[0] * x + m[1] * y + m[2] * z,
        o[1] + m[3] * x + m[4] * y + m[5] * z,
        o[2] + m[6] * x + m[7] * y + m[8] * z,
    )


def turned(frame: Frame, local: Vector) -> Vector:
    """A direction given in a segment's own axes, in the world."""
    x, y, z = local
    m = frame.axes
    return (m[0] * x + m[1] * y + m[2] * z, m[3] * x + m[4] * y + m[5] * z, m[6] * x + m[7] * y + m[8] * z)
