"""Distances that EN 1996-1-1 wants between cuts and to openings: the notes to Tables 8.1 and 8.2.

All are level distances in mm along the wall, and count only between things that lie beside one another:
upright cuts that share a height, level ones that lie within an eighth of the storey of one another. Of each
note the worst is reported.
"""

import math
from collections.abc import Iterator
from functools import lru_cache
from operator import itemgetter
from typing import Literal, NamedTuple

from geometry.chase.cuts import Cut
from geometry.checks.readings import Reading, judged
from geometry.finding import Finding
from geometry.model import XY, Wall
from geometry.plan import Plan
from geometry.rules import Rulebook
from geometry.shape.neighbours import neighbours
from geometry.shape.outline import Bounds, bounds_of
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
    yield from _between_chases(rules, wall, upright, recesses)
    yield from _between_recesses(rules, wall, recesses)
    yield from _to_openings(rules, wall, level)
    yield from _between_short(rules, wall, short)


@lru_cache(maxsize=256)
def _between_chases(
    rules: Rulebook, wall: Wall, upright: tuple[Cut, ...], recesses: tuple[Cut, ...]
) -> tuple[Finding, ...]:
    """Judge upright chases by one another, by recesses and by openings."""
    rule = "strength.en_chase_gap"
    need = rules[rule].value
    chases = tuple(_Thing(cut.owners, "chase", cut.bounds, need) for cut in upright)
    sunk = tuple(_Thing(cut.owners, "recess", cut.bounds, need) for cut in recesses)
    return _worst(rules, rule, chases, (*sunk, *_openings(wall)))


@lru_cache(maxsize=256)
def _between_recesses(rules: Rulebook, wall: Wall, recesses: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Judge recesses by one another, by those in the other face and by openings."""
    rule = "strength.en_recess_gap"
    share = rules[rule].value
    sunk = tuple(_Thing(cut.owners, "recess", cut.bounds, share * cut.width) for cut in recesses)
    return _worst(rules, rule, sunk, (*_far(wall, "recess", share), *_openings(wall)))


@lru_cache(maxsize=256)
def _to_openings(rules: Rulebook, wall: Wall, level: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Judge level chases by openings."""
    rule = "strength.en_level_opening"
    need = rules[rule].value
    chases = tuple(_Thing(cut.owners, "chase", cut.bounds, need) for cut in level)
    return _worst(rules, rule, chases, _openings(wall), _eighth(rules, wall), among=False)


@lru_cache(maxsize=256)
def _between_short(rules: Rulebook, wall: Wall, short: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Judge short level chases by one another and by those in the other face."""
    rule = "strength.en_level_gap"
    share = rules[rule].value
    chases = tuple(_Thing(cut.owners, "chase", cut.bounds, share * cut.length) for cut in short)
    return _worst(rules, rule, chases, _far(wall, "chase", share), _eighth(rules, wall))


def _eighth(rules: Rulebook, wall: Wall) -> float:
    """Return how far apart in height level chases lie beside one another, in mm."""
    return rules["strength.en_level_band"].value * wall.storey_height


def _openings(wall: Wall) -> tuple[_Thing, ...]:
    return tuple(_Thing((o.id,), "opening", bounds_of(o)) for o in wall.openings)


def _far(wall: Wall, what: Literal["chase", "recess"], share: float) -> tuple[_Thing, ...]:
    """Return the cuts in the other face: level ones are chases, upright ones and recesses are recesses.

    Each needs a share of its width.
    """
    return tuple(
        _Thing(
            (far.id,),
            f"{what} in the other face",
            bounds_of(far),
            share * far.width,
        )
        for far in wall.other_face or ()
        if (far.width > far.height) == (what == "chase")
    )


def _worst(
    rules: Rulebook,
    rule: str,
    ours: tuple[_Thing, ...],
    others: tuple[_Thing, ...],
    beside: float = -EPSILON,
    *,
    among: bool = True,
) -> tuple[Finding, ...]:
    """Judge the pair that falls shortest of what it needs.

    Args:
        rules: the limits in force.
        rule: the name of the rule.
        ours: what is judged.
        others: what it is judged by.
        beside: how far apart in height counts; negative: by how much they must share a height.
        among: whether ours are judged by one another too.
    """
    if not ours or not (others or among):
        return ()
    found = _pairs(ours, others, beside, among=among)
    if not found:
        parts = tuple(dict.fromkeys(owner for thing in ours for owner in thing.owners))
        message = f"{rules[rule].title}: nothing lies too near."
        source = rules[rule].source
        return (Finding(rule=rule, status="clear", parts=parts, message=message, source=source),)
    short = sum(left < -EPSILON for left, _, _ in found)
    _, one, other = min(found, key=itemgetter(0))
    measured, place = _apart(one.bounds, other.bounds)
    owners = tuple(dict.fromkeys((*one.owners, *other.owners)))
    reading = Reading(rule, "", owners, measured, max(one.need, other.need), place)
    return (judged(rules, reading, _said(reading, (one, other), short), owners),)


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
    ours: tuple[_Thing, ...], others: tuple[_Thing, ...], beside: float, *, among: bool
) -> list[tuple[float, _Thing, _Thing]]:
    """Return the pairs beside one another that may lie nearer than they need, with what is left, in mm."""
    things, first = (*ours, *others), 0 if among else len(ours)
    reach = max(0.0, beside) + EPSILON
    found = []
    for i, j in neighbours(
        [thing.bounds for thing in things], max(thing.need for thing in things) + reach, beside
    ):
        if i >= len(ours) or j < first:
            continue
        one, other = things[i], things[j]
        a, b = one.bounds, other.bounds
        along, need = max(a[0] - b[2], b[0] - a[2]), max(one.need, other.need)
        above = max(a[1] - b[3], b[1] - a[3], 0.0)
        if math.hypot(max(along - need, 0.0), above) <= reach:
            found.append((max(along, 0.0) - need, one, other))
    return found
