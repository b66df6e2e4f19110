"""The points that the starts of a herringbone earn, for all of them at once. Lengths in mm on the wall.

A herringbone has neither rows nor columns; it repeats by (b, b) and (a, -a), with a x b a tile and its joint.
So every start is one of a band that is b high, and each tile moves with the start: where it lies along the
wall depends on the start's x alone, and how high on its y. A block of starts is judged by one tile at a time.
"""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
import shapely

from geometry.arrays import Flags, Floats
from geometry.model import XY
from geometry.model.finish import Tiling
from geometry.plan import Plan
from geometry.tiling.grid import Tile, tiles_over
from geometry.tiling.near_edges import Rim, Span, mark
from geometry.tiling.pieces import SLIVER
from geometry.tiling.score import ACROSS, CENTRED, CLOSE
from geometry.tiling.setting import Side, Target, sides, targets_of, tiled_faces
from geometry.units import EPSILON


class Band(NamedTuple):
    """All starts, `x` by `y`, and how they do."""

    x: Floats
    y: Floats
    points: Floats
    """Minus infinity where a hole is too near to an edge."""
    narrowest: Floats
    """What is left of a tile at the edge that leaves least."""
    split: tuple[Flags, ...]
    """For each hole, whether it does not lie wholly in one tile."""
    centred: tuple[Floats, ...]
    """For each hole, on how many axes it lies on the middle of its tile, where that is wanted."""
    move: XY
    """By how much the fittings are moved."""


class _Moving(NamedTuple):
    """One tile for every start: its edges along the wall, by the start's x, and up it, by its y."""

    along: Span
    up: Span


def band(plan: Plan, move: XY = (0.0, 0.0)) -> Band:
    """Return the starts of a herringbone, with all fittings moved.

    Raises:
        ValueError: nothing is tiled.
    """
    tiling, faces = tiled_faces(plan)
    x, y = _band(tiling)
    x0, y0, x1, y1 = shapely.total_bounds(faces).tolist()
    unset = tiling.but(start_x=0.0, start_y=0.0)
    tiles = tuple(tiles_over(unset, (x0 - x[-1], y0 - y[-1], x1, y1)))
    narrowest = np.full((len(x), len(y)), min(tiling.wide, tiling.high))
    moving = tuple(_moving(tiles, x, y))
    for side in (*sides(faces, 0), *sides(faces, 1)):
        for tile in moving:
            _cut(narrowest, tile, side)
    points = narrowest.copy()
    split, centred = [], []
    clear = plan.rules["tiling.hole_edge"].value
    for target in targets_of(plan):
        held = target._replace(along=target.along + move[0], up=target.up + move[1])
        near, inside, middles = _holds(moving, held, clear, points.shape)
        points += np.where(inside, 0.0, ACROSS) + CENTRED * middles
        points[near] = -np.inf
        split.append(~inside)
        centred.append(middles)
    return Band(x, y, points, narrowest, tuple(split), tuple(centred), move)


def apart(tiling: Tiling, x: Floats, y: Floats) -> Floats:
    """Return how far starts are from being the same start, by the larger of the two axes.

    Args:
        tiling: a herringbone.
        x: from one start to the others.
        y: likewise.
    """
    a, b = tiling.wide + tiling.joint, tiling.high + tiling.joint
    rises, flights = np.round((x + y) / (2 * b)), np.round((x - y) / (2 * a))
    return np.asarray(np.maximum(np.abs(x - rises * b - flights * a), np.abs(y - rises * b + flights * a)))


def _band(tiling: Tiling) -> tuple[Floats, Floats]:
    a, b = tiling.wide + tiling.joint, tiling.high + tiling.joint
    return np.arange(0.0, 2 * a + b), np.arange(0.0, b)


def _moving(tiles: tuple[Tile, ...], x: Floats, y: Floats) -> Iterator[_Moving]:
    for tile in tiles:
        left, low = tile.x + x, tile.y + y
        yield _Moving(Span(left, left + tile.wide), Span(low, low + tile.high))


def _meets(span: Span, low: float, high: float) -> bool:
    """Return whether a span that rises with the start reaches into another for any start."""
    return bool(span.low[0] < high and span.high[-1] > low)


def _cut(narrowest: Floats, tile: _Moving, side: Side) -> None:
    """Note what is left of a tile at one side of the face, for the starts at which the side cuts it."""
    across, beside = (tile.along, tile.up) if side.axis == 0 else (tile.up, tile.along)
    if not _meets(across, side.at, side.at) or not _meets(beside, side.low, side.high):
        return
    cut = np.flatnonzero((across.low < side.at - SLIVER) & (across.high > side.at + SLIVER))
    met = np.flatnonzero((beside.low < side.high - SLIVER) & (beside.high > side.low + SLIVER))
    if not len(cut) or not len(met):
        return
    left = (across.high - side.at if side.after else side.at - across.low)[cut]
    by_x, by_y = (cut, met) if side.axis == 0 else (met, cut)
    block = np.s_[by_x[0] : by_x[-1] + 1, by_y[0] : by_y[-1] + 1]  # both are runs without a gap
    narrowest[block] = np.minimum(narrowest[block], left[:, None] if side.axis == 0 else left[None, :])


def _holds(
    tiles: tuple[_Moving, ...], hole: Target, clear: float, shape: tuple[int, ...]
) -> tuple[Flags, Flags, Floats]:
    """Return for each start whether a hole is too near to an edge, lies in one tile, and on which middles."""
    near, inside = np.zeros(shape, dtype=np.bool_), np.zeros(shape, dtype=np.bool_)
    middles, rim = np.zeros(shape), Rim(hole.radius, clear)
    for tile in tiles:
        reach = hole.radius
        if not _meets(tile.along, hole.along - reach, hole.along + reach):
            continue
        if not _meets(tile.up, hole.up - reach, hole.up + reach):
            continue
        along = Span(tile.along.low - hole.along, tile.along.high - hole.along)
        up = Span(tile.up.low - hole.up, tile.up.high - hole.up)
        mark(near, along, up, rim.reaches(up.off**2), rim)
        least = hole.radius + EPSILON
        held = [(each.low < -least) & (each.high > least) for each in (along, up)]
        inside |= np.logical_and.outer(*held)
        for axis, (each, wanted) in enumerate(((along, hole.centred_along), (up, hole.centred_up))):
            if wanted:
                on = [(one.low <= 0) & (one.high > 0) for one in (along, up)]
                on[axis] &= np.abs(each.low + each.high) / 2 < CLOSE
                middles += np.logical_and.outer(*on)
    return near, inside, middles
