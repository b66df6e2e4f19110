"""The holes of a job in their tiles: which tile, how far from its edges, how the plate covers them.

Millimetres. Distances in a tile count from two edges of the piece as laid: from its left and from its lower
edge, which a tiler lays the tape on. Knows no limits.
"""

import math
from collections.abc import Iterable
from typing import NamedTuple

import numpy as np
import shapely

from geometry.build_up import area_at
from geometry.model import XY
from geometry.parts.records import Disc, Form, HeadPart, ValvePart
from geometry.parts.threads import THREADS
from geometry.plan import Plan
from geometry.setting_out.holes import Hole, holes, water_holes
from geometry.tiling.pieces import Piece, pieces_of
from geometry.units import EPSILON

COLLAR = 2.0
"""What a tanking collar takes up round a pipe, in mm, each side (common practice, no source)."""


class InTile(NamedTuple):
    """One hole in one piece of tile."""

    piece: Piece
    across: float
    """Of its centre from the left edge of the piece."""
    up: float
    """From its lower edge."""
    rim: float
    """From the hole's rim to the nearest edge of the piece that it does not cut; infinite if it cuts all."""
    cuts: bool
    """Whether it cuts an edge of this piece."""


class Drilled(NamedTuple):
    """A hole with the tiles that it goes through, the one with its centre first; none where none is tiled."""

    number: int
    hole: Hole
    board: float | None
    """Diameter of the hole in board; None where there is no board."""
    tiles: tuple[InTile, ...]
    off_joint: float
    """From the hole's centre to the middle of the nearest joint that it cuts; infinite if it cuts none."""

    @property
    def rim(self) -> float:
        """From its rim to the nearest edge of a tile that it does not cut, in mm."""
        return min((tile.rim for tile in self.tiles), default=math.inf)

    @property
    def across_joint(self) -> bool:
        """Whether it goes through several tiles or over the edge of one."""
        return any(tile.cuts for tile in self.tiles)

    @property
    def names(self) -> str:
        """The tiles, by row and column."""
        return " + ".join(tile.piece.name for tile in self.tiles)


class Cover(NamedTuple):
    """How a hole suits what covers it and what goes through it, in mm on the narrowest side."""

    owner: str
    at: XY
    hole: float
    covered: float
    """From the rim of the hole to the edge of the plate or flange over it; negative: the hole shows."""
    room: float | None
    """Round what goes through it, a collar taken off; None: a valve, whose maker states the hole."""
    collar: bool


def drilled(plan: Plan, pieces: tuple[Piece, ...] | None = None) -> tuple[Drilled, ...]:
    """Return the holes that are drilled through tiles or panels, numbered from 1, each with its tiles.

    Args:
        plan: the job with its parts.
        pieces: what is drilled; the tiles of the job without it.
    """
    pieces = pieces_of(plan) if pieces is None else pieces
    seen = (hole for hole in holes(plan) if hole.kind == "water" or not _in_recess(plan, hole))
    return _drilled(plan, seen, pieces)


def drilled_for_water(plan: Plan) -> tuple[Drilled, ...]:
    """Return the holes for water alone, numbered as among all, with the tiles of the job."""
    return _drilled(plan, water_holes(plan), pieces_of(plan))


def _drilled(plan: Plan, seen: Iterable[Hole], pieces: tuple[Piece, ...]) -> tuple[Drilled, ...]:
    boxes = shapely.bounds(np.array([piece.shape for piece in pieces], dtype=object)).reshape(-1, 4)
    found = []
    for number, hole in enumerate(seen, 1):
        (x, y), r = hole.at, hole.diameter / 2
        reached = (boxes[:, :2] < (x + r, y + r)).all(axis=1) & (boxes[:, 2:] > (x - r, y - r)).all(axis=1)
        near = tuple(pieces[index] for index in np.flatnonzero(reached))
        found.append(_drill(plan, number, hole, near))
    return tuple(found)


def _in_recess(plan: Plan, hole: Hole) -> bool:
    """Return whether a screw goes into the back of a recess, behind the tiles."""
    if hole.owner not in plan.recesses:
        return False
    (x, y), (x0, y0, x1, y1) = hole.at, plan.recesses[hole.owner].bounds
    return x0 <= x <= x1 and y0 <= y <= y1


def _drill(plan: Plan, number: int, hole: Hole, pieces: tuple[Piece, ...]) -> Drilled:
    area = area_at(plan.job.finish, hole.at)
    boarded = area is not None and any(layer.kind == "board" for layer in area.layers)
    wider = plan.job.finish.board_wider if hole.kind == "water" else 0.0
    board = hole.diameter + wider if boarded else None
    found = [tile for piece in pieces if (tile := in_tile(piece, hole.at, hole.diameter))]
    centre = shapely.Point(hole.at)
    found.sort(key=lambda tile: (float(shapely.distance(tile.piece.shape, centre)), tile.piece.name))
    joint = plan.job.finish.tiling.joint if plan.job.finish.tiling else 0.0
    off = min((_off_joint(tile, hole, joint) for tile in found if tile.cuts), default=math.inf)
    return Drilled(number, hole, board, tuple(found), off)


def in_tile(piece: Piece, at: XY, diameter: float) -> InTile | None:
    """Return how a hole lies in a piece of tile, or None if it does not touch it."""
    (x, y), r = at, diameter / 2
    x0, y0, x1, y1 = piece.bounds
    if x + r <= x0 or x - r >= x1 or y + r <= y0 or y - r >= y1:
        return None
    point = shapely.Point(x, y)
    if float(shapely.distance(piece.shape, point)) >= r - EPSILON:
        return None
    gaps = []
    for ring in piece.rings:
        for start, end in zip(ring, ring[1:] + ring[:1], strict=True):
            gaps.append(float(shapely.distance(shapely.LineString([start, end]), point)) - r)
    clear = [gap for gap in gaps if gap > EPSILON]
    return InTile(piece, x - x0, y - y0, min(clear, default=math.inf), len(clear) < len(gaps))


def _off_joint(tile: InTile, hole: Hole, joint: float) -> float:
    """Return how far a hole's centre lies from the middle of the nearest joint that it cuts beside a tile."""
    (x, y), r = hole.at, hole.diameter / 2
    x0, y0, x1, y1 = tile.piece.bounds
    half = joint / 2
    edges = ((x, x0, -half), (x, x1, half), (y, y0, -half), (y, y1, half))
    cut = [abs(at - edge - side) for at, edge, side in edges if abs(at - edge) < r]
    return min(cut, default=math.inf)


def covers(plan: Plan) -> tuple[Cover, ...]:
    """Return how each water hole suits its plate or flange, in the order of the holes."""
    found = []
    for placed in (*plan.valves, *plan.elbowed):
        part = placed.part
        if isinstance(part, HeadPart) and part.mount == "ceiling":
            continue
        collar = any(layer.kind == "tanking" for layer in placed.finish.layers)
        if isinstance(part, ValvePart):
            covered, room = _least_reach(part.plate) - part.hole / 2, None
        else:
            covered = (part.flange - part.hole) / 2
            room = (part.hole - THREADS[part.thread].major) / 2 - (COLLAR if collar else 0.0)
        found.append(Cover(placed.fitting.id, placed.fitting.at, part.hole, covered, room, collar))
    return tuple(found)


def _least_reach(form: Form) -> float:
    """Return how far a plate reaches from its centre where it reaches least."""
    return form.diameter / 2 if isinstance(form, Disc) else min(form.wide, form.high) / 2
