"""What a start of the tiles is judged by, and the points that it earns, for many starts at once.

Millimetres on the wall. The tiles of a bond with rows repeat along a row (`along`) and from row to row
(`up`); in the vertical bond the two axes change places. Points are our own choice of what a tiler weighs,
in mm of narrowest cut: nothing published ranks layouts.
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
from geometry.tiling.pieces import SLIVER
from geometry.tiling.region import faced
from geometry.units import EPSILON

Floats = np.ndarray[Any, np.dtype[np.float64]]

SYMMETRIC = 30.0
"""For tiles that are alike on both sides of the centre line."""
CENTRED = 10.0
"""For a valve, head or rail on the middle of a tile or joint, each axis."""
ACROSS = -60.0
"""For a hole across a joint without being centred on it, each axis."""
REFUSED = -1e9
"""For a start that brings a hole too near to an edge: no other points make up for it."""
CLOSE = 0.55
"""On the middle: nearer than this, mm; a start is kept to 0.1 and searched by 1."""


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


# many starts at once


def cuts(
    edges: tuple[Edge, ...], size: float, pitch: float, starts: Floats, shifts: tuple[float, ...]
) -> Floats:
    """Return the narrowest piece that is left at any edge, for each start; a whole tile where none is cut."""
    least = np.full(len(starts), size)
    for edge in edges:
        for moved in shifts:
            into = np.mod(edge.at - starts - moved + SLIVER, pitch) - SLIVER
            left = size - into if edge.after else into
            cut = (into > SLIVER) & (into < size - SLIVER)
            least = np.minimum(least, np.where(cut, left, size))
    return least


class Lies(NamedTuple):
    """How one hole lies on one axis, for each start."""

    near: "np.ndarray[Any, np.dtype[np.bool_]]"
    """Too near to an edge that it does not cut."""
    points: Floats
    centred: "np.ndarray[Any, np.dtype[np.bool_]]"
    across: "np.ndarray[Any, np.dtype[np.bool_]]"


def lies(setting: Setting, at: float, radius: float, wanted: bool, starts: Floats, *, along: bool) -> Lies:
    """Return how a hole lies between the edges of its tile, for each start of the tiles on this axis."""
    size, pitch = (setting.along if along else setting.up), setting.pitch(along=along)
    into = np.mod(at - starts, pitch)
    first, last = into - radius, size - into - radius
    inside = (first > EPSILON) & (last > EPSILON)
    cut_first, cut_last = first <= EPSILON, last <= EPSILON
    near = (~cut_first & (first < setting.clear - EPSILON)) | (~cut_last & (last < setting.clear - EPSILON))
    off_joint = np.abs(into - (size + setting.joint / 2))
    off_joint = np.minimum(off_joint, pitch - off_joint)
    on_middle = (np.abs(into - size / 2) < CLOSE) | (off_joint < CLOSE)
    across = ~inside & (off_joint > setting.joint_off + EPSILON)
    points = np.where(across, ACROSS, 0.0) + (np.where(on_middle, CENTRED, 0.0) if wanted else 0.0)
    return Lies(near, points, on_middle, across)


def touched(setting: Setting, target: Target, starts: Floats, row: int) -> Floats:
    """Return 1 for each start at which a hole reaches into rows of this shift, else 0."""
    period = setting.pitch(along=False) * len(setting.shifts)
    middle = row * setting.pitch(along=False) + setting.up / 2
    off = np.mod(target.up - starts - middle + period / 2, period) - period / 2
    return (np.abs(off) < setting.up / 2 + target.radius - EPSILON).astype(np.float64)


def symmetric(setting: Setting, starts: Floats, *, along: bool) -> "np.ndarray[Any, np.dtype[np.bool_]]":
    """Return for each start whether the centre line is the middle of a tile or of a joint."""
    if setting.centre is None or along != setting.rows_up:
        return np.zeros(len(starts), dtype=bool)
    size, pitch = (setting.along if along else setting.up), setting.pitch(along=along)
    into = np.mod(setting.centre - starts, pitch)
    off = np.abs(into - (size + setting.joint / 2))
    return (np.abs(into - size / 2) < CLOSE) | (np.minimum(off, pitch - off) < CLOSE)


def points(setting: Setting, along: Floats, up: Floats) -> Floats:
    """Return the points of every start, `along` by `up`; minus infinity where a hole is too near an edge."""
    on_along = np.where(symmetric(setting, along, along=True), SYMMETRIC, 0.0)
    on_up = np.where(symmetric(setting, up, along=False), SYMMETRIC, 0.0)
    by_row: list[tuple[Floats, Floats]] = []
    for target in setting.targets:
        own = lies(setting, target.up, target.radius, target.centred_up, up, along=False)
        on_up = on_up + np.where(own.near, REFUSED, own.points)
        for row, moved in enumerate(setting.shifts):
            at = target.along - moved
            other = lies(setting, at, target.radius, target.centred_along, along, along=True)
            worth = np.where(other.near, REFUSED, other.points)
            reached = touched(setting, target, up, row)
            if reached.all():
                on_along = on_along + worth
            else:
                by_row.append((worth, reached))
    earned = np.minimum.outer(
        cuts(setting.edges_along, setting.along, setting.pitch(along=True), along, setting.shifts),
        cuts(setting.edges_up, setting.up, setting.pitch(along=False), up, (0.0,)),
    )
    earned += on_along[:, None]
    earned += on_up[None, :]
    for worth, reached in by_row:
        earned += worth[:, None] * reached[None, :]
    earned[earned < REFUSED / 2] = -np.inf
    return earned
