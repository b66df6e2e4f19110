"""Cutting pieces from lengths of tube: off-cuts at hand first, then as few new lengths as can be. In mm.

Of all ways that take the fewest new lengths, one that leaves the longest rest of a new length. A cut takes
away the kerf; a piece that ends where its length ends needs no cut. Exact, unless the search had to be given
up: then it says so.
"""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from geometry.pipework.cut_list import Piece
from geometry.pipework.packing import fit
from geometry.pipework.weighing import Weighing
from geometry.plan import Plan

TENTHS = 10
"""All is counted in whole tenths of a mm."""
MOST_ASKED, LESS_WORK = 10, 5_000
"""Loads tried for the longest rest before it is left at the best that was found, and the work on each."""


class Bar(NamedTuple):
    """One length of tube and the pieces cut from it, by their place in the list, the longest first."""

    length: float
    own: bool
    """An off-cut at hand, not bought."""
    pieces: tuple[int, ...]
    rest: float


class Cutting(NamedTuple):
    """How a list of pieces is cut: the lengths that are used, and pieces longer than any of them."""

    bars: tuple[Bar, ...]
    too_long: tuple[int, ...]
    fewest: bool
    """Whether no way takes fewer new lengths."""
    longest: bool
    """Whether no way with as many new lengths leaves a longer rest."""

    @property
    def bought(self) -> int:
        """How many new lengths it takes."""
        return sum(not bar.own for bar in self.bars)


class TubeCutting(NamedTuple):
    """How the pieces of one tube are cut."""

    tube: str
    pieces: tuple[Piece, ...]
    cutting: Cutting


def cuttings(plan: Plan, pieces: Sequence[Piece]) -> tuple[TubeCutting, ...]:
    """Return how the pieces of a plan are cut, tube by tube. Pieces that cannot be made are left out."""
    held, found = plan.job.pipework, []
    for tube in dict.fromkeys(piece.tube for piece in pieces):
        chosen = tuple(piece for piece in pieces if piece.tube == tube and not piece.fault)
        own = [offcut.length for offcut in held.offcuts if offcut.tube == tube]
        cut = cutting([piece.cut for piece in chosen], held.stock_length, held.kerf, own)
        found.append(TubeCutting(tube, chosen, cut))
    return tuple(found)


def cutting(
    lengths: Sequence[float], stock: float, kerf: float = 0.0, offcuts: Sequence[float] = ()
) -> Cutting:
    """Cut pieces from off-cuts and new lengths.

    Args:
        lengths: of the pieces, above 0.
        stock: of a new length.
        kerf: what a cut takes away.
        offcuts: lengths at hand.

    Raises:
        ValueError: a length is not above 0.
    """
    for length in lengths:
        if not length > 0:
            raise ValueError(f"a piece must be longer than 0 mm, got {length:g}")
    blade = round(kerf * TENTHS)
    sizes = [round(length * TENTHS) + blade for length in lengths]
    own = sorted(round(length * TENTHS) + blade for length in offcuts)
    new = round(stock * TENTHS) + blade
    most = max([new, *own])
    able = [index for index in range(len(sizes)) if sizes[index] <= most]
    packed = _packed([sizes[index] for index in able], own, new)
    bars = []
    for room, bought, chosen in packed.bins:
        names = tuple(sorted((able[index] for index in chosen), key=lambda index: (-sizes[index], index)))
        rest = max(0, room - blade - sum(sizes[index] for index in names))
        bars.append(Bar((room - blade) / TENTHS, not bought, names, rest / TENTHS))
    too_long = tuple(index for index in range(len(sizes)) if sizes[index] > most)
    return Cutting(tuple(bars), too_long, packed.fewest, packed.longest)


class _Packed(NamedTuple):
    bins: tuple[tuple[int, bool, tuple[int, ...]], ...]
    """Room, whether it is bought, and the indices of its pieces."""
    fewest: bool
    longest: bool


def _packed(sizes: list[int], own: list[int], new: int) -> _Packed:
    """Pack sizes into the off-cuts and as few new lengths as can be, then leave the longest rest."""
    if not sizes:
        return _Packed((), True, True)
    weighing, fewest = Weighing(sizes, own, new), True
    count = weighing.rooms()
    while (found := fit(sizes, (*own, *[new] * count))).groups is None:
        fewest = fewest and found.sure
        count += 1
    best, longest = found.groups, True
    if count:
        least = weighing.load(count)
        best, longest = _least_load(sizes, (*own, *[new] * (count - 1)), best, len(own), least)
    return _Packed(_filled(sizes, own, count, new, best), fewest, longest)


def _least_load(
    sizes: list[int],
    others: tuple[int, ...],
    known: tuple[tuple[int, ...], ...],
    first_new: int,
    least: int,
) -> tuple[tuple[tuple[int, ...], ...], bool]:
    """Return a packing that leaves as little as can be for the last room, and whether that is sure.

    It cannot be less than `least`. Loads of the last room are tried from there on, by growing strides, then
    halved in between.
    """
    most = min(sum(group) for group in known[first_new:])
    loads = _sums(sizes, least, most)
    emptiest = min(range(first_new, len(known)), key=lambda index: sum(known[index]))
    best = (*known[:emptiest], *known[emptiest + 1 :], known[emptiest])
    first, last, stride, sure = 0, len(loads) - 1, 1, True  # the last is known to do
    for _ in range(MOST_ASKED):
        if first == last:
            return best, sure
        tried = first + stride - 1 if first + stride - 1 < last else (first + last) // 2
        found = fit(sizes, (*others, loads[tried]), LESS_WORK)
        if found.groups is None:
            sure = sure and found.sure
            first, stride = tried + 1, stride * 2
        else:
            best, last, stride = found.groups, tried, len(loads)
    return best, first == last and sure


def _filled(
    sizes: list[int], own: list[int], count: int, new: int, groups: tuple[tuple[int, ...], ...]
) -> tuple[tuple[int, bool, tuple[int, ...]], ...]:
    """Give each group of sizes its pieces; lengths that hold nothing are left out."""
    waiting: dict[int, list[int]] = {}
    for index, size in enumerate(sizes):
        waiting.setdefault(size, []).append(index)
    rooms = [*((room, False) for room in own), *((new, True) for _ in range(count))]
    return tuple(
        (room, bought, tuple(waiting[size].pop(0) for size in group))
        for (room, bought), group in zip(rooms, groups, strict=True)
        if group
    )


def _sums(sizes: Iterable[int], least: int, most: int) -> list[int]:
    """Return every sum from `least` to `most` that some of the sizes make, from the least."""
    bits, mask = 1, (1 << (most + 1)) - 1
    for size in sizes:
        bits |= bits << size & mask
    written = bin(bits >> least)[:1:-1]
    return [least + at for at, bit in enumerate(written) if bit == "1"]
