"""What a pipe keeps off when its route is proposed: rectangles with the room that the rules ask for. In mm.

Barred are openings, services, recesses and screws of other fittings, other pipes in the same depth, and the
edges of the wall where the pipe is not fed from. Zones where cables may run, too little wall between chases,
and holes through studs cost more to go through, but may be.
"""

import math
from collections.abc import Collection, Iterator
from itertools import pairwise
from typing import Literal

from geometry.chase.channel import Chase
from geometry.model import Joist, Pipe, Stud
from geometry.pipework.grid import BARRED, Obstacle
from geometry.pipework.routes import corners
from geometry.plan import Plan
from geometry.shape.outline import Bounds, bounds_of
from geometry.zones import cable_zones

Side = Literal["below", "above", "left", "right"]
ZONE, WEB = 1.0, 0.5
"""What a mm costs more in a cable zone, and where a chase leaves too little wall to the next (own choice)."""
HOLE = 500.0
"""mm of detour that a hole through a stud or joist is worth (own choice)."""


def obstacles(
    plan: Plan, pipe: Pipe, others: Collection[str], open_sides: Collection[Side], tight: bool
) -> Iterator[Obstacle]:
    """Go through the obstacles for a pipe.

    Args:
        plan: the job with its parts.
        pipe: whose route is sought.
        others: the pipes that it keeps off.
        open_sides: edges of the wall that it may cross, square to them.
        tight: keep only what the rules ask for at least, without what they call tight.
    """
    chase = next(one for one in plan.chases if one.pipe == pipe.id)
    stud_wall = plan.job.wall.is_stud_wall
    half = chase.lagged / 2 if stud_wall else chase.width / 2
    wrapped = chase.lagged / 2

    def room(rule: str) -> float:
        limit = plan.rules[rule]
        return limit.value if tight else limit.value + limit.tight

    yield from _edges(plan, half + room("behind.edge"), open_sides)
    for opening in plan.job.wall.openings:
        yield _grown(opening.id, bounds_of(opening), half + room("face.opening"))
    yield from _services(plan, half + room("face.service"), wrapped)
    joins = {end.partition(".")[0] for end in (pipe.start, pipe.end) if end is not None}
    apart = wrapped + room("behind.pipes")
    for solid in plan.fitted:
        if solid.what == "box" and solid.owner in joins:
            yield _grown(f"box of {solid.owner}", solid.outline.bounds, wrapped)
        elif solid.owner not in joins and solid.what in ("recess", "pocket"):
            yield _grown(f"recess of {solid.owner}", solid.outline.bounds, max(apart, half))
        elif solid.owner not in joins and solid.what == "screw":
            yield _grown(f"screw of {solid.owner}", solid.outline.bounds, apart)
    for other in plan.chases:
        if other.pipe in others and other.pipe != pipe.id and _in_one_depth(plan, chase, other):
            for leg in pairwise(corners(other.points)):
                yield _grown(other.pipe, _box(leg), (chase.lagged + other.lagged) / 2 + room("behind.pipes"))
                if not stud_wall:
                    web = (chase.width + other.width) / 2 + plan.rules["chase.web"].value
                    yield _grown(f"wall beside {other.pipe}", _box(leg), web, WEB, WEB)
    for zone in cable_zones(plan):
        yield _grown(zone.name, zone.bounds, half, ZONE, ZONE)


def _edges(plan: Plan, margin: float, open_sides: Collection[Side]) -> Iterator[Obstacle]:
    wall = plan.job.wall
    w, h, far = wall.width, wall.height, 1e5
    strips: dict[Side, Bounds] = {
        "left": (-far, -far, margin, far),
        "right": (w - margin, -far, far, far),
        "below": (-far, -far, far, margin),
        "above": (-far, h - margin, far, far),
    }
    names = {"below": "floor", "above": "ceiling", "left": "left edge", "right": "right edge"}
    for side, bounds in strips.items():
        across = 0.0 if side in open_sides else BARRED
        level, upright = (across, BARRED) if side in ("left", "right") else (BARRED, across)
        yield _grown(names[side], bounds, 0.0, level, upright)


def _services(plan: Plan, room: float, wrapped: float) -> Iterator[Obstacle]:
    for solid, service in zip(plan.existing, plan.job.services, strict=True):
        bounds = solid.outline.bounds
        if isinstance(service, Stud):
            yield _grown(service.id, (bounds[0], -1e5, bounds[2], 1e5), wrapped, 0.0)
            yield _grown(service.id, (bounds[0], -1e5, bounds[2], 1e5), 0.0, HOLE / service.wide, 0.0)
        elif isinstance(service, Joist):
            yield _grown(service.id, bounds, wrapped, BARRED, 0.0)
            yield _grown(service.id, bounds, 0.0, 0.0, HOLE / service.high)
        elif solid.outline.closed or len(solid.outline.points) == 1:
            yield _grown(service.id, bounds, room)
        else:
            for leg in pairwise(solid.outline.points):
                yield _grown(service.id, _box(leg), solid.outline.radius + room)


def _in_one_depth(plan: Plan, a: Chase, b: Chase) -> bool:
    return abs(a.axis - b.axis) < (a.lagged + b.lagged) / 2 + plan.rules["chase.crossing"].value


def _box(leg: tuple[tuple[float, float], tuple[float, float]]) -> Bounds:
    (x0, y0), (x1, y1) = leg
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def _grown(name: str, bounds: Bounds, by: float, level: float = BARRED, upright: float = BARRED) -> Obstacle:
    """Return an obstacle with room round it, its edges on the grid of 0.1 mm, outwards."""
    x0, y0, x1, y1 = bounds
    low, high = (_out(x0 - by, -1), _out(y0 - by, -1)), (_out(x1 + by, 1), _out(y1 + by, 1))
    return Obstacle(name, (*low, *high), level, upright)


def _out(value: float, way: int) -> float:
    tenths = value * 10
    near = round(tenths)
    if abs(tenths - near) > 1e-6:
        near = math.ceil(tenths) if way > 0 else math.floor(tenths)
    return near / 10
