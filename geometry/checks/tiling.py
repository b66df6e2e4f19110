"""Tiles: narrow cuts, joints and borders, weight, holes and what covers them. All are hints to the tiler.

Weights in kg per square metre, lengths in mm. Screw holes are judged with the screws.
"""

import math
from collections.abc import Iterator

import shapely

from geometry.checks.memory import remembered
from geometry.finding import Finding
from geometry.model import XY, FinishArea, Tiling
from geometry.plan import Plan
from geometry.shape.outline import Bounds
from geometry.tiling.amounts import LARGE, square_weight
from geometry.tiling.drilling import Drilled, covers, drilled_for_water
from geometry.tiling.pieces import Piece, pieces_of
from geometry.tiling.region import faced
from geometry.units import at_least, at_most, number, shown
from geometry.waterproofing import zones_of


def tiling(plan: Plan) -> Iterator[Finding]:
    """Judge the tiles of a job, and the holes in tiles or panels against what covers them."""
    yield from _covers(plan)
    yield from _tanked(plan)
    yield from _tiles(plan)


@remembered
def _tiles(plan: Plan) -> Iterator[Finding]:
    """Judge the tiles as they are laid, and the holes for water in them; none where nothing is tiled."""
    tiles = plan.job.finish.tiling
    if tiles is None:
        return
    try:
        pieces = pieces_of(plan)
    except ValueError as problem:
        message = f"The tiles could not be laid: {problem}."
        yield Finding(rule="tiling.least_cut", status="refer", parts=(), message=message)
        return
    if pieces:
        yield from _cuts(plan, tiles, pieces)
        yield from _joints(plan, tiles)
        yield from _weight(plan, tiles)
        yield from _holes(plan)


@remembered
def _tanked(plan: Plan) -> Iterator[Finding]:
    """Judge whether the wet zone is tanked, where a finish is planned."""
    wet = next((zone for zone in zones_of(plan.job) if zone.name == "wet" and zone.area > 0), None)
    if wet is None or not plan.job.finish.areas:
        return
    share = 100 * wet.tanked / wet.area
    message = f"Tanked: {number(share, 0)} % of the {number(wet.area, 2)} m2 over the rim."
    if not at_least(share, 100.0):
        message += f" {number(wet.open, 2)} m2 would get wet behind the finish: tank it or line it."
    yield plan.rules.judge("tiling.tanked", share, message, (), failing="tight")


# cuts and joints


def narrowest(pieces: tuple[Piece, ...]) -> Piece:
    """Return the piece with the narrowest cut, or a whole one where nothing is cut."""
    return min(pieces, key=lambda piece: min(piece.cut_sides))


def _cuts(plan: Plan, tiles: Tiling, pieces: tuple[Piece, ...]) -> Iterator[Finding]:
    worst = narrowest(pieces)
    wide, high = worst.cut_sides
    side, words = min((wide, "wide"), (high, "high"))
    message = f"Narrowest cut: {shown(side)} mm {words}, tile {worst.name}."
    cure = "" if at_least(side, plan.rules["tiling.least_cut"].value) else " Move the start of the tiles."
    yield plan.rules.judge(
        "tiling.least_cut", side, message + cure, (), _middle(worst.bounds), failing="tight"
    )
    smallest = min(pieces, key=_share)
    share = _share(smallest)
    message = f"Smallest cut: {number(100 * share, 0)} % of the tile, tile {smallest.name}."
    yield plan.rules.judge(
        "tiling.half_cut", 100 * share, message, (), _middle(smallest.bounds), failing="tight"
    )


def _share(piece: Piece) -> float:
    wide, high = piece.cut_sides
    return min(wide / piece.tile.wide, high / piece.tile.high)


def _middle(bounds: Bounds) -> tuple[XY, ...]:
    x0, y0, x1, y1 = bounds
    return (((x0 + x1) / 2, (y0 + y1) / 2),)


def _joints(plan: Plan, tiles: Tiling) -> Iterator[Finding]:
    job = plan.job
    small = tiles.wide * tiles.high / 1e6 < LARGE - 1e-9 and max(tiles.wide, tiles.high) <= 600
    rule = "tiling.joint_small" if small else "tiling.joint_large"
    message = f"Joint {shown(tiles.joint)} mm between tiles of {shown(tiles.wide)} x {shown(tiles.high)} mm."
    yield plan.rules.judge(rule, tiles.joint, message, (), failing="tight")
    message = f"Gap of {shown(tiles.border)} mm round the tiles, for sealant."
    yield plan.rules.judge("tiling.border", tiles.border, message, (), failing="tight")
    bounds = [
        shapely.bounds(part).tolist()
        for one in faced(job.finish, job.wall, job.enclosure, "tile")
        for part in shapely.get_parts(one.shape)
    ]
    longest = max(max(x1 - x0, y1 - y0) for x0, y0, x1, y1 in bounds)
    message = f"Longest tiled face without a movement joint: {shown(longest)} mm."
    if not at_most(longest, plan.rules["tiling.movement"].value):
        message += " Part it with a movement joint, 6 mm or wider."
    yield plan.rules.judge("tiling.movement", longest, message, (), failing="tight")


# weight


def _weight(plan: Plan, tiles: Tiling) -> Iterator[Finding]:
    """Judge what the tiles weigh where their background has a known capacity, area by area."""
    for area in dict.fromkeys(piece.area for piece in pieces_of(plan)):
        held = next(one for one in plan.job.finish.areas if one.id == area)
        weight = square_weight(tiles, held)
        words = f"Area {area}: {number(weight)} kg/m2 with adhesive and grout"
        known = _capacity(plan, held)
        if known is None:
            continue
        rule, background, capacity = known
        heavy = "" if at_most(weight, capacity) else ": choose a lighter tile or another background"
        message = f"{words}, on {background} that carries {number(capacity)} kg/m2{heavy}."
        yield plan.rules.judge(rule, weight, message, (), limit=capacity, failing="refer")
        share = 100 * weight / capacity
        message = f"{words}, {number(share, 0)} % of what {background} carries."
        if not at_most(share, plan.rules["tiling.solid_bed"].value):
            message += " Lay in a solid bed and butter the backs; in a shower always."
        yield plan.rules.judge("tiling.solid_bed", share, message, (), failing="tight")


def _capacity(plan: Plan, area: FinishArea) -> tuple[str, str, float] | None:
    """Return the rule, the background and what it carries in kg/m2; None where nothing is published."""
    if plan.job.finish.carries is not None:
        return "tiling.weight_own", "a background", plan.job.finish.carries
    kinds = {layer.kind for layer in area.layers}
    for kind, rule in (("plaster", "tiling.weight_plaster"), ("board", "tiling.weight_board")):
        if kind in kinds:
            return rule, kind, plan.rules[rule].value
    return None


# holes


def _holes(plan: Plan) -> Iterator[Finding]:
    """Judge how the holes for water lie in their tiles."""
    for one in drilled_for_water(plan):
        if one.tiles:
            yield from _hole(plan, one)


def _hole(plan: Plan, one: Drilled) -> Iterator[Finding]:
    owner, place = (one.hole.owner,), (one.hole.at,)
    words = f"Hole of {one.hole.owner}, {shown(one.hole.diameter)} mm, in {one.names}"
    if math.isfinite(one.rim):
        limit = plan.rules["tiling.hole_edge"].value
        message = f"{words}: {shown(one.rim)} mm from the edge of a tile"
        if not at_least(one.rim, limit):
            message += ": the tile may crack. Start the tiles elsewhere, or let the hole cut the joint"
        yield plan.rules.judge("tiling.hole_edge", one.rim, f"{message}.", owner, place, failing="tight")
    if math.isfinite(one.off_joint):
        message = f"{words}: across a joint, {shown(one.off_joint)} mm from its middle"
        if not at_most(one.off_joint, plan.rules["tiling.hole_joint"].value):
            message += ". Centre it on the joint or keep it clear"
        yield plan.rules.judge(
            "tiling.hole_joint", one.off_joint, f"{message}.", owner, place, failing="tight"
        )


@remembered
def _covers(plan: Plan) -> Iterator[Finding]:
    """Judge the width of each hole for water against the plate over it and against what goes through it."""
    for cover in covers(plan):
        words = f"Hole of {cover.owner}, {shown(cover.hole)} mm"
        if cover.covered < 0:
            message = f"{words}: shows by {shown(-cover.covered)} mm beside its plate. Cut it smaller."
        else:
            message = f"{words}: its plate covers the rim by {shown(cover.covered)} mm."
        yield plan.rules.judge(
            "tiling.cover", cover.covered, message, (cover.owner,), (cover.at,), failing="tight"
        )
        if cover.room is not None:
            collar = " beside its tanking collar" if cover.collar else ""
            message = f"{words}: {shown(cover.room)} mm of room round the thread{collar}."
            if not at_least(cover.room, plan.rules["tiling.room"].value):
                message += " It will bind: cut it wider."
            yield plan.rules.judge(
                "tiling.room", cover.room, message, (cover.owner,), (cover.at,), failing="tight"
            )
