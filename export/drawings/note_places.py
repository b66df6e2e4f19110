"""The places that come into question for a note: boxes beside its point or along its line, the best first.

Coordinates are those of the drawing, at the size at which it is seen. Nothing here knows what is drawn.
"""

import math
from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np
import shapely

from export.pen import XY
from export.text import RISE, SINK, is_bold, text_width
from geometry.arrays import Floats, Indices, Shapes
from geometry.shape.outline import Bounds

# All as shares of the text height; chosen by looking, no source.
LEADING = 1.7  # from one baseline to the next
PAD = 0.2  # kept clear round the words
STEP = 0.8  # from one place that is tried to the next
NEAR = 6.0  # all wordings are tried this near first
FAR = 30.0  # nothing is tried farther away
TIED = 1.0  # a note farther off than this beyond its clear room has a leader
SHORTER = 3.0  # how much farther away a wording may stand before the next, shorter one is better
_NEXT = 1e4  # mm; more than any line is long, so that a worse kind of place is never nearer


class Beside(NamedTuple):
    """Words beside a point; `wordings` are one or more ways to set them in lines, the best first."""

    at: XY
    wordings: tuple[tuple[str, ...], ...]
    height: float
    layer: str = "text"
    clear: float = 0.0
    """Room kept free round the point."""


class Along(NamedTuple):
    """Words along a line, on either side of it; `wordings` are one or more, the best first."""

    start: XY
    end: XY
    wordings: tuple[str, ...]
    height: float
    layer: str = "text"
    off: tuple[float, ...] = (1.0,)
    """Gaps between the line and the words that may be tried, the best first."""
    needed: bool = False
    """Whether the words must be there, on a stroke or beside the line's middle if need be."""


Note = Beside | Along


class Places(NamedTuple):
    """Places that come into question for one wording: boxes of one size, and how well each would do."""

    wording: tuple[str, ...]
    starts: Floats  # [place, x or y]: the lower left corner of the words as they are read
    corners: Floats  # [corner, x or y]: of the words, from there, counter-clockwise
    costs: Floats  # 0 is best
    after: float
    """No place that is yielded later costs less than this."""
    angle: float = 0.0
    tied: "Beside | None" = None
    """The note whose point a leader goes to from words that stand off."""

    def boxes(self, some: Indices) -> Shapes:
        """Return some of the boxes as shapes; those that lie level or upright are quicker to make."""
        starts = self.starts[some]
        if self.angle % 90:
            return many(shapely.polygons(starts[:, None] + self.corners))
        low, high = starts + self.corners.min(axis=0), starts + self.corners.max(axis=0)
        return many(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))

    def leaders(self, some: Indices) -> Floats:
        """Return the lines that tie some level boxes to their point, from the rim of the room kept clear.

        As [place, end, x or y]: from near the point to the words, NaN where they need none.
        """
        low = self.starts[some]
        leaders = np.full((len(low), 2, 2), np.nan)
        if self.tied:
            point = np.array(self.tied.at)
            off = np.maximum(low, np.minimum(point, low + self.corners[2])) - point
            away = np.hypot(off[:, 0], off[:, 1])
            far = away > self.tied.clear + TIED * self.tied.height
            if far.any():
                leaders[far, 0] = point + (self.tied.clear / away[far])[:, None] * off[far]
                leaders[far, 1] = point + off[far]
        return leaders


def places_for(note: Note, window: Bounds) -> Iterator[Places]:
    """Yield the places for a note inside a window; none that come later cost less than `after`."""
    yield from _beside(note, window) if isinstance(note, Beside) else _along(note, window)


def _beside(note: Beside, window: Bounds) -> Iterator[Places]:
    """Yield boxes on a grid about the point, inside the window, those near it first."""
    for inner, outer in ((0.0, NEAR * note.height), (NEAR * note.height, FAR * note.height)):
        for index in range(len(note.wordings)):
            yield _ring(note, index, window, inner, outer)


def _ring(note: Beside, index: int, window: Bounds, inner: float, outer: float) -> Places:
    """Return boxes for one of a note's wordings at least `inner` and less than `outer` from its point."""
    (x, y), wording, worse = note.at, note.wordings[index], SHORTER * note.height
    wide, high = _size(wording, note.height, note.layer)
    lefts = _near(x, wide, note, outer, window[0], window[2])
    lows = _near(y, high, note, outer, window[1], window[3])[:, None]
    off_x = np.maximum(np.maximum(lefts - x, x - lefts - wide), 0)
    off_y = np.maximum(np.maximum(lows - y, y - lows - high), 0)
    away = np.hypot(off_x, off_y)
    rows, columns = np.nonzero((away >= max(inner, note.clear)) & (away < outer))
    left, low = lefts[columns], lows[rows, 0]
    # Of places as near, level with the point is best, then to the right of it and above.
    rank = np.abs(low + high / 2 - y) / 1000 + (left + wide / 2 < x) / 100 + (low + high / 2 < y) / 200
    costs = away[rows, columns] + rank + index * worse
    later = outer if index == len(note.wordings) - 1 else min(outer, inner + (index + 1) * worse)
    return Places(wording, np.array((left, low)).T, _corners(wide, high), costs, later, tied=note)


def _along(note: Along, window: Bounds) -> Iterator[Places]:
    """Yield boxes along what is seen of the line, from its middle, on both sides of it."""
    seen = shapely.clip_by_rect(shapely.LineString((note.start, note.end)), *window)
    assert isinstance(seen, shapely.LineString), "a line that does not show has no place"
    (x0, y0), (x1, y1) = sorted(seen.coords, key=lambda at: (round(at[0], 6), at[1]))
    way = np.array(((x1 - x0) / seen.length, (y1 - y0) / seen.length))
    up, angle = np.array((-way[1], way[0])), math.degrees(math.atan2(way[1], way[0]))
    gaps = np.array(note.off)
    for index, words in enumerate(note.wordings):
        wide, high = _size((words,), note.height, note.layer)
        starts = _steps((seen.length - wide) / 2, STEP * note.height, 0.0, seen.length - wide)
        sides = np.stack((gaps, -gaps - high), axis=-1)  # [gap, side]: above the line, below it
        at = (x0, y0) + starts[:, None] * way + sides[:, :, None, None] * up  # [gap, side, start, x or y]
        off_middle = np.abs(starts + wide / 2 - seen.length / 2)
        rank = np.arange(len(gaps))[:, None, None] * _NEXT + np.array((0.0, 0.01))[:, None]
        costs = (off_middle + rank + index * 10 * _NEXT).ravel()
        later = (index + 1) * 10 * _NEXT
        corners = _corners(wide, high, angle)
        at = at.reshape(-1, 2)
        inside = (at + corners.min(axis=0) >= window[:2]) & (at + corners.max(axis=0) <= window[2:])
        kept = inside[:, 0] & inside[:, 1]
        yield Places((words,), at[kept], corners, costs[kept], later, angle)
    if note.needed:
        middle, last = ((x0 + x1) / 2, (y0 + y1) / 2), note.wordings[-1]
        wordings = (*((words,) for words in note.wordings), tuple(last.split()))
        for places in _beside(Beside(middle, wordings, note.height, note.layer, note.off[0]), window):
            yield places._replace(costs=places.costs + 1000 * _NEXT, after=places.after + 1000 * _NEXT)


def _near(at: float, size: float, note: Beside, reach: float, low: float, high: float) -> Floats:
    """Return where boxes about a point may begin along one axis, from `low` to `high`."""
    step = STEP * note.height
    steps = _steps(at - size / 2, step, max(low, at - reach - size), min(high - size, at + reach))
    close = np.array([at + note.clear, at - note.clear - size])  # as near as can be, on either side
    return np.concatenate([steps, close[(close >= low) & (close <= high - size)]])


def _size(wording: Sequence[str], height: float, layer: str) -> XY:
    """Return width and height of a block of lines with the room round it."""
    wide = max(text_width(words, height, bold=is_bold(layer)) for words in wording)
    high = (len(wording) - 1) * LEADING + RISE + SINK
    return wide + 2 * PAD * height, (high + 2 * PAD) * height


def _steps(middle: float, step: float, low: float, high: float) -> Floats:
    """Return values a step apart, one of them `middle`, from low to high; both ends as well."""
    if high < low:
        return np.empty(0)
    inner = middle + step * np.arange(
        math.ceil((low - middle) / step), math.floor((high - middle) / step) + 1
    )
    return np.concatenate([inner, [low, high]])


def _corners(wide: float, high: float, angle: float = 0.0) -> Floats:
    """Return the corners of a turned box from its first one, counter-clockwise."""
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return np.array(
        [
            (0.0, 0.0),
            (wide * cos, wide * sin),
            (wide * cos - high * sin, wide * sin + high * cos),
            (-high * sin, high * cos),
        ]
    )


def many(made: object) -> Shapes:
    """Return what shapely made of an array as an array, of one or of none too."""
    return np.atleast_1d(np.asarray(made, dtype=object))
