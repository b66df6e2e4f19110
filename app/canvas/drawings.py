"""The pieces of the drawing for a plan at a stage, each on any pen: mm on the wall, x right and y up.

The strokes are those of the sheets, from `export/drawings`; here they are cut into pieces that change by
themselves, so that a canvas draws anew only what an edit has touched. Words are not among them.
"""

from collections.abc import Callable, Hashable, Iterator
from functools import partial
from typing import NamedTuple

import numpy as np

from app.canvas.stages import Stage, shows
from export.drawings.elevation import draw_datum, draw_surroundings
from export.drawings.fittings import draw_fitting, draw_holes
from export.drawings.gaps import draw_gap
from export.drawings.outlines import draw_outline
from export.drawings.tile_plan import draw_movement_joint, draw_pieces
from export.layers import LAYERS
from export.pen import Pen
from export.wrapped_pens import OnLayers
from geometry.chase.channel import cut, rings
from geometry.hose.sweep import curves, ends_of, line_at, swept_outline
from geometry.model import Accessory, Niche, Region
from geometry.plan import Hung, Plan
from geometry.setting_out.holes import Hole, holes
from geometry.shape.fittings import slider_of
from geometry.shape.outline import Outline, rectangle
from geometry.shape.solid import Solid
from geometry.tiling.pieces import Piece as Laid
from geometry.tiling.pieces import panels_of, pieces_of
from geometry.zones import cable_zones

OVERHANG = 20.0
"""The floor and the datum reach 4 mm past the wall on a sheet; here a mm of the sheet is 20 mm of wall."""
FAN = 12
"""Positions of a hose that are drawn while it moves, instead of the area that it sweeps."""


class Piece(NamedTuple):
    """One piece: what it is of, all that it depends on, and what draws it."""

    key: Hashable
    depends: Hashable
    draw: Callable[[Pen], None]


def setting_pieces(plan: Plan, stage: Stage) -> Iterator[Piece]:
    """Go through what was there before: tiles apart, zones, wall, services, tray, screens, lines."""
    job = plan.job
    if shows(stage, "zones"):
        yield Piece("zones", (job.wall, job.services), partial(_draw_zones, plan))
    there = (job.wall, job.services, job.enclosure, stage)
    yield Piece("surroundings", there, partial(_draw_surroundings, plan, stage))
    yield Piece("datum", (job.enclosure, job.wall.height), partial(draw_datum, plan, scale=OVERHANG))


def work_pieces(plan: Plan, stage: Stage, *, moving: bool = False) -> Iterator[Piece]:
    """Go through what is cut, laid and fitted, in the order of painting.

    Args:
        plan: the job with its parts.
        stage: what to leave out.
        moving: a gesture lasts, so what takes long to work out is drawn more simply.
    """
    if shows(stage, "hoses"):
        for hung in plan.hoses:
            ends = ends_of(hung)
            yield Piece(("sweep", hung.hose.id), (ends, moving), partial(_draw_sweep, hung, moving=moving))
        for head in plan.heads:
            under, half = head.fitting.height - head.part.drop, head.part.diameter / 2
            span = (head.fitting.x - half, head.fitting.x + half, plan.job.enclosure.floor, under)
            yield Piece(("spray", head.fitting.id), span, partial(_draw_spray, *span))
    if shows(stage, "cuts"):
        for chase in plan.chases:
            shape = (chase.points, chase.width)
            yield Piece(("chase", chase.pipe), shape, partial(_draw_chase, *shape))
        for owner, outline in plan.recesses.items():
            yield Piece(("recess", owner), outline, partial(_draw_recess, outline))
    if shows(stage, "pipes"):
        for pipe in plan.job.pipes:
            points = plan.courses[pipe.id].points
            if len(points) > 1:
                line = partial(_draw_pipe, f"pipe-{pipe.service}", points)
                yield Piece(("pipe", pipe.id), (pipe.service, points), line)
    yield from _fitting_pieces(plan, stage)
    if shows(stage, "hoses"):
        for hung in plan.hoses:
            slider = slider_of(hung.rail.fitting, hung.rail.part)
            yield Piece(("hose", hung.hose.id), (ends_of(hung), slider), partial(_draw_hose, hung, slider))


def _fitting_pieces(plan: Plan, stage: Stage) -> Iterator[Piece]:
    solids: dict[str, list[Solid]] = {fitting.id: [] for fitting in plan.job.fittings}
    for solid in plan.fitted:
        solids[solid.owner].append(solid)
    drilled: dict[str, list[Hole]] = {fitting.id: [] for fitting in plan.job.fittings}
    for hole in holes(plan):
        drilled[hole.owner].append(hole)
    for fitting in plan.job.fittings:
        depends = (tuple(solids[fitting.id]), tuple(drilled[fitting.id]), stage)
        yield Piece(("fitting", fitting.id), depends, partial(_draw_fitting, plan, fitting.id, stage))


def face_pieces(plan: Plan) -> Iterator[Piece]:
    """Go through what faces the wall: tiles or panels, each piece as it is cut, and the niches left out."""
    job = plan.job
    depends = (job.finish, job.wall, job.enclosure)
    for key, lay in (("tiles", pieces_of), ("panels", panels_of)):
        yield Piece(key, depends, partial(_draw_laid, plan, lay))
    regions = tuple(area.region for area in job.finish.areas if area.region)
    yield Piece("steps", regions, partial(_draw_steps, regions))
    yield Piece("movement", (job.finish.movement, job.wall), partial(_draw_movement, plan))
    yield Piece("niches", job.finish.niches, partial(_draw_niches, job.finish.niches))


def _draw_laid(plan: Plan, lay: Callable[[Plan], tuple[Laid, ...]], pen: Pen) -> None:
    """Draw the pieces; of tiles so small that they cannot be laid, the checks tell."""
    try:
        laid = lay(plan)
    except ValueError:
        return
    draw_pieces(laid, pen)


def _draw_steps(regions: tuple[Region, ...], pen: Pen) -> None:
    """Draw where the build-up changes, and with it the depth of the finished face."""
    for region in regions:
        x, y = region.x, region.y
        draw_outline(pen, "layer", rectangle(x, y, x + region.width, y + region.height))


def _draw_movement(plan: Plan, pen: Pen) -> None:
    if plan.job.finish.tiling:
        for joint in plan.job.finish.movement:
            draw_movement_joint(joint, plan.job.wall, pen)


def _draw_niches(niches: tuple[Niche, ...], pen: Pen) -> None:
    for niche in niches:
        draw_gap(niche, pen)


def _draw_zones(plan: Plan, pen: Pen) -> None:
    for zone in cable_zones(plan):
        draw_outline(pen, "zone", zone.outline)


def _draw_surroundings(plan: Plan, stage: Stage, pen: Pen) -> None:
    hidden = set()
    if not shows(stage, "services"):
        hidden.add("service")
    if not shows(stage, "studs"):
        hidden.add("stud")
    draw_surroundings(plan, OnLayers(pen, LAYERS.keys() - hidden), OVERHANG)
    if "service" in hidden:
        for solid, service in zip(plan.existing, plan.job.services, strict=True):
            if isinstance(service, Accessory):
                draw_outline(pen, "service", solid.outline)


def _draw_sweep(hung: Hung, pen: Pen, *, moving: bool) -> None:
    if not moving:
        for ring in rings(swept_outline(hung)):
            pen.polyline("hose-sweep", ring, closed=True)
        return
    lines = curves(hung).lines
    for number in np.unique(np.linspace(0, len(lines) - 1, FAN).round().astype(int)) if len(lines) else ():
        pen.polyline("hose-sweep", lines[number, ::8].tolist())


def _draw_spray(left: float, right: float, low: float, high: float, pen: Pen) -> None:
    for x in (left, right):
        pen.line("spray", (x, high), (x, low))


def _draw_chase(points: tuple[tuple[float, float], ...], width: float, pen: Pen) -> None:
    for ring in rings(cut(points, width)):
        pen.polyline("chase", ring, closed=True)


def _draw_recess(outline: Outline, pen: Pen) -> None:
    draw_outline(pen, "recess", outline)


def _draw_pipe(layer: str, points: tuple[tuple[float, float], ...], pen: Pen) -> None:
    pen.polyline(layer, points)


def _draw_fitting(plan: Plan, fitting_id: str, stage: Stage, pen: Pen) -> None:
    hidden = set()
    if not shows(stage, "bodies"):
        hidden.add("body")
    if not shows(stage, "holes"):
        hidden.add("drill")
    shown = OnLayers(pen, LAYERS.keys() - hidden)
    if shows(stage, "fittings"):
        draw_fitting(plan, shown, fitting_id)
    elif shows(stage, "bodies"):
        draw_fitting(plan, OnLayers(pen, ("body", "drill")), fitting_id)
    else:
        draw_holes(plan, shown, fitting_id)


def _draw_hose(hung: Hung, slider: float, pen: Pen) -> None:
    line = line_at(hung, slider)
    if line is not None:
        pen.polyline("hose", line.tolist())
