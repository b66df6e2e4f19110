"""Gaps between parts: which lie near each other, how far apart they are, and the findings for them.

Pairs are chosen by the distance of their boxes, all at once, so that many parts cost little more than few;
what is judged is the exact distance of the solids, in mm. Nothing here knows a rule by name.
"""

import math
from collections.abc import Callable, Hashable, Iterable, Iterator
from typing import NamedTuple

import numpy as np

from geometry.arrays import Floats, Indices
from geometry.finding import Finding
from geometry.model import XY
from geometry.rules import Rulebook
from geometry.shape.solid import Solid, clearance, distance
from geometry.units import EPSILON, shown

AT_ONCE, MORE = 256, 16
"""So many pairs are put in order at first, as few are asked for, then so many times as many: own choice."""
_PARTS = frozenset(
    ("arm", "box", "bracket", "ceiling flange", "chase", "flange", "handset", "nozzle", "plate", "pocket",
     "recess", "screw")
)  # fmt: skip
"""Words for parts of a thing; the others are things with an id of their own."""


class Gap(NamedTuple):
    """A measured distance: the ids concerned, both sides in words, mm, and the points that show it.

    With one id it is the distance to an edge. Of several gaps with one `key` only the least is reported.
    """

    key: Hashable
    parts: tuple[str, ...]
    first: str
    second: str
    measured: float
    place: tuple[XY, ...]


Wanted = Callable[[Solid, Solid], bool]
"""Whether two solids are to be compared."""
Saying = Callable[[Gap, Finding], str]
"""What makes the sentence of a finding, once its gap is judged."""


def name(solid: Solid) -> str:
    """Say what a solid is and whose: `head`, `pipe hot`, `plate of valve`."""
    what, owner = solid.what, solid.owner
    if what in _PARTS or what.endswith(" control"):
        return f"{what} of {owner}"
    return owner if what in owner.casefold() else f"{what} {owner}"


class Pairs:
    """Solids that are compared: each of the first with each of the second, or the first among themselves.

    Among themselves, solids of one owner are not compared.
    """

    def __init__(
        self, firsts: Iterable[Solid], seconds: Iterable[Solid] | None = None, wanted: Wanted | None = None
    ) -> None:
        self.firsts = tuple(firsts)
        self.among = seconds is None
        self.seconds = self.firsts if seconds is None else tuple(seconds)
        self.wanted = wanted

    def nearest_first(self) -> Iterator[tuple[float, Solid, Solid]]:
        """Go through the wanted pairs with the distance of their boxes in mm, the nearest first.

        The solids of a pair are never nearer to each other than their boxes.
        """
        bounds = self._bounds()
        for numbers in _ascending(bounds.ravel()):
            for number, bound in zip(numbers.tolist(), bounds.take(numbers).tolist(), strict=True):
                if bound == math.inf:
                    return
                i, j = divmod(number, len(self.seconds))
                a, b = self.firsts[i], self.seconds[j]
                if self.wanted is None or self.wanted(a, b):
                    yield bound, a, b

    def _bounds(self) -> Floats:
        """Return how far the boxes of each pair are apart, a row for each of the first; no pair: infinite."""
        first, second = (
            np.array([solid.box for solid in solids]).reshape(-1, 6).T.copy()
            for solids in (self.firsts, self.seconds)
        )
        apart = np.maximum(first[:3, :, None] - second[3:, None], second[:3, None] - first[3:, :, None])
        np.maximum(apart, 0.0, out=apart)
        bounds = np.sqrt(np.einsum("kij,kij->ij", apart, apart))
        if self.among:
            owners = np.array([solid.owner for solid in self.firsts])
            bounds[np.tri(len(bounds), dtype=np.bool_) | (owners[:, None] == owners)] = np.inf
        return np.asarray(bounds)

    def key(self, a: Solid, b: Solid) -> Hashable:
        """Return what a pair is known by: its owners, whose order counts only if they are of two sorts."""
        return frozenset((a.owner, b.owner)) if self.among else (a.owner, b.owner)


def _ascending(values: Floats) -> Iterator[Indices]:
    """Go through the indices of values from the least on, in portions; equal values as they stand."""
    left, count = np.arange(values.size), AT_ONCE
    while left.size > count:
        held = values[left]
        first = held <= np.partition(held, count)[count]
        yield left[first][np.argsort(held[first], kind="stable")]
        left, count = left[~first], count * MORE
    yield left[np.argsort(values[left], kind="stable")]


def near(rules: Rulebook, rule: str, *searches: Pairs) -> tuple[Gap, ...]:
    """Return the least gap of each two owners that are not clear of each other by a rule.

    If all are clear of each other it is the one least gap of all, and nothing if there is no pair.
    """
    enough = rules[rule].value + rules[rule].tight + EPSILON
    found = _least(searches, enough)
    listed = sorted(found.items(), key=lambda item: item[1][0])
    count = max(1, sum(gap <= enough for gap, _, _ in found.values()))
    return tuple(
        Gap(key, (a.owner, b.owner), name(a), name(b), *clearance(a, b)) for key, (_, a, b) in listed[:count]
    )


def _least(searches: tuple[Pairs, ...], enough: float) -> dict[Hashable, tuple[float, Solid, Solid]]:
    """Return the least gap by owners: each up to `enough`, and beyond that the least of all at any rate."""
    found: dict[Hashable, tuple[float, Solid, Solid]] = {}
    best = math.inf
    for search in searches:
        for bound, a, b in search.nearest_first():
            if bound > max(enough, best):
                break
            gap = distance(a, b)
            key = search.key(a, b)
            if key not in found or gap < found[key][0]:
                found[key] = gap, a, b
            best = min(best, gap)
    return found


def sentence(gap: Gap, found: Finding) -> str:
    """Say how far apart two things, or a thing and an edge, are and how far they should be."""
    first, wanted = gap.first[:1].upper() + gap.first[1:], f"{shown(found.limit or 0.0)} mm"
    measured = found.measured or 0.0
    if measured < 0 and len(gap.parts) == 1:
        return f"{first} reaches {shown(-measured)} mm past the {gap.second}; {wanted} short of it is wanted."
    if measured < 0:
        return f"{first} and {gap.second} overlap by {shown(-measured)} mm; {wanted} between them is wanted."
    nearest = f"Nearest: {gap.first}" if found.status == "clear" else first
    return f"{nearest} is {shown(measured)} mm from the {gap.second}; {wanted} is wanted."


def report(rules: Rulebook, rule: str, gaps: Iterable[Gap], say: Saying = sentence) -> Iterator[Finding]:
    """Judge the least gap of each key: go through those that are not clear, least first.

    If all are clear there is one finding, for the least of them; without any gap it says that there was
    nothing to compare.
    """
    least: dict[Hashable, Gap] = {}
    for gap in gaps:
        if gap.key not in least or gap.measured < least[gap.key].measured:
            least[gap.key] = gap
    listed = sorted(least.values(), key=lambda gap: gap.measured)
    for number, gap in enumerate(listed):
        found = rules.judge(rule, gap.measured, "", gap.parts, gap.place)
        if found.status == "clear" and number > 0:
            break  # a wider gap is clear as well
        yield found.but(message=say(gap, found))
    if not listed:
        limit = rules[rule]
        message = f"{limit.title}: there is nothing to compare in this job."
        yield Finding(
            rule=rule, status="clear", parts=(), message=message, unit=limit.unit,
            limit=limit.value, source=limit.source,
        )  # fmt: skip


def compare(rules: Rulebook, rule: str, *searches: Pairs, say: Saying = sentence) -> Iterator[Finding]:
    """Judge solids by how near they come to each other; see `near` and `report`."""
    return report(rules, rule, near(rules, rule, *searches), say)
