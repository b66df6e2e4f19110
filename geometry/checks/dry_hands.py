"""Turning the water on with dry hands, and standing under it: distances in plan (x, z), in mm.

People reach in over the open part of the entry edge. Water falls straight down from the edge of the spray
plate; what room it wants beside that is in the limit. All of it is a hint: beyond a limit is `tight`.
"""

import math
from collections.abc import Iterator

from geometry.checks.near import Gap, Pairs, compare
from geometry.checks.spray import AGAINST
from geometry.finding import Finding
from geometry.model import XY, Enclosure, Valve
from geometry.parts.records import ValvePart
from geometry.plan import Placed, Plan
from geometry.shape.solid import Solid
from geometry.units import at_least, at_most, number, shown

Stretch = tuple[float, float]


def dry_hands(plan: Plan) -> Iterator[Finding]:
    """Judge each valve by reach and by the water of the heads, and each head by the standing place."""
    for valve in plan.valves:
        yield _reach(plan, valve)
    yield from _beside_water(plan)
    yield from (_standing(plan, disc) for disc in plan.solids("head"))


# reach


def open_entry(enclosure: Enclosure) -> tuple[tuple[XY, XY], ...]:
    """Return the parts of the entry edge, in plan, along which no screen stands."""
    axis, at, low, high = _edge(enclosure)
    left: list[Stretch] = [(low, high)]
    for screen in enclosure.screens:
        ends = (screen.start, screen.end)
        if all(abs(end[axis] - at) <= AGAINST for end in ends):
            start, stop = sorted(end[1 - axis] for end in ends)
            pieces = [piece for a, b in left for piece in ((a, min(b, start)), (max(a, stop), b))]
            left = [(a, b) for a, b in pieces if b > a]
    return tuple((_point(axis, at, a), _point(axis, at, b)) for a, b in left)


def _edge(enclosure: Enclosure) -> tuple[int, float, float, float]:
    """Return the axis that an entry edge is square to, its place on that, and where it begins and ends."""
    if enclosure.entry == "front":
        return 1, enclosure.projection, enclosure.left, enclosure.right
    at = enclosure.left if enclosure.entry == "left" else enclosure.right
    return 0, at, 0.0, enclosure.projection


def _point(axis: int, at: float, along: float) -> XY:
    return (at, along) if axis == 0 else (along, at)


def _reach(plan: Plan, valve: Placed[Valve, ValvePart]) -> Finding:
    """Judge how far the farthest control of a valve lies from the nearest place to stand outside."""
    rule, name, place = "people.reach", valve.fitting.id, (valve.fitting.at,)
    ways_in = open_entry(plan.job.enclosure)
    if not ways_in:
        message = f"Screens close the whole edge of entry: how far {name} is from there could not be judged."
        return plan.rules.judge(rule, math.nan, message, (name,), place)
    x, face = valve.fitting.x, valve.face
    hands = [(x + control.x, face + control.projection) for control in valve.part.controls] or [(x, face)]
    far = max(min(_distance(hand, way_in) for way_in in ways_in) for hand in hands)
    limit = plan.rules[rule].value
    message = f"Controls of {name} {shown(far)} mm from the edge of entry; an arm reaches {shown(limit)} mm."
    if not at_most(far, limit):
        message += " Whoever turns the water on stands under it: move the valve towards the entry."
    return plan.rules.judge(rule, far, message, (name,), place, failing="tight")


def _distance(point: XY, edge: tuple[XY, XY]) -> float:
    """Return the distance from a point to a level or plumb stretch."""
    (x0, z0), (x1, z1) = edge
    return math.hypot(max(x0 - point[0], 0.0, point[0] - x1), max(z0 - point[1], 0.0, point[1] - z1))


# under the water


def _beside_water(plan: Plan) -> Iterator[Finding]:
    """Judge how far the controls of each valve keep off the water that falls from each head."""
    floor = plan.job.enclosure.floor
    water = [
        solid._replace(what="water", low=min(floor, solid.low), high=solid.low)
        for solid in plan.solids("head")
    ]
    controls = [solid for solid in plan.fitted if solid.what.endswith(" control")]
    for found in compare(plan.rules, "people.dry", Pairs(controls, water), say=_beside):
        yield found.but(status="tight") if found.status == "clash" else found


def _beside(gap: Gap, found: Finding) -> str:
    valve, head = gap.parts
    wanted = f"{shown(found.limit or 0.0)} mm beside it is wanted"
    if gap.measured < 0:
        return f"Controls of {valve} are under the water of {head}; {wanted}."
    wet = "" if at_least(gap.measured, found.limit or 0.0) else " Hands get wet on them."
    return f"Controls of {valve} {shown(found.measured or 0.0)} mm beside the water of {head}; {wanted}.{wet}"


def _standing(plan: Plan, disc: Solid) -> Finding:
    """Judge how far from the middle of the enclosure a head's axis stands, from wall to front."""
    deep = plan.job.enclosure.projection
    (x, axis), limit = disc.outline.middle, plan.rules["people.standing"].value
    off = abs(axis - deep / 2)
    where = "towards the wall" if axis < deep / 2 else "towards the front"
    kind = plan.job.enclosure.kind.replace("_", " ")
    message = (
        f"Axis of {disc.owner} {shown(axis)} mm out from the bare wall, {shown(off)} mm {where} from the "
        f"middle of the {kind}; {number(limit * deep / 100)} mm is near enough to stand under."
    )
    return plan.rules.judge(
        "people.standing", 100 * off / deep, message, (disc.owner,), ((x, disc.low),), failing="tight"
    )
