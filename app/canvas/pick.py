"""What lies under a point of the wall: things, and the handles of a pipe that is chosen. Pure sums in mm.

Of several things the nearest comes first, and of several that are hit the smallest, so that what lies on
or within something larger can be reached. What the stage of the drawing does not show is not found.
"""

import math
from collections.abc import Container, Iterator
from itertools import pairwise
from typing import Literal, NamedTuple

import shapely

from app.canvas.stages import Stage, Subject, shows
from geometry.edits.refs import TILES, Ref
from geometry.edits.routes import corners, legs, nearest_on
from geometry.hose.sweep import line_at
from geometry.model import XY, Accessory, Joist, Service, Stud
from geometry.plan import Plan
from geometry.shape.fittings import slider_of
from geometry.shape.outline import Outline, core, rectangle

_CUT = {"recess", "pocket"}
"""Solids that are picked as what is cut."""


class _Everything:
    """Holds every thing there is."""

    def __contains__(self, _ref: object) -> bool:
        return True


EVERYTHING: Container[Ref] = _Everything()


class Shape(NamedTuple):
    """An outline of a thing, and its size in mm², by which it stands back behind smaller ones."""

    ref: Ref
    outline: Outline
    size: float


class Found(NamedTuple):
    """A thing, how far it is from the point in mm (0 if hit), and how large it is in mm²."""

    ref: Ref
    distance: float
    size: float


class Handle(NamedTuple):
    """A corner of a pipe by its number among the corners, or a leg by its number along the course."""

    kind: Literal["corner", "leg"]
    pipe: str
    number: int


def things_at(plan: Plan, stage: Stage, at: XY, tolerance: float) -> tuple[Ref, ...]:
    """Return the things within the tolerance of a point, in mm, the nearest first; each once.

    The handle of the tiles lies over all else.
    """
    found = [
        Found(ref, 0.0 if ref == TILES else distance, size)
        for ref, outline, size in shapes(plan, stage)
        if (distance := _distance(outline, at, tolerance)) <= tolerance
    ]
    return tuple(dict.fromkeys(each.ref for each in sorted(found, key=lambda each: each[1:])))


def things_within(plan: Plan, stage: Stage, corner: XY, other: XY) -> tuple[Ref, ...]:
    """Return the things that lie wholly within a rectangle, in the order of the job; never the tiles."""
    (x0, x1), (y0, y1) = sorted((corner[0], other[0])), sorted((corner[1], other[1]))
    within: dict[Ref, bool] = {}
    for ref, outline, _ in shapes(plan, stage):
        left, low, right, top = outline.bounds
        held = x0 <= left and right <= x1 and y0 <= low and top <= y1
        within[ref] = within.get(ref, True) and held
    return tuple(ref for ref, held in within.items() if held and ref != TILES)


def shapes(plan: Plan, stage: Stage, refs: Container[Ref] = EVERYTHING) -> Iterator[Shape]:
    """Go through the outlines by which things are picked.

    Args:
        plan: the job with its parts.
        stage: what it does not show is left out.
        refs: only the outlines of these.
    """
    yield from _fitting_shapes(plan, stage, refs)
    if shows(stage, "cuts"):
        for chase in plan.chases:
            ref = Ref("pipe", chase.pipe)
            if len(chase.points) > 1 and ref in refs:
                yield _shape(ref, Outline(chase.points, chase.width / 2))
    for hung in plan.hoses if shows(stage, "hoses") else ():
        ref = Ref("hose", hung.hose.id)
        if ref in refs:
            line = line_at(hung, slider_of(hung.rail.fitting, hung.rail.part))
            if line is not None:
                points = tuple((float(x), float(y)) for x, y in line)
                yield _shape(ref, Outline(points, hung.part.diameter / 2))
    for solid, service in zip(plan.existing, plan.job.services, strict=True):
        ref = Ref("service", service.id)
        if ref in refs and (isinstance(service, Accessory) or shows(stage, _subject(service))):
            yield _shape(ref, solid.outline)
    for opening in plan.job.wall.openings:
        ref, x, y = Ref("opening", opening.id), opening.x, opening.y
        if ref in refs:
            yield _shape(ref, rectangle(x, y, x + opening.width, y + opening.height))
    tiling = plan.job.finish.tiling
    if tiling and TILES in refs and shows(stage, "tiles"):
        yield _shape(TILES, Outline(((tiling.start_x, tiling.start_y),), 0.0))


def _fitting_shapes(plan: Plan, stage: Stage, refs: Container[Ref]) -> Iterator[Shape]:
    fronts, holes = shows(stage, "fittings"), shows(stage, "holes")
    for solid in plan.fitted:
        ref = Ref("fitting", solid.owner)
        seen = holes if solid.what == "screw" else fronts and solid.what not in _CUT
        if seen and ref in refs:
            yield _shape(ref, solid.in_elevation().outline)
    for owner, outline in plan.recesses.items() if shows(stage, "cuts") else ():
        ref = Ref("fitting", owner)
        if ref in refs:
            yield _shape(ref, outline)


def handles_at(plan: Plan, pipe_id: str, at: XY, tolerance: float) -> tuple[Handle, ...]:
    """Return the handles of a pipe within the tolerance of a point: corners before legs, nearest first."""
    found = [
        (0, math.dist(corner, at), Handle("corner", pipe_id, index))
        for index, corner in enumerate(corners(plan, pipe_id))
    ]
    found += [
        (1, math.dist(nearest_on(leg, at), at), Handle("leg", pipe_id, index))
        for index, leg in enumerate(legs(plan, pipe_id))
    ]
    return tuple(handle for _, distance, handle in sorted(found) if distance <= tolerance)


def port_at(plan: Plan, at: XY, tolerance: float) -> str | None:
    """Return the name of the port nearest to a point, if one lies within the tolerance."""
    near = min(((math.dist(port.at, at), port.name) for port in plan.ports.values()), default=None)
    return near[1] if near and near[0] <= tolerance else None


def _subject(service: Service) -> Subject:
    return "studs" if isinstance(service, Stud | Joist) else "services"


def _shape(ref: Ref, outline: Outline) -> Shape:
    x0, y0, x1, y1 = outline.bounds
    if outline.closed or len(outline.points) < 3:
        return Shape(ref, outline, (x1 - x0) * (y1 - y0))
    length = sum(math.dist(a, b) for a, b in pairwise(outline.points))
    return Shape(ref, outline, length * 2 * outline.radius)


def _distance(outline: Outline, at: XY, tolerance: float) -> float:
    x0, y0, x1, y1 = outline.bounds
    x, y = at
    if max(x0 - x, x - x1, y0 - y, y - y1) > tolerance:
        return math.inf
    if len(outline.points) == 1:
        return max(0.0, math.dist(outline.points[0], at) - outline.radius)
    return max(0.0, float(shapely.distance(core(outline), shapely.Point(at))) - outline.radius)
