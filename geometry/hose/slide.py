"""What a measure does while the slider moves: where it is least, and where it falls short of a limit.

A measure takes slider heights in mm and returns a value for each. Nothing here knows what is measured.
"""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from geometry.arrays import Flags, Floats
from geometry.units import at_least

Measure = Callable[[Floats], Floats]
Stretch = tuple[float, float]

CUTS = 16  # pieces into which a stretch is cut in each round, own choice
ROUNDS = 2  # a valley floor from two steps of 10 mm down to 0.2 mm, a limit from one step down to 0.04 mm
LEVEL = 1e-6  # mm; less of a fall than this is no valley but noise


class Along(NamedTuple):
    """A measure along the slide: its least value, the slider there, and the stretches below the limit."""

    least: float
    at: float
    failing: tuple[Stretch, ...]


def along(measure: Measure, sliders: Floats, values: Floats, limit: float) -> Along:
    """Follow a measure along the slide.

    Args:
        measure: what is followed; it must change little from one slider height to the next.
        sliders: rising heights to begin with, at least one; the first and last are the ends of the slide,
            where they should lie close together.
        values: the measure at these heights.
        limit: a value that reaches it passes.

    Returns:
        The least value, also between the heights given, and the stretches in which the measure falls
        short of the limit; their ends are good to 0.1 mm where the heights are 10 mm apart.
    """
    floors, lows = _valley_floors(measure, sliders, values)
    sliders, order = np.unique(np.concatenate((sliders, floors)), return_index=True)
    values = np.concatenate((values, lows))[order]
    worst = int(np.argmin(values))
    return Along(float(values[worst]), float(sliders[worst]), _failing(measure, sliders, values, limit))


def _valley_floors(measure: Measure, sliders: Floats, values: Floats) -> tuple[Floats, Floats]:
    """Return heights and values of the least between the neighbours of each sample in a valley."""
    before, after = values[:-2] - values[1:-1], values[2:] - values[1:-1]
    lowest = 1 + np.flatnonzero((before >= 0) & (after >= 0) & (np.maximum(before, after) > LEVEL))
    floors, lows = sliders[lowest], values[lowest]
    low, high, rows = sliders[lowest - 1], sliders[lowest + 1], np.arange(len(lowest))
    for _ in range(ROUNDS if len(lowest) else 0):
        grid, found = _cut(measure, low, high)
        least = np.argmin(found, axis=1)
        floors, lows = grid[rows, least], found[rows, least]
        low, high = grid[rows, np.maximum(least - 1, 0)], grid[rows, np.minimum(least + 1, CUTS)]
    return floors, lows


def _failing(measure: Measure, sliders: Floats, values: Floats, limit: float) -> tuple[Stretch, ...]:
    passes = _passes(values, limit)
    last = np.flatnonzero(passes[1:] != passes[:-1])  # the last before the measure crosses its limit
    low, high = sliders[last], sliders[last + 1]
    for _ in range(ROUNDS if len(last) else 0):
        grid, found = _cut(measure, low, high)
        held = _passes(found, limit)
        first = np.maximum(np.argmax(held != held[:, :1], axis=1), 1)
        rows = np.arange(len(grid))
        low, high = grid[rows, first - 1], grid[rows, first]
    crossings = ((low + high) / 2).tolist()
    if not passes[0]:
        crossings.insert(0, float(sliders[0]))
    if not passes[-1]:
        crossings.append(float(sliders[-1]))
    return tuple(zip(crossings[::2], crossings[1::2], strict=True))


def _cut(measure: Measure, low: Floats, high: Floats) -> tuple[Floats, Floats]:
    """Return the heights that cut each stretch into equal pieces, one row a stretch, and their values."""
    grid = np.linspace(low, high, CUTS + 1, axis=-1)
    return grid, measure(grid.ravel()).reshape(grid.shape)


def _passes(values: Floats, limit: float) -> Flags:
    held = [at_least(value, limit) for value in values.ravel().tolist()]
    return np.array(held, dtype=np.bool_).reshape(values.shape)
