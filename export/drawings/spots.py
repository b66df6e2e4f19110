"""Free places for small marks within a drawing: a letter beside a pipe, a number beside what it points at.

Millimetres of the drawing. Of the places that a caller offers, one is taken that touches no other mark
and covers the fewest lines, the earlier of equals; marks keep their size, and one that finds no place
is left out. Nothing here knows what is drawn.
"""

from collections.abc import Iterable, Iterator, Sequence, Set
from itertools import islice, pairwise
from typing import Any, NamedTuple

import numpy as np

from export.layers import LAYERS
from export.pen import XY
from export.recorder import Recorder, Stroke
from export.wrapped_pens import Clipped, OnLayers
from geometry.shape.outline import Bounds

Numbers = np.ndarray[Any, np.dtype[Any]]
_EVERYWHERE = (-1e6, -1e6, 1e6, 1e6)
_UNREADABLE = 4  # a line under a mark is as bad as so many that its leader crosses
_AT_ONCE = 16  # how many places are looked at together, from the first
_OCTAGON = ((1.0, 0.41), (0.41, 1.0), (-0.41, 1.0), (-1.0, 0.41))
"""Half of the corners of an octagon about a circle of radius 1; the others lie opposite."""


class Spot(NamedTuple):
    """A place that is offered: the middle of a mark, and the far end of its leader if it has one."""

    middle: XY
    tied_to: XY | None = None


class Spots:
    """The lines of a drawing, and the marks that have found their place beside them."""

    def __init__(self, drawn: Recorder, within: Bounds, faint: Set[str] = frozenset()) -> None:
        """Take the lines of a drawing.

        Args:
            drawn: the drawing.
            within: marks stand inside these bounds.
            faint: layers whose lines may be covered.
        """
        solid = Recorder()
        drawn.replay(Clipped(OnLayers(solid, LAYERS.keys() - faint), *_EVERYWHERE))
        segments = [segment for stroke in solid.strokes for segment in _segments(stroke)]
        self._lines: Numbers = np.array(segments, dtype=np.float64).reshape(-1, 4)
        self._marks: Numbers = np.empty((0, 4))
        self._within = within

    def take(
        self,
        spots: Iterable[Spot],
        width: float,
        height: float,
        *,
        clear_leaders: bool = False,
        bare: bool = False,
    ) -> Spot | None:
        """Take the best of some places for a mark of this size; None if none of them is free.

        Args:
            spots: places, the best first.
            width: of the mark.
            height: of the mark.
            clear_leaders: count the lines that a leader crosses, too; those that the mark covers weigh more.
            bare: take none that covers a line.
        """
        best: tuple[int, Spot, Numbers] | None = None
        offered, half = iter(spots), (width / 2, height / 2)
        while some := list(islice(offered, _AT_ONCE)):
            middles = np.array([spot.middle for spot in some])
            boxes = np.hstack((middles - half, middles + half))
            free = np.nonzero(self._are_free(some, boxes))[0]
            covered = _crossing(self._lines, boxes[free, None]).sum(axis=1)
            if clear_leaders:
                covered = _UNREADABLE * covered + self._crossed([some[index] for index in free])
            if len(free) and (best is None or covered.min() < best[0]):
                first = int(covered.argmin())
                best = int(covered[first]), some[free[first]], boxes[free[first]]
            if best and best[0] == 0:
                break
        if best is None or (bare and best[0]):
            return None
        _, spot, box = best
        self._marks = np.vstack((self._marks, box))
        if spot.tied_to:
            self._lines = np.vstack((self._lines, (*spot.middle, *spot.tied_to)))
        return spot

    def _crossed(self, spots: Sequence[Spot]) -> Numbers:
        """Return how many lines the leader of each mark crosses."""
        leaders = _leaders(spots)[:, None]
        a, b, starts, ends = leaders[..., :2], leaders[..., 2:], self._lines[:, :2], self._lines[:, 2:]
        apart = _side(a, b, starts) * _side(a, b, ends) < 0
        return np.asarray((apart & (_side(starts, ends, a) * _side(starts, ends, b) < 0)).sum(axis=1))

    def _are_free(self, spots: Sequence[Spot], boxes: Numbers) -> Numbers:
        """Return which marks stand inside the drawing, and neither they nor their leaders touch a mark."""
        left, low, right, top = self._within
        inside = (boxes[:, :2] >= (left, low)).all(axis=1) & (boxes[:, 2:] <= (right, top)).all(axis=1)
        x0, y0, x1, y1 = boxes.T[:, :, None]
        marks = self._marks.T
        touching = (x0 < marks[2]) & (marks[0] < x1) & (y0 < marks[3]) & (marks[1] < y1)
        tied = np.array([spot.tied_to is not None for spot in spots])
        crossed = _crossing(_leaders(spots)[:, None], self._marks).any(axis=1) & tied
        return np.asarray(inside & ~touching.any(axis=1) & ~crossed)


def _crossing(lines: Numbers, boxes: Numbers) -> Numbers:
    """Return whether any part of a line lies in a box, for one line or many and one box or many."""
    enter, leave = np.zeros(1), np.ones(1)
    for axis in (0, 1):  # the slabs method
        start, low, high = lines[..., axis], boxes[..., axis], boxes[..., axis + 2]
        way = lines[..., axis + 2] - start
        still = np.abs(way) < 1e-9
        step = np.where(still, 1.0, way)
        near, far = (low - start) / step, (high - start) / step
        inside = (low <= start) & (start <= high)
        enter = np.maximum(enter, np.where(still, np.where(inside, 0.0, 2.0), np.minimum(near, far)))
        leave = np.minimum(leave, np.where(still, 1.0, np.maximum(near, far)))
    return np.asarray(enter <= leave)


def _leaders(spots: Sequence[Spot]) -> Numbers:
    """Return the leaders of marks as lines; a mark without one has a line of no length."""
    return np.array([(*spot.middle, *(spot.tied_to or spot.middle)) for spot in spots]).reshape(-1, 4)


def _side(a: Numbers, b: Numbers, c: Numbers) -> Numbers:
    """Return on which side of the line from a to b lies c: above 0 left, below 0 right."""
    along, off = b - a, c - a
    return np.asarray(np.sign(along[..., 0] * off[..., 1] - along[..., 1] * off[..., 0]))


def _segments(stroke: Stroke) -> Iterator[tuple[float, float, float, float]]:
    """Go through the straight pieces of a stroke; a circle counts as an octagon, text not at all."""
    values = stroke.values
    points: list[XY] = []
    if stroke.verb == "line":
        points = [values["start"], values["end"]]
    elif stroke.verb == "polyline":
        points = [*values["points"], *(values["points"][:1] if values["closed"] else ())]
    elif stroke.verb in ("circle", "arc"):
        (x, y), r = values["centre"], values["radius"]
        corners = [*_OCTAGON, *((-a, -b) for a, b in _OCTAGON)]
        points = [(x + a * r, y + b * r) for a, b in (*corners, corners[0])]
    for a, b in pairwise(points):
        yield (*a, *b)
