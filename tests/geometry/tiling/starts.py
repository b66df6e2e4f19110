"""Random walls, and the search for the best start done the slow way: start by start, tile by tile."""

import math
import random
from collections.abc import Iterator

from geometry.tiling.setting import ACROSS, CENTRED, SYMMETRIC, Edge, Setting, Target

NEAR = 1e-6


def random_setting(seed: int) -> Setting:
    """Return small tiles on a small wall with up to three holes."""
    dice = random.Random(seed)
    along, up, joint = dice.randint(14, 40), dice.randint(14, 40), dice.randint(0, 4)
    right, top = dice.randint(120, 260), dice.randint(120, 260)
    edges_along = [Edge(5.0, True), Edge(float(right), False)]
    if dice.random() < 0.5:
        gap = dice.randint(40, 70)
        edges_along += [Edge(float(gap), False), Edge(gap + 25.0, True)]
    targets = tuple(
        Target(
            f"hole {index}",
            dice.randint(10, 240) / 2,
            dice.randint(10, 240) / 2,
            dice.choice((1.5, 3.0, 5.0)),
            dice.random() < 0.7,
            dice.random() < 0.7,
        )
        for index in range(dice.randint(0, 3))
    )
    share = dice.choice((1, 1, 2, 3))
    side = dice.choice((1, -1))
    shifts = tuple(side * row * (along + joint) / share for row in range(share))
    return Setting(
        float(along), float(up), float(joint), shifts, tuple(edges_along),
        (Edge(5.0, True), Edge(float(top), False)), targets, dice.choice((None, right / 2)), True,
        float(dice.randint(0, 3)), 1.0,
    )  # fmt: skip


def slowly(setting: Setting, along: float, up: float) -> float:
    """Return the points of one start, looking at one tile after the other."""
    total = 0.0
    if setting.centre is not None and _on_middle(setting.centre, _row(setting, along), setting.joint):
        total += SYMMETRIC
    for target in setting.targets:
        column = [(low, low + setting.up) for low in _lows(up, setting.up + setting.joint)]
        points = _axis(setting, target.up, target.radius, target.centred_up, column)
        if points is None:
            return -math.inf
        total += points
        reached = set()
        for number, low in enumerate(_lows(up, setting.up + setting.joint), -_BEFORE):
            if low < target.up + target.radius - NEAR and low + setting.up > target.up - target.radius + NEAR:
                reached.add(number % len(setting.shifts))
        for row in reached:
            tiles = _row(setting, along + setting.shifts[row])
            points = _axis(setting, target.along, target.radius, target.centred_along, tiles)
            if points is None:
                return -math.inf
            total += points
    rows = [tile for moved in setting.shifts for tile in _row(setting, along + moved)]
    columns = [(low, low + setting.up) for low in _lows(up, setting.up + setting.joint)]
    return total + min(
        _narrowest(setting.edges_along, rows, setting.along),
        _narrowest(setting.edges_up, columns, setting.up),
    )


_BEFORE = 12


def _lows(start: float, pitch: float) -> Iterator[float]:
    for number in range(-_BEFORE, 24):
        yield start + number * pitch


def _row(setting: Setting, start: float) -> list[tuple[float, float]]:
    return [(low, low + setting.along) for low in _lows(start, setting.along + setting.joint)]


def _on_middle(at: float, tiles: list[tuple[float, float]], joint: float) -> bool:
    middles = [(low + high) / 2 for low, high in tiles] + [high + joint / 2 for _, high in tiles]
    return min(abs(at - middle) for middle in middles) < 0.55


def _axis(
    setting: Setting, at: float, r: float, wanted: bool, tiles: list[tuple[float, float]]
) -> float | None:
    """Return the points of a hole on one axis; None: it is too near to an edge that it does not cut."""
    (low, high) = next((low, high) for low, high in tiles if low <= at + NEAR / 10 < high + setting.joint)
    gaps = [at - r - low, high - at - r]
    if any(NEAR < gap < setting.clear - NEAR for gap in gaps):
        return None
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
