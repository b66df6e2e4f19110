"""Chases and the pipes in them: what crosses what, what is left of the wall between and behind, the ports.

Depths are mm behind the bare face. What lies between two pipes is kept while neither moves. Whether a
wall may structurally be cut at all is another subject.
"""

import math
from collections.abc import Iterable, Iterator
from functools import lru_cache

import shapely

from geometry.chase.channel import Chase, cut, leg_boxes
from geometry.checks.legs import joined
from geometry.checks.ports import ports
from geometry.finding import Finding
from geometry.model import XY, Wall
from geometry.model.enclosure import EnclosureKind
from geometry.plan import Plan
from geometry.rules import Rulebook
from geometry.shape.neighbours import neighbours
from geometry.shape.outline import Bounds, Outline, core
from geometry.units import EPSILON, at_least, shown

_CALLED: dict[EnclosureKind, str] = {"tray": "tray", "bath": "bath", "wet_floor": "wet floor"}


def chases(plan: Plan) -> Iterator[Finding]:
    """Judge every chase, every pair of chases and every port."""
    if plan.chases:
        pairs = _near(plan)
        crossed = _crossings(plan, pairs)
        yield from crossed.values() or (_no_crossing(plan),)
        yield from tuple(_webs(plan, pairs - crossed.keys())) or (_no_web(plan),)
        for chase, pipe in zip(plan.chases, plan.job.pipes, strict=True):
            yield from _depth(plan.rules, plan.job.wall, chase, pipe.depth)
    yield from ports(plan)


def _near(plan: Plan) -> frozenset[tuple[int, int]]:
    """Return the pairs of chases, by index, that may cross or leave too little wall between them."""
    legs = [(i, box) for i, chase in enumerate(plan.chases) for box in leg_boxes(chase.points, chase.width)]
    reach = _reach(plan)
    pairs = neighbours([box for _, box in legs], reach, reach)
    return frozenset((legs[a][0], legs[b][0]) for a, b in pairs if legs[a][0] != legs[b][0])


def _reach(plan: Plan) -> float:
    """Return up to which distance what stands between two chases is worth a finding, in mm."""
    web = plan.rules["chase.web"]
    return web.value + web.tight + EPSILON


# pipes that cross


def _crossings(plan: Plan, pairs: Iterable[tuple[int, int]]) -> dict[tuple[int, int], Finding]:
    """Return a finding for each pair of pipes that cross or overlap as seen on the wall, by their indices.

    Wrap is included. What lies in a recess in which both end does not count: there they meet in the box.
    """
    found: dict[tuple[int, int], Finding] = {}
    for i, j in sorted(pairs):
        shared = sorted(plan.recesses.keys() & joined(plan.job.pipes[i]) & joined(plan.job.pipes[j]))
        boxes = tuple(plan.recesses[name].bounds for name in shared)
        at = _meeting(plan.chases[i].lagged_pipe, plan.chases[j].lagged_pipe, boxes)
        if at is not None:
            found[i, j] = _crossing(plan, i, j, at)
    return found


@lru_cache(maxsize=1024)
def _meeting(one: Outline, other: Outline, boxes: tuple[Bounds, ...]) -> XY | None:
    """Return where two pipes cross or overlap outside some boxes, or None."""
    a, b = core(one), core(other)
    for box in boxes:
        a, b = (shapely.difference(line, shapely.box(*box)) for line in (a, b))
    if not shapely.distance(a, b) < one.radius + other.radius - EPSILON:
        return None
    (x0, y0), (x1, y1) = shapely.shortest_line(a, b).coords
    return (x0 + x1) / 2, (y0 + y1) / 2


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


def _webs(plan: Plan, pairs: Iterable[tuple[int, int]]) -> Iterator[Finding]:
    """Judge what stands between two chases that do not cross, outside all recesses; a cavity has none."""
    if plan.job.wall.is_stud_wall:
        return
    recesses, need, reach = tuple(plan.recesses.values()), plan.rules["chase.web"].value, _reach(plan)
    for i, j in sorted(pairs):
        one, other = plan.chases[i], plan.chases[j]
        web, place = _between(one, other, recesses)
        if web > reach:
            continue
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


@lru_cache(maxsize=1024)
def _between(one: Chase, other: Chase, recesses: tuple[Outline, ...]) -> tuple[float, tuple[XY, ...]]:
    """Return what stands between two chases outside the recesses, in mm, and where; negative: they overlap.

    It is infinite where nothing is left of one of them.
    """
    a, b = (cut(chase.points, chase.width, recesses) for chase in (one, other))
    if shapely.is_empty(a) or shapely.is_empty(b):
        return math.inf, ()
    line = shapely.shortest_line(a, b)
    web = float(shapely.length(line))
    if web < EPSILON:
        axes = shapely.distance(core(one.lagged_pipe), core(other.lagged_pipe))
        web = min(0.0, float(axes) - (one.width + other.width) / 2)
    return web, tuple((float(x), float(y)) for x, y in line.coords)


def _no_web(plan: Plan) -> Finding:
    need = shown(plan.rules["chase.web"].value)
    message = f"At least {need} mm of wall stand between any two chases."
    if plan.job.wall.is_stud_wall:
        message = "The pipes run in the cavity: no chase is cut."
    pipes = tuple(chase.pipe for chase in plan.chases)
    return Finding(rule="chase.web", status="clear", parts=pipes, message=message)


# wall left behind, cover in front


@lru_cache(maxsize=1024)
def _depth(rules: Rulebook, wall: Wall, chase: Chase, depth: float | None) -> tuple[Finding, Finding]:
    """Judge how deep one pipe lies, at a depth set by hand or not, and its chase is cut."""
    return _behind(rules, wall, chase), _cover(rules, chase, depth)


def _behind(rules: Rulebook, wall: Wall, chase: Chase) -> Finding:
    """Judge what a chase leaves of the wall; in a stud wall the pipe with its clip must fit the cavity."""
    limit = 0.0 if wall.is_stud_wall else rules["chase.wall"].value
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
    return rules.judge("chase.wall", left, message, (chase.pipe,), chase.points, limit=limit)


def _cover(rules: Rulebook, chase: Chase, depth: float | None) -> Finding:
    """Judge what lies over the wrapped pipe; unless its depth is set by hand, that follows from the rule."""
    cover = chase.axis - chase.lagged / 2
    if cover < -EPSILON:
        message = f"{chase.pipe} stands {shown(-cover)} mm proud of the bare wall: lay it deeper."
    elif depth is None:
        message = f"{chase.pipe} lies {shown(cover)} mm under the bare face, wrap included."
    else:
        message = f"{chase.pipe}, set {shown(depth)} mm deep, has {shown(cover)} mm over its wrap."
    return rules.judge("chase.bury", cover, message, (chase.pipe,), chase.points)
