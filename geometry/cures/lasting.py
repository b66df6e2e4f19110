"""How far a thing must move at least before a leg, a joint or a crossing that came with it is gone again.

A leg grows and shrinks by no more than its ends move, and what lies in a recess is no chase. All in mm.
"""

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import Literal

from geometry.chase.cuts import way_of
from geometry.checks.legs import joined
from geometry.model import XY
from geometry.pipework.routes import ALIGNED, corners
from geometry.plan import Plan
from geometry.shape.outline import Bounds


def lasting_leg(plan: Plan, pipes: Iterable[str], way: Literal["level", "upright"]) -> float:
    """Return the greatest length of a level or upright leg of some pipes, outside all recesses; 0 if none."""
    boxes = [outline.bounds for outline in plan.recesses.values()]
    return max(
        (
            _outside(leg, boxes)
            for chase in plan.chases
            if chase.pipe in pipes
            for leg in chase.legs
            if way_of(leg) == way
        ),
        default=0.0,
    )


def _outside(leg: tuple[XY, XY], boxes: Iterable[Bounds]) -> float:
    """Return how much of a level or upright leg lies outside all recesses, at least."""
    x0, x1 = sorted((leg[0][0], leg[1][0]))
    y0, y1 = sorted((leg[0][1], leg[1][1]))
    inside = 0.0
    for left, low, right, top in boxes:
        if left <= x1 and x0 <= right and low <= y1 and y0 <= top:
            inside += max(min(x1, right) - max(x0, left), min(y1, top) - max(y0, low))
    return math.dist(*leg) - inside


def lasting_legs(plan: Plan, pipe: str) -> float:
    """Return how far it takes until any leg of a pipe may be gone: the length of the shortest."""
    return min((math.dist(*leg) for leg in pairwise(corners(plan.courses[pipe].points))), default=0.0)


def lasting_crossing(plan: Plan, pipes: tuple[str, ...]) -> float:
    """Return how far it takes until two pipes that cross may cross no more.

    A level and an upright leg cross for as long as neither is drawn back from the crossing, which a thing
    that moves does no faster than itself, and until a recess that both join comes over it.
    """
    one, other = (tuple(pairwise(corners(plan.courses[pipe].points))) for pipe in pipes)
    shared = frozenset.intersection(*(joined(pipe) for pipe in plan.job.pipes if pipe.id in pipes))
    boxes = [plan.recesses[name].bounds for name in shared & plan.recesses.keys()]
    return max((_crossed(a, b, boxes) for p in one for q in other for a, b in ((p, q), (q, p))), default=0.0)


def _crossed(level: tuple[XY, XY], upright: tuple[XY, XY], boxes: Iterable[Bounds]) -> float:
    """Return how far it takes to part a level leg from an upright one at least; 0 if they do not cross."""
    if way_of(level) != "level" or way_of(upright) != "upright":
        return 0.0
    (x0, y), (x1, _), (x, y0), (x, y1) = *sorted(level), *sorted(upright, key=lambda end: end[1])
    ends = min(x - x0, x1 - x, y - y0, y1 - y)
    return max(0.0, min((ends, *(_off((x, y), box) for box in boxes))))


def _off(at: XY, box: Bounds) -> float:
    """Return how far a point lies from a box; 0 inside."""
    (x, y), (left, low, right, top) = at, box
    return math.hypot(max(left - x, x - right, 0.0), max(low - y, y - top, 0.0))


def lasting_joint(plan: Plan, pipe: str, places: Iterable[XY]) -> float:
    """Return how far it takes until the joint of a pipe that lasts longest is straight, or in a recess."""
    wall, boxes = plan.job.wall, [outline.bounds for outline in plan.recesses.values()]
    turns = tuple(pairwise(corners(plan.courses[pipe].points)))
    return max((_to_go(at, turns, boxes, (wall.width, wall.height)) for at in places), default=0.0)


def _to_go(at: XY, turns: Iterable[tuple[XY, XY]], boxes: Iterable[Bounds], wall: XY) -> float:
    x, y = at
    legs = [math.dist(*leg) for leg in turns if any(math.dist(end, at) < ALIGNED for end in leg)]
    return min((*legs, *(_off(at, box) for box in boxes), x, y, wall[0] - x, wall[1] - y))
