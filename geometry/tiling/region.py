"""What is faced with tiles or panels: the areas with such a layer, less openings, niches and the enclosure.

Millimetres on the wall. Where the build-up changes from one area to the next, the face steps and its
tiles are cut, so each area is a region of its own.
"""

from functools import lru_cache
from typing import NamedTuple

import shapely

from geometry.model import Enclosure, Finish, FinishArea, Niche, Opening, Wall
from geometry.model.finish import LayerKind
from geometry.shape.outline import Bounds


class Faced(NamedTuple):
    """One area with what of the wall it covers, border left out."""

    area: FinishArea
    shape: shapely.Geometry


@lru_cache(maxsize=64)
def faced(finish: Finish, wall: Wall, enclosure: Enclosure, kind: LayerKind) -> tuple[Faced, ...]:
    """Return the areas that are faced with a kind of layer, in their order; none that is empty.

    Args:
        finish: its areas; the first that covers a point counts there.
        wall: its ends, ceiling and openings bound the face.
        enclosure: nothing is faced below its rim.
        kind: `tile` or `panel`.
    """
    border = 0.0
    if kind == "tile" and finish.tiling:
        border = finish.tiling.border
    if kind == "panel" and finish.panels:
        border = finish.panels.trim
    face: shapely.Geometry = shapely.box(border, border, wall.width - border, wall.height - border)
    for x0, y0, x1, y1 in gaps_in(finish, wall, enclosure):
        face = shapely.difference(face, shapely.box(x0 - border, y0 - border, x1 + border, y1 + border))
    found: list[Faced] = []
    for area in finish.areas:
        here = face
        if area.region is not None:
            region = area.region
            x1, y1 = region.x + region.width, region.y + region.height
            block = shapely.box(region.x, region.y, x1, y1)
            here, face = shapely.intersection(face, block), shapely.difference(face, block)
        else:
            face = shapely.Polygon()
        if not shapely.is_empty(here) and any(layer.kind == kind for layer in area.layers):
            found.append(Faced(area, here))
    return tuple(found)


def gaps_in(finish: Finish, wall: Wall, enclosure: Enclosure) -> tuple[Bounds, ...]:
    """Return the bounds of what is left out of the face: openings, niches, what lies below the rim."""
    below = ((enclosure.left, 0.0, enclosure.right, enclosure.rim),) if enclosure.rim > 0 else ()
    gaps: tuple[Opening | Niche, ...] = (*wall.openings, *finish.niches)
    return (*((gap.x, gap.y, gap.x + gap.width, gap.y + gap.height) for gap in gaps), *below)
