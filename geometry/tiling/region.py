"""What is faced with tiles or panels: the areas with such a layer, less openings, niches and the enclosure.

Millimetres on the wall. Where the build-up changes from one area to the next, the face steps and its
tiles are cut, so each area is a region of its own.
"""

from functools import lru_cache
from typing import NamedTuple

import shapely

from geometry.model import Enclosure, Finish, FinishArea, Wall
from geometry.model.finish import LayerKind, MovementJoint
from geometry.shape.outline import Bounds, bounds_of


class Faced(NamedTuple):
    """One area with what of the wall it covers, border left out."""

    area: FinishArea
    shape: shapely.Geometry


@lru_cache(maxsize=64)
def faced(finish: Finish, wall: Wall, enclosure: Enclosure, kind: LayerKind) -> tuple[Faced, ...]:
    """Return the areas that are faced with a kind of layer, in their order; none that is empty.

    Args:
        finish: its areas, of which the first that covers a point counts there; movement joints part tiles.
        wall: its ends, ceiling and openings bound the face.
        enclosure: nothing is faced below its rim.
        kind: `tile` or `panel`.
    """
    border, edge = _left_free(finish, kind)
    left, right = (edge if side == "free_end" else border for side in (wall.left, wall.right))
    face: shapely.Geometry = shapely.box(left, border, wall.width - right, wall.height - border)
    for x0, y0, x1, y1 in _below(enclosure):
        face = shapely.difference(face, shapely.box(x0 - border, y0 - border, x1 + border, y1 + border))
    for x0, y0, x1, y1 in _holes(finish, wall):
        face = shapely.difference(face, shapely.box(x0 - edge, y0 - edge, x1 + edge, y1 + edge))
    for joint in finish.movement if kind == "tile" else ():
        face = shapely.difference(face, _strip(joint, wall))
    found: list[Faced] = []
    for area in finish.areas:
        here = face
        if area.region is not None:
            block = shapely.box(*bounds_of(area.region))
            here, face = shapely.intersection(face, block), shapely.difference(face, block)
        else:
            face = shapely.Polygon()
        if not shapely.is_empty(here) and any(layer.kind == kind for layer in area.layers):
            found.append(Faced(area, here))
    return tuple(found)


def gaps_in(finish: Finish, wall: Wall, enclosure: Enclosure) -> tuple[Bounds, ...]:
    """Return the bounds of what is left out of the face: openings, niches, what lies below the rim."""
    return (*_holes(finish, wall), *_below(enclosure))


def trimmed(finish: Finish, wall: Wall) -> float:
    """Return how long the edges are that a trim covers, in mm: round openings and niches, and free ends."""
    total = wall.height * [wall.left, wall.right].count("free_end")
    for x0, y0, x1, y1 in _holes(finish, wall):
        wide, high = min(x1, wall.width) - max(x0, 0.0), min(y1, wall.height) - max(y0, 0.0)
        total += high * ((x0 > 0) + (x1 < wall.width)) + wide * ((y0 > 0) + (y1 < wall.height))
    return total


def _left_free(finish: Finish, kind: LayerKind) -> tuple[float, float]:
    """Return what is left free at corners, floor, ceiling and rim, and what at edges that a trim covers."""
    if kind == "tile" and finish.tiling:
        return finish.tiling.border, finish.tiling.trim or finish.tiling.border
    if kind == "panel" and finish.panels:
        return finish.panels.trim, finish.panels.trim
    return 0.0, 0.0


def _holes(finish: Finish, wall: Wall) -> tuple[Bounds, ...]:
    return (*map(bounds_of, wall.openings), *map(bounds_of, finish.niches))


def _below(enclosure: Enclosure) -> tuple[Bounds, ...]:
    return ((enclosure.left, 0.0, enclosure.right, enclosure.rim),) if enclosure.rim > 0 else ()


def _strip(joint: MovementJoint, wall: Wall) -> shapely.Geometry:
    low, high = joint.at - joint.width / 2, joint.at + joint.width / 2
    if joint.runs == "plumb":
        return shapely.box(low, 0.0, high, wall.height)
    return shapely.box(0.0, low, wall.width, high)
