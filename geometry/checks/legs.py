"""The straight legs of pipes and of what is cut for them, as solids behind the wall, in mm."""

import math
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise

from geometry.chase.channel import Chase
from geometry.checks.memory import remembered
from geometry.model import XY, Pipe
from geometry.plan import Plan
from geometry.shape.outline import SAME, Bounds, Outline, outside, run
from geometry.shape.solid import Solid

Leg = tuple[XY, ...]
"""Two points, or one where a pipe has no length."""


@remembered
def pipe_legs(plan: Plan) -> tuple[Solid, ...]:
    """Return the legs of all pipes with their wrap."""
    return tuple(solid for chase in plan.chases for solid in _whole(chase))


@remembered
def pipe_legs_outside(plan: Plan) -> tuple[Solid, ...]:
    """Return the legs of all pipes with their wrap, less what lies in the recesses that they join."""
    return tuple(
        solid
        for chase, pipe in zip(plan.chases, plan.job.pipes, strict=True)
        for solid in _outside(chase, _own_boxes(plan, pipe))
    )


def _own_boxes(plan: Plan, pipe: Pipe) -> tuple[Bounds, ...]:
    """Return the boxes about the recesses that a pipe joins."""
    return tuple(plan.recesses[name].bounds for name in sorted(joined(pipe) & plan.recesses.keys()))


def joined(pipe: Pipe) -> frozenset[str]:
    """Return the ids of the fittings that a pipe joins."""
    return frozenset(end.partition(".")[0] for end in (pipe.start, pipe.end) if end is not None)


@remembered
def cut_legs(plan: Plan) -> tuple[Solid, ...]:
    """Return what is cut for the pipes, leg by leg; in a stud wall, whose cavity needs none, the pipes."""
    if plan.job.wall.is_stud_wall:
        return pipe_legs(plan)
    return tuple(solid for chase in plan.chases for solid in _chased(chase))


def _turns(points: tuple[XY, ...]) -> tuple[XY, ...]:
    """Return the ends of a course and the points at which it turns."""
    kept = list(points[:1])
    for (x, y), (x1, y1) in pairwise(points[1:]):
        ux, uy, vx, vy = x - kept[-1][0], y - kept[-1][1], x1 - x, y1 - y
        straight_on = abs(ux * vy - uy * vx) <= SAME * math.hypot(ux, uy) * math.hypot(vx, vy)
        if not straight_on or ux * vx + uy * vy < 0:
            kept.append((x, y))
    return (*kept, *points[1:][-1:])


@lru_cache(maxsize=1024)
def _whole(chase: Chase) -> tuple[Solid, ...]:
    """Return the legs of a pipe with its wrap."""
    return _wrapped(chase, tuple(pairwise(_turns(chase.points))) or (chase.points[:1],))


@lru_cache(maxsize=1024)
def _outside(chase: Chase, boxes: tuple[Bounds, ...]) -> tuple[Solid, ...]:
    """Return what of a pipe with its wrap lies outside some boxes."""
    return _wrapped(chase, (part for leg in pairwise(chase.points) for part in outside(*leg, boxes)))


def _wrapped(chase: Chase, legs: Iterable[Leg]) -> tuple[Solid, ...]:
    r = chase.lagged / 2
    return tuple(Solid(chase.pipe, "pipe", run(leg, 2 * r), -chase.axis - r, -chase.axis + r) for leg in legs)


@lru_cache(maxsize=1024)
def _chased(chase: Chase) -> tuple[Solid, ...]:
    """Return the straight cuts of a chase: square at corners, flat at its ends."""
    return tuple(_straight_cuts(chase))


def _straight_cuts(chase: Chase) -> Iterator[Solid]:
    half, legs = chase.width / 2, tuple(pairwise(_turns(chase.points)))
    for index, ((x0, y0), (x1, y1)) in enumerate(legs):
        length = math.dist((x0, y0), (x1, y1))
        ux, uy = (x1 - x0) / length * half, (y1 - y0) / length * half
        back, on = float(index > 0), float(index < len(legs) - 1)
        a, b = (x0 - ux * back, y0 - uy * back), (x1 + ux * on, y1 + uy * on)
        corners = tuple((x + s * uy, y - s * ux) for (x, y), s in ((a, 1), (b, 1), (b, -1), (a, -1)))
        yield Solid(chase.pipe, "chase", Outline(corners, 0.0, closed=True), -chase.depth, 0.0)
