"""What is cut into the wall as its strength sees it: upright, level and inclined chases, and recesses.

A pipe's chase falls into straight cuts: upright within a degree of plumb, else level or inclined, which count
the same. What lies inside a recess is part of the recess. Cuts of one kind that overlap side by side count as
one wide cut. All in mm; lengths run along the axis, ends are flat; depths are behind the bare face.
"""

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import Literal, NamedTuple

import numpy as np
import shapely

from geometry.chase.channel import Chase
from geometry.model import XY
from geometry.plan import Plan
from geometry.shape.outline import Bounds, outside
from geometry.units import EPSILON

PLUMB = 1.0
"""A leg within this many degrees of plumb is upright, within as many of level is level (common practice)."""
Way = Literal["upright", "level", "inclined", "recess"]
Leg = tuple[XY, XY]


class Cut(NamedTuple):
    """One cut: whose, which way it runs, where it lies on the wall and how large it is, in mm.

    Of an upright chase and a recess the width is along the wall, of the others across the chase.
    """

    owners: tuple[str, ...]
    way: Way
    bounds: Bounds
    width: float
    depth: float
    length: float

    @property
    def middle(self) -> XY:
        """The middle of its bounds."""
        x0, y0, x1, y1 = self.bounds
        return (x0 + x1) / 2, (y0 + y1) / 2


def recess_cuts(plan: Plan) -> tuple[Cut, ...]:
    """Return the recesses of all fittings; what is not cut at all is none."""
    return tuple(
        Cut((name,), "recess", (x0, y0, x1, y1), x1 - x0, depth, y1 - y0)
        for name, outline in plan.recesses.items()
        for (x0, y0, x1, y1), depth in ((outline.bounds, plan.cuts[name]),)
        if depth > 0
    )


def chase_cuts(plan: Plan) -> tuple[Cut, ...]:
    """Return the straight cuts of all chases, upright ones first; a stud wall has none."""
    if plan.job.wall.is_stud_wall:
        return ()
    boxes = tuple(cut.bounds for cut in recess_cuts(plan))
    cuts = [cut for chase in plan.chases for cut in _cuts(chase, boxes)]
    joined = (*_joined(cuts, "upright"), *_joined(cuts, "level"))
    return (*joined, *(cut for cut in cuts if cut.way == "inclined"))


@lru_cache(maxsize=1024)
def _cuts(chase: Chase, boxes: tuple[Bounds, ...]) -> tuple[Cut, ...]:
    """Return the straight cuts of one chase outside the boxes of all recesses."""
    parts = (part for leg in _legs(chase) for part in outside(*leg, boxes))
    return tuple(_cut(chase, part) for part in parts if math.dist(*part) > EPSILON)


def way_of(leg: Leg) -> Way:
    """Return which way a leg runs."""
    (x0, y0), (x1, y1) = leg
    along, up = abs(x1 - x0), abs(y1 - y0)
    steep = math.degrees(math.atan2(up, along))
    if steep >= 90 - PLUMB:
        return "upright"
    return "level" if steep <= PLUMB else "inclined"


def _legs(chase: Chase) -> Iterator[Leg]:
    """Go through the straight legs of a chase; points that lie on the way do not end one."""
    corners: list[XY] = []
    for point in chase.points:
        if len(corners) > 1 and _straight_on(corners[-2], corners[-1], point):
            corners[-1] = point
        else:
            corners.append(point)
    return pairwise(corners)


def _straight_on(a: XY, b: XY, c: XY) -> bool:
    (ux, uy), (vx, vy) = (b[0] - a[0], b[1] - a[1]), (c[0] - b[0], c[1] - b[1])
    return abs(ux * vy - uy * vx) < EPSILON * (math.hypot(ux, uy) + 1) and ux * vx + uy * vy > 0


def _cut(chase: Chase, leg: Leg) -> Cut:
    """Return the cut of one leg: a rectangle about its axis."""
    (x0, y0), (x1, y1) = leg
    length = math.dist(*leg)
    across_x, across_y = abs(y1 - y0) / length * chase.width / 2, abs(x1 - x0) / length * chase.width / 2
    bounds = (
        min(x0, x1) - across_x, min(y0, y1) - across_y, max(x0, x1) + across_x, max(y0, y1) + across_y
    )  # fmt: skip
    return Cut((chase.pipe,), way_of(leg), bounds, chase.width, chase.depth, length)


def _joined(cuts: Sequence[Cut], way: Way) -> Iterator[Cut]:
    """Go through the cuts of one way, those that overlap side by side put together."""
    chosen = [cut for cut in cuts if cut.way == way]
    group = list(range(len(chosen)))

    def first(index: int) -> int:
        while group[index] != index:
            group[index] = group[group[index]]
            index = group[index]
        return index

    for one, other in _overlapping([cut.bounds for cut in chosen]):
        a, b = sorted((first(one), first(other)))
        group[b] = a
    members: dict[int, list[Cut]] = {}
    for index, cut in enumerate(chosen):
        members.setdefault(first(index), []).append(cut)
    return (_together(together) if len(together) > 1 else together[0] for together in members.values())


def _overlapping(bounds: Sequence[Bounds]) -> Iterator[tuple[int, int]]:
    """Go through the pairs of rectangles that share an area; those that only touch do not."""
    boxes = shapely.box(*np.array(bounds, dtype=float).reshape(-1, 4).T)
    for one, other in shapely.STRtree(boxes).query(boxes, predicate="intersects").T.tolist():
        if one < other:
            (ax0, ay0, ax1, ay1), (bx0, by0, bx1, by1) = bounds[one], bounds[other]
            if min(ax1, bx1) - max(ax0, bx0) > EPSILON and min(ay1, by1) - max(ay0, by0) > EPSILON:
                yield one, other


def _together(cuts: Sequence[Cut]) -> Cut:
    xs0, ys0, xs1, ys1 = zip(*(cut.bounds for cut in cuts), strict=True)
    x0, y0, x1, y1 = min(xs0), min(ys0), max(xs1), max(ys1)
    width, length = (x1 - x0, y1 - y0) if cuts[0].way == "upright" else (y1 - y0, x1 - x0)
    owners = tuple(dict.fromkeys(owner for cut in cuts for owner in cut.owners))
    return Cut(owners, cuts[0].way, (x0, y0, x1, y1), width, max(cut.depth for cut in cuts), length)
