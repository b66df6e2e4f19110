"""Random walls, and the search for the best start done the slow way: start by start, tile by tile."""

import math
import random
from collections.abc import Callable, Iterator

from geometry.model import Fitting, HoseOutlet, Opening, Rail, Tiling, Valve
from geometry.plan import Plan
from geometry.tiling.score import ACROSS, CENTRED, SYMMETRIC
from geometry.tiling.setting import Edge, Setting, Target
from tests.geometry.tiling.walls import tiled_plan

NEAR = 1e-6


def random_wall(seed: int) -> Plan:
    """Return a tiled wall, in any bond with rows or columns, with up to three fittings and an opening."""
    dice = random.Random(seed)
    width, height = float(dice.randint(450, 900)), float(dice.randint(1000, 1300))
    tiling = Tiling(
        wide=dice.randint(60, 140),
        high=dice.randint(60, 140),
        joint=dice.choice((0, 1.5, 2, 3)),
        border=dice.choice((0, 5)),
        bond=dice.choice(("straight", "half", "third", "vertical")),
        direction=dice.choice(("left", "right")),
    )
    makers: tuple[Callable[[float, float], Fitting], ...] = (
        lambda x, _: Rail(id="rail", part="rail-700", x=x, height=200.0),
        lambda x, y: Valve(id="valve", part="valve-two-round", x=x, height=y),
        lambda x, y: HoseOutlet(id="outlet", part="outlet-round", x=x, height=y),
    )
    fittings = [
        make(dice.randint(300, 2 * round(width) - 300) / 2, dice.randint(500, 1700) / 2)
        for make in dice.sample(makers, dice.randint(0, 3))
    ]
    openings = [Opening(id="hatch", x=dice.randint(20, 200), y=dice.randint(20, 700), width=150, height=180)]
    return tiled_plan(tiling, *fittings, width=width, height=height, openings=openings[: dice.randint(0, 1)])


def slowly(setting: Setting, along: float, up: float) -> float:
    """Return the points of one start, looking at one tile after the other."""
    total = 0.0
    across = _row(setting, along)
    if not setting.rows_up:
        across = [(low, low + setting.up) for low in _lows(up, setting.up + setting.joint)]
    if setting.centre is not None and _on_middle(setting.centre, across, setting.joint):
        total += SYMMETRIC
    for target in setting.targets:
        column = [(low, low + setting.up) for low in _lows(up, setting.up + setting.joint)]
        total += _axis(setting, target.up, target.radius, target.centred_up, column)
        reached = set()
        for number, (low, high) in enumerate(column, -_BEFORE):
            if low < target.up + target.radius - NEAR and high > target.up - target.radius + NEAR:
                share = number % len(setting.shifts)
                reached.add(share)
                tiles = _row(setting, along + setting.shifts[share])
                if any(_close(setting, target, left, low, right, high) for left, right in tiles):
                    return -math.inf
        for row in reached:
            tiles = _row(setting, along + setting.shifts[row])
            total += _axis(setting, target.along, target.radius, target.centred_along, tiles)
    rows = [tile for moved in setting.shifts for tile in _row(setting, along + moved)]
    columns = [(low, low + setting.up) for low in _lows(up, setting.up + setting.joint)]
    return total + min(
        _narrowest(setting.edges_along, rows, setting.along),
        _narrowest(setting.edges_up, columns, setting.up),
    )


_BEFORE = 3
"""Rows and tiles before the first; a start lies within one of them."""


def _lows(start: float, pitch: float) -> Iterator[float]:
    for number in range(-_BEFORE, 24):
        yield start + number * pitch


def _row(setting: Setting, start: float) -> list[tuple[float, float]]:
    return [(low, low + setting.along) for low in _lows(start, setting.along + setting.joint)]


def _on_middle(at: float, tiles: list[tuple[float, float]], joint: float) -> bool:
    middles = [(low + high) / 2 for low, high in tiles] + [high + joint / 2 for _, high in tiles]
    return min(abs(at - middle) for middle in middles) < 0.55


def _close(setting: Setting, hole: Target, left: float, low: float, right: float, high: float) -> bool:
    """Return whether a hole that reaches a tile is too near to an edge of it that it does not cut."""

    def off(x0: float, y0: float, x1: float, y1: float) -> float:
        """Return how far the hole's centre is from a rectangle, or from an edge as one without width."""
        return math.hypot(max(x0 - hole.along, 0, hole.along - x1), max(y0 - hole.up, 0, hole.up - y1))

    if off(left, low, right, high) >= hole.radius - NEAR:
        return False
    edges = (
        (left, low, left, high),
        (right, low, right, high),
        (left, low, right, low),
        (left, high, right, high),
    )
    return any(NEAR < off(*edge) - hole.radius < setting.clear - NEAR for edge in edges)


def _axis(setting: Setting, at: float, r: float, wanted: bool, tiles: list[tuple[float, float]]) -> float:
    """Return the points of a hole on one axis."""
    (low, high) = next((low, high) for low, high in tiles if low <= at + NEAR / 10 < high + setting.joint)
    gaps = [at - r - low, high - at - r]
    joint = min(abs(at - (end + setting.joint / 2)) for _, end in tiles)
    points = CENTRED if wanted and _on_middle(at, tiles, setting.joint) else 0.0
    if min(gaps) <= NEAR and joint > setting.joint_off + NEAR:
        points += ACROSS
    return points


def _narrowest(edges: tuple[Edge, ...], tiles: list[tuple[float, float]], size: float) -> float:
    left = [size]
    for edge in edges:
        for low, high in tiles:
            if low + 0.05 < edge.at < high - 0.05:
                left.append(high - edge.at if edge.after else edge.at - low)
    return min(left)
