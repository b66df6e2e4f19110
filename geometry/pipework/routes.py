"""The course of a pipe: its points from feed or port to port, in mm on the wall.

A leg from a port to the next point that is neither level nor plumb with it turns once: it leaves the
port in the port's direction. An elbow that may be turned has no direction; there the leg is plumb
first, or follows the port at its other end.
"""

import math
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from geometry.model import XY, Pipe, Wall
from geometry.parts.records import Direction, PortService, Thread

UNIT: dict[Direction, XY] = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, 1.0), "down": (0.0, -1.0)}
"""The direction of a port as a vector, x right, y up."""
ALIGNED = 0.05
"""Two coordinates closer than this are the same: half of the model's 0.1 mm grid."""
_STRAIGHT = 1e-9
"""Sine of a turn that is none: what binary fractions lose."""


class PortAt(NamedTuple):
    """A port on the wall: `name` is `fitting.port`; no direction means an elbow that may be turned."""

    name: str
    at: XY
    direction: Direction | None
    service: PortService
    thread: Thread

    @property
    def words(self) -> str:
        """What people call it: `hot inlet of valve`, `outlet 2 of valve`, and `head` for its only port."""
        fitting, _, port = self.name.partition(".")
        if port == "in":
            return fitting
        number = port.removeprefix("out")
        if port in ("hot", "cold"):
            port = f"{port} inlet"
        elif number != port and number.isdecimal():
            port = f"outlet {number}"
        return f"{port} of {fitting}"


class Course(NamedTuple):
    """The points of a pipe from its start to its end, and the ports at its ends."""

    points: tuple[XY, ...]
    start: PortAt | None
    end: PortAt

    @property
    def length(self) -> float:
        """Length along the axis in mm, corners square."""
        return sum(_distance(a, b) for a, b in pairwise(self.points))


@lru_cache(maxsize=1024)
def course(pipe: Pipe, start: PortAt | None, end: PortAt) -> Course:
    """Return the course of a pipe between its ports; points that repeat are left out."""
    points: list[XY] = [start.at] if start else []
    points += pipe.route
    points.append(end.at)
    if start and len(points) > 1:
        whole = len(points) == 2 and start.direction is None
        corner = (
            _corner(points[-1], end.direction, start.at)
            if whole
            else _corner(start.at, start.direction, points[1])
        )
        points[1:1] = corner
    if len(points) > 1:
        points[-1:-1] = _corner(end.at, end.direction, points[-2])
    return Course(_without_repeats(points), start, end)


def straight_out(course: Course, port: PortAt, *, at_end: bool) -> float:
    """Return how far the pipe runs in its port's direction before it first turns, in mm.

    Points of the route that lie on the way do not end it. 0 or less means that it leaves the port
    sideways or backwards. An elbow that may be turned counts the first leg whole.
    """
    points = course.points[::-1] if at_end else course.points
    if len(points) < 2:
        return 0.0
    if port.direction is None:
        return _distance(points[0], points[1])
    (ux, uy), reach = UNIT[port.direction], 0.0
    for (x0, y0), (x1, y1) in pairwise(points):
        along, across = (x1 - x0) * ux + (y1 - y0) * uy, abs((x1 - x0) * uy) + abs((y1 - y0) * ux)
        if along <= 0 or across >= ALIGNED:
            return reach or min(along, 0.0)
        reach += along
    return reach


def corners(points: tuple[XY, ...]) -> tuple[XY, ...]:
    """Return the ends of a course and the points at which it turns; points on the way are left out."""
    kept = list(points[:1])
    for here, following in pairwise(points[1:]):
        ux, uy = here[0] - kept[-1][0], here[1] - kept[-1][1]
        vx, vy = following[0] - here[0], following[1] - here[1]
        off = abs(ux * vy - uy * vx)
        if off > _STRAIGHT * math.hypot(ux, uy) * math.hypot(vx, vy) or ux * vx + uy * vy < 0:
            kept.append(here)
    return (*kept, *points[1:][-1:])


def leaves_wall(wall: Wall, at: XY) -> bool:
    """Return whether a point lies on an edge of the wall, or past it: a pipe goes on there."""
    x, y = at
    return min(x, y, wall.width - x, wall.height - y) <= ALIGNED


def _corner(port: XY, direction: Direction | None, to: XY) -> list[XY]:
    if abs(port[0] - to[0]) < ALIGNED or abs(port[1] - to[1]) < ALIGNED:
        return []
    return [(to[0], port[1])] if direction in ("left", "right") else [(port[0], to[1])]


def _without_repeats(points: list[XY]) -> tuple[XY, ...]:
    kept: list[XY] = []
    for point in points:
        if not kept or _distance(kept[-1], point) >= ALIGNED:
            kept.append(point)
    return tuple(kept)


def _distance(a: XY, b: XY) -> float:
    return math.dist(a, b)
