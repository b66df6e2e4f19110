"""A stud wall as a joiner sees it: the bays between its studs, pipes through studs, noggins for the fittings.

z = 0 is the face of the studs, their depth is the wall's thickness, and a stud runs from floor to ceiling.
All in mm; bays and studs count from left to right. For checks, drawings and cut lists alike.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from geometry.chase.cuts import Leg, way_of
from geometry.model import XY, Joist, Stud
from geometry.plan import Plan


class Bay(NamedTuple):
    """The clear space between two studs, or a stud and an end of the wall, and between what it lies."""

    left: float
    right: float
    between: str

    @property
    def clear(self) -> float:
        """Its clear width: what a noggin in it is cut to."""
        return self.right - self.left


class StudHole(NamedTuple):
    """Where a pipe passes through a stud: height and depth of its centre, and the hole for pipe and wrap."""

    pipe: str
    stud: Stud
    height: float
    depth: float
    diameter: float

    @property
    def at(self) -> XY:
        """The hole as seen on the wall."""
        return self.stud.x, self.height


class Noggin(NamedTuple):
    """What carries a fitting: timbers that are there already, or a noggin or board to be cut for its bay."""

    fitting: str
    heights: tuple[float, ...]
    """Where it is fixed, above the finished floor."""
    back: float
    """By how much the face of the noggin lies behind that of the studs."""
    carriers: tuple[str, ...]
    bay: Bay | None
    """Where to cut one for; None if carriers hold it, or if it stands half on a stud."""


def studs_of(plan: Plan) -> tuple[Stud, ...]:
    """Return the studs from left to right."""
    found = (service for service in plan.job.services if isinstance(service, Stud))
    return tuple(sorted(found, key=lambda stud: stud.x - stud.wide / 2))


def bays(plan: Plan) -> tuple[Bay, ...]:
    """Return the clear bays of the wall."""
    left, before, found = 0.0, "the left end of the wall", []
    for stud in studs_of(plan):
        low, high = stud.x - stud.wide / 2, stud.x + stud.wide / 2
        if low > left:
            found.append(Bay(left, low, f"{before} and {stud.id}"))
        left, before = max(left, high), stud.id
    if plan.job.wall.width > left:
        found.append(Bay(left, plan.job.wall.width, f"{before} and the right end of the wall"))
    return tuple(found)


def bay_at(found: Sequence[Bay], x: float) -> Bay | None:
    """Return the bay that holds an x, its edges included, or None where a stud stands."""
    index = bisect_left(found, x, key=lambda bay: bay.right)
    return found[index] if index < len(found) and found[index].left <= x else None


def nearest_bay(found: Sequence[Bay], x: float) -> Bay:
    """Return the bay that holds an x, or the nearer one of those beside it; ValueError if there is none."""
    index = bisect_left(found, x, key=lambda bay: bay.right)
    return min(found[max(0, index - 1) : index + 1], key=lambda bay: max(bay.left - x, x - bay.right))


def studs_near(leg: Leg, studs: Sequence[Stud], reach: float) -> Sequence[Stud]:
    """Return the studs, of some that stand clear of one another, that a leg comes nearer to than `reach`."""
    low, high = sorted((leg[0][0], leg[1][0]))
    first = bisect_right(studs, low - reach, key=lambda stud: stud.x + stud.wide / 2)
    last = bisect_left(studs, high + reach, key=lambda stud: stud.x - stud.wide / 2)
    return studs[first:last]


def stud_holes(plan: Plan) -> tuple[StudHole, ...]:
    """Return where pipes pass through studs, pipe by pipe. A pipe that runs along a stud makes no hole."""
    studs = studs_of(plan)
    return tuple(
        StudHole(chase.pipe, stud, _height(leg, stud), chase.axis, chase.lagged)
        for chase in plan.chases
        for leg in chase.legs
        if way_of(leg) != "upright"
        for stud in studs_near(leg, studs, 0.0)
    )


def _height(leg: Leg, stud: Stud) -> float:
    """Return the height of a leg at a stud's middle, or where it ends in the stud."""
    (x0, y0), (x1, y1) = sorted(leg)
    x = min(max(stud.x, x0), x1)
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def noggins(plan: Plan) -> tuple[Noggin, ...]:
    """Return what carries each valve, elbow and rail."""
    found, studs = bays(plan), studs_of(plan)
    level = [service for service in plan.job.services if isinstance(service, Joist)]
    return tuple(_noggin(found, studs, level, *fixed) for fixed in _fixed(plan))


def _fixed(plan: Plan) -> Iterator[tuple[str, tuple[XY, ...], float]]:
    """Go through the fittings with the points where each is fixed, and how far back it is held."""
    screws: dict[str, list[XY]] = {}
    for solid in plan.solids("screw"):
        screws.setdefault(solid.owner, []).append(solid.outline.middle)
    for placed in (*plan.valves, *plan.elbowed, *plan.rails):
        fitting = placed.fitting
        if fitting.id in plan.cuts or fitting.id in screws:
            yield fitting.id, tuple(screws.get(fitting.id, [fitting.at])), plan.cuts.get(fitting.id, 0.0)


def _noggin(
    found: Sequence[Bay],
    studs: Sequence[Stud],
    level: Sequence[Joist],
    fitting: str,
    points: tuple[XY, ...],
    back: float,
) -> Noggin:
    heights = tuple(sorted({y for _, y in points}))
    held = [_carrier(studs, level, point) for point in points]
    if all(held):
        return Noggin(fitting, heights, back, tuple(dict.fromkeys(one for one in held if one)), None)
    sides = {bay_at(found, x) for x, _ in points}
    return Noggin(fitting, heights, back, (), sides.pop() if len(sides) == 1 else None)


def _carrier(studs: Sequence[Stud], level: Sequence[Joist], point: XY) -> str | None:
    """Return the stud or level timber behind a point, if there is one."""
    x, y = point
    for stud in studs_near((point, point), studs, 0.0):
        return stud.id
    return next((j.id for j in level if j.left <= x <= j.right and abs(y - j.height) <= j.high / 2), None)
