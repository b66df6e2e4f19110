"""The cheapest right-angled way between points on a grid of lines, among obstacles. All in mm.

Lines run along the edges of obstacles and through the ends: a cheapest right-angled way is found on them.
The inside of an obstacle costs more to each mm, or is barred; its edge is free. A way costs its length, more
for each mm of it that is level, and a fixed price a bend.
"""

import heapq
import math
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from geometry.model import XY
from geometry.shape.outline import Bounds

Way = Literal["level", "upright"]
BARRED = math.inf


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


class Found(NamedTuple):
    """A way: its points, those on a straight included, and its cost."""

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

    def find(self, starts: Sequence[End], ends: Sequence[End]) -> Found | None:
        """Return the cheapest way from a start to an end, or None; all of them lie on crossings."""
        goals = {state for end in ends for state in self._states(end)}
        best: dict[tuple[int, int, int], float] = {}
        before: dict[tuple[int, int, int], tuple[int, int, int]] = {}
        queue: list[tuple[float, tuple[int, int, int]]] = []
        for start in starts:
            for state in self._states(start):
                best[state] = 0.0
                queue.append((0.0, state))
        heapq.heapify(queue)
        level, upright, bend = self.level.tolist(), self.upright.tolist(), self.weights.bend
        across, up = len(self.xs), len(self.ys)
        while queue:
            cost, state = heapq.heappop(queue)
            if cost > best[state]:
                continue
            if state in goals:
                return Found(self._path(state, before), cost)
            i, j, way = state
            steps = [((i, j, 1 - way), bend)]
            if way == 0:
                if i:
                    steps.append(((i - 1, j, 0), level[j][i - 1]))
                if i + 1 < across:
                    steps.append(((i + 1, j, 0), level[j][i]))
            else:
                if j:
                    steps.append(((i, j - 1, 1), upright[j - 1][i]))
                if j + 1 < up:
                    steps.append(((i, j + 1, 1), upright[j][i]))
            for following, price in steps:
                total = cost + price
                if total < best.get(following, math.inf):
                    best[following], before[following] = total, state
                    heapq.heappush(queue, (total, following))
        return None

    def _states(self, end: End) -> list[tuple[int, int, int]]:
        i, j = bisect_left(self.xs, end.at[0]), bisect_left(self.ys, end.at[1])
        ways = {"level": (0,), "upright": (1,), None: (0, 1)}[end.way]
        return [(i, j, way) for way in ways]

    def _path(
        self, state: tuple[int, int, int], before: dict[tuple[int, int, int], tuple[int, int, int]]
    ) -> tuple[XY, ...]:
        points = [(self.xs[state[0]], self.ys[state[1]])]
        while state in before:
            state = before[state]
            point = (self.xs[state[0]], self.ys[state[1]])
            if point != points[-1]:
                points.append(point)
        return tuple(reversed(points))


def _charge(
    costs: NDArray[np.float64],
    lines: NDArray[np.float64],
    marks: NDArray[np.float64],
    across: tuple[float, float],
    along: tuple[float, float],
    price: float,
    lengths: NDArray[np.float64],
) -> None:
    """Add to the pieces of lines that lie inside an obstacle. Its edges lie on marks, or beyond them all."""
    if price:
        inside = np.flatnonzero((lines > across[0]) & (lines < across[1]))
        middles = (marks[:-1] + marks[1:]) / 2
        pieces = np.flatnonzero((middles > along[0]) & (middles < along[1]))
        if len(inside) and len(pieces):
            costs[np.ix_(inside, pieces)] += price * lengths[:, pieces]
