"""The points that starts of the tiles earn, for many starts at once. Lengths in mm on the wall.

Points are our own choice of what a tiler weighs, in mm of narrowest cut: nothing published ranks layouts.
"""

from typing import NamedTuple

import numpy as np

from geometry.arrays import Flags, Floats
from geometry.tiling.near_edges import too_near
from geometry.tiling.pieces import SLIVER
from geometry.tiling.setting import Edge, Setting, Target
from geometry.units import EPSILON

SYMMETRIC = 30.0
"""For tiles that are alike on both sides of the centre line."""
CENTRED = 10.0
"""For a valve, head or rail on the middle of a tile or joint, each axis."""
ACROSS = -60.0
"""For a hole across a joint without being centred on it, each axis."""
CLOSE = 0.55
"""On the middle: nearer than this, mm; a start is kept to 0.1 and searched by 1."""


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

    points: Floats
    centred: Flags
    across: Flags


def lies(setting: Setting, at: float, radius: float, wanted: bool, starts: Floats, *, along: bool) -> Lies:
    """Return how a hole lies between the edges of its tile, for each start of the tiles on this axis."""
    size, pitch = (setting.along if along else setting.up), setting.pitch(along=along)
    into = np.mod(at - starts, pitch)
    first, last = into - radius, size - into - radius
    inside = (first > EPSILON) & (last > EPSILON)
    off_joint = np.abs(into - (size + setting.joint / 2))
    off_joint = np.minimum(off_joint, pitch - off_joint)
    on_middle = (np.abs(into - size / 2) < CLOSE) | (off_joint < CLOSE)
    across = ~inside & (off_joint > setting.joint_off + EPSILON)
    points = np.where(across, ACROSS, 0.0) + (np.where(on_middle, CENTRED, 0.0) if wanted else 0.0)
    return Lies(points, on_middle, across)


def touched(setting: Setting, target: Target, starts: Floats, row: int) -> Floats:
    """Return 1 for each start at which a hole reaches into rows of this shift, else 0."""
    period = setting.pitch(along=False) * len(setting.shifts)
    middle = row * setting.pitch(along=False) + setting.up / 2
    off = np.mod(target.up - starts - middle + period / 2, period) - period / 2
    return (np.abs(off) < setting.up / 2 + target.radius - EPSILON).astype(np.float64)


def symmetric(setting: Setting, starts: Floats, *, along: bool) -> Flags:
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
        on_up = on_up + own.points
        for row, moved in enumerate(setting.shifts):
            at = target.along - moved
            worth = lies(setting, at, target.radius, target.centred_along, along, along=True).points
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
    earned[too_near(setting, along, up)] = -np.inf
    return earned
