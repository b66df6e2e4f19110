"""What a start of the tiles is judged by: their sizes, where they end, the holes through them.

Millimetres on the wall. The tiles of a bond with rows repeat along a row (`along`) and from row to row
(`up`); in the vertical bond the two axes change places.
"""

from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np
import shapely

from geometry.model import Head, Valve
from geometry.plan import Plan
from geometry.setting_out.holes import holes
from geometry.setting_out.lines import lines
from geometry.tiling.grid import SHARES, shift
from geometry.tiling.region import faced

Floats = np.ndarray[Any, np.dtype[np.float64]]
Flags = np.ndarray[Any, np.dtype[np.bool_]]


class Edge(NamedTuple):
    """Where tiles end: its place on the axis, and whether the tiles lie on the far side of it."""

    at: float
    after: bool


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


def setting_of(plan: Plan) -> Setting:
    """Return what the tiles of a job are laid to.

    Raises:
        ValueError: nothing is tiled, or the bond has neither rows nor columns.
    """
    job, tiling = plan.job, plan.job.finish.tiling
    faces = [one.shape for one in faced(job.finish, job.wall, job.enclosure, "tile")]
    if tiling is None or not faces:
        raise ValueError("nothing is tiled, so there is no start to choose")
    if tiling.bond == "herringbone":
        raise ValueError("a herringbone has neither rows nor columns: start it on the centre line")
    level = tiling.bond != "vertical"
    mains = {fitting.id for fitting in job.fittings if isinstance(fitting, Valve | Head)}
    rails = {placed.fitting.id for placed in plan.rails}
    targets = []
    for hole in holes(plan):
        if hole.kind == "screw" and hole.owner not in rails:
            continue
        x, y = hole.at
        main = hole.owner in mains
        along, up = ((x, main or hole.owner in rails), (y, main)) if level else ((y, main), (x, main))
        targets.append(Target(hole.owner, along[0], up[0], hole.diameter / 2, along[1], up[1]))
    xs, ys = _edges(faces, 0), _edges(faces, 1)
    return Setting(
        tiling.wide if level else tiling.high,
        tiling.high if level else tiling.wide,
        tiling.joint,
        tuple(shift(tiling, course) for course in range(SHARES[tiling.bond])),
        xs if level else ys,
        ys if level else xs,
        tuple(targets),
        lines(job.enclosure).centre,
        level,
        plan.rules["tiling.hole_edge"].value,
        plan.rules["tiling.hole_joint"].value,
    )


def _edges(faces: list[Any], axis: int) -> tuple[Edge, ...]:
    """Return the straight edges of the faces across an axis, each with its side of the tiles."""
    found = set()
    for face in faces:
        for part in shapely.get_parts(face):
            for ring in (part.exterior, *part.interiors):
                for start, end in pairwise(list(ring.coords)):
                    if start[axis] != end[axis]:
                        continue
                    middle = [(start[0] + end[0]) / 2, (start[1] + end[1]) / 2]
                    middle[axis] += 0.01
                    found.add(Edge(float(start[axis]), bool(shapely.contains_xy(face, *middle))))
    return tuple(sorted(found))
