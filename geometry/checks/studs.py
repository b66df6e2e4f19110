"""A stud wall: pipes through and along its studs, recesses between them, and what carries the fittings.

Limits for timber studs are those of struts and columns; beyond one an engineer decides. A pipe that runs
along a stud would have to be let into it, and clashes. Lengths in mm.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from geometry.chase.channel import Chase
from geometry.chase.cuts import way_of
from geometry.checks.memory import remembered
from geometry.checks.readings import Reading, findings, judged, listed
from geometry.finding import Finding
from geometry.model import Stud
from geometry.plan import Plan
from geometry.studwork import (
    Bay,
    Noggin,
    StudHole,
    bays,
    nearest_bay,
    noggins,
    stud_holes,
    studs_near,
    studs_of,
)
from geometry.units import EPSILON, at_least, at_most, shown

WAYS = "Lead it up or down within one bay, in front of the studs in a lining, or have an engineer decide."


def studs(plan: Plan) -> Iterator[Finding]:
    """Judge pipes, recesses and fittings of a stud wall; masonry has nothing to judge here."""
    if not plan.job.wall.is_stud_wall:
        return
    uprights = studs_of(plan)
    message = f"{len(uprights)} studs are on the drawing."
    if not uprights:
        message = (
            "No stud is on the drawing: find the studs and enter them. Holes and noggins are not checked."
        )
    yield plan.rules.judge("studs.given", len(uprights), message, (), failing="unchecked")
    if uprights:
        yield from _cut(plan)
        for noggin in noggins(plan):
            yield _carried(plan, noggin)


@remembered
def _cut(plan: Plan) -> Iterator[Finding]:
    """Judge pipes and recesses."""
    if plan.chases:
        yield from _along(plan, studs_of(plan))
        yield from _holes(plan, stud_holes(plan))
    yield from _recesses(plan, bays(plan))


def _along(plan: Plan, uprights: Sequence[Stud]) -> Iterator[Finding]:
    """Judge the clear distance of upright pipes to studs."""
    rule = plan.rules["studs.along"]
    found = {chase.pipe: tuple(_beside(chase, uprights, rule.value, rule.tight)) for chase in plan.chases}

    def say(names: str, reading: Reading) -> str:
        if reading.measured > -EPSILON:
            return f"{names}: {shown(reading.measured)} mm beside {reading.other}."
        into = shown(-reading.measured)
        return f"{names}: {into} mm into {reading.other} all along it. Studs are not notched: move it aside."

    readings = (reading for beside in found.values() for reading in beside)
    yield from findings(plan.rules, readings, say, failing="clash")
    clear = tuple(pipe for pipe, beside in found.items() if not beside)
    if clear:
        message = f"No stud stands in the way of {listed(clear)} where it runs upright."
        yield Finding(rule=rule.rule, status="clear", parts=clear, message=message, source=rule.source)


def _beside(chase: Chase, uprights: Sequence[Stud], limit: float, tight: float) -> Iterator[Reading]:
    """Go through the studs that upright legs of a pipe come near to, with the clear distance to each."""
    rule, half = "studs.along", chase.lagged / 2
    for leg in chase.legs:
        if way_of(leg) == "upright":
            low, high = sorted((leg[0][0], leg[1][0]))
            for stud in studs_near(leg, uprights, half + limit + tight):
                apart = max(stud.x - high, low - stud.x) - stud.wide / 2 - half
                place = ((stud.x, (leg[0][1] + leg[1][1]) / 2),)
                yield Reading(rule, "", (chase.pipe,), apart, limit, place, other=stud.id)


def _holes(plan: Plan, holes: tuple[StudHole, ...]) -> Iterator[Finding]:
    """Judge the holes through studs by what the studs are made of."""
    pipes = tuple(dict.fromkeys(hole.pipe for hole in holes))
    if not holes:
        through = tuple(chase.pipe for chase in plan.chases)
        yield Finding(
            rule="studs.hole", status="clear", parts=through, message="No pipe goes through a stud."
        )
    elif plan.job.wall.make_up == "metal_stud":
        names = tuple(dict.fromkeys(hole.stud.id for hole in holes))
        message = (
            f"{listed(pipes)} through {listed(names)}: metal studs are passed only by the holes that they "
            "come with, a grommet in each. Measure where those are; drill and notch nothing."
        )
        yield plan.rules.judge("studs.service_hole", len(names), message, (*pipes, *names), failing="refer")
    else:
        yield from _sizes(plan, holes)
        yield from _heights(plan, holes)
        yield from _centres(plan, holes)
        yield from _spacing(plan, holes)


def _sizes(plan: Plan, holes: tuple[StudHole, ...]) -> Iterator[Finding]:
    """Judge diameters; the least width of a stud is that of its face or of its side."""
    rule, thick = plan.rules["studs.hole"], plan.job.wall.thickness

    def say(names: str, reading: Reading) -> str:
        most = shown(reading.limit)
        message = f"{names}: hole {shown(reading.measured)} mm through {reading.other}, at most {most} mm"
        return f"{message}." if at_most(reading.measured, reading.limit) else f"{message}. {WAYS}"

    readings = []
    for hole in holes:
        most = rule.value * min(hole.stud.wide, thick)
        readings.append(_reading(rule.rule, hole, hole.diameter, most))
    yield from findings(plan.rules, readings, say)


def _heights(plan: Plan, holes: tuple[StudHole, ...]) -> Iterator[Finding]:
    """Judge how far each hole lies from the nearer end of its stud."""
    rules, height = plan.rules, plan.job.wall.height
    low, high = rules["studs.hole_low"], rules["studs.hole_high"]
    lowest, highest = low.value * height, high.value * height

    def say(names: str, reading: Reading) -> str:
        message = (
            f"{names}: hole {shown(reading.measured)} mm from the nearer end of {reading.other}, "
            f"between {shown(lowest)} and {shown(highest)} mm"
        )
        within = at_least(reading.measured, lowest) and at_most(reading.measured, highest)
        return f"{message}." if within else f"{message}. {WAYS}"

    readings = []
    for hole in holes:
        end = min(hole.height, height - hole.height)
        rule, limit = (high.rule, highest) if at_least(end, lowest) else (low.rule, lowest)
        readings.append(_reading(rule, hole, end, limit))
    yield from findings(rules, readings, say)


def _centres(plan: Plan, holes: tuple[StudHole, ...]) -> Iterator[Finding]:
    """Judge how far each hole lies off the centre line of its stud."""
    rule, middle = plan.rules["studs.centre"], plan.job.wall.thickness / 2

    def say(names: str, reading: Reading) -> str:
        message = f"{names}: hole {shown(reading.measured)} mm off the centre line of {reading.other}"
        if at_most(reading.measured, reading.limit):
            return f"{message}."
        return f"{message}, at most {shown(reading.limit)} mm. Lay the pipe's centre {shown(middle)} mm deep."

    readings = [_reading(rule.rule, hole, abs(hole.depth - middle), rule.value) for hole in holes]
    yield from findings(plan.rules, readings, say)


def _spacing(plan: Plan, holes: tuple[StudHole, ...]) -> Iterator[Finding]:
    """Judge the holes of each stud, from the bottom up, each against the next."""
    rule = plan.rules["studs.hole_gap"]

    def say(names: str, reading: Reading) -> str:
        message = (
            f"{names}: holes {shown(reading.measured)} mm apart in {reading.other}, centre to centre, "
            f"at least {shown(reading.limit)} mm"
        )
        return f"{message}." if at_least(reading.measured, reading.limit) else f"{message}. {WAYS}"

    by_stud: dict[str, list[StudHole]] = {}
    for hole in sorted(holes, key=lambda hole: hole.height):
        by_stud.setdefault(hole.stud.id, []).append(hole)
    readings = []
    for stud, drilled in by_stud.items():
        for low, high in pairwise(drilled):
            pipes, apart = tuple(dict.fromkeys((low.pipe, high.pipe))), high.height - low.height
            need = rule.value * max(low.diameter, high.diameter)
            readings.append(Reading(rule.rule, "", pipes, apart, need, (low.at, high.at), other=stud))
    yield from findings(plan.rules, readings, say)


def _reading(rule: str, hole: StudHole, measured: float, limit: float) -> Reading:
    return Reading(rule, "", (hole.pipe,), measured, limit, (hole.at,), other=hole.stud.id)


def _recesses(plan: Plan, found: Sequence[Bay]) -> Iterator[Finding]:
    """Judge whether each recess fits its bay at all; where in the bay it sits is another subject."""
    rule = plan.rules["studs.bay"]

    def say(names: str, reading: Reading) -> str:
        message = f"{names}: {shown(reading.measured)} mm wide, at most {shown(reading.limit)} mm in its bay"
        if at_most(reading.measured, reading.limit):
            return f"{message}."
        return f"{message}. Choose a narrower box, or have an engineer decide how a stud is cut and trimmed."

    readings = []
    for name, outline in plan.recesses.items() if found else ():
        x0, _, x1, _ = outline.bounds
        bay = nearest_bay(found, outline.middle[0])
        readings.append(
            Reading(rule.rule, "Recess", (name,), x1 - x0, rule.value * bay.clear, (outline.middle,))
        )
    yield from findings(plan.rules, readings, say)


def _carried(plan: Plan, noggin: Noggin) -> Finding:
    """Say what carries a fitting, and how the noggin or board for it is cut."""
    rule, name = "studs.noggin", noggin.fitting
    if noggin.bay is None:
        message = (
            f"{name} is held by {listed(noggin.carriers)}."
            if noggin.carriers
            else (f"{name} is fixed partly on a stud: fix a noggin or board beside it as well.")
        )
        return Finding(rule=rule, status="clear", parts=(name, *noggin.carriers), message=message)
    clear, at = noggin.bay.clear, listed(shown(y) for y in noggin.heights)
    back = f"its face {shown(noggin.back)} mm behind that" if noggin.back else "flush with the face"
    message = (
        f"{name}: cut a noggin or board {shown(clear)} mm long between {noggin.bay.between}, {back} of the "
        f"studs; fixed at {at} mm above the floor."
    )
    if not at_most(clear, plan.rules[rule].value):
        message += " So wide a bay wants a stiffer board or another stud."
    reading = Reading(rule, "", (), clear, plan.rules[rule].value, ())
    return judged(plan.rules, reading, message, (name,), failing="tight")
