"""The cheapest way on a grid, against an independent solver on walls thrown at random."""

import math
import random
from itertools import pairwise

import numpy as np
import pytest
from numpy.typing import NDArray

from geometry.pipework.grid import BARRED, End, Grid, Obstacle, Way, Weights
from geometry.pipework.routes import corners

WALL = (1800, 2400)
USUAL = Weights(level=1.0, bend=150.0)


def thrown(seed: int) -> tuple[list[Obstacle], list[End], list[End], Weights]:
    """Return obstacles, starts and ends of a wall at random, on whole mm."""
    draw = random.Random(seed)
    things = []
    for number in range(draw.randint(0, 12)):
        x, y = draw.randint(-100, 1700), draw.randint(-100, 2300)
        bounds = (x, y, x + draw.randint(20, 700), y + draw.randint(20, 700))
        level, upright = draw.choice(
            [(BARRED, BARRED), (BARRED, BARRED), (1.0, 1.0), (0.0, BARRED), (BARRED, 0.0), (13.2, 0.0)]
        )
        things.append(Obstacle(f"thing {number}", bounds, level, upright))
    starts = [somewhere(draw) for _ in range(draw.randint(1, 3))]
    ends = [somewhere(draw)]
    weights = draw.choice([USUAL, Weights(0.0, 0.0), Weights(0.2, 2000.0)])
    return things, starts, ends, weights


def somewhere(draw: random.Random) -> End:
    ways: list[Way | None] = ["level", "upright", None]
    return End((float(draw.randint(0, WALL[0])), float(draw.randint(0, WALL[1]))), draw.choice(ways))


def lines(things: list[Obstacle], ends: list[End]) -> tuple[list[float], list[float]]:
    xs = {0.0, float(WALL[0]), *(end.at[0] for end in ends)}
    ys = {0.0, float(WALL[1]), *(end.at[1] for end in ends)}
    for thing in things:
        xs |= {x for x in thing.bounds[::2] if 0 < x < WALL[0]}
        ys |= {y for y in thing.bounds[1::2] if 0 < y < WALL[1]}
    return sorted(xs), sorted(ys)


def overlap(a: tuple[float, float], b: tuple[float, float]) -> float:
    return min(a[1], b[1]) - max(a[0], b[0])


Costs = NDArray[np.float64]


def by_exhaustion(
    xs: list[float],
    ys: list[float],
    things: list[Obstacle],
    starts: list[End],
    ends: list[End],
    weights: Weights,
    least: float,
) -> float | None:
    """Return the cost, or None, by trying every straight run from every crossing, bend after bend.

    `level[j, a, b]` is a run along line j from crossing a to b, `upright[i, a, b]` one up along line i.
    `arrived` is the least cost to have run to a crossing, `about` to have turned there, after so many bends.
    """
    level = np.array(
        [runs(xs, [thing for thing in things if thing.bounds[1] < y < thing.bounds[3]], 0) for y in ys]
    )
    level += weights.level * abs(np.subtract.outer(xs, xs))
    upright = np.array(
        [runs(ys, [thing for thing in things if thing.bounds[0] < x < thing.bounds[2]], 1) for x in xs]
    )
    long_x = abs(np.subtract.outer(xs, xs)) >= least - 1e-6
    long_y = abs(np.subtract.outer(ys, ys)) >= least - 1e-6
    found = math.inf
    about = {"level": np.full((len(ys), len(xs)), math.inf), "upright": np.full((len(ys), len(xs)), math.inf)}
    arrived = {way: table.copy() for way, table in about.items()}
    for start in starts:
        i, j = xs.index(start.at[0]), ys.index(start.at[1])
        far_x, far_y = abs(np.array(xs) - xs[i]), abs(np.array(ys) - ys[j])
        if start.way in ("level", None):
            row = np.where(far_x >= start.least - 1e-6, level[j, i], math.inf)
            arrived["level"][j] = np.minimum(arrived["level"][j], row)
            found = min([found, *(
                level[j, i, xs.index(end.at[0])]
                for end in ends
                if end.at[1] == start.at[1] and end.way in ("level", None)
                and far_x[xs.index(end.at[0])] >= max(start.least, end.least) - 1e-6
            )])  # fmt: skip
        if start.way in ("upright", None):
            column = np.where(far_y >= start.least - 1e-6, upright[i, j], math.inf)
            arrived["upright"][:, i] = np.minimum(arrived["upright"][:, i], column)
            found = min([found, *(
                upright[i, j, ys.index(end.at[1])]
                for end in ends
                if end.at[0] == start.at[0] and end.way in ("upright", None)
                and far_y[ys.index(end.at[1])] >= max(start.least, end.least) - 1e-6
            )])  # fmt: skip
    known = {way: table.copy() for way, table in arrived.items()}
    while True:
        about = {"level": arrived["upright"] + weights.bend, "upright": arrived["level"] + weights.bend}
        for end in ends:
            i, j = xs.index(end.at[0]), ys.index(end.at[1])
            far_x, far_y = abs(np.array(xs) - xs[i]), abs(np.array(ys) - ys[j])
            if end.way in ("level", None):
                last = about["level"][j] + np.where(far_x >= end.least - 1e-6, level[j, :, i], math.inf)
                found = min(found, last.min())
            if end.way in ("upright", None):
                last = about["upright"][:, i] + np.where(
                    far_y >= end.least - 1e-6, upright[i, :, j], math.inf
                )
                found = min(found, last.min())
        arrived = {
            "level": (about["level"][:, :, None] + np.where(long_x, level, math.inf)).min(axis=1),
            "upright": (about["upright"].T[:, :, None] + np.where(long_y, upright, math.inf)).min(axis=1).T,
        }
        better = {way: arrived[way] < known[way] - 1e-9 for way in arrived}
        if not any(table.any() for table in better.values()):
            return None if found == math.inf else float(found)
        arrived = {way: np.where(better[way], arrived[way], math.inf) for way in arrived}
        known = {way: np.minimum(known[way], arrived[way]) for way in known}


def runs(marks: list[float], things: list[Obstacle], axis: int) -> Costs:
    """Return what it costs to run from each mark to each other, without the price of the level."""
    pieces = []
    for a, b in pairwise(marks):
        price = b - a
        for _, bounds, level, upright in things:
            dearer = (level, upright)[axis]
            inside = overlap((a, b), (bounds[axis], bounds[axis + 2]))
            if inside > 0 and dearer:
                price += dearer * inside
        pieces.append(price)
    total = np.concatenate(([0.0], np.cumsum([price if price < BARRED else 0.0 for price in pieces])))
    barred = np.concatenate(([0], np.cumsum([price == BARRED for price in pieces])))
    cost = abs(np.subtract.outer(total, total))
    cost[np.subtract.outer(barred, barred) != 0] = math.inf
    return np.asarray(cost, dtype=np.float64)


@pytest.mark.parametrize("block", range(10))
def test_costs_as_much_as_an_independent_solver_finds(block: int) -> None:
    ways = 0
    for seed in range(block * 30, block * 30 + 30):
        draw = random.Random(1000 + seed)
        least = draw.choice([0.0, 23.0, 57.0, 150.0])
        things, starts, ends, weights = thrown(seed)
        starts = [start._replace(least=draw.choice([0.0, 34.0])) for start in starts]
        ends = [end._replace(least=draw.choice([0.0, 34.0])) for end in ends]
        xs, ys = lines(things, [*starts, *ends])
        found = Grid(xs, ys, things, weights).find(starts, ends, least)
        wanted = by_exhaustion(xs, ys, things, starts, ends, weights, least)
        assert (found is None) == (wanted is None), seed
        if found is not None and wanted is not None:
            ways += 1
            assert found.cost == pytest.approx(wanted, abs=1e-6), seed
            legs = [math.dist(*leg) for leg in pairwise(corners(found.points))]
            assert all(leg >= least - 1e-6 for leg in legs[1:-1]), seed
    assert 8 <= ways <= 30  # neither all nor none is blocked


@pytest.mark.parametrize("seed", range(0, 300, 20))
def test_more_lines_find_no_cheaper_way(seed: int) -> None:
    things, starts, ends, weights = thrown(seed)
    xs, ys = lines(things, [*starts, *ends])
    found = Grid(xs, ys, things, weights).find(starts, ends)
    more = Grid({*xs, *range(0, 1800, 97)}, {*ys, *range(0, 2400, 89)}, things, weights).find(starts, ends)
    assert (found is None) == (more is None)
    if found is not None and more is not None:
        assert more.cost == pytest.approx(found.cost, abs=1e-6)


# by hand


def test_round_an_obstacle_by_its_edge() -> None:
    # from (0, 0) to (0, 1000) past a box 100 wide each side, 100 out and back: 1000 + 2 x 100 x 2;
    # leaving and arriving upright, four bends of 150
    box = Obstacle("box", (-100, 300, 100, 600))
    grid = Grid([-100, 0, 100], [0, 300, 600, 1000], [box], USUAL)
    found = grid.find([End((0, 0), "upright")], [End((0, 1000), "upright")])
    assert found is not None
    assert found.cost == 1000 + 400 + 4 * 150
    # if the ends may turn as they are, two bends do
    either = grid.find([End((0, 0), None)], [End((0, 1000), None)])
    assert either is not None
    assert either.cost == 1000 + 400 + 2 * 150


def test_through_what_costs_more_where_the_way_round_is_longer() -> None:
    # 300 mm inside at 1 more a mm: 300, against 400 + 600 round it
    zone = Obstacle("zone", (-100, 300, 100, 600), 1.0, 1.0)
    found = Grid([-100, 0, 100], [0, 300, 600, 1000], [zone], USUAL).find(
        [End((0, 0), "upright")], [End((0, 1000), "upright")]
    )
    assert found is not None
    assert found.cost == 1300


def test_walled_in_there_is_no_way() -> None:
    box = Obstacle("box", (-100, 300, 100, 600))
    grid = Grid([-50, 0, 50], [0, 300, 600, 1000], [box], USUAL)
    assert grid.find([End((0, 0), None)], [End((0, 1000), None)]) is None
