"""Chases and the pipes in them: what crosses what, what is left of the wall between and behind, the ports.

Depths are mm behind the bare face. Pairs are found by a tree, so that many pipes cost little more than few.
Whether a wall may structurally be cut at all is another subject.
"""

from collections.abc import Iterator, Sequence

import numpy as np
import shapely

from geometry.chase.channel import Chase, cut
from geometry.checks.memory import remembered
from geometry.checks.ports import ports
from geometry.finding import Finding
from geometry.model import XY, Pipe
from geometry.model.enclosure import EnclosureKind
from geometry.plan import Plan
from geometry.shape.outline import core
from geometry.units import EPSILON, at_least, shown

_CALLED: dict[EnclosureKind, str] = {"tray": "tray", "bath": "bath", "wet_floor": "wet floor"}


def chases(plan: Plan) -> Iterator[Finding]:
    """Judge every chase, every pair of chases and every port."""
    if plan.chases:
        crossed = _crossings(plan)
        yield from crossed.values() or (_no_crossing(plan),)
        yield from tuple(_webs(plan, frozenset(crossed))) or (_no_web(plan),)
        for chase, pipe in zip(plan.chases, plan.job.pipes, strict=True):
            yield from _depth(plan, chase, pipe)
    yield from ports(plan)


def _pairs(shapes: Sequence[shapely.Geometry], within: float) -> Iterator[tuple[int, int]]:
    """Return the pairs that come as near as `within` mm to each other, in order; each pair once."""
    found = shapely.STRtree(shapes).query(shapes, predicate="dwithin", distance=within + EPSILON)
    a, b = found[:, found[0] < found[1]]
    order = np.lexsort((b, a))
    yield from zip(a[order].tolist(), b[order].tolist(), strict=True)


# pipes that cross


def _crossings(plan: Plan) -> dict[tuple[int, int], Finding]:
    """Return a finding for each pair of pipes that cross or overlap as seen on the wall, by their indices.

    Wrap is included. What lies in a recess in which both end does not count: there they meet in the box.
    """
    lines = [core(chase.lagged_pipe) for chase in plan.chases]
    found: dict[tuple[int, int], Finding] = {}
    for i, j in _pairs(lines, max(chase.lagged for chase in plan.chases)):
        one, other = plan.chases[i], plan.chases[j]
        shared = _ends_in(plan, i) & _ends_in(plan, j)
        a, b = (_outside(line, plan, shared) for line in (lines[i], lines[j]))
        if shapely.distance(a, b) < (one.lagged + other.lagged) / 2 - EPSILON:
            (x0, y0), (x1, y1) = shapely.shortest_line(a, b).coords
            found[i, j] = _crossing(plan, i, j, ((x0 + x1) / 2, (y0 + y1) / 2))
    return found


def _ends_in(plan: Plan, index: int) -> frozenset[str]:
    """Return the fittings with a recess in which a pipe ends."""
    pipe = plan.job.pipes[index]
    ends = {name.partition(".")[0] for name in (pipe.start, pipe.end) if name is not None}
    return frozenset(ends & plan.recesses.keys())


def _outside(line: shapely.Geometry, plan: Plan, recesses: frozenset[str]) -> shapely.Geometry:
    for name in sorted(recesses):
        line = shapely.difference(line, shapely.box(*plan.recesses[name].bounds))
    return line


def _crossing(plan: Plan, i: int, j: int, at: XY) -> Finding:
    one, other = plan.chases[i], plan.chases[j]
    front, back = (one, other) if one.axis <= other.axis else (other, one)
    half = (one.lagged + other.lagged) / 2
    apart, need = back.axis - front.axis - half, plan.rules["chase.crossing"].value
    hot_over_cold = {plan.job.pipes[i].service, plan.job.pipes[j].service} == {"hot", "cold"}
    where = _where(plan, at)
    if apart < -EPSILON:
        what = ", hot over cold in one depth" if hot_over_cold else " in one depth"
        message = f"{one.pipe} and {other.pipe} cross{what} {where}: they overlap by {shown(-apart)} mm. "
    else:
        message = (
            f"{front.pipe} crosses in front of {back.pipe} {where}, {shown(apart)} mm clear; "
            f"the chase of {back.pipe} is {shown(back.depth)} mm deep there. "
        )
    if not at_least(apart, need):
        deeper = shown(front.axis + half + need)
        message += f"Lead one another way, or lay the centre of {back.pipe} {deeper} mm deep."
    return plan.rules.judge("chase.crossing", apart, message.strip(), (one.pipe, other.pipe), (at,))


def _where(plan: Plan, at: XY) -> str:
    """Say where a point is, as a tape finds it from the enclosure."""
    enclosure = plan.job.enclosure
    along, up = at[0] - enclosure.left, at[1] - enclosure.floor
    what = _CALLED[enclosure.kind]
    side, level = "right" if along >= 0 else "left", "above" if up >= 0 else "below"
    return (
        f"{shown(abs(along))} mm {side} of the {what}'s left edge and {shown(abs(up))} mm {level} its floor"
    )


def _no_crossing(plan: Plan) -> Finding:
    pipes = tuple(chase.pipe for chase in plan.chases)
    return Finding(rule="chase.crossing", status="clear", parts=pipes, message="No two pipes cross.")


# wall left between chases


def _webs(plan: Plan, crossed: frozenset[tuple[int, int]]) -> Iterator[Finding]:
    """Judge what stands between two chases that do not cross, outside all recesses; a cavity has none."""
    if plan.job.wall.is_stud_wall:
        return
    bands, need = _bands(plan), plan.rules["chase.web"].value
    for i, j in _pairs(bands, need + plan.rules["chase.web"].tight):
        if (i, j) in crossed:
            continue
        one, other = plan.chases[i], plan.chases[j]
        line = shapely.shortest_line(bands[i], bands[j])
        web = float(shapely.length(line))
        place = tuple((float(x), float(y)) for x, y in line.coords)
        if web < EPSILON:
            axes = shapely.distance(core(one.lagged_pipe), core(other.lagged_pipe))
            web = min(0.0, float(axes) - (one.width + other.width) / 2)
        if at_least(web, need):
            message = f"{shown(web)} mm of wall stand between the chases of {one.pipe} and {other.pipe}."
        elif web > 0:
            message = (
                f"Only {shown(web)} mm of wall stand between the chases of {one.pipe} and {other.pipe}: "
                "it breaks out. Cut them as one."
            )
        else:
            message = f"The chases of {one.pipe} and {other.pipe} run into each other. Cut them as one."
        parts = (one.pipe, other.pipe)
        yield plan.rules.judge("chase.web", web, message, parts, place, failing="tight")


def _bands(plan: Plan) -> list[shapely.Geometry]:
    """Return the area of each chase, less the recesses that it runs into."""
    recesses = tuple(plan.recesses.values())
    return [cut(chase.points, chase.width, recesses) for chase in plan.chases]


def _no_web(plan: Plan) -> Finding:
    need = shown(plan.rules["chase.web"].value)
    message = f"At least {need} mm of wall stand between any two chases."
    if plan.job.wall.is_stud_wall:
        message = "The pipes run in the cavity: no chase is cut."
    pipes = tuple(chase.pipe for chase in plan.chases)
    return Finding(rule="chase.web", status="clear", parts=pipes, message=message)


# wall left behind, cover in front


@remembered
def _depth(plan: Plan, chase: Chase, pipe: Pipe) -> tuple[Finding, Finding]:
    """Judge how deep one pipe lies and its chase is cut."""
    return _wall(plan, chase), _cover(plan, chase, pipe)


def _wall(plan: Plan, chase: Chase) -> Finding:
    """Judge what a chase leaves of the wall; in a stud wall the pipe with its clip must fit the cavity."""
    wall = plan.job.wall
    limit = 0.0 if wall.is_stud_wall else plan.rules["chase.wall"].value
    left, too_deep = wall.thickness - chase.depth, chase.depth - wall.thickness + limit
    beyond = f": {shown(too_deep)} mm too deep" if not at_least(left, limit) else ""
    if wall.is_stud_wall:
        message = (
            f"{chase.pipe} runs in the cavity: pipe and clip take {shown(chase.depth)} of "
            f"{shown(wall.thickness)} mm{beyond}."
        )
    else:
        message = (
            f"Chase of {chase.pipe}, {shown(chase.width)} wide and {shown(chase.depth)} mm deep, leaves "
            f"{shown(max(0.0, left))} mm of the wall behind it{beyond}."
        )
    return plan.rules.judge("chase.wall", left, message, (chase.pipe,), chase.points, limit=limit)


def _cover(plan: Plan, chase: Chase, pipe: Pipe) -> Finding:
    """Judge what lies over the wrapped pipe; unless its depth is set by hand, that follows from the rule."""
    cover = chase.axis - chase.lagged / 2
    if cover < -EPSILON:
        message = f"{pipe.id} stands {shown(-cover)} mm proud of the bare wall: lay it deeper."
    elif pipe.depth is None:
        message = f"{pipe.id} lies {shown(cover)} mm under the bare face, wrap included."
    else:
        message = f"{pipe.id}, set {shown(pipe.depth)} mm deep, has {shown(cover)} mm over its wrap."
    return plan.rules.judge("chase.bury", cover, message, (pipe.id,), chase.points)
