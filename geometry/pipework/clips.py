"""How many clips hold a pipe: spacing by tube, level and upright. In mm."""

import math
from itertools import pairwise
from typing import NamedTuple

from geometry.chase.cuts import way_of
from geometry.parts.records import TubePart
from geometry.pipework.routes import corners
from geometry.plan import Plan


class Spacing(NamedTuple):
    """The most from clip to clip."""

    level: float
    upright: float


SPACINGS: dict[tuple[str, float], Spacing] = {
    # BS EN 806-4 and BS 8558 tables, from memory: verify; a handbook has 100 more each way
    ("copper", 10.0): Spacing(1200.0, 1800.0),
    ("copper", 15.0): Spacing(1200.0, 1800.0),
    ("copper", 22.0): Spacing(1800.0, 2400.0),
    ("copper", 28.0): Spacing(1800.0, 2400.0),
    # polybutylene: a plumbing textbook's table
    ("barrier", 10.0): Spacing(300.0, 500.0),
    ("barrier", 15.0): Spacing(300.0, 500.0),
    ("barrier", 22.0): Spacing(500.0, 800.0),
    ("barrier", 28.0): Spacing(800.0, 1000.0),
    # from memory: verify
    ("multilayer", 16.0): Spacing(1000.0, 1300.0),
    ("multilayer", 20.0): Spacing(1000.0, 1300.0),
}
SHORT = 150.0
"""A leg shorter than this is held by its neighbours and fittings, mm (common practice, no source)."""


def spacing(tube: TubePart) -> Spacing:
    """Return the spacing for a tube; for a size that is not listed, that of the next smaller, else 300 mm."""
    listed = [
        (outside, held)
        for (material, outside), held in SPACINGS.items()
        if material == tube.material and outside <= tube.outside
    ]
    return max(listed)[1] if listed else Spacing(300.0, 300.0)


def clips(plan: Plan, pipe: str) -> int:
    """Return how many clips a pipe takes: as many on each leg as keep to the spacing, evenly spread."""
    held, count = spacing(plan.tubes[pipe]), 0
    for leg in pairwise(corners(plan.courses[pipe].points)):
        length = math.dist(*leg)
        if length >= SHORT:
            count += math.ceil(length / (held.upright if way_of(leg) == "upright" else held.level))
    return count
