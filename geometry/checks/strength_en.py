"""Chases and recesses in masonry that need no calculation by EN 1996-1-1, 8.6 with Tables 8.1 and 8.2.

Depths are mm of the bare wall. An upright cut is judged by Table 8.1, a level or inclined one by Table 8.2,
each by the row of the leaf's thickness, then by the notes. Beyond a limit an engineer decides: `refer`.
"""

from collections.abc import Iterator
from typing import NamedTuple

from geometry.chase.cuts import Cut
from geometry.checks.gaps_en import gaps
from geometry.checks.other_face import both_faces
from geometry.checks.readings import Reading, findings
from geometry.checks.ways_out import counted, depth_said
from geometry.finding import Finding, Limit
from geometry.plan import Plan
from geometry.rules.tables import begins, row
from geometry.units import at_least, at_most, shown

TABLES = (
    "strength.en_upright_depth",
    "strength.en_upright_width",
    "strength.en_level_depth",
    "strength.en_level_short_depth",
)


class _Rows(NamedTuple):
    """The rows of both tables for one thickness."""

    depth: Limit
    width: Limit
    level: Limit
    short: Limit


def en_1996(plan: Plan, chases: tuple[Cut, ...], recesses: tuple[Cut, ...]) -> Iterator[Finding]:
    """Judge all cuts by both tables and their notes."""
    rows = _rows(plan)
    if rows is None:
        yield _too_thin(plan)
        return
    upright = tuple(cut for cut in chases if cut.way == "upright")
    level = tuple(cut for cut in chases if cut.way != "upright")
    yield from _upright(plan, (*upright, *recesses), rows)
    short = tuple(cut for cut in level if _leans_on_being_short(plan, cut, rows))
    yield from _level(plan, level, rows)
    yield from gaps(plan, upright, recesses, level, short)
    yield from both_faces(plan, level)
    yield from _together(plan, (*upright, *recesses))


def _rows(plan: Plan) -> _Rows | None:
    found = [row(plan.rules, table, plan.job.wall.thickness) for table in TABLES]
    kept = [limit for limit in found if limit is not None]
    return _Rows(*kept) if len(kept) == len(TABLES) else None


def _too_thin(plan: Plan) -> Finding:
    """Say that the tables hold no row for so thin a leaf."""
    rule, thick = "strength.en_thickness", plan.job.wall.thickness
    least = max(begins(plan.rules, table) for table in TABLES)
    message = (
        f"A leaf of {shown(thick)} mm is thinner than the tables for chases begin: {shown(least)} mm. "
        "Cut nothing into it: fix a lining or stud wall in front, or have an engineer decide."
    )
    return plan.rules.judge(rule, thick, message, (), limit=least, failing="refer")


def _upright(plan: Plan, cuts: tuple[Cut, ...], rows: _Rows) -> Iterator[Finding]:
    """Judge depth and width by Table 8.1; a low chase in a thick wall may be deeper, but is then narrower."""
    depths, widths = [], []
    for cut in cuts:
        deep = counted(plan.job.wall, cut)
        depth, width = rows.depth, rows.width
        if not at_most(deep, depth.value) and _is_low(plan, cut):
            depth, width = plan.rules["strength.en_low_depth"], plan.rules["strength.en_low_width"]
        what, place = "Recess" if cut.way == "recess" else "Upright chase", (cut.middle,)
        depths.append(Reading(depth.rule, what, cut.owners, deep, depth.value, place, cut.depth))
        widths.append(Reading(width.rule, what, cut.owners, cut.width, width.value, place, cut.depth))
    yield from findings(plan.rules, depths, depth_said(plan))
    yield from findings(plan.rules, widths, _width_said)


def _is_low(plan: Plan, cut: Cut) -> bool:
    """Return whether the deeper limit of low chases holds: not for a recess."""
    wall, rules = plan.job.wall, plan.rules
    return (
        cut.way == "upright"
        and at_least(wall.thickness, rules["strength.en_low_thickness"].value)
        and at_most(cut.bounds[3], rules["strength.en_low_height"].value * wall.storey_height)
    )


def _width_said(names: str, reading: Reading) -> str:
    message = f"{names}: {shown(reading.measured)} mm wide, at most {shown(reading.limit)} mm"
    if at_most(reading.measured, reading.limit):
        return f"{message}."
    if reading.what == "Recess":
        return f"{message}. Choose a narrower box, build out in front, or have an engineer calculate it."
    return f"{message}. Cut it narrower, part the pipes, or have an engineer calculate it."


def _short(plan: Plan, cut: Cut) -> bool:
    return at_most(cut.length, plan.rules["strength.en_level_short_length"].value)


def _extra(plan: Plan) -> float:
    """Return by how much deeper a machine may cut a level chase in this wall, in mm."""
    wall, thick = plan.job.wall, plan.rules["strength.en_machine_thickness"].value
    extra = wall.machine_cut and not at_most(wall.thickness, thick)
    return plan.rules["strength.en_machine_depth"].value if extra else 0.0


def _leans_on_being_short(plan: Plan, cut: Cut, rows: _Rows) -> bool:
    """Return whether a level chase may be so deep only because it is short: then the notes on those hold."""
    return _short(plan, cut) and not at_most(counted(plan.job.wall, cut), rows.level.value + _extra(plan))


def _level(plan: Plan, cuts: tuple[Cut, ...], rows: _Rows) -> Iterator[Finding]:
    """Judge depth, width and height of level and inclined chases by Table 8.2 and 8.6.3."""
    wall, rules, extra = plan.job.wall, plan.rules, _extra(plan)
    half, eighth = rules["strength.en_level_width"], rules["strength.en_level_band"]
    depths, widths, heights = [], [], []
    for cut in cuts:
        deep, what, place = counted(wall, cut), f"{cut.way.capitalize()} chase", (cut.middle,)
        depth = rows.short if _short(plan, cut) and rows.short.value >= rows.level.value else rows.level
        behind = max(0.0, wall.thickness - deep)
        away = min(cut.bounds[3], wall.storey_height - cut.bounds[1])
        depths.append(Reading(depth.rule, what, cut.owners, deep, depth.value + extra, place, cut.depth))
        widths.append(Reading(half.rule, what, cut.owners, cut.width, half.value * behind, place, cut.depth))
        heights.append(Reading(eighth.rule, what, cut.owners, away, eighth.value * wall.storey_height, place))
    yield from findings(rules, depths, depth_said(plan, ", cut to depth by a machine" if extra else ""))
    yield from findings(rules, widths, _width_said)
    yield from findings(rules, heights, _height_said)


def _height_said(names: str, reading: Reading) -> str:
    message = (
        f"{names}: {shown(reading.measured)} mm from the nearer of floor and ceiling, "
        f"at most {shown(reading.limit)} mm"
    )
    if at_most(reading.measured, reading.limit):
        return f"{message}."
    return (
        f"{message}. Lead it along the floor or ceiling and then upright, in front of the wall, "
        "or have an engineer calculate it."
    )


def _together(plan: Plan, cuts: tuple[Cut, ...]) -> Iterator[Finding]:
    """Judge how much of the wall's length is cut: chases and recesses above one another count once."""
    if not cuts:
        return
    rule, total, reached = "strength.en_total_width", 0.0, float("-inf")
    for x0, _, x1, _ in sorted(cut.bounds for cut in cuts):
        total += max(0.0, x1 - max(x0, reached))
        reached = max(reached, x1)
    limit = plan.rules[rule].value * plan.job.wall.width
    parts = tuple(dict.fromkeys(owner for cut in cuts for owner in cut.owners))
    message = (
        f"Upright chases and recesses take {shown(total)} mm of the wall's {shown(plan.job.wall.width)} mm, "
        f"at most {shown(limit)} mm"
    )
    if not at_most(total, limit):
        message += ". Set pipes above one another, build out in front, or have an engineer calculate it"
    found = plan.rules.judge(rule, total, f"{message}.", parts, limit=limit, failing="refer")
    yield found.but(unit="mm")
