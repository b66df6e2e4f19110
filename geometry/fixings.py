"""The fixing screws of a job: where each enters the wall, how much of it holds, how its hole lies in a tile.

Depths are mm behind the bare face. A screw in its own recess holds behind the back of that, any other from
the bare face on. Knows no limits.
"""

import math
from typing import NamedTuple

from geometry.build_up import area_at
from geometry.model import XY, Finish, FinishArea, Tiling, Wall
from geometry.model.wall import MakeUp
from geometry.plan import Plan
from geometry.tiling.grid import shift
from geometry.units import EPSILON

PLUG: dict[MakeUp, str] = {
    "dense_block": "a plastic plug of the screw's size, drilled without hammer near an edge",
    "aerated_block": "a plug made for aerated block, longer and with wings or thread, drilled without hammer",
    "hollow_block": "a resin with a sleeve, or a plug made for voids: a plain plug turns in the shell",
    "brick": "a plastic plug of the screw's size, in the brick and not in its mortar joint",
    "timber_stud": "no plug: a wood screw into stud, noggin or board",
    "metal_stud": "no plug: a screw into the noggin or board between the studs, not into board alone",
}
"""What a screw wants in a wall, in general terms (common practice, no source)."""


class Fixing(NamedTuple):
    """One screw; `ground` is where it begins to hold and `tip` where it ends, both behind the bare face."""

    owner: str
    at: XY
    diameter: float
    ground: float
    tip: float

    def hold(self, wall: Wall) -> float:
        """Return how much of it lies in sound wall; of a hollow block with a known shell only that holds."""
        solid = wall.thickness
        if wall.make_up == "hollow_block" and wall.shell is not None:
            solid = wall.shell
        return min(self.tip, solid) - self.ground


def fixings_of(plan: Plan) -> tuple[Fixing, ...]:
    """Return all screws, in the order of the fittings."""
    found = []
    for solid in plan.fitted:
        if solid.what == "screw":
            (x, y), ground = solid.outline.middle, 0.0
            if solid.owner in plan.recesses:
                x0, y0, x1, y1 = plan.recesses[solid.owner].bounds
                ground = plan.cuts[solid.owner] if x0 <= x <= x1 and y0 <= y <= y1 else 0.0
            found.append(Fixing(solid.owner, (x, y), 2 * solid.outline.radius, ground, -solid.low))
    return tuple(found)


# tiles


def tiled_area(finish: Finish, at: XY) -> FinishArea | None:
    """Return the tiled area at a point, or None where there are no tiles."""
    area = area_at(finish, at)
    return area if area and any(layer.kind == "tile" for layer in area.layers) else None


def to_tile_edge(tiling: Tiling, area: FinishArea, wall: Wall, at: XY, diameter: float) -> float | None:
    """Return how far the rim of a hole lies from the nearest edge of its tile, in mm.

    A hole that cuts a joint is as good as one far from it: then only the other edges count. A tile also ends
    where the wall or its area ends. None: the bond has neither rows nor columns.
    """
    if tiling.bond == "herringbone":
        return None
    (x, y), r = at, diameter / 2
    wide, high = tiling.wide + tiling.joint, tiling.high + tiling.joint
    dx, dy = x - tiling.start_x, y - tiling.start_y
    if tiling.bond == "vertical":
        dy -= shift(tiling, math.floor(dx / wide))
    else:
        dx -= shift(tiling, math.floor(dy / high))
    gaps = (*_in_tile(dx % wide, tiling.wide, r), *_in_tile(dy % high, tiling.high, r))
    return min(*gaps, *_ends(area, wall, at, r))


def _in_tile(along: float, size: float, r: float) -> tuple[float, float]:
    """Return the gaps to both edges of a tile, where a hole that cuts the joint has none."""
    first, last = along - r, size - along - r
    if first <= EPSILON or last <= EPSILON:
        return math.inf, math.inf
    return first, last


def _ends(area: FinishArea, wall: Wall, at: XY, r: float) -> tuple[float, ...]:
    """Return what is left between a hole and where its tiles end."""
    region, (x, y) = area.region, at
    x0, y0, x1, y1 = 0.0, 0.0, wall.width, wall.height
    if region:
        x0, y0 = max(x0, region.x), max(y0, region.y)
        x1, y1 = min(x1, region.x + region.width), min(y1, region.y + region.height)
    return x - x0 - r, y - y0 - r, x1 - x - r, y1 - y - r
