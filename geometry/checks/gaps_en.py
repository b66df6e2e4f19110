"""Distances that EN 1996-1-1 wants between cuts and to openings: the notes to Tables 8.1 and 8.2.

All are level distances in mm along the wall, and count only between things that lie beside one another:
upright cuts that share a height, level ones that lie within an eighth of the storey of one another. Of each
note the worst is reported.
"""

import math
from collections.abc import Iterator
from typing import Literal, NamedTuple

import numpy as np

from geometry.chase.cuts import Cut
from geometry.checks.memory import remembered
from geometry.checks.readings import Reading, judged, margin
from geometry.finding import Finding
from geometry.model import XY
from geometry.plan import Plan
from geometry.shape.outline import Bounds
from geometry.units import EPSILON, at_least, shown

WAYS = "Move it, cut both as one if the width allows, build out in front, or have an engineer calculate it."


class _Thing(NamedTuple):
    """A cut or an opening: its id or ids, what and where it is, and the distance that it needs, in mm.

    Two things need the greater of their distances.
    """

    owners: tuple[str, ...]
    what: str
    bounds: Bounds
    need: float = 0.0


def gaps(
    plan: Plan,
    upright: tuple[Cut, ...],
    recesses: tuple[Cut, ...],
    level: tuple[Cut, ...],
    short: tuple[Cut, ...],
) -> Iterator[Finding]:
    """Judge the distances of upright chases, of recesses and of level chases.

    Args:
        plan: with the openings and the cuts in the other face.
        upright: the upright chases.
        recesses: the recesses of fittings.
        level: all level and inclined chases.
        short: those whose depth is allowed only because they are short.
    """
    rules, wall = plan.rules, plan.job.wall
    openings = tuple(
        _Thing((o.id,), "opening", (o.x, o.y, o.x + o.width, o.y + o.height)) for o in wall.openings
    )

    rule = "strength.en_chase_gap"
    need = rules[rule].value
    uprights = tuple(_Thing(cut.owners, "chase", cut.bounds, need) for cut in upright)
    sunk = tuple(_Thing(cut.owners, "recess", cut.bounds, need) for cut in recesses)
    yield from _worst(plan, rule, uprights, (*uprights, *sunk, *openings), -EPSILON)

    rule = "strength.en_recess_gap"
    share = rules[rule].value
    sunk = tuple(_Thing(cut.owners, "recess", cut.bounds, share * cut.width) for cut in recesses)
    yield from _worst(plan, rule, sunk, (*sunk, *_far(plan, "recess", share), *openings), -EPSILON)

    eighth = rules["strength.en_level_band"].value * wall.storey_height
    rule = "strength.en_level_opening"
    need = rules[rule].value
    levels = tuple(_Thing(cut.owners, "chase", cut.bounds, need) for cut in level)
    yield from _worst(plan, rule, levels, openings, eighth)

    rule = "strength.en_level_gap"
    share = rules[rule].value
    shorts = tuple(_Thing(cut.owners, "chase", cut.bounds, share * cut.length) for cut in short)
    yield from _worst(plan, rule, shorts, (*shorts, *_far(plan, "chase", share)), eighth)


def _far(plan: Plan, what: Literal["chase", "recess"], share: float) -> tuple[_Thing, ...]:
    """Return the cuts in the other face: level ones are chases, upright ones and recesses are recesses.

    Each needs a share of its width.
    """
    return tuple(
        _Thing(
            (far.id,),
            f"{what} in the other face",
            (far.x, far.y, far.x + far.width, far.y + far.height),
            share * far.width,
        )
        for far in plan.job.wall.other_face or ()
        if (far.width > far.height) == (what == "chase")
    )


@remembered
def _worst(
    plan: Plan,
    rule: str,
    ours: tuple[_Thing, ...],
    others: tuple[_Thing, ...],
    beside: float,
) -> Iterator[Finding]:
    """Judge the pair that falls shortest of what it needs; `beside` is how far apart in height counts."""
    if not ours or not others:
        return
    worst, pair, least, short = None, None, math.inf, 0
    for one, other in _pairs(ours, others, beside):
        measured, place = _apart(one.bounds, other.bounds)
        need = max(one.need, other.need)
        reading = Reading(rule, "", (*one.owners, *other.owners), measured, need, place)
        left = margin(plan.rules, reading)
        short += left < -EPSILON
        if left < least:
            worst, pair, least = reading, (one, other), left
    parts = tuple(dict.fromkeys(owner for thing in ours for owner in thing.owners))
    title = plan.rules[rule].title
    if worst is None or pair is None:
        message = f"{title}: nothing lies too near."
        yield Finding(rule=rule, status="clear", parts=parts, message=message, source=plan.rules[rule].source)
        return
    yield judged(plan.rules, worst, _said(worst, pair, short), tuple(dict.fromkeys(worst.owners)))


def _said(reading: Reading, pair: tuple[_Thing, _Thing], short: int) -> str:
    first, second = (f"{thing.what} {' and '.join(thing.owners)}" for thing in pair)
    message = (
        f"{shown(reading.measured)} mm between {first} and {second}, at least {shown(reading.limit)} mm "
        "without a calculation"
    )
    if at_least(reading.measured, reading.limit):
        return f"{message}."
    more = f"; the worst of {short} such pairs" if short > 1 else ""
    return f"{message}{more}. {WAYS}"


def _apart(a: Bounds, b: Bounds) -> tuple[float, tuple[XY, ...]]:
    """Return the level distance of two rectangles, 0 where one lies over the other, and where that shows."""
    low, high = max(a[1], b[1]), min(a[3], b[3])
    y = (low + high) / 2
    left, right = (a[2], b[0]) if a[0] <= b[0] else (b[2], a[0])
    measured = max(0.0, right - left)
    return measured, ((left, y), (right, y)) if measured else (((left + right) / 2, y),)


def _pairs(
    ours: tuple[_Thing, ...], others: tuple[_Thing, ...], beside: float
) -> Iterator[tuple[_Thing, _Thing]]:
    """Go through the pairs beside one another that may lie nearer than they need; each pair once."""
    a, b = (np.array([thing.bounds for thing in things]).T for things in (ours, others))
    own = (np.array([thing.need for thing in things]) for things in (ours, others))
    along = np.maximum(a[0, :, None] - b[2], b[0] - a[2, :, None]) - np.maximum.outer(*own)
    above = np.maximum(a[1, :, None] - b[3], b[1] - a[3, :, None])
    near = np.hypot(np.maximum(along, 0.0), np.maximum(above, 0.0)) <= max(0.0, beside) + EPSILON
    seen = set()
    for i, j in np.argwhere(near & (above <= beside)).tolist():
        one, other = ours[i], others[j]
        key = frozenset((id(one), id(other)))
        if len(key) == 2 and key not in seen:
            seen.add(key)
            yield one, other
