"""Chases and recesses in masonry that need no calculation by EN 1996-1-1, 8.6 with Tables 8.1 and 8.2.

Depths are mm of the bare wall. An upright cut is judged by Table 8.1, a level or inclined one by Table 8.2,
each by the row of the leaf's thickness, then by the notes. Beyond a limit an engineer decides: `refer`.
What is said of the cuts of one way depends on them, the wall and the rules alone, and is kept by these.
"""

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from geometry.chase.cuts import Cut, by_way
from geometry.checks.gaps_en import gaps
from geometry.checks.other_face import both_faces
from geometry.checks.readings import Reading, findings
from geometry.checks.ways_out import counted, depth_said, reading_of
from geometry.finding import Finding, Limit
from geometry.model import Wall
from geometry.plan import Plan
from geometry.rules import Rulebook
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
    rules, wall = plan.rules, plan.job.wall
    if _rows(rules, wall.thickness) is None:
        yield _too_thin(plan)
        return
    upright = tuple(cut for cut in chases if cut.way == "upright")
    level = tuple(cut for cut in chases if cut.way != "upright")
    standing, lying = by_way((*upright, *recesses)), by_way(level)
    for judge, ways in (
        (_depth, standing),
        (_width, standing),
        (_level_depth, lying),
        (_level_width, lying),
        (_level_height, lying),
    ):
        for cuts in ways:
            yield from judge(rules, wall, cuts)
    short = tuple(cut for cut in level if _leans_on_being_short(rules, wall, cut))
    yield from gaps(plan, upright, recesses, level, short)
    yield from both_faces(plan, level)
    yield from _together(plan, (*upright, *recesses))


@lru_cache(maxsize=64)
def _rows(rules: Rulebook, thickness: float) -> _Rows | None:
    found = [row(rules, table, thickness) for table in TABLES]
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


def _rows_of(rules: Rulebook, wall: Wall) -> _Rows:
    """Return the rows for a wall that is not too thin for the tables."""
    rows = _rows(rules, wall.thickness)
    assert rows is not None, "no row holds for so thin a wall"
    return rows


# upright cuts; a low chase in a thick wall may be deeper, but is then narrower


@lru_cache(maxsize=256)
def _depth(rules: Rulebook, wall: Wall, cuts: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Judge the depth of upright chases, or of recesses, by Table 8.1."""
    readings = []
    for cut in cuts:
        limit = rules["strength.en_low_depth"] if _is_low(rules, wall, cut) else _rows_of(rules, wall).depth
        readings.append(reading_of(limit.rule, cut, counted(wall, cut), limit.value))
    return tuple(findings(rules, readings, depth_said(wall, cuts)))


@lru_cache(maxsize=256)
def _width(rules: Rulebook, wall: Wall, cuts: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Judge the width of upright chases, or of recesses, by Table 8.1."""
    readings = []
    for cut in cuts:
        limit = rules["strength.en_low_width"] if _is_low(rules, wall, cut) else _rows_of(rules, wall).width
        readings.append(reading_of(limit.rule, cut, cut.width, limit.value))
    return tuple(findings(rules, readings, _width_said))


def _is_low(rules: Rulebook, wall: Wall, cut: Cut) -> bool:
    """Return whether a chase is too deep but for the limits of low chases, and those hold."""
    return (
        cut.way == "upright"
        and not at_most(counted(wall, cut), _rows_of(rules, wall).depth.value)
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


# level and inclined chases


def _short(rules: Rulebook, cut: Cut) -> bool:
    return at_most(cut.length, rules["strength.en_level_short_length"].value)


def _extra(rules: Rulebook, wall: Wall) -> float:
    """Return by how much deeper a machine may cut a level chase in a wall, in mm."""
    extra = wall.machine_cut and not at_most(wall.thickness, rules["strength.en_machine_thickness"].value)
    return rules["strength.en_machine_depth"].value if extra else 0.0


def _leans_on_being_short(rules: Rulebook, wall: Wall, cut: Cut) -> bool:
    """Return whether a level chase may be so deep only because it is short: then the notes on those hold."""
    most = _rows_of(rules, wall).level.value + _extra(rules, wall)
    return _short(rules, cut) and not at_most(counted(wall, cut), most)


@lru_cache(maxsize=256)
def _level_depth(rules: Rulebook, wall: Wall, cuts: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Judge the depth of level chases, or of inclined ones, by Table 8.2."""
    rows, extra, readings = _rows_of(rules, wall), _extra(rules, wall), []
    for cut in cuts:
        limit = rows.short if _short(rules, cut) and rows.short.value >= rows.level.value else rows.level
        readings.append(reading_of(limit.rule, cut, counted(wall, cut), limit.value + extra))
    why = ", cut to depth by a machine" if extra else ""
    return tuple(findings(rules, readings, depth_said(wall, cuts, why)))


@lru_cache(maxsize=256)
def _level_width(rules: Rulebook, wall: Wall, cuts: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Judge the width of level chases, or of inclined ones, by what stands behind them: 8.6.3."""
    half, readings = rules["strength.en_level_width"], []
    for cut in cuts:
        behind = max(0.0, wall.thickness - counted(wall, cut))
        readings.append(reading_of(half.rule, cut, cut.width, half.value * behind))
    return tuple(findings(rules, readings, _width_said))


@lru_cache(maxsize=256)
def _level_height(rules: Rulebook, wall: Wall, cuts: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Judge how far level chases, or inclined ones, lie from the nearer of floor and ceiling: 8.6.3."""
    eighth, storey, readings = rules["strength.en_level_band"], wall.storey_height, []
    for cut in cuts:
        away = min(cut.bounds[3], storey - cut.bounds[1])
        readings.append(reading_of(eighth.rule, cut, away, eighth.value * storey))
    return tuple(findings(rules, readings, _height_said))


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
