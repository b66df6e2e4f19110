"""Notes: words set beside a point or along a line, where they cover neither a stroke nor each other.

The places that come into question are tried all at once, from the nearest, so a note stands as near
as it can to what it belongs to; one that stands off is tied to its point by a leader. Coordinates
are those of the drawing, at the size at which it is seen. Nothing here knows what the words mean.
"""

import math
from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

import numpy as np
import shapely

from export.pen import XY, Pen
from export.recorder import Recorder, Stroke
from export.text import RISE, SINK, is_bold, text_width
from geometry.shape.outline import Bounds

Numbers = np.ndarray[Any, np.dtype[np.float64]]
Indices = np.ndarray[Any, np.dtype[np.intp]]
Shapes = np.ndarray[Any, np.dtype[np.object_]]

# All as shares of the text height; chosen by looking, no source.
LEADING = 1.7  # from one baseline to the next
PAD = 0.2  # kept clear round the words
STEP = 0.8  # from one place that is tried to the next
NEAR = 6.0  # all wordings are tried this near first
FAR = 30.0  # nothing is tried farther away
TIED = 1.0  # a note farther off than this beyond its clear room has a leader
SHORTER = 3.0  # how much farther away a wording may stand before the next, shorter one is better
THROUGH = 0.5  # mm; a leader this near to another note's point would seem to belong to it
SMALLER = (1.0, 0.7, 0.5)  # shares of its height at which words that must be there are tried
_TRIES = 2  # how often all are placed anew, those first that stood badly
_FIRST = 8  # how many places are tried at once, from the best; then four times as many, and so on
_NEXT = 1e4  # mm; more than any line is long, so that a worse kind of place is never nearer


class Beside(NamedTuple):
    """Words beside a point; `wordings` are one or more ways to set them in lines, the best first."""

    at: XY
    wordings: tuple[tuple[str, ...], ...]
    height: float
    layer: str = "text"
    clear: float = 0.0
    """Room kept free round the point."""


class Along(NamedTuple):
    """Words along a line, on either side of it; `wordings` are one or more, the best first."""

    start: XY
    end: XY
    wordings: tuple[str, ...]
    height: float
    layer: str = "text"
    off: tuple[float, ...] = (1.0,)
    """Gaps between the line and the words that may be tried, the best first."""
    needed: bool = False
    """Whether the words must be there, on a stroke or beside the line's middle if need be."""


Note = Beside | Along


class PlacedNote(NamedTuple):
    """A note that has found its place."""

    note: Note
    lines: tuple[tuple[XY, str], ...]
    """Each line of words with its place, left on the baseline."""
    angle: float
    box: tuple[XY, ...]
    """The corners of what the words cover."""
    leader: tuple[XY, XY] | None
    crossed: int
    """How many strokes the words lie on, for want of any free place."""

    def draw(self, pen: Pen) -> None:
        """Write the words, and their leader."""
        if self.leader:
            pen.line("leader", *self.leader)
        for at, words in self.lines:
            pen.text(self.note.layer, at, words, self.note.height, angle=self.angle)


class _Places(NamedTuple):
    """Places that come into question for one wording: boxes of one size, and how well each would do."""

    wording: tuple[str, ...]
    starts: Numbers  # [place, x or y]: the lower left corner of the words as they are read
    corners: Numbers  # [corner, x or y]: of the words, from there, counter-clockwise
    costs: Numbers  # 0 is best
    after: float
    """No place that is yielded later costs less than this."""
    angle: float = 0.0
    tied: "Beside | None" = None
    """The note whose point a leader goes to from words that stand off."""

    def boxes(self, some: Indices) -> Shapes:
        """Return some of the boxes as shapes; those that lie level or upright are quicker to make."""
        starts = self.starts[some]
        if self.angle % 90:
            return _many(shapely.polygons(starts[:, None] + self.corners))
        low, high = starts + self.corners.min(axis=0), starts + self.corners.max(axis=0)
        return _many(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))

    def leaders(self, some: Indices) -> Numbers:
        """Return the lines that tie some level boxes to their point, from the rim of the room kept clear.

        As [place, end, x or y]: from near the point to the words, NaN where they need none.
        """
        low = self.starts[some]
        leaders = np.full((len(low), 2, 2), np.nan)
        if self.tied:
            point = np.array(self.tied.at)
            off = np.maximum(low, np.minimum(point, low + self.corners[2])) - point
            away = np.hypot(off[:, 0], off[:, 1])
            far = away > self.tied.clear + TIED * self.tied.height
            if far.any():
                leaders[far, 0] = point + (self.tied.clear / away[far])[:, None] * off[far]
                leaders[far, 1] = point + off[far]
        return leaders


class _Found(NamedTuple):
    """The best of some places, and how many strokes it lies on."""

    places: _Places
    which: int
    crossed: int

    @property
    def cost(self) -> float:
        """How well it would do, 0 is best."""
        return float(self.places.costs[self.which])

    @property
    def worth(self) -> tuple[int, float]:
        """What counts first, and then: fewer strokes, less cost."""
        return self.crossed, self.cost


class _Search(NamedTuple):
    """What a place must keep off: strokes, words and leaders that stand already, other notes' points."""

    tree: shapely.STRtree
    words: Shapes
    points: Shapes


def place(notes: Sequence[Note], window: Bounds, drawn: Recorder) -> tuple[PlacedNote, ...]:
    """Find a place for each note, in order, so that what matters most comes first.

    Words that must be there get smaller where otherwise they would cover a stroke or other words.

    Args:
        notes: What to place; those whose point lies outside the window are left out.
        window: Where words may stand: x min, y min, x max, y max.
        drawn: The strokes that words must not cover.
    """
    tree = shapely.STRtree(_shapes(drawn))
    order = [index for index, note in enumerate(notes) if _shows(note, window)]
    needed = {index for index in order if isinstance(note := notes[index], Beside) or note.needed}
    best: dict[int, PlacedNote] = {}
    fewest = math.inf
    for _ in range(_TRIES):
        placed = _place(notes, order, window, tree)
        badly = [index for index in order if index in needed and not _well(placed.get(index), notes[index])]
        if len(badly) < fewest:
            best, fewest = placed, len(badly)
        if not badly or order[: len(badly)] == badly:
            break
        order = [*badly, *(index for index in order if index not in badly)]
    return tuple(best[index] for index in sorted(best))


def _well(found: PlacedNote | None, note: Note) -> bool:
    """Return whether a note stands as it should: off all strokes and at its full height."""
    return found is not None and not found.crossed and found.note.height == note.height


def _shows(note: Note, window: Bounds) -> bool:
    """Return whether a point lies in the window, or some of a line."""
    if isinstance(note, Along):
        return bool(shapely.length(shapely.clip_by_rect(shapely.LineString((note.start, note.end)), *window)))
    return window[0] <= note.at[0] <= window[2] and window[1] <= note.at[1] <= window[3]


def _place(
    notes: Sequence[Note], order: Sequence[int], window: Bounds, tree: shapely.STRtree
) -> dict[int, PlacedNote]:
    """Find places for the notes one after the other; those that find none are left out."""
    placed: dict[int, PlacedNote] = {}
    taken: list[shapely.Geometry] = []
    points = [note.at for index in order if isinstance(note := notes[index], Beside)]
    for index in order:
        note = notes[index]
        others = [at for at in points if not isinstance(note, Beside) or at != note.at]
        found = _at_some_size(note, window, tree, taken, others)
        if found:
            placed[index] = found
            taken.append(shapely.Polygon(found.box))
            if found.leader:
                taken.append(shapely.LineString(found.leader))
    return placed


def _at_some_size(
    note: Note,
    window: Bounds,
    tree: shapely.STRtree,
    taken: Sequence[shapely.Geometry],
    others: Sequence[XY],
) -> PlacedNote | None:
    """Return a note off all strokes, smaller if need be; or else on strokes, as large as it can be.

    The last resort for words beside a point is a leader that crosses what stands already.
    """
    on_strokes = None
    for size in SMALLER if isinstance(note, Beside) or note.needed else SMALLER[:1]:
        found = _find(note._replace(height=size * note.height), window, tree, taken, others)
        if found and not found.crossed:
            return found
        on_strokes = on_strokes or found
    if on_strokes is None and isinstance(note, Beside):
        return _find(
            note._replace(height=SMALLER[-1] * note.height), window, tree, taken, others, strict=False
        )
    return on_strokes


def _find(
    note: Note,
    window: Bounds,
    tree: shapely.STRtree,
    taken: Sequence[shapely.Geometry],
    others: Sequence[XY],
    *,
    strict: bool = True,
) -> PlacedNote | None:
    """Return a note at the best of its places: on no words, and on no strokes or as few as can be.

    Unless `strict`, leaders may cross words and each other.
    """
    search = _Search(tree, np.array(taken, dtype=object), _many(shapely.points(np.reshape(others, (-1, 2)))))
    best: _Found | None = None
    for places in _places(note, window):
        found = _best(places, search, strict, math.inf if best is None or best.crossed else best.cost)
        if found and (best is None or found.worth < best.worth):
            best = found
        if best and not best.crossed and best.cost <= places.after:
            break  # no place that has not been made yet is better
    if best is None or (best.crossed and isinstance(note, Along) and not note.needed):
        return None
    return _set(note, best)


def _best(places: _Places, search: _Search, strict: bool, below: float) -> _Found | None:
    """Return the best of some places that cost less: on no words, and on no strokes or as few as can be."""
    fewest, chosen = math.inf, -1
    order = np.argsort(places.costs, kind="stable")
    order = order[: np.searchsorted(places.costs[order], below)]
    begin, end = 0, _FIRST
    while begin < len(order) and fewest:
        some = order[begin:end]
        begin, end = end, 4 * end
        shapes = places.boxes(some)
        bad = np.zeros(len(some), dtype=bool)
        if len(search.words):
            bad |= shapely.intersects(shapes[:, None], search.words).any(axis=1)
        if strict and places.tied:
            bad |= _blocked(places.leaders(some), search.words, search.points)
        if bad.any():
            some, shapes = some[~bad], shapes[~bad]
        if not len(some):
            continue
        crossed = np.bincount(search.tree.query(shapes, predicate="intersects")[0], minlength=len(shapes))
        first = int(crossed.argmin())
        if crossed[first] < fewest:
            chosen, fewest = int(some[first]), int(crossed[first])
    return None if chosen < 0 else _Found(places, chosen, int(fewest))


def _places(note: Note, window: Bounds) -> Iterator[_Places]:
    yield from _beside(note, window) if isinstance(note, Beside) else _along(note, window)


def _beside(note: Beside, window: Bounds) -> Iterator[_Places]:
    """Yield boxes on a grid about the point, inside the window, those near it first."""
    for inner, outer in ((0.0, NEAR * note.height), (NEAR * note.height, FAR * note.height)):
        for index in range(len(note.wordings)):
            yield _ring(note, index, window, inner, outer)


def _ring(note: Beside, index: int, window: Bounds, inner: float, outer: float) -> _Places:
    """Return boxes for one of a note's wordings at least `inner` and less than `outer` from its point."""
    (x, y), wording, worse = note.at, note.wordings[index], SHORTER * note.height
    wide, high = _size(wording, note.height, note.layer)
    lefts = _near(x, wide, note, outer, window[0], window[2])
    lows = _near(y, high, note, outer, window[1], window[3])[:, None]
    off_x = np.maximum(np.maximum(lefts - x, x - lefts - wide), 0)
    off_y = np.maximum(np.maximum(lows - y, y - lows - high), 0)
    away = np.hypot(off_x, off_y)
    rows, columns = np.nonzero((away >= max(inner, note.clear)) & (away < outer))
    left, low = lefts[columns], lows[rows, 0]
    # Of places as near, level with the point is best, then to the right of it and above.
    rank = np.abs(low + high / 2 - y) / 1000 + (left + wide / 2 < x) / 100 + (low + high / 2 < y) / 200
    costs = away[rows, columns] + rank + index * worse
    later = outer if index == len(note.wordings) - 1 else min(outer, inner + (index + 1) * worse)
    return _Places(wording, np.array((left, low)).T, _corners(wide, high), costs, later, tied=note)


def _along(note: Along, window: Bounds) -> Iterator[_Places]:
    """Yield boxes along what is seen of the line, from its middle, on both sides of it."""
    seen = shapely.clip_by_rect(shapely.LineString((note.start, note.end)), *window)
    assert isinstance(seen, shapely.LineString), "a line that does not show has no place"
    (x0, y0), (x1, y1) = sorted(seen.coords, key=lambda at: (round(at[0], 6), at[1]))
    way = np.array(((x1 - x0) / seen.length, (y1 - y0) / seen.length))
    up, angle = np.array((-way[1], way[0])), math.degrees(math.atan2(way[1], way[0]))
    gaps = np.array(note.off)
    for index, words in enumerate(note.wordings):
        wide, high = _size((words,), note.height, note.layer)
        starts = _steps((seen.length - wide) / 2, STEP * note.height, 0.0, seen.length - wide)
        sides = np.stack((gaps, -gaps - high), axis=-1)  # [gap, side]: above the line, below it
        at = (x0, y0) + starts[:, None] * way + sides[:, :, None, None] * up  # [gap, side, start, x or y]
        off_middle = np.abs(starts + wide / 2 - seen.length / 2)
        rank = np.arange(len(gaps))[:, None, None] * _NEXT + np.array((0.0, 0.01))[:, None]
        costs = (off_middle + rank + index * 10 * _NEXT).ravel()
        later = (index + 1) * 10 * _NEXT
        corners = _corners(wide, high, angle)
        at = at.reshape(-1, 2)
        inside = (at + corners.min(axis=0) >= window[:2]) & (at + corners.max(axis=0) <= window[2:])
        kept = inside[:, 0] & inside[:, 1]
        yield _Places((words,), at[kept], corners, costs[kept], later, angle)
    if note.needed:
        middle, last = ((x0 + x1) / 2, (y0 + y1) / 2), note.wordings[-1]
        wordings = (*((words,) for words in note.wordings), tuple(last.split()))
        for places in _beside(Beside(middle, wordings, note.height, note.layer, note.off[0]), window):
            yield places._replace(costs=places.costs + 1000 * _NEXT, after=places.after + 1000 * _NEXT)


def _near(at: float, size: float, note: Beside, reach: float, low: float, high: float) -> Numbers:
    """Return where boxes about a point may begin along one axis, from `low` to `high`."""
    step = STEP * note.height
    steps = _steps(at - size / 2, step, max(low, at - reach - size), min(high - size, at + reach))
    close = np.array([at + note.clear, at - note.clear - size])  # as near as can be, on either side
    return np.concatenate([steps, close[(close >= low) & (close <= high - size)]])


def _size(wording: Sequence[str], height: float, layer: str) -> XY:
    """Return width and height of a block of lines with the room round it."""
    wide = max(text_width(words, height, bold=is_bold(layer)) for words in wording)
    high = (len(wording) - 1) * LEADING + RISE + SINK
    return wide + 2 * PAD * height, (high + 2 * PAD) * height


def _set(note: Note, found: _Found) -> PlacedNote:
    places, chosen = found.places, np.array([found.which])
    box = places.starts[found.which] + places.corners
    ((from_x, from_y), (to_x, to_y)) = places.leaders(chosen)[0].tolist()
    leader = None if math.isnan(from_x) else ((from_x, from_y), (to_x, to_y))
    cos, sin = math.cos(math.radians(places.angle)), math.sin(math.radians(places.angle))
    x, y = box[0]
    lines = []
    for index, words in enumerate(reversed(places.wording)):
        a, b = PAD * note.height, (PAD + SINK + index * LEADING) * note.height
        lines.append(((float(x + a * cos - b * sin), float(y + a * sin + b * cos)), words))
    corners = tuple((float(cx), float(cy)) for cx, cy in box)
    return PlacedNote(note, tuple(reversed(lines)), places.angle, corners, leader, found.crossed)


def _blocked(leaders: Numbers, words: Shapes, points: Shapes) -> "np.ndarray[Any, np.dtype[np.bool_]]":
    """Return which leaders cross words or another leader, or pass through another note's point."""
    there = ~np.isnan(leaders[:, 0, 0])
    blocked = np.zeros(len(leaders), dtype=bool)
    if not there.any():
        return blocked
    lines = _many(shapely.linestrings(leaders[there]))[:, None]
    across = shapely.intersects(lines, words).any(axis=1)
    through = shapely.dwithin(lines, points, THROUGH).any(axis=1)
    blocked[there] = across | through
    return blocked


def _steps(middle: float, step: float, low: float, high: float) -> Numbers:
    """Return values a step apart, one of them `middle`, from low to high; both ends as well."""
    if high < low:
        return np.empty(0)
    inner = middle + step * np.arange(
        math.ceil((low - middle) / step), math.floor((high - middle) / step) + 1
    )
    return np.concatenate([inner, [low, high]])


def _corners(wide: float, high: float, angle: float = 0.0) -> Numbers:
    """Return the corners of a turned box from its first one, counter-clockwise."""
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return np.array(
        [
            (0.0, 0.0),
            (wide * cos, wide * sin),
            (wide * cos - high * sin, wide * sin + high * cos),
            (-high * sin, high * cos),
        ]
    )


def _many(made: object) -> Shapes:
    """Return what shapely made of an array as an array, of one or of none too."""
    return np.atleast_1d(np.asarray(made, dtype=object))


def _shapes(drawn: Recorder) -> list[shapely.Geometry]:
    """Return the edges of all strokes; words count as their lines, dimensions as what they measure."""
    return [shape for stroke in drawn.strokes if (shape := _shape(stroke)) is not None]


def _shape(stroke: Stroke) -> shapely.Geometry | None:
    values = stroke.values
    if stroke.verb == "line":
        return shapely.LineString((values["start"], values["end"]))
    if stroke.verb == "polyline":
        points = values["points"]
        return shapely.LineString((*points, points[0]) if values["closed"] else points)
    if stroke.verb in ("circle", "arc"):
        start, end = (values["start"], values["end"]) if stroke.verb == "arc" else (0.0, 360.0)
        turn = np.radians(np.linspace(start, start + ((end - start) % 360 or 360), 33))
        x, y = values["centre"]
        return shapely.LineString(
            np.stack([x + values["radius"] * np.cos(turn), y + values["radius"] * np.sin(turn)], axis=-1)
        )
    return None
