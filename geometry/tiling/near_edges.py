"""The starts of the tiles at which a hole comes too near to an edge, for many at once. Lengths in mm."""

import math
from typing import NamedTuple

import numpy as np

from geometry.arrays import Flags, Floats
from geometry.tiling.setting import Setting
from geometry.units import EPSILON


class Span(NamedTuple):
    """Of one row, or of one tile in its row, for each start: its ends seen from a hole's centre."""

    low: Floats
    high: Floats

    @property
    def off(self) -> Floats:
        """How far the centre lies outside it; 0 within."""
        return np.maximum(0.0, np.maximum(self.low, -self.high))


def too_near(setting: Setting, along: Floats, up: Floats) -> Flags:
    """Return for every start, `along` by `up`, whether a hole comes too near to an edge that it does not cut.

    Every tile that the hole reaches counts, each edge as long as it is: a hole that cuts over the long edge
    of a tile may pass close by the end of a short one.
    """
    found = np.zeros((len(along), len(up)), dtype=np.bool_)
    pitch_along, pitch_up = setting.pitch(along=True), setting.pitch(along=False)
    for target in setting.targets:
        rim = Rim(target.radius, setting.clear)
        numbers = np.floor((target.up - up + EPSILON) / pitch_up)
        for row in _around(target.radius, pitch_up):
            low = up + (numbers + row) * pitch_up - target.up
            rows = Span(low, low + setting.up)
            for share, moved in enumerate(setting.shifts):
                ups = rim.reaches(rows.off**2) & ((numbers + row) % len(setting.shifts) == share)
                places = np.floor((target.along - moved - along + EPSILON) / pitch_along)
                for place in _around(target.radius, pitch_along) if ups.any() else ():
                    left = along + moved + (places + place) * pitch_along - target.along
                    mark(found, Span(left, left + setting.along), rows, ups, rim)
    return found


def mark(found: Flags, tiles: Span, rows: Span, ups: Flags, rim: "Rim") -> None:
    """Mark the starts at which one tile of some rows is reached and one of its edges is close.

    The nearest point of an edge lies beside the centre, or else it is the nearer end.
    """
    beside, apart = tiles.off**2, rows.off**2
    alongs = rim.reaches(beside)
    amid, level = alongs & (beside == 0), ups & (apart == 0)
    if amid.any() and level.any():  # the centre lies in the tile: each axis by itself
        found |= np.logical_and.outer(amid & rim.is_close(tiles, np.zeros(1))[:, 0], level)
        found |= np.logical_and.outer(amid, level & rim.is_close(rows, np.zeros(1))[:, 0])
    for some, others in ((alongs, ups & ~level), (alongs & ~amid, level)):
        i, j = np.flatnonzero(some), np.flatnonzero(others)
        if len(i) and len(j):
            upright = rim.is_close(Span(tiles.low[i], tiles.high[i]), apart[j])
            flat = rim.is_close(Span(rows.low[j], rows.high[j]), beside[i]).T
            found[np.ix_(i, j)] |= rim.reaches(np.add.outer(beside[i], apart[j])) & (upright | flat)


class Rim(NamedTuple):
    """The rim of a hole, and what must be clear outside it; distances from its centre come squared."""

    radius: float
    clear: float

    def reaches(self, square: Floats) -> Flags:
        """Return whether the hole reaches what is so far off."""
        return np.asarray(square < (self.radius - EPSILON) ** 2)

    def is_close(self, ends: Span, off: Floats) -> Flags:
        """Return whether either end is close to the rim, for each span by each of what lies between."""
        squares = np.add.outer(np.stack(ends) ** 2, off)
        least, most = (self.radius + EPSILON) ** 2, (self.radius + self.clear - EPSILON) ** 2
        return np.asarray(((squares > least) & (squares < most)).any(axis=0))


def _around(radius: float, pitch: float) -> range:
    """Return which rows, or tiles of a row, a hole may reach, counted from the one that holds its centre."""
    return range(-math.ceil(radius / pitch), math.ceil(radius / pitch) + 1)
