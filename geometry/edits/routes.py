"""Shaping the route of a pipe: its corners and legs moved, added, removed, and a new pipe drawn. All in mm.

Corners are counted along the course, ports left out; a leg is counted by the point of the course at which
it begins. An edit writes every corner down, those too that followed from the ports until then.
"""

import math
from collections.abc import Sequence
from itertools import pairwise

from geometry.edits.refs import Ref, free_name
from geometry.model import XY, Job, Pipe
from geometry.model.pipes import PipeService
from geometry.pipework.routes import ALIGNED
from geometry.plan import Plan
from geometry.units import on_grid


def corners(plan: Plan, pipe_id: str) -> tuple[XY, ...]:
    """Return the points of a pipe that can be moved, in the order of its course: its feed is one of them."""
    course = plan.courses[pipe_id]
    if len(course.points) < 2:
        return _pipe(plan.job, pipe_id).route
    return course.points[1:-1] if course.start else course.points[:-1]


def legs(plan: Plan, pipe_id: str) -> tuple[tuple[XY, XY], ...]:
    """Return the straight legs of a pipe from its start to its end."""
    points = plan.courses[pipe_id].points
    return tuple(pairwise(points))


def corner_moved(plan: Plan, pipe_id: str, index: int, to: XY) -> Job:
    """Return the job with one corner of a pipe elsewhere."""
    points = list(corners(plan, pipe_id))
    points[index] = to
    return _with_route(plan.job, pipe_id, points)


def corner_added(plan: Plan, pipe_id: str, leg: int, at: XY) -> Job:
    """Return the job with one more corner on a leg of a pipe, at the point of the leg nearest to `at`."""
    points = list(corners(plan, pipe_id))
    before = leg if plan.courses[pipe_id].start else leg + 1
    points.insert(before, nearest_on(legs(plan, pipe_id)[leg], at))
    return _with_route(plan.job, pipe_id, points)


def corner_removed(plan: Plan, pipe_id: str, index: int) -> Job:
    """Return the job with one corner of a pipe less.

    Raises:
        ValueError: it is the feed, and no other corner could take its place.
    """
    points = list(corners(plan, pipe_id))
    if len(points) == 1 and plan.courses[pipe_id].start is None:
        raise ValueError(f"{pipe_id} is fed from its first point: move it, or remove the pipe")
    del points[index]
    return _with_route(plan.job, pipe_id, points)


def leg_moved(plan: Plan, pipe_id: str, leg: int, by: XY) -> Job:
    """Return the job with one leg of a pipe moved sideways; its neighbours follow and stay square to it.

    A leg that begins or ends at a port leaves it by the straight run that a port wants, then jogs; so does
    one whose neighbour goes on in the same line.

    Args:
        plan: the job with its parts.
        pipe_id: whose leg it is.
        leg: which one.
        by: how far; only the part of it that is square to the leg counts.
    """
    course = plan.courses[pipe_id]
    points = list(course.points)
    a, b = points[leg], points[leg + 1]
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    off = by[1] * ux - by[0] * uy
    dx, dy = -uy * off, ux * off
    straight = plan.rules["pipe.port"]
    stub = min(straight.value + straight.tight, length)

    start = [_shifted(a, dx, dy)]
    if leg == 0 and course.start:
        foot = _shifted(a, ux * stub, uy * stub)
        start = [a, foot, _shifted(foot, dx, dy)]
    elif leg > 0 and _in_line(points[leg - 1], a, b):
        start.insert(0, a)
    end = [_shifted(b, dx, dy)]
    if leg == len(points) - 2:
        foot = _shifted(b, -ux * stub, -uy * stub)
        end = [_shifted(foot, dx, dy), foot, b]
    elif _in_line(a, b, points[leg + 2]):
        end.append(b)
    points[leg : leg + 2] = [*start, *end]
    return _with_route(plan.job, pipe_id, points[1:-1] if course.start else points[:-1])


def pipe_drawn(
    job: Job, service: PipeService, start: str | None, points: Sequence[XY], end: str | None
) -> tuple[Job, Ref]:
    """Return the job with a new pipe, and the pipe. One that begins at a port and ends free is fed there.

    Args:
        job: what the pipe is added to.
        service: what runs in it.
        start: the port where it begins, or None for a feed, which is then the first of `points`.
        points: the points between, in the order of drawing.
        end: the port where it ends, or None for a feed, which is then the last of `points`.

    Raises:
        ValueError: it joins no port at all, or mixed water is to come from a feed.
    """
    route = [(on_grid(x), on_grid(y)) for x, y in points]
    if end is None:
        start, end, route = end, start, route[::-1]
    if end is None:
        raise ValueError("a pipe must join a port at one end")
    if start is None and service == "mixed":
        raise ValueError("a pipe of mixed water must join a port at each end")
    pipe = Pipe(id=free_name(job, service), service=service, start=start, end=end, route=tuple(route))
    return job.but(pipes=(*job.pipes, pipe)), Ref("pipe", pipe.id)


def nearest_on(leg: tuple[XY, XY], at: XY) -> XY:
    """Return the point of a leg that is nearest to a point."""
    (x0, y0), (x1, y1) = leg
    dx, dy = x1 - x0, y1 - y0
    square = dx * dx + dy * dy
    share = ((at[0] - x0) * dx + (at[1] - y0) * dy) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return x0 + share * dx, y0 + share * dy


def _with_route(job: Job, pipe_id: str, points: Sequence[XY]) -> Job:
    route: list[XY] = []
    for x, y in points:
        point = on_grid(x), on_grid(y)
        if not route or math.dist(route[-1], point) >= ALIGNED:
            route.append(point)
    return job.but(pipes=tuple(p.but(route=tuple(route)) if p.id == pipe_id else p for p in job.pipes))


def _pipe(job: Job, pipe_id: str) -> Pipe:
    return next(pipe for pipe in job.pipes if pipe.id == pipe_id)


def _shifted(point: XY, dx: float, dy: float) -> XY:
    return point[0] + dx, point[1] + dy


def _in_line(a: XY, b: XY, c: XY) -> bool:
    """Return whether the way from a over b to c is straight, or turns right back on itself."""
    (ux, uy), (vx, vy) = (b[0] - a[0], b[1] - a[1]), (c[0] - b[0], c[1] - b[1])
    return abs(ux * vy - uy * vx) < ALIGNED * math.hypot(vx, vy)
