"""How far a thing must move at least before a leg of a chase, or a joint, that came with it is gone again.

A leg grows and shrinks by no more than its ends move, and what lies in a recess is no chase. All in mm.
"""

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import Literal

from geometry.chase.cuts import way_of
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


def lasting_joint(plan: Plan, pipe: str, places: Iterable[XY]) -> float:
    """Return how far it takes until the joint of a pipe that lasts longest is straight, or in a recess."""
    wall, boxes = plan.job.wall, [outline.bounds for outline in plan.recesses.values()]
    turns = tuple(pairwise(corners(plan.courses[pipe].points)))
    return max((_to_go(at, turns, boxes, (wall.width, wall.height)) for at in places), default=0.0)


def _to_go(at: XY, turns: Iterable[tuple[XY, XY]], boxes: Iterable[Bounds], wall: XY) -> float:
    x, y = at
    legs = [math.dist(*leg) for leg in turns if any(math.dist(end, at) < ALIGNED for end in leg)]
    recesses = (
        math.hypot(max(left - x, x - right, 0.0), max(low - y, y - top, 0.0))
        for left, low, right, top in boxes
    )
    return min((*legs, *recesses, x, y, wall[0] - x, wall[1] - y))
