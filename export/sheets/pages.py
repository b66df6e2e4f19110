"""How what is marked on a wall is split into full-size pages that are joined again on the wall.

Columns count from the left, rows by letter from the top: A1 is the top left page, C2 the second of the
third row. Neighbours repeat each other by the overlap and are joined at its middle, so that each sheet
is cut on the join at its left and at its bottom and laid over the sheet there. Lengths on the wall are
mm; lengths on paper are mm as well, and longer by the stretch. Nothing here draws.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple

import numpy as np
import shapely

from export.sheets.paper import Paper
from geometry.arrays import Flags
from geometry.model import XY
from geometry.shape.outline import Bounds

MOST = 400
"""No set has more pages than this: nobody tapes them."""
ROOM = 6.0
"""Room round all that is marked, so that nothing lies on the border of a page, in mm."""
BAR = 100.0
"""Length of the check bars on each page, in mm."""
ENDS = 2.0
"""Paper needed past each end of a check bar, in mm."""
OFF_JOIN = 12.0
"""A hole's centre this near to a join is hard to read there; in mm."""
CROSS = 5.0
"""Half the length of a register cross, in mm."""
_EVERY = 150.0  # one register cross for so many mm of a join, two at least
_GRID = 2000  # how many pages, empty ones included, are tried at more than one place


class Strips(NamedTuple):
    """Paper inside the margin that carries a page's words and bars instead of marks, in mm."""

    left: float = 11.0
    bottom: float = 15.0
    right: float = 6.0
    top: float = 6.0


STRIPS = Strips()


class Cross(NamedTuple):
    """A register cross: its centre on the wall, and the label that both pages print beside it."""

    at: XY
    label: str
    upright: bool
    """Whether the join that it lies on is, of pages side by side."""


class Page(NamedTuple):
    """One page; bounds are in mm on the wall."""

    name: str
    row: int
    column: int
    window: Bounds
    """All that is printed."""
    cell: Bounds
    """What is still seen when its neighbours are joined to it: from join to join."""
    left: str | None
    right: str | None
    below: str | None
    above: str | None
    crosses: tuple[Cross, ...]


class Layout(NamedTuple):
    """The pages of one set, row by row from the top, and how each lies on its paper."""

    paper: Paper
    stretch: XY
    origin: XY
    """Where the lower left corner of a page's window lies on the paper, in mm from the paper's."""
    size: XY
    """Width and height of a window on the paper, in mm."""
    pages: tuple[Page, ...]

    def on_paper(self, page: Page, at: XY) -> XY:
        """Return where a point of the wall lies on a page's paper, in mm from its lower left corner."""
        return (
            self.origin[0] + (at[0] - page.window[0]) * self.stretch[0],
            self.origin[1] + (at[1] - page.window[1]) * self.stretch[1],
        )


def split(
    marked: shapely.Geometry,
    paper: Paper,
    *,
    margin: float,
    overlap: float,
    stretch: XY = (1.0, 1.0),
    centres: Sequence[XY] = (),
) -> Layout:
    """Split what is marked into the fewest pages, upright or on their side.

    A page is left out where nothing that is marked touches it between its joins. Among splits with as
    few pages, one is taken that keeps the centres of holes off the joins.

    Args:
        marked: All that must be printed, in mm on the wall.
        paper: The sheet, either way up.
        margin: Round the sheet, which the printer cannot print on, in mm.
        overlap: By which neighbours repeat each other, in mm on paper.
        stretch: How much longer than on the wall lengths are printed, in x and in y.
        centres: Of the holes, in mm on the wall.

    Raises:
        ValueError: the paper is too small for its margin, or there would be too many pages.
    """
    ways = [way for way in (paper, paper.turned) if _fits(way, margin, overlap, stretch)]
    if not ways:
        raise ValueError(
            f"{paper.name} with a margin of {margin:g} mm and an overlap of {overlap:g} mm has no room for "
            f"full-size marks and {BAR:g} mm bars: choose larger paper or a smaller margin"
        )
    grids = [grid for way in ways for grid in _grids(marked, way, margin, overlap, stretch)]
    best = min(grids, key=lambda grid: (grid.used, grid.near_a_join(centres)), default=None)
    if best is None:
        return Layout(ways[0], stretch, *_window(ways[0], margin), ())
    if best.used > MOST:
        raise ValueError(
            f"the full-size marks would take {best.used} pages of {paper.name}, more than {MOST}: "
            "choose larger paper, or a smaller margin and overlap"
        )
    return Layout(best.paper, stretch, *_window(best.paper, margin), tuple(best.pages(marked)))


class _Grid(NamedTuple):
    """A grid of pages over all that is marked: their borders and joins, and which of them are needed."""

    paper: Paper
    xs: "_Steps"
    ys: "_Steps"
    needed: Flags  # [column, step from below]

    @property
    def used(self) -> int:
        """How many pages are needed."""
        return int(self.needed.sum())

    def near_a_join(self, centres: Sequence[XY]) -> int:
        """Return how many of these points lie near a join."""
        return sum(self.xs.joins_near(x) or self.ys.joins_near(y) for x, y in centres)

    def name(self, column: int, step: int) -> str | None:
        """Return the name of a page, or None if it is outside or left out."""
        columns, steps = self.needed.shape
        if not (0 <= column < columns and 0 <= step < steps and self.needed[column, step]):
            return None
        return f"{_letters(steps - step)}{column + 1}"

    def pages(self, marked: shapely.Geometry) -> Iterator[Page]:
        """Yield the pages that are needed, row by row from the top."""
        columns, steps = self.needed.shape
        shapely.prepare(marked)
        crosses: dict[str, list[Cross]] = {}
        found = []
        for step, column in product(reversed(range(steps)), range(columns)):
            name = self.name(column, step)
            if name is None:
                continue
            left, right = self.name(column - 1, step), self.name(column + 1, step)
            below, above = self.name(column, step - 1), self.name(column, step + 1)
            x0, x1 = self.xs.cell(column, before=left is not None, after=right is not None)
            y0, y1 = self.ys.cell(step, before=below is not None, after=above is not None)
            window = (*self.xs.window(column), *self.ys.window(step))
            page = Page(
                name, steps - 1 - step, column, (window[0], window[2], window[1], window[3]),
                (x0, y0, x1, y1), left, right, below, above, (),
            )  # fmt: skip
            found.append(page)
            for other, start, end in ((right, (x1, y0), (x1, y1)), (below, (x0, y0), (x1, y0))):
                if other is not None:
                    for cross in _crosses(f"{name}|{other}", start, end, marked):
                        crosses.setdefault(name, []).append(cross)
                        crosses.setdefault(other, []).append(cross)
        for page in found:
            yield page._replace(crosses=tuple(crosses.get(page.name, ())))


class _Steps(NamedTuple):
    """The pages along one axis: where the first begins, its length, from one to the next, mm on the wall."""

    start: float
    length: float
    pitch: float
    many: int

    @property
    def edges(self) -> list[float]:
        """The outer borders, and the joins between them."""
        half = (self.length - self.pitch) / 2
        joins = [self.start + i * self.pitch + half for i in range(1, self.many)]
        return [self.start, *joins, self.window(self.many - 1)[1]]

    def window(self, index: int) -> tuple[float, float]:
        """Return from where to where one page prints."""
        low = self.start + index * self.pitch
        return low, low + self.length

    def cell(self, index: int, *, before: bool, after: bool) -> tuple[float, float]:
        """Return from where to where one page is seen, with or without neighbours."""
        (low, high), edges = self.window(index), self.edges
        return edges[index] if before else low, edges[index + 1] if after else high

    def joins_near(self, at: float) -> bool:
        """Return whether a join is near."""
        return any(abs(join - at) < OFF_JOIN for join in self.edges[1:-1])


def _window(paper: Paper, margin: float) -> tuple[XY, XY]:
    """Return origin and size of what is printed at true size on a paper."""
    left, bottom, right, top = STRIPS
    width, height = paper.width - 2 * margin - left - right, paper.height - 2 * margin - bottom - top
    return (margin + left, margin + bottom), (width, height)


def _fits(paper: Paper, margin: float, overlap: float, stretch: XY) -> bool:
    """Return whether both bars and a window that is more than overlap fit on a paper."""
    _, (width, height) = _window(paper, margin)
    across, up = paper.width - 2 * margin, height + STRIPS.top
    bars = across >= BAR * stretch[0] + 2 * ENDS and up >= BAR * stretch[1] + 2 * ENDS
    return bars and min(width, height) >= 2 * overlap + 4 * CROSS


def _grids(
    marked: shapely.Geometry, paper: Paper, margin: float, overlap: float, stretch: XY
) -> Iterator[_Grid]:
    """Yield grids over all that is marked, with its slack in several places; none if nothing is."""
    if shapely.is_empty(marked):
        return
    x0, y0, x1, y1 = shapely.bounds(marked).tolist()
    _, (width, height) = _window(paper, margin)
    across = list(_steps(x0 - ROOM, x1 + ROOM, width / stretch[0], (width - overlap) / stretch[0]))
    upward = list(_steps(y0 - ROOM, y1 + ROOM, height / stretch[1], (height - overlap) / stretch[1]))
    if across[0].many * upward[0].many > _GRID:
        across, upward = across[:1], upward[:1]
    shapely.prepare(marked)
    for xs, ys in product(across, upward):
        left, right = np.array(xs.edges[:-1])[:, None], np.array(xs.edges[1:])[:, None]
        low, high = np.array(ys.edges[:-1])[None, :], np.array(ys.edges[1:])[None, :]
        yield _Grid(paper, xs, ys, shapely.intersects(marked, shapely.box(left, low, right, high)))


def _steps(low: float, high: float, length: float, pitch: float) -> Iterator[_Steps]:
    """Yield the ways to cover a stretch: its slack shared out equally, then otherwise."""
    count = max(math.ceil((high - low - length) / pitch - 1e-9), 0) + 1
    slack = (count - 1) * pitch + length - (high - low)
    for share in (0.5, 0.25, 0.75, 0.0, 1.0):
        yield _Steps(low - share * slack, length, pitch, count)


def _crosses(pair: str, start: XY, end: XY, marked: shapely.Geometry) -> Iterator[Cross]:
    """Yield the register crosses of one join, kept off what is marked where there is room."""
    count = max(round(math.dist(start, end) / _EVERY), 2)
    for index in range(count):
        shares = [(index + within / 10) / count for within in (5, 4, 6, 3, 7, 2, 8)]
        places = [(_between(start[0], end[0], share), _between(start[1], end[1], share)) for share in shares]
        room = shapely.distance(marked, shapely.points(places))
        free = np.flatnonzero(room > 2 * CROSS)
        best = int(free[0]) if len(free) else int(np.argmax(room))
        yield Cross(places[best], f"{pair} {index + 1}", start[0] == end[0])


def _between(start: float, end: float, share: float) -> float:
    return start + share * (end - start)


def _letters(row: int) -> str:
    """Name a row from 1: A to Z, then AA, AB and so on."""
    name = ""
    while row:
        row, rest = divmod(row - 1, 26)
        name = chr(ord("A") + rest) + name
    return name
