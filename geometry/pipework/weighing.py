"""How few new lengths can do, and how little the last of them holds: bounds that prove themselves.

Whole numbers only. Give each size a weight. If no new room can hold more than K of weight, and the off-cuts
no more than their own most, then (all weight - that of the off-cuts) / K rooms at least are needed,
whatever the weights are. How much a room holds is worked out exactly. The weights tried are the sizes
themselves and the dual feasible functions of Fekete and Schepers (2001, from memory: a wrong one would make
the bound weak, never wrong).
"""

from collections.abc import Iterator, Sequence
from math import gcd

import numpy as np

from geometry.arrays import Whole

FULL = 720_720
"""The weight of a full room: a number that 1 to 16 divide."""
MOST_TRIED = 24
"""Sizes for which weights are tried that leave out what is smaller."""


class Weighing:
    """Sizes weighed in some ways, against off-cuts and new rooms of one size."""

    def __init__(self, sizes: Sequence[int], own: Sequence[int], new: int) -> None:
        self._unit = gcd(*sizes)
        sizes, own = [size // self._unit for size in sizes], [room // self._unit for room in own]
        self._new = new // self._unit
        self._least = min(sizes)
        self._weighed: list[tuple[int, Whole]] = []
        """What is left for new rooms, and the most that a room can hold by its size, for each way."""
        for weights in _weights(sizes, self._new):
            most = _most(sizes, weights, max(self._new, *own, 0))
            self._weighed.append((sum(weights) - sum(int(most[room]) for room in own), most))

    def rooms(self) -> int:
        """Return a number of new rooms of which no fewer can do."""
        found = 0
        for left, most in self._weighed:
            held = int(most[self._new])
            if held:
                found = max(found, -(-left // held))
        return found

    def load(self, count: int) -> int:
        """Return a load that the least filled of `count` new rooms has at least; `count` is above 0."""
        found = self._least
        for left, most in self._weighed:
            found = max(found, int(np.searchsorted(most, left - (count - 1) * int(most[self._new]))))
        return found * self._unit


def _weights(sizes: Sequence[int], room: int) -> Iterator[list[int]]:
    """Go through the ways to weigh."""
    yield list(sizes)
    for k in range(1, 7):  # what lies between two multiples of 1/(k + 1) counts as the next k-th below
        yield [
            FULL * size // room if (k + 1) * size % room == 0 else (k + 1) * size // room * (FULL // k)
            for size in sizes
        ]
    small = sorted({size for size in sizes if 2 * size <= room})
    for least in small[:: len(small) // MOST_TRIED + 1]:
        # what leaves no room for `least` is full, what is smaller than it is nothing
        yield [FULL if size > room - least else FULL * size // room if size >= least else 0 for size in sizes]
        # what is above a half is full, less as many of `least` as still go in beside it
        many = room // least
        yield [
            FULL - FULL // many * ((room - size) // least) if 2 * size > room
            else FULL // 2 if 2 * size == room
            else FULL // many if size >= least
            else 0
            for size in sizes
        ]  # fmt: skip


def _most(sizes: Sequence[int], weights: Sequence[int], room: int) -> Whole:
    """Return the most weight that rooms of 0, 1, 2 ... up to `room` can hold, each size once."""
    most = np.zeros(room + 1, dtype=np.int64)
    for size, weight in zip(sizes, weights, strict=True):
        if weight > 0 and size <= room:
            np.maximum(most[size:], most[: room + 1 - size] + weight, out=most[size:])
    return most
