"""The cheapest right-angled way between points on a grid of lines, among obstacles. All in mm.

Lines run along the edges of obstacles and through the ends: a cheapest right-angled way is found on them.
The inside of an obstacle costs more to each mm, or is barred; its edge is free. A way costs its length, more
for each mm of it that is level, and a fixed price a bend; from bend to bend it runs straight for as long as
is asked for.
"""

import heapq
import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from itertools import accumulate
from typing import Literal, NamedTuple

import numpy as np

from geometry.arrays import Floats
from geometry.model import XY
from geometry.shape.outline import Bounds

Way = Literal["level", "upright"]
BARRED = math.inf
_EXACTLY = 1e-6
"""mm; two lengths closer than this are the same."""


class Obstacle(NamedTuple):
    """A rectangle with room round it: what a mm costs more in it, level and upright, or `BARRED`."""

    name: str
    bounds: Bounds
    level: float = BARRED
    upright: float = BARRED


class Weights(NamedTuple):
    """What a way costs beside its length: each mm on the level, each bend."""

    level: float
    bend: float


class End(NamedTuple):
    """Where a way may begin or end, and the way in which the pipe runs there; None for either."""

    at: XY
    way: Way | None
    least: float = 0.0
    """mm from there to the nearest bend at least."""


class Found(NamedTuple):
    """A way: its points, some on a straight included, and its cost."""

    points: tuple[XY, ...]
    cost: float


class Grid:
    """Lines of a grid and what each piece between two crossings costs, by way."""

    def __init__(
        self, xs: Iterable[float], ys: Iterable[float], obstacles: Iterable[Obstacle], weights: Weights
    ) -> None:
        self.xs, self.ys, self.weights = sorted(set(xs)), sorted(set(ys)), weights
        x, y = np.array(self.xs, dtype=float), np.array(self.ys, dtype=float)
        self.level = np.tile(np.diff(x) * (1 + weights.level), (len(y), 1))
        self.upright = np.tile(np.diff(y)[:, None], (1, len(x)))
        for obstacle in obstacles:
            x0, y0, x1, y1 = obstacle.bounds
            _charge(self.level, y, x, (y0, y1), (x0, x1), obstacle.level, np.diff(x)[None, :])
            _charge(self.upright.T, x, y, (x0, x1), (y0, y1), obstacle.upright, np.diff(y)[None, :])

    def find(self, starts: Sequence[End], ends: Sequence[End], least: float = 0.0) -> Found | None:
        """Return the cheapest way from a start to an end, or None; all of them lie on crossings.

        Args:
            starts: where it may begin.
            ends: where it may end.
            least: mm from one bend to the next at least.
        """
        search = _Search(self, ends, least)
        for start in starts:
            search.begin(start)
        return search.found()


_Place = tuple[int, int, int]
"""The numbers of a line across and one up, and the direction in which the pipe runs there, straight so far
that it may turn: 0 right, 1 left, 2 up, 3 down; `_BEGUN` at a start, `_ENDED` at an end."""
_BEGUN, _ENDED = 4, 5
_TURNS = ((2, 3), (2, 3), (0, 1), (0, 1))


class _Search:
    """Dijkstra's search over places from which a pipe may go on or turn."""

    def __init__(self, grid: Grid, ends: Sequence[End], least: float) -> None:
        self._xs, self._ys, self._bend = grid.xs, grid.ys, grid.weights.bend
        self._level = [_Line(row) for row in grid.level.tolist()]
        self._upright = [_Line(column) for column in grid.upright.T.tolist()]
        self._jumps = (*_jumps(grid.xs, least), *_jumps(grid.ys, least))
        self._ends = [(*self._crossing(end), end) for end in ends]
        self._best: dict[_Place, float] = {}
        self._before: dict[_Place, _Place] = {}
        self._queue: list[tuple[float, _Place]] = []

    def begin(self, start: End) -> None:
        """Take a place to start from."""
        i, j = self._crossing(start)
        for way, directions in (("level", (0, 1)), ("upright", (2, 3))):
            if start.way in (way, None):
                jumps = _jumps(self._xs if way == "level" else self._ys, start.least)
                for direction, jump in zip(directions, jumps, strict=True):
                    self._go((i, j, direction), jump, 0.0, None)
                self._end((i, j, directions[0]), 0.0, start.least, None)

    def found(self) -> Found | None:
        """Return the cheapest way."""
        while self._queue:
            cost, place = heapq.heappop(self._queue)
            if cost > self._best[place]:
                continue
            i, j, direction = place
            if direction == _ENDED:
                return Found(self._path(place), cost)
            self._step(place, cost)
            for turned in _TURNS[direction]:
                self._go((i, j, turned), self._jumps[turned], cost + self._bend, place)
            self._end((i, j, _TURNS[direction][0]), cost + self._bend, 0.0, place)
        return None

    def _crossing(self, end: End) -> tuple[int, int]:
        return bisect_left(self._xs, end.at[0]), bisect_left(self._ys, end.at[1])

    def _step(self, place: _Place, cost: float) -> None:
        """Go on to the next crossing."""
        i, j, direction = place
        by = -1 if direction in (1, 3) else 1
        to = (i + by, j, direction) if direction < 2 else (i, j + by, direction)
        if 0 <= to[0] < len(self._xs) and 0 <= to[1] < len(self._ys):
            self._reach(to, cost + self._run(place, to), place)

    def _go(self, place: _Place, jump: list[int | None], cost: float, before: _Place | None) -> None:
        """Run as far as must be before the next bend."""
        i, j, direction = place
        at = jump[i if direction < 2 else j]
        if at is not None:
            to = (at, j, direction) if direction < 2 else (i, at, direction)
            self._reach(to, cost + self._run(place, to), before or (i, j, _BEGUN))

    def _end(self, place: _Place, cost: float, least: float, before: _Place | None) -> None:
        """Run straight into the ends that lie on the line through a place."""
        i, j, direction = place
        for end_i, end_j, end in self._ends:
            level = direction < 2
            if (j == end_j if level else i == end_i) and end.way in ("level" if level else "upright", None):
                away = abs(self._xs[end_i] - self._xs[i]) + abs(self._ys[end_j] - self._ys[j])
                if away >= max(least, end.least) - _EXACTLY:
                    to = (end_i, end_j, _ENDED)
                    self._reach(to, cost + self._run(place, to), before or (i, j, _BEGUN))

    def _run(self, a: _Place, b: _Place) -> float:
        return self._level[a[1]].run(a[0], b[0]) if a[2] < 2 else self._upright[a[0]].run(a[1], b[1])

    def _reach(self, place: _Place, cost: float, before: _Place) -> None:
        if cost < self._best.get(place, math.inf):
            self._best[place] = cost
            self._before[place] = before
            heapq.heappush(self._queue, (cost, place))

    def _path(self, place: _Place) -> tuple[XY, ...]:
        """Return the points on the way to a place: where it turns, and some between."""
        points = [(self._xs[place[0]], self._ys[place[1]])]
        while place in self._before:
            place = self._before[place]
            point = (self._xs[place[0]], self._ys[place[1]])
            if point != points[-1]:
                points.append(point)
        return tuple(reversed(points))


class _Line:
    """What it costs to run along one line, from crossing to crossing."""

    def __init__(self, prices: list[float]) -> None:
        free = [price if price < BARRED else 0.0 for price in prices]
        self._total = [0.0, *accumulate(free)]
        self._barred = [0, *accumulate(price == BARRED for price in prices)]

    def run(self, a: int, b: int) -> float:
        """Return the cost between two crossings, BARRED if something bars it."""
        return BARRED if self._barred[a] != self._barred[b] else abs(self._total[b] - self._total[a])


def _jumps(lines: Sequence[float], least: float) -> tuple[list[int | None], list[int | None]]:
    """Return for each line the next that is so far off, upwards and downwards, or None."""
    up: list[int | None] = [bisect_left(lines, at + least - _EXACTLY) for at in lines]
    down: list[int | None] = [bisect_right(lines, at - least + _EXACTLY) - 1 for at in lines]
    return [at if at != len(lines) else None for at in up], [at if at != -1 else None for at in down]


def _charge(
    costs: Floats,
    lines: Floats,
    marks: Floats,
    across: tuple[float, float],
    along: tuple[float, float],
    price: float,
    lengths: Floats,
) -> None:
    """Add to the pieces of lines that lie inside an obstacle. Its edges lie on marks, or beyond them all."""
    if price:
        inside = np.flatnonzero((lines > across[0]) & (lines < across[1]))
        middles = (marks[:-1] + marks[1:]) / 2
        pieces = np.flatnonzero((middles > along[0]) & (middles < along[1]))
        if len(inside) and len(pieces):
            costs[np.ix_(inside, pieces)] += price * lengths[:, pieces]
