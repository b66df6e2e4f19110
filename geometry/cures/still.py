"""What of the pipes stays where it is while a thing moves, and what lasts because of it. All in mm.

What is measured to one leg of a pipe is never less than what is measured to the pipe, whatever it does
beside that leg. So a finding lasts for as long as a leg to which it was measured stays, or only grows or
shrinks along itself and still lies beside the place.
"""

import math
from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import NamedTuple

from geometry.checks.legs import joined
from geometry.cures.lasting import off_box, shared
from geometry.finding import Finding
from geometry.model import XY, Pipe
from geometry.pipework.routes import ALIGNED, Course
from geometry.plan import Plan
from geometry.shape.outline import Bounds, gap, outside, run
from geometry.units import EPSILON

ROUNDED = 0.1
"""A measured value is kept to so much."""


class Ends(NamedTuple):
    """So many points of a pipe at its start, and so many at its end, stay where they are."""

    first: int
    last: int


Still = Mapping[str, Ends]
"""What stays of each pipe, by its id."""


class Leg(NamedTuple):
    """A leg of a pipe, how wide it counts, and whether each of its ends stays."""

    line: tuple[XY, XY]
    wide: float
    still: tuple[bool, bool]

    def off(self, at: XY) -> float:
        """Return how far a point lies beside the axis; infinite beyond its ends."""
        (x0, y0), (x1, y1) = self.line
        ux, uy, length, along = x1 - x0, y1 - y0, math.dist(*self.line), self.along(at)
        return abs((at[0] - x0) * uy - (at[1] - y0) * ux) / length if 0 <= along <= length else math.inf

    def along(self, at: XY) -> float:
        """Return how far along the axis a point lies."""
        (x0, y0), (x1, y1) = self.line
        return ((at[0] - x0) * (x1 - x0) + (at[1] - y0) * (y1 - y0)) / math.dist(*self.line)

    def foot(self, at: XY) -> XY:
        """Return the point of the axis beside a place."""
        (x0, y0), (x1, y1) = self.line
        share = self.along(at) / math.dist(*self.line)
        return x0 + share * (x1 - x0), y0 + share * (y1 - y0)

    def lasts(self, axis: int, at: XY, *, moves: bool = False) -> float:
        """Return how far a thing must go along an axis, 0 or 1, before the leg no more lies beside a place.

        Nothing is known of a leg that goes sideways: 0. Where the place itself `moves`, no end stays by it.
        """
        (x0, y0), (x1, y1) = self.line
        if all(self.still) and not moves:
            return math.inf
        if abs((y1 - y0, x1 - x0)[axis]) >= ALIGNED:
            return 0.0
        along = self.along(at)
        room = (along, math.dist(*self.line) - along)
        return min(
            (left for left, still in zip(room, self.still, strict=True) if moves or not still),
            default=math.inf,
        )


def still_by_fitting(plan: Plan, fitting: str, axis: int) -> Still:
    """Return what stays while a fitting moves along an axis, 0 or 1: all but its ports and what follows them.

    Only the point of the route next to a port may follow it, sideways to the leg between; see `moved`.
    """
    return {pipe.id: _but_next_to(pipe, plan.courses[pipe.id], fitting, axis) for pipe in plan.job.pipes}


def _but_next_to(pipe: Pipe, course: Course, fitting: str, axis: int) -> Ends:
    points = course.points
    if fitting not in joined(pipe):
        return Ends(len(points), 0)
    starts = pipe.start is not None and pipe.start.partition(".")[0] == fitting
    port = course.start if starts else course.end
    route = pipe.route if starts else pipe.route[::-1]
    if (starts and pipe.end.partition(".")[0] == fitting) or not route or port is None:
        return Ends(0, 0)
    aligned = [abs(a - b) < ALIGNED for a, b in zip(route[0], port.at, strict=True)]
    follows = aligned[0] if axis == 0 else aligned[1] and not aligned[0]
    kept = route[1 if follows else 0 :][:1]
    if not kept or points.count(kept[0]) != 1:
        return Ends(0, 0)
    number = points.index(kept[0])
    return Ends(0, len(points) - number) if starts else Ends(number + 1, 0)


def still_by_leg(plan: Plan, pipe: str, index: int) -> Still:
    """Return what stays while a leg of a pipe moves: all beyond it, and the stubs that it leaves at ports."""
    still = {name: Ends(len(course.points), 0) for name, course in plan.courses.items()}
    course = plan.courses[pipe]
    after = len(course.points) - index - 2
    still[pipe] = Ends(2 if index == 0 and course.start else index, after or 2)
    return still


def lasting(plan: Plan, finding: Finding, thing: str, axis: int, still: Still) -> float:
    """Return how far a thing must go before a finding no more lies on the legs to which it was measured.

    Infinite where these stay; 0 where nothing is known.
    """
    rule, parts = finding.rule, finding.parts
    if rule == "chase.crossing" and len(parts) == 2:
        return _crossing(plan, finding, thing, axis, still)
    if rule == "behind.edge" and parts[0] in still:
        return _along_edge(plan, finding, axis, still)
    if rule in ("fixings.filled", "behind.pipes"):
        pipes = sum(part in still for part in parts)
        if pipes == 1:
            return _beside(plan, finding, thing, axis, still)
        if pipes == 2 and thing in plan.courses:  # else a recess that comes over a leg may hide it
            return max(_side_by_side(plan, finding, axis, still, one) for one in (0, 1))
    return 0.0


def _legs(plan: Plan, pipe: str, still: Still, *, cut: bool) -> Iterator[Leg]:
    """Go through the legs of a pipe, as wide as they are cut, or as the pipe with its wrap."""
    points, ends = plan.courses[pipe].points, still[pipe]
    wide = next(chase.width if cut else chase.lagged for chase in plan.chases if chase.pipe == pipe)
    stays = [number < ends.first or number >= len(points) - ends.last for number in range(len(points))]
    for line, held in zip(pairwise(points), pairwise(stays), strict=True):
        yield Leg(line, wide, held)


def _beside(plan: Plan, finding: Finding, thing: str, axis: int, still: Still) -> float:
    """Return how long a leg lies beside a recess or a screw."""
    which = 0 if finding.parts[0] in still else 1
    at, apart, moves = finding.place[1 - which], _flat(finding), finding.parts[1 - which] == thing
    legs = _legs(plan, finding.parts[which], still, cut=finding.rule == "fixings.filled")
    near = (leg for leg in legs if leg.off(at) - leg.wide / 2 <= apart + EPSILON)
    return max((leg.lasts(axis, at, moves=moves) for leg in near), default=0.0)


def _flat(finding: Finding) -> float:
    """Return how far things are apart as seen on the wall; 0 where they overlap, or depth counts too."""
    apart = math.dist(*finding.place)
    return apart if abs((finding.measured or 0.0) - apart) <= ROUNDED else 0.0


def _side_by_side(plan: Plan, finding: Finding, axis: int, still: Still, which: int) -> float:
    """Return how long a leg of one pipe lies beside one of another pipe, and does not cross it."""
    apart, at = _flat(finding), finding.place[1 - which]
    return max(
        (
            min(leg.lasts(axis, at), other.lasts(axis, at))
            for leg in _legs(plan, finding.parts[which], still, cut=False)
            for other in _legs(plan, finding.parts[1 - which], still, cut=False)
            if other.off(at) <= other.wide / 2 + EPSILON
            and abs(leg.off(at) - leg.wide / 2 - apart) <= EPSILON
            and gap(run(leg.line, leg.wide), run(other.line, other.wide)) >= apart - EPSILON
        ),
        default=0.0,
    )


def _along_edge(plan: Plan, finding: Finding, axis: int, still: Still) -> float:
    """Return how long a leg lies along an edge of the wall, and not on it.

    What is cut past an edge may come to lie where its pipe leaves the wall, if that end moves: 0.
    """
    own, edge, lasts, measured = *finding.place, 0.0, finding.measured or 0.0
    if abs(measured) <= ROUNDED or (measured < 0 and _leaves_elsewhere(plan, finding.parts[0], still)):
        return 0.0
    across = 0 if own[1] == edge[1] else 1
    way = math.copysign(1.0, (own[across] - edge[across]) * measured)
    apart = way * (own[across] - edge[across])
    for leg in _legs(plan, finding.parts[0], still, cut=not plan.job.wall.is_stud_wall):
        a, b = leg.line
        along, off = abs(a[across] - b[across]) < ALIGNED, way * (a[across] - edge[across])
        if along and ALIGNED < off <= apart + leg.wide / 2 + EPSILON:
            goes_along = math.dist(a, b) if axis != across else 0.0
            lasts = max(lasts, math.inf if all(leg.still) else goes_along)
    return lasts


def _leaves_elsewhere(plan: Plan, pipe: str, still: Still) -> bool:
    """Return whether an end moves at which a pipe may leave the wall: its feed, or its last point."""
    course, ends = plan.courses[pipe], still[pipe]
    fed = course.start is None and ends.first == 0
    return fed or (ends.last == 0 and ends.first < len(course.points))


def _crossing(plan: Plan, finding: Finding, thing: str, axis: int, still: Still) -> float:
    """Return how long legs of two pipes cross or overlap somewhere.

    What lies in a recess that both pipes join does not count; that may move as fast as the thing.
    """
    one, other = (tuple(_legs(plan, pipe, still, cut=False)) for pipe in finding.parts)
    boxes, lasts = shared(plan, finding.parts), 0.0
    for a, b in ((a, b) for p in one for q in other for a, b in ((p, q), (q, p))):
        for at in (*finding.place, *_between(a, b, boxes)):
            if a.off(at) + b.off(at) < (a.wide + b.wide) / 2 - EPSILON:
                feet = (a.foot(at), b.foot(at))
                hidden = min((off_box(foot, box) for foot in feet for box in boxes), default=math.inf)
                held = min(a.lasts(axis, at), b.lasts(axis, at)) if hidden > 0 else 0.0
                lasts = max(lasts, held if thing in plan.courses else min(held, hidden))
    return lasts


def _between(a: Leg, b: Leg, boxes: list[Bounds]) -> Iterator[XY]:
    """Go through some places of a leg outside some boxes, between the ends of another leg."""
    for start, end in outside(*a.line, boxes):
        from_start, from_end = b.along(start), b.along(end)
        if from_start != from_end:
            shares = sorted((to - from_start) / (from_end - from_start) for to in (0.0, math.dist(*b.line)))
            low, high = max(shares[0], 0.0), min(shares[1], 1.0)
            for part in (0.01, 0.5, 0.99) if low < high else ():
                share = low + part * (high - low)
                yield start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
