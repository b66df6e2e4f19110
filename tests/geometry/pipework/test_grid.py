"""The cheapest way on a grid, against an independent solver on walls thrown at random."""

import random
from itertools import pairwise
from typing import Any

import networkx as nx
import pytest

from geometry.pipework.grid import BARRED, End, Grid, Obstacle, Way, Weights

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


def by_networkx(
    xs: list[float],
    ys: list[float],
    things: list[Obstacle],
    starts: list[End],
    ends: list[End],
    weights: Weights,
) -> float | None:
    """Return the cost by Bellman and Ford on a graph that is built piece by piece, or None."""
    graph: nx.Graph[Any] = nx.Graph()
    for x in xs:
        for y in ys:
            graph.add_edge((x, y, "level"), (x, y, "upright"), weight=weights.bend)
    for y in ys:
        for a, b in pairwise(xs):
            price = (b - a) * (1 + weights.level)
            for _, (x0, y0, x1, y1), level, _ in things:
                if y0 < y < y1 and overlap((a, b), (x0, x1)) > 0 and level:
                    price += level * overlap((a, b), (x0, x1))
            if price < BARRED:
                graph.add_edge((a, y, "level"), (b, y, "level"), weight=price)
    for x in xs:
        for a, b in pairwise(ys):
            price = b - a
            for _, (x0, y0, x1, y1), _, upright in things:
                if x0 < x < x1 and overlap((a, b), (y0, y1)) > 0 and upright:
                    price += upright * overlap((a, b), (y0, y1))
            if price < BARRED:
                graph.add_edge((x, a, "upright"), (x, b, "upright"), weight=price)
    for name, places in (("from", starts), ("to", ends)):
        for end in places:
            for way in ("level", "upright"):
                if end.way in (way, None):
                    graph.add_edge(name, (*end.at, way), weight=0.0)
    try:
        return float(nx.bellman_ford_path_length(graph, "from", "to"))
    except nx.NetworkXNoPath:
        return None


@pytest.mark.parametrize("block", range(10))
def test_costs_as_much_as_an_independent_solver_finds(block: int) -> None:
    ways = 0
    for seed in range(block * 30, block * 30 + 30):
        things, starts, ends, weights = thrown(seed)
        xs, ys = lines(things, [*starts, *ends])
        found = Grid(xs, ys, things, weights).find(starts, ends)
        wanted = by_networkx(xs, ys, things, starts, ends, weights)
        assert (found is None) == (wanted is None), seed
        if found is not None and wanted is not None:
            ways += 1
            assert found.cost == pytest.approx(wanted, abs=1e-6), seed
    assert 10 <= ways <= 30  # neither all nor none is blocked


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
