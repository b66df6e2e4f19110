"""What a start of the tiles is judged by: their sizes, where they end, the holes through them.

Millimetres on the wall. The tiles of a bond with rows repeat along a row (`along`) and from row to row
(`up`); in the vertical bond the two axes change places.
"""

from itertools import pairwise
from typing import Any, NamedTuple

import shapely

from geometry.model import Head, Tiling, Valve
from geometry.plan import Plan
from geometry.setting_out.holes import holes
from geometry.setting_out.lines import lines
from geometry.tiling.grid import SHARES, shift
from geometry.tiling.region import faced


class Edge(NamedTuple):
    """Where tiles end: its place on the axis, and whether the tiles lie on the far side of it."""

    at: float
    after: bool


class Side(NamedTuple):
    """One straight side of a face: its axis, its place, whether tiles lie beyond it, and its two ends."""

    axis: int
    at: float
    after: bool
    low: float
    high: float


class Target(NamedTuple):
    """One hole: whose, its centre along and up, its radius, and on which axes it is to be centred."""

    owner: str
    along: float
    up: float
    radius: float
    centred_along: bool
    centred_up: bool


class Setting(NamedTuple):
    """Tiles without a start, and what they are laid to."""

    along: float
    """Size of a tile along a row."""
    up: float
    joint: float
    shifts: tuple[float, ...]
    """Of the rows, along, until they repeat."""
    edges_along: tuple[Edge, ...]
    edges_up: tuple[Edge, ...]
    targets: tuple[Target, ...]
    centre: float | None
    """Of the enclosure, if it lies along a row."""
    rows_up: bool
    """Whether rows are level; in the vertical bond they stand."""
    clear: float
    """Least distance from a hole's rim to the edge of its tile, unless it cuts that."""
    joint_off: float
    """How far a hole across a joint may lie from its middle."""

    def pitch(self, *, along: bool) -> float:
        """Return the distance from one tile to the next."""
        return (self.along if along else self.up) + self.joint


def tiled_faces(plan: Plan) -> tuple[Tiling, list[shapely.Geometry]]:
    """Return the tiles of a job and the faces that they cover.

    Raises:
        ValueError: nothing is tiled.
    """
    job, tiling = plan.job, plan.job.finish.tiling
    faces = [one.shape for one in faced(job.finish, job.wall, job.enclosure, "tile")]
    if tiling is None or not faces:
        raise ValueError("nothing is tiled, so there is no start to choose")
    return tiling, faces


def setting_of(plan: Plan) -> Setting:
    """Return what the tiles of a job are laid to, of a bond that has rows or columns.

    Raises:
        ValueError: nothing is tiled.
    """
    tiling, faces = tiled_faces(plan)
    level = tiling.bond != "vertical"
    targets = targets_of(plan)
    if not level:
        targets = tuple(
            Target(held.owner, held.up, held.along, held.radius, held.centred_up, held.centred_along)
            for held in targets
        )
    xs, ys = _edges(faces, 0), _edges(faces, 1)
    return Setting(
        tiling.wide if level else tiling.high,
        tiling.high if level else tiling.wide,
        tiling.joint,
        tuple(shift(tiling, course) for course in range(SHARES[tiling.bond])),
        xs if level else ys,
        ys if level else xs,
        targets,
        lines(plan.job.enclosure).centre,
        level,
        plan.rules["tiling.hole_edge"].value,
        plan.rules["tiling.hole_joint"].value,
    )


def targets_of(plan: Plan) -> tuple[Target, ...]:
    """Return the holes that a start minds, along the wall and up it; of screws only those of rails."""
    mains = {fitting.id for fitting in plan.job.fittings if isinstance(fitting, Valve | Head)}
    rails = {placed.fitting.id for placed in plan.rails}
    return tuple(
        Target(hole.owner, *hole.at, hole.diameter / 2, hole.owner in mains | rails, hole.owner in mains)
        for hole in holes(plan)
        if hole.kind != "screw" or hole.owner in rails
    )


def sides(faces: list[Any], axis: int) -> tuple[Side, ...]:
    """Return the straight sides of the faces that stand on an axis: 0 for plumb ones, 1 for level ones."""
    found = set()
    for face in faces:
        for part in shapely.get_parts(face):
            for ring in (part.exterior, *part.interiors):
                for start, end in pairwise(list(ring.coords)):
                    if start[axis] != end[axis]:
                        continue
                    middle = [(start[0] + end[0]) / 2, (start[1] + end[1]) / 2]
                    middle[axis] += 0.01
                    low, high = sorted((float(start[1 - axis]), float(end[1 - axis])))
                    after = bool(shapely.contains_xy(face, *middle))
                    found.add(Side(axis, float(start[axis]), after, low, high))
    return tuple(sorted(found))


def _edges(faces: list[Any], axis: int) -> tuple[Edge, ...]:
    """Return where the faces end on an axis."""
    return tuple(sorted({Edge(side.at, side.after) for side in sides(faces, axis)}))
