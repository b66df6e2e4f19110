"""Solids: an outline with an interval across its plane, which is what a part takes up in the room.

Behind the wall and at the face a solid's outline lies in the elevation (x, y) and its interval is the
depth z. In front of it the outline lies in plan (x, z) and its interval is the height y: a head is a
disc, a rail an upright round bar. z always counts from the bare wall face.
"""

import math
from typing import Literal, NamedTuple

from geometry.model import XY
from geometry.shape.outline import Outline, gap, nearest, rectangle

Plane = Literal["elevation", "plan"]


class Solid(NamedTuple):
    """Part of a fitting as a prism, in mm: whose it is, what it is, its outline and its interval."""

    owner: str
    what: str
    outline: Outline
    low: float
    high: float
    plane: Plane = "elevation"

    def in_elevation(self) -> "Solid":
        """Return what this takes up as seen on the wall; a plan solid becomes its bounding box."""
        if self.plane == "elevation":
            return self
        x0, z0, x1, z1 = self.outline.bounds
        return Solid(self.owner, self.what, rectangle(x0, self.low, x1, self.high), z0, z1)


class Clearance(NamedTuple):
    """How far two solids are apart, and the two points on the wall (x, y) that show it."""

    gap: float
    place: tuple[XY, ...]


def clearance(a: Solid, b: Solid) -> Clearance:
    """Return the distance of two solids in mm; negative is how far one is inside the other.

    Two solids of one plane are judged exactly; of different planes by the bounding box of the one in
    plan, which is never farther away than the part itself.
    """
    if a.plane != b.plane:
        a, b = a.in_elevation(), b.in_elevation()
    flat = gap(a.outline, b.outline)
    across = max(a.low - b.high, b.low - a.high)
    distance = math.hypot(flat, across) if flat > 0 and across > 0 else max(flat, across)
    if a.plane == "plan":
        return Clearance(distance, _seen_from_the_room(a, b))
    return Clearance(distance, nearest(a.outline, b.outline))


def _seen_from_the_room(a: Solid, b: Solid) -> tuple[XY, ...]:
    """Return the nearest points of two plan solids as seen on the wall."""
    (xa, _), (xb, _) = nearest(a.outline, b.outline)
    low, high = max(a.low, b.low), min(a.high, b.high)
    if low <= high:
        middle = (low + high) / 2
        return (xa, middle), (xb, middle)
    return ((xa, a.low), (xb, b.high)) if a.low > b.high else ((xa, a.high), (xb, b.low))
