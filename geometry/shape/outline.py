"""Outlines: a core of points and a radius about it, so that circles stay circles.

One point with a radius is a circle, joined points are a run of pipe or a slot, closed points are a
polygon with rounded corners. Distances are those of the cores less both radii; nothing that is judged
is ever a polygon where it should be round.
"""

import math
from functools import lru_cache
from typing import NamedTuple

import shapely

from geometry.model import XY

Bounds = tuple[float, float, float, float]


class Outline(NamedTuple):
    """A shape in a plane, in mm."""

    points: tuple[XY, ...]
    radius: float = 0.0
    closed: bool = False

    @property
    def bounds(self) -> Bounds:
        """Its x min, y min, x max, y max."""
        xs = [x for x, _ in self.points]
        ys = [y for _, y in self.points]
        r = self.radius
        return min(xs) - r, min(ys) - r, max(xs) + r, max(ys) + r

    @property
    def middle(self) -> XY:
        """The middle of its bounds."""
        x0, y0, x1, y1 = self.bounds
        return (x0 + x1) / 2, (y0 + y1) / 2

    def grown(self, by: float) -> "Outline":
        """Return the outline with room of `by` mm all round."""
        return self._replace(radius=self.radius + by)

    def shifted(self, dx: float, dy: float) -> "Outline":
        """Return the outline elsewhere."""
        return self._replace(points=tuple((x + dx, y + dy) for x, y in self.points))


def circle(centre: XY, diameter: float) -> Outline:
    """Return a circle."""
    return Outline((centre,), diameter / 2)


def rectangle(x0: float, y0: float, x1: float, y1: float, corner: float = 0.0) -> Outline:
    """Return a rectangle with rounded corners; where the corners leave no edge, a slot or a circle."""
    r = min(corner, (x1 - x0) / 2, (y1 - y0) / 2)
    left, low, right, top = x0 + r, y0 + r, x1 - r, y1 - r
    if math.isclose(left, right) and math.isclose(low, top):
        return Outline(((left, low),), r)
    if math.isclose(left, right) or math.isclose(low, top):
        return Outline(((left, low), (right, top)), r)
    return Outline(((left, low), (right, low), (right, top), (left, top)), r, closed=True)


def run(points: tuple[XY, ...], diameter: float) -> Outline:
    """Return a round-ended run along joined points."""
    return Outline(points, diameter / 2)


@lru_cache(maxsize=4096)
def _core(points: tuple[XY, ...], closed: bool) -> shapely.Geometry:
    if len(points) == 1:
        return shapely.Point(points[0])
    return shapely.Polygon(points) if closed else shapely.LineString(points)


def core(outline: Outline) -> shapely.Geometry:
    """Return the core as a shapely geometry."""
    return _core(outline.points, outline.closed)


def gap(a: Outline, b: Outline) -> float:
    """Return the distance between two outlines in mm; negative is how deep they overlap.

    The overlap of two polygons whose cores meet is taken along x or y, whichever is less: the way
    on which parts are moved apart.
    """
    if len(a.points) == 1 and len(b.points) == 1:
        return math.dist(a.points[0], b.points[0]) - a.radius - b.radius
    apart = shapely.distance(core(a), core(b))
    if apart > 0:
        return float(apart) - a.radius - b.radius
    ax0, ay0, ax1, ay1 = a.bounds
    bx0, by0, bx1, by1 = b.bounds
    return -min(ax1 - bx0, bx1 - ax0, ay1 - by0, by1 - ay0)


def nearest(a: Outline, b: Outline) -> tuple[XY, XY]:
    """Return the two points, on the rims of both outlines, between which the gap lies.

    Parallel edges have many: then the pair in the middle of where they face each other.
    """
    middle = _facing_middle(a.bounds, b.bounds)
    line = shapely.shortest_line(core(a), core(b))
    (x0, y0), (x1, y1) = line.coords[0][:2], line.coords[-1][:2]
    length = math.hypot(x1 - x0, y1 - y0)
    if length == 0:
        return (x0, y0), (x1, y1)
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    start, end = (x0 + ux * a.radius, y0 + uy * a.radius), (x1 - ux * b.radius, y1 - uy * b.radius)
    if abs(uy) < 1e-9 and middle[1] is not None:
        return (start[0], middle[1]), (end[0], middle[1])
    if abs(ux) < 1e-9 and middle[0] is not None:
        return (middle[0], start[1]), (middle[0], end[1])
    return start, end


def _facing_middle(a: Bounds, b: Bounds) -> tuple[float | None, float | None]:
    """Return the middle of the overlap of two bounds in x and in y, None where they do not overlap."""
    low_x, high_x = max(a[0], b[0]), min(a[2], b[2])
    low_y, high_y = max(a[1], b[1]), min(a[3], b[3])
    return (
        (low_x + high_x) / 2 if low_x <= high_x else None,
        (low_y + high_y) / 2 if low_y <= high_y else None,
    )
