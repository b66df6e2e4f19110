"""What is cut into the wall as its strength sees it: upright, level and inclined chases, and recesses.

A pipe's chase falls into straight cuts: upright within a degree of plumb, else level or inclined, which count
the same. What lies inside a recess is part of the recess. Cuts of one kind that overlap side by side count as
one wide cut. All in mm; lengths run along the axis, ends are flat; depths are behind the bare face.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import Literal, NamedTuple

from geometry.chase.channel import Chase
from geometry.chase.recess import CutDepth
from geometry.model import XY
from geometry.plan import Plan
from geometry.shape.neighbours import neighbours
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
    least: float | None = None
    """How deep a recess must be at least for its finish, if there is a depth that fits."""

    @property
    def words(self) -> str:
        """What people call it: `Recess`, `Upright chase`."""
        return "Recess" if self.way == "recess" else f"{self.way.capitalize()} chase"

    @property
    def middle(self) -> XY:
        """The middle of its bounds."""
        x0, y0, x1, y1 = self.bounds
        return (x0 + x1) / 2, (y0 + y1) / 2


def recess_cuts(plan: Plan) -> tuple[Cut, ...]:
    """Return the recesses of all fittings; what is not cut at all is none."""
    return tuple(
        _recess(name, outline.bounds, plan.cuts[name], plan.depths[name])
        for name, outline in plan.recesses.items()
        if plan.cuts[name] > 0
    )


def _recess(name: str, bounds: Bounds, depth: float, fits: CutDepth) -> Cut:
    x0, y0, x1, y1 = bounds
    least = fits.shallowest if fits.room >= 0 else None
    return Cut((name,), "recess", bounds, x1 - x0, depth, y1 - y0, least)


def chase_cuts(plan: Plan) -> tuple[Cut, ...]:
    """Return the straight cuts of all chases, upright ones first; a stud wall has none."""
    if plan.job.wall.is_stud_wall:
        return ()
    boxes = tuple(cut.bounds for cut in recess_cuts(plan))
    cuts = [cut for chase in plan.chases for cut in _cuts(chase, boxes)]
    joined = (*_joined(cuts, "upright"), *_joined(cuts, "level"))
    return (*joined, *(cut for cut in cuts if cut.way == "inclined"))


def by_way(cuts: Iterable[Cut]) -> tuple[tuple[Cut, ...], ...]:
    """Return the cuts of each way together, in the order in which the ways first come up."""
    found: dict[Way, list[Cut]] = {}
    for cut in cuts:
        found.setdefault(cut.way, []).append(cut)
    return tuple(map(tuple, found.values()))


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

    for one, other in neighbours([cut.bounds for cut in chosen]):
        if _overlap(chosen[one].bounds, chosen[other].bounds):
            a, b = sorted((first(one), first(other)))
            group[b] = a
    members: dict[int, list[Cut]] = {}
    for index, cut in enumerate(chosen):
        members.setdefault(first(index), []).append(cut)
    return (_together(together) if len(together) > 1 else together[0] for together in members.values())


def _overlap(a: Bounds, b: Bounds) -> bool:
    """Return whether two rectangles share an area; those that only touch do not."""
    return min(a[2], b[2]) - max(a[0], b[0]) > EPSILON and min(a[3], b[3]) - max(a[1], b[1]) > EPSILON


def _together(cuts: Sequence[Cut]) -> Cut:
    xs0, ys0, xs1, ys1 = zip(*(cut.bounds for cut in cuts), strict=True)
    x0, y0, x1, y1 = min(xs0), min(ys0), max(xs1), max(ys1)
    width, length = (x1 - x0, y1 - y0) if cuts[0].way == "upright" else (y1 - y0, x1 - x0)
    owners = tuple(dict.fromkeys(owner for cut in cuts for owner in cut.owners))
    return Cut(owners, cuts[0].way, (x0, y0, x1, y1), width, max(cut.depth for cut in cuts), length)
