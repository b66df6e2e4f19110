"""Solids: an outline with an interval across its plane, which is what a part takes up in the room.

Behind the wall and at the face a solid's outline lies in the elevation (x, y) and its interval is the
depth z. In front of it the outline lies in plan (x, z) and its interval is the height y: a head is a
disc, a rail an upright round bar. z always counts from the bare wall face.
"""

import math
from functools import cached_property
from typing import Literal, NamedTuple

from geometry.model import XY
from geometry.shape.outline import Outline, gap, nearest, rectangle

Plane = Literal["elevation", "plan"]
Box = tuple[float, float, float, float, float, float]


class _Prism(NamedTuple):
    owner: str
    what: str
    outline: Outline
    low: float
    high: float
    plane: Plane = "elevation"


class Solid(_Prism):
    """Part of a fitting as a prism, in mm: whose it is, what it is, its outline and its interval."""

    @cached_property
    def box(self) -> Box:
        """The box about it: x, y and z from least to most."""
        u0, v0, u1, v1 = self.outline.bounds
        if self.plane == "elevation":
            return u0, v0, self.low, u1, v1, self.high
        return u0, self.low, v0, u1, self.high, v1

    def in_elevation(self) -> "Solid":
        """Return what this takes up as seen on the wall; a plan solid becomes its box."""
        x0, y0, z0, x1, y1, z1 = self.box
        if self.plane == "elevation":
            return self
        return Solid(self.owner, self.what, rectangle(x0, y0, x1, y1), z0, z1)

    def in_plan(self) -> "Solid":
        """Return what this takes up as seen from above; an elevation solid becomes its box."""
        x0, y0, z0, x1, y1, z1 = self.box
        if self.plane == "plan":
            return self
        return Solid(self.owner, self.what, rectangle(x0, z0, x1, z1), y0, y1, "plan")


class Clearance(NamedTuple):
    """How far two solids are apart, and the two points on the wall (x, y) that show it."""

    gap: float
    place: tuple[XY, XY]


def distance(a: Solid, b: Solid) -> float:
    """Return the distance of two solids in mm; negative is how far one is inside the other.

    Two solids of one plane are judged exactly. Of different planes each is in turn replaced by its box:
    neither view says more than the true distance, so the greater of the two counts.
    """
    if a.plane == b.plane:
        return _distance(a, b)
    return max(_distance(a.in_elevation(), b.in_elevation()), _distance(a.in_plan(), b.in_plan()))


def _distance(a: Solid, b: Solid) -> float:
    flat = gap(a.outline, b.outline)
    across = max(a.low - b.high, b.low - a.high)
    return math.hypot(flat, across) if flat > 0 and across > 0 else max(flat, across)


def clearance(a: Solid, b: Solid) -> Clearance:
    """Return the distance of two solids in mm, as `distance` does, and where to look for it on the wall."""
    if a.plane == b.plane == "plan":
        place = _seen_from_the_room(a, b)
    else:
        place = nearest(a.in_elevation().outline, b.in_elevation().outline)
    return Clearance(distance(a, b), place)


def _seen_from_the_room(a: Solid, b: Solid) -> tuple[XY, XY]:
    """Return the nearest points of two plan solids as seen on the wall."""
    (xa, _), (xb, _) = nearest(a.outline, b.outline)
    low, high = max(a.low, b.low), min(a.high, b.high)
    if low <= high:
        middle = (low + high) / 2
        return (xa, middle), (xb, middle)
    return ((xa, a.low), (xb, b.high)) if a.low > b.high else ((xa, a.high), (xb, b.low))
