"""Where a handset might hang into used water: what holds water in the room, and how low it hangs over that.

Plan positions (x, z) and heights in mm, as in the model. The hose is pulled straight, past all in its way.
"""

import math
from typing import Literal, NamedTuple

from geometry.hose.reach import Reach
from geometry.model import Job
from geometry.units import EPSILON

Category = Literal[3, 5]
"""Fluid category: 3 a slight hazard, 5 a serious one."""
_CALLED = {"wc": "WC", "bidet": "bidet", "basin": "basin"}


class Vessel(NamedTuple):
    """What holds used water: a rectangle in plan (x, z), where it spills over, and how bad its water is."""

    id: str
    called: str
    low: tuple[float, float]
    high: tuple[float, float]
    rim: float
    floor: float
    """Nothing hangs lower than this in it."""
    category: Category


class Hang(NamedTuple):
    """How far the lowest point of a handset stays above a vessel's rim; infinite if it ends short of it."""

    vessel: Vessel
    gap: float
    short: float
    """By how much it does not reach the vessel, in plan; 0 or less where it does."""


def vessels(job: Job) -> tuple[Vessel, ...]:
    """Return the enclosure and the other fixtures of the room; in a place of care all are category 5."""
    bathing: Category = 3 if job.house.dwelling else 5
    own = job.enclosure
    called = own.kind.replace("_", " ")
    left, right = (own.left, 0.0), (own.right, own.projection)
    found = [Vessel("", called, left, right, own.rim, own.floor, bathing)]
    for fixture in job.sanitary:
        category: Category = bathing if fixture.kind == "basin" else 5
        word = _CALLED[fixture.kind]
        known = fixture.id if word.casefold() in fixture.id.casefold() else f"{word} {fixture.id}"
        low, high = (fixture.x, fixture.z), (fixture.x + fixture.wide, fixture.z + fixture.deep)
        found.append(Vessel(fixture.id, known, low, high, fixture.rim, 0.0, category))
    return tuple(found)


def hang(held: Reach, vessel: Vessel) -> Hang:
    """Return how low a handset hangs over a vessel, at the vessel's nearest point in plan."""
    x, y, z = held.centre
    level = math.hypot(
        max(vessel.low[0] - x, 0.0, x - vessel.high[0]), max(vessel.low[1] - z, 0.0, z - vessel.high[1])
    )
    if level > held.radius - EPSILON:
        return Hang(vessel, math.inf, level - held.radius)
    lowest = max(y - math.sqrt(held.radius**2 - level**2), vessel.floor)
    return Hang(vessel, lowest - vessel.rim, level - held.radius)
