"""Packing sizes into rooms of given sizes, exactly: whether it can be done, and how. Whole numbers only.

Ways that mostly do are tried first: each size where it leaves least, then room by room the greatest sizes
that fill it but for a little. If none does, all ways are searched. The greatest size that is left goes into
each kind of room in turn, with every choice of others that fills the room so far that no more goes in: what
else would go in could as well be there. Fillings that waste least come first. A way is given up as soon as
it wastes more than can be spared, or more rooms are needed than are left.
"""

import math
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import accumulate
from typing import NamedTuple

MOST_WORK = 15_000
"""Fillings times sizes tried for one question before it is given up: about a twentieth of a second."""
WASTES = (0.0005, 0.001, 0.002, 0.004, 0.008, 0.012, 0.02, 0.05, 0.1)
"""Shares of the largest room that may be wasted in each, tried one after the other (own choice)."""


class Fit(NamedTuple):
    """The sizes in each room, or None if there is no way; whether that is sure."""

    groups: tuple[tuple[int, ...], ...] | None
    sure: bool = True


def fit(sizes: Sequence[int], rooms: Sequence[int], most_work: int = MOST_WORK) -> Fit:
    """Pack sizes into rooms, if that can be done.

    Args:
        sizes: whole numbers above 0, at least one.
        rooms: as many as there are; some may stay empty.
        most_work: fillings times sizes to be tried.
    """
    search, unit = _Search(most_work // len(sizes)), math.gcd(*sizes)
    falling = tuple(sorted((size // unit for size in sizes), reverse=True))
    rising = tuple(sorted(room // unit for room in rooms))
    if not rising or falling[0] > rising[-1] or sum(falling) > sum(rising):
        return Fit(None)
    found = _falling(falling, rising) or _greatest(falling, rising) or search.fill(falling, rising)
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


def _greatest(sizes: tuple[int, ...], rooms: tuple[int, ...]) -> _Groups | None:
    """Fill room by room with the greatest sizes that leave no more than a little; None if sizes are left."""
    for share in WASTES:
        left, groups = sizes, []
        for room in rooms:
            if left:
                groups.append((room, _greatest_within(left, room, int(share * rooms[-1]))))
                left = _less(left, groups[-1][1])
        if not left:
            return tuple(groups)
    return None


def _greatest_within(sizes: tuple[int, ...], room: int, waste: int) -> tuple[int, ...]:
    """Return the greatest sizes first that fill a room but for `waste`, or for the least that can be."""
    sums = _sums([(size, 1) for size in sizes], room)
    low = min(sums[0].bit_length() - 1, max(room - waste, 0))
    chosen, left = [], room
    for size, rest in zip(sizes, sums[1:], strict=True):
        # taken if the sizes after it can bring what is held so far to between low and room
        if size <= left and (rest & ((1 << (left - size + 1)) - 1)) >> max(low - (room - left) - size, 0):
            chosen.append(size)
            left -= size
    return tuple(chosen)


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
    sums = _sums(kinds, left)

    def making(at: int, total: int, waste: int) -> Iterator[tuple[int, ...]]:
        """Go through the choices that make a total exactly and leave out nothing that goes into the waste."""
        if at == len(kinds):
            yield ()
            return
        size, many = kinds[at]
        for count in range(min(many, total // size), many - 1 if size <= waste else -1, -1):
            if (sums[at + 1] >> (total - count * size)) & 1:
                for chosen in making(at + 1, total - count * size, waste):
                    yield (*[size] * count, *chosen)

    for total in _falling_bits(sums[0], max(left - spare, 0)):
        for chosen in making(0, total, left - total):
            yield (first, *chosen)


def _sums(kinds: Sequence[tuple[int, int]], most: int) -> list[int]:
    """Return as bits the sums up to `most` that sizes can make, from each on; the last makes only 0.

    Each comes with how many there are of it.
    """
    sums, mask = [1], (1 << (most + 1)) - 1
    for size, many in reversed(kinds):
        bits = sums[-1]
        for _ in range(many):
            bits |= (bits << size) & mask
        sums.append(bits)
    return sums[::-1]


def _falling_bits(bits: int, least: int) -> Iterator[int]:
    """Go through the places of the bits that are set, from the highest down to `least`."""
    written = bin(bits >> least)[2:]
    at = written.find("1")
    while at >= 0:
        yield least + len(written) - 1 - at
        at = written.find("1", at + 1)
