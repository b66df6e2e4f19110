"""Where whole tiles lie, by bond: a grid without end, of which so much is taken as covers a box.

Millimetres on the wall. A tile's place is its lower left corner; the joint lies outside the tile. Knows
nothing of walls and edges.
"""

import math
from collections.abc import Iterator
from typing import NamedTuple

from geometry.model import Tiling
from geometry.model.finish import Bond
from geometry.shape.outline import Bounds

SHARES: dict[Bond, int] = {"straight": 1, "half": 2, "third": 3, "vertical": 2, "herringbone": 1}
"""After how many rows (columns in the vertical bond) the joints stand above each other again."""


class Tile(NamedTuple):
    """One whole tile: its course and place in the course, counted from the first tile, and where it lies.

    A course is a row; in the vertical bond a column; in herringbone a flight of steps that climbs to
    the right, in which tiles laid as given and turned ones alternate.
    """

    course: int
    place: int
    x: float
    y: float
    wide: float
    high: float

    @property
    def bounds(self) -> Bounds:
        """Its x min, y min, x max, y max."""
        return self.x, self.y, self.x + self.wide, self.y + self.high


def shift(tiling: Tiling, course: int) -> float:
    """Return by how much a course is shifted from the first, in mm along it."""
    share = SHARES[tiling.bond]
    along = tiling.high if tiling.bond == "vertical" else tiling.wide
    side = -1 if tiling.direction == "left" and tiling.bond != "vertical" else 1
    return side * (course % share) * (along + tiling.joint) / share


def tiles_over(tiling: Tiling, box: Bounds) -> Iterator[Tile]:
    """Go through the tiles that reach into a box, course by course from below, from the left in each."""
    if tiling.bond == "herringbone":
        yield from sorted(_herringbone(tiling, box), key=lambda tile: (tile.course, tile.place))
        return
    x0, y0, x1, y1 = box
    wide, high = tiling.wide + tiling.joint, tiling.high + tiling.joint
    if tiling.bond == "vertical":
        for course in _reaching(x0, x1, tiling.start_x, wide, tiling.wide):
            start = tiling.start_y + shift(tiling, course)
            for place in _reaching(y0, y1, start, high, tiling.high):
                at = tiling.start_x + course * wide, start + place * high
                yield Tile(course, place, *at, tiling.wide, tiling.high)
        return
    for course in _reaching(y0, y1, tiling.start_y, high, tiling.high):
        start = tiling.start_x + shift(tiling, course)
        for place in _reaching(x0, x1, start, wide, tiling.wide):
            at = start + place * wide, tiling.start_y + course * high
            yield Tile(course, place, *at, tiling.wide, tiling.high)


def _reaching(low: float, high: float, start: float, pitch: float, size: float) -> range:
    """Return the numbers of the tiles along one axis that reach into a span, touching left out."""
    first = math.floor((low - start - size) / pitch) + 1
    return range(first, math.ceil((high - start) / pitch))


def _herringbone(tiling: Tiling, box: Bounds) -> Iterator[Tile]:
    """Go through the tiles of a herringbone.

    With a tile of a x b, joints included, the pattern repeats by (b, b) along a flight of steps and by
    (a, -a) from one flight to the next; beside each tile laid as given stands one turned, at (a, b - a).
    """
    a, b = tiling.wide + tiling.joint, tiling.high + tiling.joint
    x0, y0, x1, y1 = box
    mirrored = tiling.direction == "left"  # about the first tile
    corners = [(x - tiling.start_x, y - tiling.start_y) for x in (x0, x1) for y in (y0, y1)]
    if mirrored:
        corners = [(tiling.wide - x, y) for x, y in corners]
    rises = [(x + y) / (2 * b) for x, y in corners]
    flights = [(x - y) / (2 * a) for x, y in corners]
    reach = math.ceil(a / b) + math.ceil(b / a) + 1
    for flight in range(math.floor(min(flights)) - reach, math.ceil(max(flights)) + reach):
        for rise in range(math.floor(min(rises)) - reach, math.ceil(max(rises)) + reach):
            at = rise * b + flight * a, rise * b - flight * a
            for turned, (x, y) in enumerate((at, (at[0] + a, at[1] + b - a))):
                wide, high = (tiling.high, tiling.wide) if turned else (tiling.wide, tiling.high)
                left = tiling.start_x + (tiling.wide - x - wide if mirrored else x)
                low = tiling.start_y + y
                if left < x1 and low < y1 and left + wide > x0 and low + high > y0:
                    yield Tile(flight, 2 * rise + turned, left, low, wide, high)
