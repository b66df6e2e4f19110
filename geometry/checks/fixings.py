"""Fixing screws: what holds each, what it must not reach, and whether its tile bears the hole; lengths in mm.

Screws against pipes, cables and zones of cables are judged with those. Of the screws of one fitting the worst
is reported.
"""

from collections.abc import Iterator

from geometry.build_up import build_up
from geometry.checks.edges import sides, to_edge
from geometry.checks.face import RECESSES, openings_of
from geometry.checks.legs import cut_legs
from geometry.checks.memory import remembered
from geometry.checks.near import Gap, Pairs, compare, near, report, sentence
from geometry.checks.readings import Reading, findings
from geometry.finding import Finding, Status
from geometry.fixings import PLUG, Fixing, fixings_of, tiled_area, to_tile_edge
from geometry.plan import Plan
from geometry.shape.outline import circle
from geometry.shape.solid import Solid
from geometry.studwork import studs_near, studs_of
from geometry.units import at_least, shown

Held = tuple[Fixing, ...]


def fixings(plan: Plan) -> Iterator[Finding]:
    """Judge the screws of every fitting."""
    held = fixings_of(plan)
    if not held:
        yield Finding(rule="fixings.hold", status="clear", parts=(), message="Nothing is fixed with screws.")
        return
    yield from _length_and_hold(plan, held)
    if not plan.job.wall.is_stud_wall:
        yield from _filled(plan, held)
    yield from _around(plan, held)


@remembered
def _length_and_hold(plan: Plan, held: Held) -> Iterator[Finding]:
    """Judge each screw by the wall that it enters."""
    yield _plug(plan, held)
    yield from _leaf(plan, held)
    yield from _in_studs(plan, held) if plan.job.wall.is_stud_wall else _hold(plan, held)


@remembered
def _around(plan: Plan, held: Held) -> Iterator[Finding]:
    """Judge each screw by the edges near it, of the wall and of tiles."""
    if not plan.job.wall.is_stud_wall:
        yield from _edges(plan, held)
    yield from _tiles(plan, held)


# length


def _plug(plan: Plan, held: Held) -> Finding:
    """Say what the wall wants, and how long a screw is where it goes through the finish."""
    wall, hold, rule = plan.job.wall, plan.rules["fixings.hold"], plan.rules["fixings.plug"]
    owners = tuple(dict.fromkeys(screw.owner for screw in held))
    through: dict[str, float] = {}
    for screw in held:
        if screw.owner not in plan.recesses:
            finish = build_up(plan.job.finish, screw.at).most
            through[screw.owner] = max(through.get(screw.owner, 0.0), finish)
    message = f"For screws in this wall: {PLUG[wall.make_up]}."
    if not wall.is_stud_wall:
        message += "".join(
            f" {name}: {shown(hold.value + finish)} mm or more under what it holds, with up to "
            f"{shown(finish)} mm of finish."
            for name, finish in through.items()
        )
    return Finding(
        rule=rule.rule, status="clear", parts=owners, message=message, unit=rule.unit, source=rule.source
    )


def _length(plan: Plan, ground: float) -> str:
    """Say which screw suits a place at which it begins to hold so deep."""
    least = ground + plan.rules["fixings.hold"].value
    most = plan.job.wall.thickness - plan.rules["fixings.leaf"].value
    if plan.job.wall.is_stud_wall:
        return f"Use one that ends within {shown(most)} mm of the face of the studs."
    if not at_least(most, least):
        return "No plain screw suits: use a resin anchor that its maker allows for so thin a leaf."
    return f"Use one that ends {shown(least)} to {shown(most)} mm behind the bare face."


def _hold(plan: Plan, held: Held) -> Iterator[Finding]:
    """Judge how much of each screw lies in sound wall."""
    rule, wall = plan.rules["fixings.hold"], plan.job.wall
    shell = wall.make_up == "hollow_block" and wall.shell is not None

    def say(names: str, reading: Reading) -> str:
        message = (
            f"{names}: {shown(reading.measured)} mm in sound wall behind the recess, "
            f"at least {shown(reading.limit)} mm"
        )
        if at_least(reading.measured, reading.limit):
            return f"{message}."
        if shell:
            return f"{message}: only the shell of the block holds. Use {PLUG[wall.make_up]}."
        return f"{message}. {_length(plan, reading.deep)}"

    readings = [_reading(rule.rule, screw, screw.hold(wall), rule.value) for screw in held]
    yield from findings(plan.rules, readings, say, failing="tight" if shell else "clash")


def _leaf(plan: Plan, held: Held) -> Iterator[Finding]:
    """Judge what each screw leaves of the wall; a hint in a stud wall, where screws are chosen on site."""
    rule, wall = plan.rules["fixings.leaf"], plan.job.wall

    def say(names: str, reading: Reading) -> str:
        left, thick = reading.measured, shown(wall.thickness)
        if left < 0:
            message = f"{names}: go {shown(-left)} mm through the wall of {thick} mm"
        else:
            message = (
                f"{names}: {shown(left)} mm of the {thick} mm wall left behind the tip, "
                f"at least {shown(reading.limit)} mm"
            )
        return f"{message}." if at_least(left, reading.limit) else f"{message}. {_length(plan, reading.deep)}"

    readings = [_reading(rule.rule, screw, wall.thickness - screw.tip, rule.value) for screw in held]
    failing: Status = "tight" if wall.is_stud_wall else "clash"
    yield from findings(plan.rules, readings, say, failing=failing)


def _reading(rule: str, screw: Fixing, measured: float, limit: float, other: str = "") -> Reading:
    return Reading(rule, "Screws", (screw.owner,), measured, limit, (screw.at,), screw.ground, other)


# what is beside a screw


def _solids(held: Held) -> list[Solid]:
    """Return the part of each screw that holds."""
    return [
        Solid(screw.owner, "screw", circle(screw.at, screw.diameter), -screw.tip, -screw.ground)
        for screw in held
    ]


def _filled(plan: Plan, held: Held) -> Iterator[Finding]:
    """Judge screws by chases and recesses of others, unless they hold deep enough behind those."""
    hold = plan.rules["fixings.hold"].value
    cuts = (*plan.solids(*RECESSES), *cut_legs(plan))

    def weakened(screw: Solid, cut: Solid) -> bool:
        deep = -cut.low
        return screw.owner != cut.owner and deep > -screw.high and not at_least(-screw.low - deep, hold)

    yield from compare(plan.rules, "fixings.filled", Pairs(_solids(held), cuts, weakened), say=_no_hold)


def _no_hold(gap: Gap, found: Finding) -> str:
    text = sentence(gap, found)
    return f"{text} What is filled does not hold a screw." if found.status == "clash" else text


def _edges(plan: Plan, held: Held) -> Iterator[Finding]:
    """Judge screws by free ends of the wall and by openings; a plug may break out there: a hint."""
    rule, screws = "fixings.edge", _solids(held)
    free = [edge for edge in sides(plan.job.wall) if not edge.corner]
    gaps = [to_edge(screw, edge) for screw in screws for edge in free]
    by_openings = near(plan.rules, rule, Pairs(screws, openings_of(plan)))
    for found in report(plan.rules, rule, (*gaps, *by_openings)):
        yield found.but(status="tight") if found.status == "clash" else found


def _in_studs(plan: Plan, held: Held) -> Iterator[Finding]:
    """Judge what timber stands beside each screw that enters a stud; what carries the others is elsewhere."""
    rule, uprights = plan.rules["fixings.stud_edge"], studs_of(plan)
    readings = [
        _reading(
            rule.rule,
            screw,
            stud.wide / 2 - abs(screw.at[0] - stud.x) - screw.diameter / 2,
            rule.value,
            stud.id,
        )
        for screw in held
        for stud in studs_near((screw.at, screw.at), uprights, 0.0)
    ]
    if not readings or plan.job.wall.make_up != "timber_stud":
        message = "No screw stands at the edge of a timber stud."
        yield Finding(rule=rule.rule, status="clear", parts=(), message=message, source=rule.source)
        return

    def say(names: str, reading: Reading) -> str:
        beside = f"{names}: {shown(reading.measured)} mm of {reading.other} beside the hole"
        if at_least(reading.measured, reading.limit):
            return f"{beside}."
        return f"{beside}, at least {shown(reading.limit)} mm: the edge splits. Fix a noggin beside the stud."

    yield from findings(plan.rules, readings, say, failing="tight")


# tiles


def _tiles(plan: Plan, held: Held) -> Iterator[Finding]:
    """Judge the holes of screws that go through a tile by the edges of that tile."""
    rule, tiling, wall = plan.rules["fixings.tile_edge"], plan.job.finish.tiling, plan.job.wall
    readings, unknown = [], {}
    for screw in held if tiling else ():
        area = tiled_area(plan.job.finish, screw.at)
        if tiling is None or area is None or screw.owner in plan.recesses:
            continue
        gap = to_tile_edge(tiling, area, wall, screw.at, screw.diameter)
        if gap is None:
            unknown[screw.owner] = screw.at
        else:
            readings.append(_reading(rule.rule, screw, gap, rule.value))

    def say(names: str, reading: Reading) -> str:
        message = f"{names}: hole {shown(reading.measured)} mm from the edge of its tile"
        if at_least(reading.measured, reading.limit):
            return f"{message}, or in a joint."
        return (
            f"{message}, at least {shown(reading.limit)} mm or in a joint: the tile may crack. Move it, or "
            "start the tiles elsewhere."
        )

    yield from findings(plan.rules, readings, say, failing="tight")
    for name, at in unknown.items():
        message = (
            f"Screws of {name} go through a herringbone: keep their holes {shown(rule.value)} mm from joints."
        )
        yield Finding(
            rule=rule.rule, status="tight", parts=(name,), message=message, limit=rule.value,
            source=rule.source, place=(at,),
        )  # fmt: skip
    if not readings and not unknown:
        yield Finding(
            rule=rule.rule, status="clear", parts=(), message="No screw goes through a tile.",
            source=rule.source,
        )  # fmt: skip
