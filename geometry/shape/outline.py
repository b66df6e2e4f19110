"""Outlines: a core of points and a radius about it, so that circles stay circles.

One point with a radius is a circle, joined points are a run of pipe or a slot, closed points are a
polygon with rounded corners. Distances are those of the cores less both radii; nothing that is judged
is ever a polygon where it should be round.
"""

import math
from collections.abc import Iterable, Iterator
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import NamedTuple, Protocol

import shapely

from geometry.model import XY

Bounds = tuple[float, float, float, float]
SAME = 1e-9
"""Two coordinates closer than this are one: what binary fractions lose, in mm."""


class _Shape(NamedTuple):
    points: tuple[XY, ...]
    radius: float = 0.0
    closed: bool = False


class Outline(_Shape):
    """A shape in a plane, in mm; its bounds are worked out once."""

    @cached_property
    def bounds(self) -> Bounds:
        """Its x min, y min, x max, y max."""
        (x0, y0, x1, y1), r = _extent(self.points), self.radius
        return x0 - r, y0 - r, x1 + r, y1 + r

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


@lru_cache(maxsize=16384)
def _extent(points: tuple[XY, ...]) -> Bounds:
    """Return the bounds of a core."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


class _Area(Protocol):
    @property
    def x(self) -> float: ...
    @property
    def y(self) -> float: ...
    @property
    def width(self) -> float: ...
    @property
    def height(self) -> float: ...


def bounds_of(area: _Area) -> Bounds:
    """Return the bounds of what is given by its lower left corner and its size, such as an opening."""
    return area.x, area.y, area.x + area.width, area.y + area.height


def meet(a: Bounds, b: Bounds) -> bool:
    """Return whether two boxes share an area, an edge or a corner."""
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def outside(a: XY, b: XY, boxes: Iterable[Bounds]) -> tuple[tuple[XY, XY], ...]:
    """Return the parts of a straight leg that lie outside some boxes, from `a` to `b`."""
    parts: tuple[tuple[XY, XY], ...] = ((a, b),)
    about = _extent((a, b))
    for box in boxes:
        if meet(about, box):
            parts = tuple(part for leg in parts for part in _outside(*leg, box))
    return parts


def _outside(a: XY, b: XY, box: Bounds) -> Iterator[tuple[XY, XY]]:
    """Go through the parts of a leg before it enters a box and after it leaves; touching is not entering."""
    (x, y), along, up = a, b[0] - a[0], b[1] - a[1]
    enters, leaves = 0.0, 1.0
    for start, way, low, high in ((x, along, box[0], box[2]), (y, up, box[1], box[3])):
        if way:
            first, last = sorted(((low - start) / way, (high - start) / way))
            enters, leaves = max(enters, first), min(leaves, last)
        elif not low <= start <= high:
            leaves = 0.0
    if enters >= leaves:
        yield a, b
        return
    if enters > 0.0:
        yield a, (x + enters * along, y + enters * up)
    if leaves < 1.0:
        yield (x + leaves * along, y + leaves * up), b


def circle(centre: XY, diameter: float) -> Outline:
    """Return a circle."""
    return Outline((centre,), diameter / 2)


def rectangle(x0: float, y0: float, x1: float, y1: float, corner: float = 0.0) -> Outline:
    """Return a rectangle with rounded corners; where the corners leave no edge, a slot or a circle."""
    r = min(corner, (x1 - x0) / 2, (y1 - y0) / 2)
    left, low, right, top = x0 + r, y0 + r, x1 - r, y1 - r
    narrow, flat = right - left <= SAME, top - low <= SAME
    if narrow and flat:
        return Outline(((left, low),), r)
    if narrow or flat:
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


@lru_cache(maxsize=16384)
def gap(a: Outline, b: Outline) -> float:
    """Return the distance between two outlines in mm; negative is how deep they overlap.

    The depth is the shortest way on which one of them moves clear of the other. A run counts leg by leg,
    the deepest leg; closed points are taken to be convex, as all our outlines are.
    """
    if len(a.points) == 1 and len(b.points) == 1:
        return math.dist(a.points[0], b.points[0]) - a.radius - b.radius
    apart = _between_cores(a, b)
    depth = 0.0 if apart > 0 else max(_depth(p, q) for p in _convex(a) for q in _convex(b))
    return apart - depth - a.radius - b.radius


def _is_box(outline: Outline) -> bool:
    """Return whether a core is a point, a level or plumb leg, or a rectangle that stands straight."""
    points = outline.points
    if len(points) == 4 and outline.closed:
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = points
        return (ay == by and bx == cx and cy == dy and dx == ax) or (
            ax == bx and by == cy and cx == dx and dy == ay
        )
    return len(points) == 1 or (
        len(points) == 2 and (points[0][0] == points[1][0] or points[0][1] == points[1][1])
    )


def _between_cores(a: Outline, b: Outline) -> float:
    """Return the distance of two cores; 0 where they meet."""
    if not (_is_box(a) and _is_box(b)):
        return float(shapely.distance(core(a), core(b)))
    ax0, ay0, ax1, ay1 = _extent(a.points)
    bx0, by0, bx1, by1 = _extent(b.points)
    return math.hypot(max(ax0 - bx1, bx0 - ax1, 0.0), max(ay0 - by1, by0 - ay1, 0.0))


def holds(outer: Outline, inner: Outline) -> bool:
    """Return whether a convex outline holds another; then nothing is nearer to the inner one."""
    return all(gap(circle(point, 0.0), outer) <= SAME - inner.radius for point in inner.points)


def _convex(outline: Outline) -> tuple[tuple[XY, ...], ...]:
    """Return the convex pieces of a core: the legs of a run, anything else whole."""
    points = outline.points
    if outline.closed or len(points) < 3:
        return (points,)
    return tuple(pairwise(points))


def _depth(a: tuple[XY, ...], b: tuple[XY, ...]) -> float:
    """Return how far two convex pieces reach into each other, square to an edge of either; touching is 0."""
    least = math.inf
    for points in (a, b):
        for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
            length = math.hypot(x1 - x0, y1 - y0)
            if length == 0:
                continue
            nx, ny = (y1 - y0) / length, (x0 - x1) / length
            along_a = [x * nx + y * ny for x, y in a]
            along_b = [x * nx + y * ny for x, y in b]
            least = min(least, max(along_a) - min(along_b), max(along_b) - min(along_a))
    return max(0.0, least)


@lru_cache(maxsize=4096)
def nearest(a: Outline, b: Outline) -> tuple[XY, XY]:
    """Return the two points, on the rims of both outlines, between which the gap lies.

    Level or plumb edges that face each other have many: then the pair in the middle of where they do.
    """
    line = shapely.shortest_line(core(a), core(b))
    (x0, y0), (x1, y1) = line.coords[0][:2], line.coords[-1][:2]
    start, end = _middle_of_facing(a, b, (x0, y0), (x1, y1))
    length = math.dist(start, end)
    if length == 0:
        return start, end
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    return (
        (start[0] + ux * a.radius, start[1] + uy * a.radius),
        (end[0] - ux * b.radius, end[1] - uy * b.radius),
    )


def _middle_of_facing(a: Outline, b: Outline, start: XY, end: XY) -> tuple[XY, XY]:
    """Return a nearest pair of points of two cores moved to the middle of the edges on which both lie."""
    for axis in (0, 1):
        low = max(min(point[axis] for point in outline.points) for outline in (a, b))
        high = min(max(point[axis] for point in outline.points) for outline in (a, b))
        if abs(start[axis] - end[axis]) > SAME or low >= high:
            continue
        middle = (low + high) / 2
        moved = ((start[0], middle), (end[0], middle)) if axis else ((middle, start[1]), (middle, end[1]))
        if all(
            _between_cores(outline, Outline((point,))) <= SAME
            for outline, point in zip((a, b), moved, strict=True)
        ):
            return moved
    return start, end
