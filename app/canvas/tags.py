"""Running dimensions on the screen: distances along the wall in a row below, heights in a column beside it.

They count from the tray's left edge and from its finished floor, as on the sheets. The row and the column
stay on the screen when the wall is larger than it. Tags never touch: they are spread, and where there are
too many the least important are left out. Pixels, y down; no Qt.
"""

from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from app.canvas.sizes import SMALL
from app.canvas.view import View
from export.drawings.labels import spread
from export.drawings.marks import enclosed
from export.drawings.names import datum_words
from export.pen import Axis
from export.text import fitted, text_width
from geometry.edits.refs import TILES, Ref
from geometry.model import XY
from geometry.plan import Plan
from geometry.setting_out.chains import Mark, across, upward
from geometry.shape.outline import Bounds
from geometry.units import Display, on_grid, shown

HEIGHT = 22.0
"""Of a tag, pixels."""
PAD = 6.0
"""Between the words of a tag and its sides, pixels."""
APART = 4.0
"""Least gap between two tags, pixels."""
OFF_WALL = 26.0
"""Between the wall and its tags, in which leaders run, pixels."""
BORDER = 6.0
"""Between the tags and the edge of the screen, pixels."""
LONGEST = 148.0
"""Of the words of a tag, pixels."""
FIRST_TILE = "first tile"
_FIXINGS = (" low fixing", " high fixing")


class Tag(NamedTuple):
    """One running dimension."""

    axis: Axis
    distance: float
    """From the datum, mm."""
    refs: tuple[Ref, ...]
    """What is moved if another distance is typed; a line of the tray has none."""
    words: str
    box: Bounds
    leader: tuple[XY, XY]
    """From the wall's edge, at the level of what is measured, to the tag."""
    chosen: bool


class Chain(NamedTuple):
    """The marks of one axis, as they follow from a plan."""

    axis: Axis
    marks: tuple[Mark, ...]
    refs: tuple[tuple[Ref, ...], ...]
    edge: float
    """The wall's edge that the tags stand beside, mm."""


def chains(plan: Plan) -> tuple[Chain, Chain]:
    """Return the chain along the wall and the one up it."""
    enclosure, names = plan.job.enclosure, {fitting.id for fitting in plan.job.fittings}
    tiling = plan.job.finish.tiling
    start = (tiling.start_x, tiling.start_y) if tiling else (None, None)
    words = datum_words(enclosed(plan))
    up = tuple(
        mark._replace(labels=tuple(words.get(label, label) for label in mark.labels)) for mark in upward(plan)
    )
    return (
        _chain("x", with_mark(across(plan), start[0], enclosure.left), names, 0.0),
        _chain("y", with_mark(up, start[1], enclosure.floor), names, min(0.0, enclosure.left)),
    )


def _chain(axis: Axis, marks: tuple[Mark, ...], names: Collection[str], edge: float) -> Chain:
    return Chain(axis, marks, tuple(_refs(mark, names) for mark in marks), edge)


def with_mark(marks: tuple[Mark, ...], start: float | None, datum: float) -> tuple[Mark, ...]:
    """Return the marks with one for the first tile, if there is one; it joins a mark at the same place."""
    if start is None:
        return marks
    same = next((mark for mark in marks if mark.at == start), Mark(start, on_grid(start - datum), ()))
    started = same._replace(labels=(*same.labels, FIRST_TILE))
    return tuple(sorted((started, *(mark for mark in marks if mark.at != start)), key=lambda mark: mark.at))


def _refs(mark: Mark, names: Collection[str]) -> tuple[Ref, ...]:
    found = []
    for label in mark.labels:
        plain = next((label.removesuffix(end) for end in _FIXINGS if label.endswith(end)), label)
        owner = label if label in names else plain
        if owner in names:
            found.append(Ref("fitting", owner))
    if mark.labels[-1] == FIRST_TILE:
        found.append(TILES)
    return tuple(dict.fromkeys(found))


def tags(
    held: tuple[Chain, Chain], view: View, size: XY, chosen: Collection[Ref], display: Display
) -> tuple[Tag, ...]:
    """Return the tags of both chains as they stand on a screen.

    Args:
        held: the chains of the plan.
        view: where the wall is seen.
        size: of the screen, pixels.
        chosen: what is chosen; its tags come first and say its name.
        display: the unit.
    """
    row, column = held
    return (*_row(row, view, size, chosen, display), *_column(column, view, size, chosen, display))


class _Wanted(NamedTuple):
    """A tag before it has its place."""

    mark: Mark
    refs: tuple[Ref, ...]
    words: str
    at: float
    rank: int

    @property
    def width(self) -> float:
        return text_width(self.words, SMALL) + 2 * PAD


def _wanted(
    chain: Chain, view: View, size: XY, chosen: Collection[Ref], display: Display
) -> Iterator[_Wanted]:
    """Go through the marks that are on the screen; the ranks of what matters most are the lowest."""
    for mark, refs in zip(*_told(chain, chosen), strict=True):
        at = view.to_screen((mark.at, mark.at))[0 if chain.axis == "x" else 1]
        if not 0 <= at <= size[0 if chain.axis == "x" else 1]:
            continue
        is_chosen = any(ref in chosen for ref in refs)
        words = shown(mark.distance, display)
        if chain.axis == "y":
            words = _with_names(words, mark.labels)
        elif is_chosen:
            words = _with_names(words, [FIRST_TILE if ref == TILES else ref.id for ref in refs])
        yield _Wanted(mark, refs, words, at, 0 if is_chosen else 1 if refs else 2)


def _told(chain: Chain, chosen: Collection[Ref]) -> tuple[tuple[Mark, ...], tuple[tuple[Ref, ...], ...]]:
    """Return the marks and what is moved by each; the start of the tiles counts only while it is chosen."""
    if TILES in chosen:
        return chain.marks, chain.refs
    plain = [mark._replace(labels=tuple(w for w in mark.labels if w != FIRST_TILE)) for mark in chain.marks]
    kept = [index for index, mark in enumerate(plain) if mark.labels]
    refs = [tuple(ref for ref in held if ref != TILES) for held in chain.refs]
    return tuple(plain[index] for index in kept), tuple(refs[index] for index in kept)


def _with_names(words: str, names: Sequence[str]) -> str:
    """Return the words with as many names as there is room for, and the number of the others."""
    each = list(dict.fromkeys(names))
    for count in range(len(each), 0, -1):
        rest = f" +{len(each) - count}" if count < len(each) else ""
        told = f"{words} {', '.join(each[:count])}{rest}"
        if text_width(told, SMALL) <= LONGEST:
            return told
    return fitted(told, SMALL, LONGEST)


def _fitting(wanted: Sequence[_Wanted], lengths: Sequence[float], room: float) -> list[int]:
    """Return which of the tags have room along their line, the important ones first, in order of place."""
    kept: list[int] = []
    used = 0.0
    for index in sorted(range(len(wanted)), key=lambda i: wanted[i].rank):
        used += lengths[index] + APART
        if used - APART <= room:
            kept.append(index)
    return sorted(kept)


def _row(chain: Chain, view: View, size: XY, chosen: Collection[Ref], display: Display) -> Iterator[Tag]:
    wanted = sorted(_wanted(chain, view, size, chosen, display), key=lambda each: each.at)
    room = size[0] - 2 * BORDER
    kept = [wanted[i] for i in _fitting(wanted, [each.width for each in wanted], room)]
    floor = view.to_screen((0.0, chain.edge))[1]
    top = max(min(floor + OFF_WALL, size[1] - BORDER - HEIGHT), BORDER)
    for each, x in zip(kept, _spread(kept, [each.width for each in kept], size[0]), strict=True):
        box = (x - each.width / 2, top, x + each.width / 2, top + HEIGHT)
        yield _tag("x", each, box, ((each.at, min(floor, top)), (x, top)))


def _column(chain: Chain, view: View, size: XY, chosen: Collection[Ref], display: Display) -> Iterator[Tag]:
    wanted = sorted(_wanted(chain, view, size, chosen, display), key=lambda each: each.at)
    kept = [wanted[i] for i in _fitting(wanted, [HEIGHT] * len(wanted), size[1] - 2 * BORDER)]
    widest = max((each.width for each in kept), default=0.0)
    wall = view.to_screen((chain.edge, 0.0))[0]
    right = max(wall - OFF_WALL, BORDER + widest)
    for each, y in zip(kept, _spread(kept, [HEIGHT] * len(kept), size[1]), strict=True):
        box = (right - each.width, y - HEIGHT / 2, right, y + HEIGHT / 2)
        yield _tag("y", each, box, ((max(wall, right), each.at), (right, y)))


def _spread(kept: Sequence[_Wanted], lengths: Sequence[float], size: float) -> list[float]:
    """Return the middles of the tags along their line."""
    if not kept:
        return []
    gaps = [(a + b) / 2 + APART for a, b in pairwise(lengths)]
    low, high = BORDER + lengths[0] / 2, size - BORDER - lengths[-1] / 2
    return spread([each.at for each in kept], gaps, low, max(high, low + sum(gaps)))


def _tag(axis: Axis, each: _Wanted, box: Bounds, leader: tuple[XY, XY]) -> Tag:
    return Tag(axis, each.mark.distance, each.refs, each.words, box, leader, each.rank == 0)
