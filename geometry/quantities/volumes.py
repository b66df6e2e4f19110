"""Volumes of what is cut out of the wall, and of what goes in again, in litres.

Each cut is a prism: its area on the wall by its depth behind the bare face. Where cuts overlap the deepest
counts, once. In them lie the boxes of valves, as far as they are behind the face, and the pipes with their
wrap as round bars along their axes. Exact for square cuts; round corners are polygons of 128 sides.
"""

import math
from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

import shapely

from geometry.chase.channel import cut
from geometry.plan import Plan
from geometry.shape.outline import Outline, core

LITRE = 1e6
"""mm3 to the litre."""
_SIDES = 32  # polygon sides to a quarter of a round corner


class Prism(NamedTuple):
    """An area on the wall and how deep it goes behind the bare face."""

    owner: str
    area: shapely.Geometry
    depth: float


class Volumes(NamedTuple):
    """In litres, as they stand in the wall."""

    cut: float
    boxes: float
    pipes: float

    @property
    def to_fill(self) -> float:
        """What is left round boxes and pipes."""
        return max(0.0, self.cut - self.boxes - self.pipes)


def volumes(plan: Plan) -> Volumes:
    """Return the volumes of a plan. In a stud wall nothing is cut out of masonry and nothing is filled."""
    if plan.job.wall.is_stud_wall:
        return Volumes(0.0, 0.0, 0.0)
    cuts = prisms(plan)
    return Volumes(union(cuts) / LITRE, _boxes(plan, cuts) / LITRE, _pipes(plan, cuts) / LITRE)


def prisms(plan: Plan) -> tuple[Prism, ...]:
    """Return every recess and every chase, square-cornered; none is deeper than the wall is thick."""
    thickness = plan.job.wall.thickness
    recesses = (
        Prism(name, polygon(outline), min(plan.cuts[name], thickness))
        for name, outline in plan.recesses.items()
    )
    chases = (
        Prism(chase.pipe, cut(chase.points, chase.width), min(chase.depth, thickness))
        for chase in plan.chases
    )
    return tuple(prism for prism in (*recesses, *chases) if prism.depth > 0)


def union(cuts: Iterable[Prism]) -> float:
    """Return the volume that prisms take up together, in mm3: layer by layer from the face inwards."""
    held, volume, above = tuple(cuts), 0.0, 0.0
    for depth in sorted({prism.depth for prism in held}):
        area = shapely.union_all([prism.area for prism in held if prism.depth >= depth])
        volume += float(shapely.area(area)) * (depth - above)
        above = depth
    return volume


@lru_cache(maxsize=256)
def polygon(outline: Outline) -> shapely.Geometry:
    """Return an outline as a polygon."""
    if outline.radius == 0:
        return core(outline)
    return shapely.buffer(core(outline), outline.radius, quad_segs=_SIDES)


def _boxes(plan: Plan, cuts: tuple[Prism, ...]) -> float:
    """Return how much of the boxes lies in the cuts, in mm3."""
    depths = {prism.owner: prism for prism in cuts}
    volume = 0.0
    for solid in plan.fitted:
        if solid.what == "box" and solid.owner in depths:
            held = depths[solid.owner]
            inside = shapely.intersection(polygon(solid.outline), held.area)
            volume += float(shapely.area(inside)) * held.depth
    return volume


def _pipes(plan: Plan, cuts: tuple[Prism, ...]) -> float:
    """Return how much of the pipes with their wrap lies in the cuts, in mm3, boxes left out.

    A pipe counts along its axis; where it stands proud of the bare face it counts whole.
    """
    area = shapely.union_all([prism.area for prism in cuts])
    boxes = shapely.union_all([polygon(solid.outline) for solid in plan.fitted if solid.what == "box"])
    volume = 0.0
    for chase in plan.chases:
        if len(chase.points) > 1:
            axis = shapely.difference(shapely.intersection(shapely.LineString(chase.points), area), boxes)
            volume += float(shapely.length(axis)) * math.pi / 4 * chase.lagged**2
    return volume
