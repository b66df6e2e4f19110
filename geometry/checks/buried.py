"""What must stay within reach behind the finish, joints and isolating valves; and notice before the work.

A joint counts where a pipe turns square, unless its tube is bent there, and where it starts on another pipe
within the wall. One in a recess can be looked after from there.
"""

from collections.abc import Iterator
from itertools import groupby, pairwise

from geometry.checks.edges import Edge, ceiling, sides
from geometry.checks.legs import pipe_legs
from geometry.checks.memory import remembered
from geometry.checks.readings import listed
from geometry.finding import Finding, Status
from geometry.model import XY, Pipe
from geometry.model.house import Isolation
from geometry.parts.records import TubePart
from geometry.pipework.bends import is_square, radius, turn
from geometry.plan import Plan
from geometry.shape.outline import meet
from geometry.shape.solid import Solid
from geometry.units import shown


def buried(plan: Plan) -> Iterator[Finding]:
    """Judge the joints of every pipe, the isolating valves, and how many heads a valve feeds."""
    yield from _joints(plan)
    if plan.valves:
        yield _isolation(plan)
        yield _notice(plan)


# joints


def joints(plan: Plan) -> dict[str, tuple[XY, ...]]:
    """Return where each pipe has a joint outside all recesses, by the pipe's id."""
    boxes = [outline.bounds for outline in plan.recesses.values()]
    edges = (*sides(plan.job.wall), ceiling(plan.job.wall), Edge("floor", "below", 0.0))
    legs = {name: list(own) for name, own in groupby(pipe_legs(plan), key=lambda leg: leg.owner)}
    found = {}
    for pipe in plan.job.pipes:
        places = [*_tapped(plan, pipe, edges), *(() if pipe.turns == "bends" else _elbows(legs[pipe.id]))]
        found[pipe.id] = tuple(at for at in places if not any(meet((*at, *at), box) for box in boxes))
    return found


def _elbows(legs: list[Solid]) -> Iterator[XY]:
    """Go through the square turns between legs; no elbow is made for any other."""
    for before, after in pairwise(legs):
        start, corner, end = *before.outline.points, after.outline.points[-1]
        if is_square(turn(start, corner, end)):
            yield corner


def _tapped(plan: Plan, pipe: Pipe, edges: tuple[Edge, ...]) -> Iterator[XY]:
    """Go through where a pipe is fed within the wall: a tee on a pipe that is there already."""
    feed = plan.courses[pipe.id].points[0]
    if pipe.start is None and not any(edge.reached_by(feed) for edge in edges):
        yield feed


@remembered
def _joints(plan: Plan) -> Iterator[Finding]:
    """Judge each pipe by its joints; those that have none share a finding."""
    rule = plan.rules["water.buried_joint"]
    held = joints(plan)
    for name, places in held.items():
        if places:
            yield _buried(plan, name, places)
    free = tuple(name for name, places in held.items() if not places)
    if free or not held:
        message = f"No joint of {listed(free)} is buried." if free else "There is no pipe to bury."
        yield Finding(
            rule=rule.rule, status="clear", parts=free, message=message, unit=rule.unit,
            measured=0.0 if free else None, limit=rule.value, source=rule.source,
        )  # fmt: skip


def _buried(plan: Plan, name: str, places: tuple[XY, ...]) -> Finding:
    count = len(places)
    what = f"{name} has {count} {'joint' if count == 1 else 'joints'} outside the recesses"
    if plan.job.wall.is_stud_wall:
        failing: Status = "tight"
        message = (
            f"{what}, behind the boards. An internal stud wall may hold them: test them under pressure "
            "before it is boarded."
        )
    else:
        failing = "refer"
        message = (
            f"{what}, buried in a solid wall. Ways out: {_bend(plan.tubes[name])}, lead the pipe so that it "
            "turns in a recess, or have the joints tested under pressure before a witness. The water company "
            "or a licensed plumber decides."
        )
    return plan.rules.judge("water.buried_joint", count, message, (name,), places, failing=failing)


def _bend(tube: TubePart) -> str:
    return f"bend the tube, to {shown(radius(tube))} mm radius"


# isolating valves, notice

_ISOLATION: dict[Isolation, tuple[Status, str]] = {
    "not_known": (
        "refer",
        "It is not known where hot and cold are shut off. Find the isolating valves, or plan them behind the "
        "plate or where they can be reached.",
    ),
    "behind_plate": (
        "clear",
        "Hot and cold are shut off behind the plate: set those valves where a screwdriver reaches them "
        "through its hole.",
    ),
    "accessible": ("clear", "Hot and cold are shut off where it can be reached."),
    "none": (
        "clash",
        "Hot and cold cannot be shut off near the valve: fit isolating valves behind the plate or where they "
        "can be reached.",
    ),
}


def _isolation(plan: Plan) -> Finding:
    """Judge where the supplies are shut off, as stated."""
    rule = plan.rules["water.isolation"]
    status, message = _ISOLATION[plan.job.house.isolation]
    parts = tuple(valve.fitting.id for valve in plan.valves)
    return Finding(
        rule=rule.rule, status=status, parts=parts, message=message, unit=rule.unit,
        limit=rule.value, source=rule.source, place=tuple(valve.fitting.at for valve in plan.valves[:1]),
    )  # fmt: skip


def _notice(plan: Plan) -> Finding:
    """Judge the valve that feeds the most heads and handsets."""
    fed: dict[str, list[str]] = {valve.fitting.id: [] for valve in plan.valves}
    wanted = {head.fitting.id for head in plan.heads} | {hung.outlet.fitting.id for hung in plan.hoses}
    for pipe in plan.job.pipes:
        valve, end = (pipe.start or "").partition(".")[0], pipe.end.partition(".")[0]
        if valve in fed and end in wanted:
            fed[valve].append(end)
    valve = max(fed, key=lambda name: len(fed[name]))
    message = f"{valve} feeds {listed(fed[valve])}" if fed[valve] else f"{valve} feeds no head or handset yet"
    if len(fed[valve]) > plan.rules["water.notice"].value:
        message += ": ask the water company before the work whether it wants notice"
    parts = (valve, *fed[valve])
    return plan.rules.judge("water.notice", len(fed[valve]), f"{message}.", parts, failing="refer")
