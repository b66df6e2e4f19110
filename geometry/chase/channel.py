"""The chase of one pipe: how wide and deep it is cut, and its outline on the wall.

Width is the tube, its wrap, and room for a clip each side; depth is the cover, the tube with its wrap,
and what the clip holds it off the back. Corners are square, as a disc cuts them; ends are flat.
"""

import math
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise, starmap
from typing import NamedTuple

import shapely

from geometry.model import XY, Pipe
from geometry.parts.records import TubePart
from geometry.pipework.routes import Course
from geometry.shape.outline import SAME, Bounds, Outline, meet, run

MITRE = 2.0
"""A corner of a chase reaches at most so many half widths from the corner of its axis: own choice."""


class Chase(NamedTuple):
    """The cut for one pipe, in mm; `axis` is the pipe's depth behind the bare face."""

    pipe: str
    points: tuple[XY, ...]
    width: float
    depth: float
    axis: float
    lagged: float
    """Outside diameter of the pipe with its wrap."""

    @property
    def legs(self) -> tuple[tuple[XY, XY], ...]:
        """The straight legs of the chase."""
        return tuple(zip(self.points, self.points[1:], strict=False))

    @property
    def lagged_pipe(self) -> Outline:
        """The pipe with its wrap as seen on the wall."""
        return run(self.points, self.lagged)


def chase(pipe: Pipe, tube: TubePart, course: Course, cover: float) -> Chase:
    """Return the chase of a pipe.

    Args:
        pipe: with its wrap, and its depth if that is set by hand.
        tube: with its outside diameter and its clip.
        course: the pipe's points.
        cover: what lies over the wrapped pipe under the bare face, in mm, if no depth is set.
    """
    lagged = tube.outside + 2 * pipe.wrap
    axis = cover + lagged / 2 if pipe.depth is None else pipe.depth
    return Chase(
        pipe=pipe.id,
        points=course.points,
        width=lagged + 2 * tube.clip_side,
        depth=axis + lagged / 2 + tube.clip_back,
        axis=axis,
        lagged=lagged,
    )


@lru_cache(maxsize=1024)
def cut(points: tuple[XY, ...], width: float, recesses: tuple[Outline, ...] = ()) -> shapely.Geometry:
    """Return the area of a chase on the wall, less the recesses that it runs into."""
    if len(points) < 2:
        return shapely.Polygon()
    band: shapely.Geometry = shapely.LineString(points).buffer(
        width / 2, cap_style="flat", join_style="mitre", mitre_limit=MITRE
    )
    x0, y0, x1, y1 = shapely.bounds(band).tolist()
    for recess in recesses:
        if meet((x0, y0, x1, y1), recess.bounds):
            band = shapely.difference(band, shapely.box(*recess.bounds))
    return band


@lru_cache(maxsize=1024)
def leg_boxes(points: tuple[XY, ...], width: float) -> tuple[Bounds, ...]:
    """Return the boxes about the legs of a chase; they hold all that is cut, and the pipe's round ends.

    Where corners may join, at a jog or where a pipe ends where it began, each reaches as far as any may.
    """
    half = width / 2 * 1.01  # shapely may make shallow bends straight, by a hundredth of what it grows by
    if len(points) < 2:
        return tuple((x - half, y - half, x + half, y + half) for x, y in points)
    legs = tuple(pairwise(points))
    ways = tuple(_way(*leg) for leg in legs)
    joins = points[0] == points[-1] or any(math.dist(*leg) < half / 10 for leg in legs)
    past = [half * (MITRE if joins else reach) for reach in (1.0, *starmap(_mitre, pairwise(ways)), 1.0)]
    boxes = []
    for (a, b), (ux, uy), before, after in zip(legs, ways, past, past[1:], strict=False):
        xs, ys = (a[0] - ux * before, b[0] + ux * after), (a[1] - uy * before, b[1] + uy * after)
        across, up = half * abs(uy), half * abs(ux)
        boxes.append((min(xs) - across, min(ys) - up, max(xs) + across, max(ys) + up))
    return tuple(boxes)


def _way(a: XY, b: XY) -> XY:
    """Return the direction of a leg, of length 1."""
    length = math.dist(a, b)
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def _mitre(u: XY, v: XY) -> float:
    """Return how many half widths a corner reaches along its legs: the tangent of half the turn."""
    turned = 1 + u[0] * v[0] + u[1] * v[1]
    return min(MITRE, abs(u[0] * v[1] - u[1] * v[0]) / turned) if turned > SAME else MITRE


def rings(area: shapely.Geometry) -> Iterator[tuple[XY, ...]]:
    """Go through the closed outlines of an area, outer and inner, without the repeated last point."""
    for polygon in shapely.get_parts(area):
        if isinstance(polygon, shapely.Polygon) and not polygon.is_empty:
            for ring in (polygon.exterior, *polygon.interiors):
                yield tuple((float(x), float(y)) for x, y in ring.coords[:-1])
