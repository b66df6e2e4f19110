"""The chase of one pipe: how wide and deep it is cut, and its outline on the wall.

Width is the tube, its wrap, and room for a clip each side; depth is the cover, the tube with its wrap,
and what the clip holds it off the back. Corners are square, as a disc cuts them; ends are flat.
"""

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

import shapely

from geometry.model import XY, Pipe
from geometry.parts.records import TubePart
from geometry.pipework.routes import Course
from geometry.shape.outline import Outline, meet, run


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
        width / 2, cap_style="flat", join_style="mitre", mitre_limit=2.0
    )
    x0, y0, x1, y1 = shapely.bounds(band).tolist()
    for recess in recesses:
        if meet((x0, y0, x1, y1), recess.bounds):
            band = shapely.difference(band, shapely.box(*recess.bounds))
    return band


def rings(area: shapely.Geometry) -> Iterator[tuple[XY, ...]]:
    """Go through the closed outlines of an area, outer and inner, without the repeated last point."""
    for polygon in shapely.get_parts(area):
        if isinstance(polygon, shapely.Polygon) and not polygon.is_empty:
            for ring in (polygon.exterior, *polygon.interiors):
                yield tuple((float(x), float(y)) for x, y in ring.coords[:-1])
