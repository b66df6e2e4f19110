"""Distances that EN 1996-1-1 wants between cuts and to openings: the notes to Tables 8.1 and 8.2.

All are level distances in mm along the wall, and count only between things that lie beside one another:
upright cuts that share a height, level ones that lie within an eighth of the storey of one another. Of each
note the worst is reported.
"""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

import numpy as np

from geometry.chase.cuts import Cut
from geometry.checks.readings import Reading, judged, margin
from geometry.finding import Finding
from geometry.model import XY
from geometry.plan import Plan
from geometry.shape.outline import Bounds
from geometry.units import EPSILON, at_least, shown

WAYS = "Move it, cut both as one if the width allows, build out in front, or have an engineer calculate it."


class _Thing(NamedTuple):
    """A cut or an opening: its id or ids, where it lies, and the size that its distance follows from."""

    owners: tuple[str, ...]
    bounds: Bounds
    size: float
    what: str


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
    openings = tuple(
        _Thing((o.id,), (o.x, o.y, o.x + o.width, o.y + o.height), 0.0, "opening")
        for o in plan.job.wall.openings
    )
    uprights = tuple(_Thing(cut.owners, cut.bounds, cut.width, "chase") for cut in upright)
    sunk = tuple(_Thing(cut.owners, cut.bounds, cut.width, "recess") for cut in recesses)
    far_upright, far_level = _far(plan)
    eighth = plan.rules["strength.en_level_band"].value * plan.job.wall.storey_height
    levels = tuple(_Thing(cut.owners, cut.bounds, cut.length, "chase") for cut in level)
    shorts = tuple(_Thing(cut.owners, cut.bounds, cut.length, "chase") for cut in short)

    def fixed(rule: str) -> Callable[[_Thing, _Thing], float]:
        return lambda a, b: plan.rules[rule].value

    def by_size(rule: str) -> Callable[[_Thing, _Thing], float]:
        return lambda a, b: plan.rules[rule].value * max(a.size, b.size)

    rule = "strength.en_chase_gap"
    yield from _worst(plan, rule, uprights, (*uprights, *sunk, *openings), fixed(rule), -EPSILON)
    rule = "strength.en_recess_gap"
    yield from _worst(plan, rule, sunk, (*sunk, *far_upright, *openings), by_size(rule), -EPSILON)
    rule = "strength.en_level_opening"
    yield from _worst(plan, rule, levels, openings, fixed(rule), eighth)
    rule = "strength.en_level_gap"
    yield from _worst(plan, rule, shorts, (*shorts, *far_level), by_size(rule), eighth)


def _far(plan: Plan) -> tuple[tuple[_Thing, ...], tuple[_Thing, ...]]:
    """Return the cuts in the other face: upright ones and recesses, and level ones."""
    upright, level = [], []
    for far in plan.job.wall.other_face or ():
        bounds = (far.x, far.y, far.x + far.width, far.y + far.height)
        if far.width > far.height:
            level.append(_Thing((far.id,), bounds, far.width, "chase in the other face"))
        else:
            upright.append(_Thing((far.id,), bounds, far.width, "recess in the other face"))
    return tuple(upright), tuple(level)


def _worst(
    plan: Plan,
    rule: str,
    ours: Sequence[_Thing],
    others: Sequence[_Thing],
    need: Callable[[_Thing, _Thing], float],
    beside: float,
) -> Iterator[Finding]:
    """Judge the pair that falls shortest of what it needs; `beside` is how far apart in height counts."""
    if not ours or not others:
        return
    worst, pair, short = None, None, 0
    for one, other in _pairs(ours, others, need, beside):
        measured, place = _apart(one.bounds, other.bounds)
        reading = Reading(rule, "", (*one.owners, *other.owners), measured, need(one, other), place)
        short += margin(plan.rules, reading) < -EPSILON
        if worst is None or margin(plan.rules, reading) < margin(plan.rules, worst):
            worst, pair = reading, (one, other)
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
    ours: Sequence[_Thing],
    others: Sequence[_Thing],
    need: Callable[[_Thing, _Thing], float],
    beside: float,
) -> Iterator[tuple[_Thing, _Thing]]:
    """Go through the pairs beside one another that may lie nearer than they need; each pair once.

    `need` of a thing with itself is the most that it needs by its own size.
    """
    a, b = (np.array([thing.bounds for thing in things]).T for things in (ours, others))
    own = (np.array([need(thing, thing) for thing in things]) for things in (ours, others))
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
