"""Packing sizes into rooms of given sizes, exactly: whether it can be done, and how. Whole numbers only.

The greatest size that is left goes into each kind of room in turn, with every choice of others that fills the
room so far that no more goes in: what else would go in could as well be there. Fillings that waste least come
first. A way is given up as soon as it wastes more than can be spared, or more rooms are needed than are left.
"""

import math
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import accumulate
from typing import NamedTuple

MOST_WORK = 15_000
"""Fillings times sizes tried for one question before it is given up: about a twentieth of a second."""


class Fit(NamedTuple):
    """The sizes in each room, or None if there is no way; whether that is sure."""

    groups: tuple[tuple[int, ...], ...] | None
    sure: bool = True


def fit(sizes: Sequence[int], rooms: Sequence[int]) -> Fit:
    """Pack sizes into rooms, if that can be done.

    Args:
        sizes: whole numbers above 0, at least one.
        rooms: as many as there are; some may stay empty.
    """
    search, unit = _Search(MOST_WORK // len(sizes)), math.gcd(*sizes)
    found = search.fill(
        tuple(sorted((size // unit for size in sizes), reverse=True)),
        tuple(sorted(room // unit for room in rooms)),
    )
    if found is None:
        return Fit(None, search.steps <= search.most_steps)
    waiting: dict[int, list[tuple[int, ...]]] = {}
    for room, group in found:
        waiting.setdefault(room, []).append(tuple(size * unit for size in group))
    return Fit(tuple(held.pop() if (held := waiting.get(room // unit)) else () for room in rooms))


def rooms_needed(sizes: Sequence[int], room: int) -> int:
    """Return how many rooms of one size at least are needed; `sizes` fall, and none is above `room`.

    Sizes above half a room stand alone; what they leave is counted for the smaller ones. This is the bound L2
    of Martello and Toth.
    """
    rising = sizes[::-1]
    total = (0, *accumulate(rising))
    half = bisect_right(rising, room // 2)
    most = -(-total[-1] // room)
    for least in {*rising[:half], rising[half - 1] if half else 0}:
        start, alone = bisect_left(rising, least), bisect_right(rising, room - least)
        alone = max(alone, half)
        paired = alone - half
        free = paired * room - (total[alone] - total[half])
        over = total[half] - total[start] - free
        most = max(most, len(rising) - half + max(0, -(-over // room)))
    return most


_Groups = tuple[tuple[int, tuple[int, ...]], ...]


class _Search:
    def __init__(self, most_steps: int) -> None:
        self.steps, self.most_steps = 0, most_steps
        self._failed: set[tuple[tuple[int, ...], tuple[int, ...]]] = set()

    def fill(self, sizes: tuple[int, ...], rooms: tuple[int, ...]) -> _Groups | None:
        """Return the rooms that are used with their sizes, or None. `sizes` fall, `rooms` rise."""
        if not sizes:
            return ()
        rooms = rooms[bisect_left(rooms, sizes[-1]) :]
        if not rooms or sizes[0] > rooms[-1] or (sizes, rooms) in self._failed:
            return None
        spare = sum(rooms) - sum(sizes)
        if spare < 0 or rooms_needed(sizes, rooms[-1]) > len(rooms):
            return None
        easy = _falling(sizes, rooms)
        if easy is not None:
            return easy
        for room in sorted(set(rooms[bisect_left(rooms, sizes[0]) :])):
            at = rooms.index(room)
            for group in _fillings(sizes, room, spare):
                self.steps += 1
                if self.steps > self.most_steps:
                    return None
                rest = self.fill(_less(sizes, group), rooms[:at] + rooms[at + 1 :])
                if rest is not None:
                    return ((room, group), *rest)
        if self.steps <= self.most_steps:
            self._failed.add((sizes, rooms))
        return None


def _falling(sizes: tuple[int, ...], rooms: tuple[int, ...]) -> _Groups | None:
    """Put each size, the greatest first, where it leaves least; None if one finds no room."""
    left = list(rooms)
    groups: list[list[int]] = [[] for _ in rooms]
    for size in sizes:
        index = min((i for i, room in enumerate(left) if room >= size), key=lambda i: left[i], default=None)
        if index is None:
            return None
        left[index] -= size
        groups[index].append(size)
    return tuple((room, tuple(group)) for room, group in zip(rooms, groups, strict=True) if group)


def _less(sizes: tuple[int, ...], group: tuple[int, ...]) -> tuple[int, ...]:
    taken, kept = Counter(group), []
    for size in sizes:
        if taken[size]:
            taken[size] -= 1
        else:
            kept.append(size)
    return tuple(kept)


def _fillings(sizes: tuple[int, ...], room: int, spare: int) -> Iterator[tuple[int, ...]]:
    """Go through the full fillings of a room with the greatest size in it; what wastes least comes first."""
    first, left = sizes[0], room - sizes[0]
    kinds = tuple(sorted(Counter(sizes[1:]).items(), reverse=True))
    sums = [1]
    """The sums that the kinds from each on can make, as bits, the last kind first."""
    mask = (1 << (left + 1)) - 1
    for size, many in reversed(kinds):
        bits = sums[-1]
        for _ in range(many):
            bits |= (bits << size) & mask
        sums.append(bits)
    sums.reverse()

    def making(at: int, total: int, smallest_out: int) -> Iterator[tuple[tuple[int, ...], int]]:
        """Go through the choices that make a total exactly, each with the smallest size left out."""
        if at == len(kinds):
            yield (), smallest_out
            return
        size, many = kinds[at]
        for count in range(min(many, total // size), -1, -1):
            if (sums[at + 1] >> (total - count * size)) & 1:
                out = size if count < many else smallest_out
                for chosen, smallest in making(at + 1, total - count * size, out):
                    yield (*[size] * count, *chosen), smallest

    for waste in range(min(spare, left) + 1):
        if (sums[0] >> (left - waste)) & 1:
            for chosen, smallest_out in making(0, left - waste, room + 1):
                if waste < smallest_out:
                    yield (first, *chosen)
