"""How far a thing must move at least before a leg, a joint or a crossing that came with it is gone again.

A leg grows and shrinks by no more than its ends move, and what lies in a recess is no chase. All in mm.
"""

import math
from collections.abc import Iterable
from itertools import pairwise
from typing import Literal

from geometry.chase.cuts import way_of
from geometry.checks.legs import joined
from geometry.finding import Finding
from geometry.model import XY
from geometry.pipework.routes import ALIGNED, corners, leaves_wall
from geometry.plan import Plan
from geometry.shape.outline import Bounds, circle, gap, run


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
    """Return how far it takes until a level or upright leg may lie in recesses whole.

    Either as much of it lies beside all recesses along its line, or outside those that it meets now, until it
    has come sideways to another.
    """
    x0, x1 = sorted((leg[0][0], leg[1][0]))
    y0, y1 = sorted((leg[0][1], leg[1][1]))
    met, passed, apart = 0.0, 0.0, math.inf
    for left, low, right, top in boxes:
        wide, high = min(x1, right) - max(x0, left), min(y1, top) - max(y0, low)
        along, off = (wide, -high) if x1 - x0 >= y1 - y0 else (high, -wide)
        if along < 0:
            continue
        if off <= 0:
            met += along
        else:
            passed, apart = passed + along, min(apart, off)
    length = math.dist(*leg)
    return max(length - met - passed, min(length - met, apart))


def lasting_straight(
    plan: Plan, finding: Finding, still: tuple[int, int], short: float, goes: int | None = None
) -> float:
    """Return how far it takes until a straight that is `short` may be long enough, or be one with the next.

    It grows no faster than the thing moves, and not at all if it stays or goes along sideways; its turns are
    what they are for as long as the legs beside it last. Nothing is known of an inclined leg, which may
    turn, nor of a feed that moves within the wall, where it may come to lie on an old pipe.

    Args:
        plan: the job in which the finding was found.
        finding: of a pipe, its place the straight.
        still: how many points at the start and at the end of its course stay.
        short: by how much it is too short, in mm.
        goes: the axis, 0 or 1, along which a leg of this very pipe moves, if one does.
    """
    course = plan.courses[finding.parts[0]]
    legs, stays = tuple(pairwise(corners(course.points))), _staying(course.points, *still)
    stays |= frozenset() if goes is None else _sideways(course.points, *still, goes)
    number = next((number for number, leg in enumerate(legs) if leg == finding.place), None)
    if number is None:
        return 0.0
    near = legs[max(number - 1, 0) : number + 2]
    moves = [leg for leg in near if leg not in stays]
    tapped = course.start is None and number == 0 and not leaves_wall(plan.job.wall, course.points[0])
    if any(way_of(leg) == "inclined" for leg in moves) or (tapped and still[0] == 0):
        return 0.0
    lasts = min((math.dist(*leg) for leg in moves), default=math.inf)
    return min(short, lasts) if legs[number] in moves else lasts


def lasting_port(plan: Plan, finding: Finding, still: tuple[int, int], short: float) -> float:
    """Return how far it takes until a pipe may leave a port straight for as far as is `short`.

    It does not once its next leg is gone, and it goes on in line with the one after; where it leaves the port
    sideways or backwards, once its first leg is gone.
    """
    points = plan.courses[finding.parts[0]].points
    legs, stays = tuple(pairwise(corners(points))), _staying(points, *still)
    first = legs[:2] if points[:1] == finding.place else legs[:-3:-1]
    ahead = first[1:] if (finding.measured or 0.0) > 0 else first
    return min((short, *(math.dist(*leg) for leg in ahead if leg not in stays)))


def _staying(points: tuple[XY, ...], first: int, last: int) -> frozenset[tuple[XY, XY]]:
    """Return the legs between points that stay."""
    return frozenset((*pairwise(points[:first]), *pairwise(points[len(points) - last :])))


def lasting_cut(plan: Plan, pipes: Iterable[str], place: tuple[XY, ...]) -> float:
    """Return how far it takes until a leg may be gone of which the middle outside all recesses is a place.

    A recess may come over it as fast as it moves towards the recess.
    """
    hidden = (off_box(at, outline.bounds) for at in place for outline in plan.recesses.values())
    legs = (lasting_legs(plan, pipe) for pipe in pipes if pipe in plan.courses)
    return min((min(hidden, default=math.inf) / 2, *legs))


def _sideways(points: tuple[XY, ...], first: int, last: int, axis: int) -> frozenset[tuple[XY, XY]]:
    """Return the legs square to an axis between points that do not stay: both ends go along together."""
    moving = points[first : len(points) - last]
    return frozenset(leg for leg in pairwise(moving) if abs(leg[0][axis] - leg[1][axis]) < ALIGNED)


def lasting_legs(plan: Plan, pipe: str) -> float:
    """Return how far it takes until any leg of a pipe may be gone: the length of the shortest."""
    return min((math.dist(*leg) for leg in pairwise(corners(plan.courses[pipe].points))), default=0.0)


def lasting_crossing(plan: Plan, pipes: tuple[str, ...], place: tuple[XY, ...], moving: int) -> float:
    """Return how far it takes until two pipes that cross may cross no more.

    A level and an upright leg cross for as long as neither is drawn back from the crossing, which a thing
    that moves does no faster than itself, and until a recess that both join comes over it. What overlaps at
    a place does so until `moving` pipes, 1 or 2, have gone as far as their wrap overlaps there.
    """
    one, other = (tuple(pairwise(corners(plan.courses[pipe].points))) for pipe in pipes)
    boxes = shared(plan, pipes)
    crossed = (_crossed(a, b, boxes) for p in one for q in other for a, b in ((p, q), (q, p)))
    half = sum(chase.lagged for chase in plan.chases if chase.pipe in pipes) / 2
    (at,) = place
    apart = sum(min((_beside(at, leg) for leg in legs), default=math.inf) for legs in (one, other))
    hidden = min((off_box(at, box) for box in boxes), default=math.inf) - half
    return max(0.0, min((half - apart) / moving, hidden), *crossed)


def shared(plan: Plan, pipes: Iterable[str]) -> list[Bounds]:
    """Return the boxes about the recesses that all of some pipes join."""
    all_join = frozenset.intersection(*(joined(pipe) for pipe in plan.job.pipes if pipe.id in pipes))
    return [plan.recesses[name].bounds for name in sorted(all_join & plan.recesses.keys())]


def _beside(at: XY, leg: tuple[XY, XY]) -> float:
    """Return how far a point lies from a leg."""
    return gap(circle(at, 0.0), run(leg, 0.0))


def _crossed(level: tuple[XY, XY], upright: tuple[XY, XY], boxes: Iterable[Bounds]) -> float:
    """Return how far it takes to part a level leg from an upright one at least; 0 if they do not cross."""
    if way_of(level) != "level" or way_of(upright) != "upright":
        return 0.0
    (x0, y), (x1, _), (x, y0), (x, y1) = *sorted(level), *sorted(upright, key=lambda end: end[1])
    ends = min(x - x0, x1 - x, y - y0, y1 - y)
    return max(0.0, min((ends, *(off_box((x, y), box) for box in boxes))))


def off_box(at: XY, box: Bounds) -> float:
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
    return min((*legs, *(off_box(at, box) for box in boxes), x, y, wall[0] - x, wall[1] - y))
