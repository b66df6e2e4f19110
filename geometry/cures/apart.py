"""How long cuts lie too near one another while a leg of a pipe moves. All in mm.

A leg that moves takes its own pipe's cuts along no faster than itself, and leaves all others where they are.
"""

import math
from itertools import combinations, product

from geometry.chase.cuts import chase_cuts, recess_cuts
from geometry.cures.lasting import lasting_legs, off_box
from geometry.finding import Finding
from geometry.plan import Plan
from geometry.shape.outline import Bounds, bounds_of
from geometry.units import EPSILON


def lasting_web(plan: Plan, finding: Finding, moving: str, short: float) -> float:
    """Return how long the wall between two chases stays too thin: it may grow, or the pipes may cross.

    What a recess takes away is no chase, so the two places must keep out of all.
    """
    one, other = (chase for chase in plan.chases if chase.pipe in finding.parts)
    to_cross = (finding.measured or 0.0) + (one.width + other.width - one.lagged - other.lagged) / 2
    boxes = [outline.bounds for outline in plan.recesses.values()]
    hidden = min((off_box(at, box) for at in finding.place for box in boxes), default=math.inf)
    return min(short, to_cross, hidden, lasting_legs(plan, moving))


def lasting_gap(plan: Plan, moving: str, axis: int, wanted: float) -> float:
    """Return how long a cut of the moving pipe is in the pair of uprights that lies nearest, by EN 1996-1-1.

    Pairs of others stay as they are. A pair counts while it shares a height, two chases are not cut as one,
    and no recess takes a chase in; what moves upwards, axis 1, stays where it is along the wall.

    Args:
        plan: the job in which such a pair was found too near.
        moving: the id of the pipe.
        axis: along which its leg moves, 0 or 1.
        wanted: how far apart a pair must be, in mm, to be no worse than is allowed.
    """
    boxes = [cut.bounds for cut in recess_cuts(plan)]
    openings = map(bounds_of, plan.job.wall.openings)
    uprights = [cut for cut in chase_cuts(plan) if cut.way == "upright"]
    if any(moving in cut.owners and len(cut.owners) > 1 for cut in uprights):
        return 0.0  # cut as one with others, of which it may come off
    chases = [(cut.bounds, moving in cut.owners) for cut in uprights]
    fixed = [(box, False) for box in (*boxes, *openings)]
    pairs = [*combinations(chases, 2), *product(chases, fixed)]
    others = (_along(a, b) for (a, goes), (b, too) in pairs if not (goes or too) and _shared(a, b) >= EPSILON)
    most, lasts = min((wanted, *(max(0.0, along) for along in others))), 0.0
    for (a, goes), (b, too) in pairs:
        along = _along(a, b)
        if not (goes or too) or along >= most:
            continue
        as_one = along if (b, too) in chases else math.inf
        hidden = min((_off(cut, box) for cut in (a, b) for box in boxes if box != cut), default=math.inf)
        stays = min(most - max(0.0, along), as_one, hidden) if axis == 0 else math.inf
        lasts = max(lasts, min(stays, _shared(a, b)))
    return lasts


def _along(a: Bounds, b: Bounds) -> float:
    """Return how far two cuts are apart along the wall."""
    return max(a[0] - b[2], b[0] - a[2])


def _shared(a: Bounds, b: Bounds) -> float:
    """Return how much height two cuts share."""
    return min(a[3], b[3]) - max(a[1], b[1])


def _off(cut: Bounds, box: Bounds) -> float:
    """Return how far the axis of an upright cut lies from the sides of a recess at its height."""
    middle = (cut[0] + cut[2]) / 2
    if _shared(cut, box) < EPSILON:
        return math.inf
    return min(abs(middle - box[0]), abs(middle - box[2]))
