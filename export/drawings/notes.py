"""Notes: words set beside a point or along a line, where they cover neither a stroke nor each other.

The places that come into question are tried all at once, from the nearest, so a note stands as near
as it can to what it belongs to; one that stands off is tied to its point by a leader. Coordinates
are those of the drawing, at the size at which it is seen. Nothing here knows what the words mean.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import shapely

from export.drawings.note_places import (
    LEADING,
    PAD,
    Along,
    Beside,
    Note,
    Places,
    many,
    places_for,
)
from export.pen import XY, Pen
from export.recorder import Recorder, Stroke
from export.text import SINK
from geometry.arrays import Flags, Floats, Shapes
from geometry.shape.outline import Bounds

# All as shares of the text height; chosen by looking, no source.
THROUGH = 0.5  # mm; a leader this near to another note's point would seem to belong to it
SMALLER = (1.0, 0.7, 0.5)  # shares of its height at which words that must be there are tried
_TRIES = 2  # how often all are placed anew, those first that stood badly
_FIRST = 8  # how many places are tried at once, from the best; then four times as many, and so on


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


class _Found(NamedTuple):
    """The best of some places, and how many strokes it lies on."""

    places: Places
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
    search = _Search(tree, np.array(taken, dtype=object), many(shapely.points(np.reshape(others, (-1, 2)))))
    best: _Found | None = None
    for places in places_for(note, window):
        found = _best(places, search, strict, math.inf if best is None or best.crossed else best.cost)
        if found and (best is None or found.worth < best.worth):
            best = found
        if best and not best.crossed and best.cost <= places.after:
            break  # no place that has not been made yet is better
    if best is None or (best.crossed and isinstance(note, Along) and not note.needed):
        return None
    return _set(note, best)


def _best(places: Places, search: _Search, strict: bool, below: float) -> _Found | None:
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


def _blocked(leaders: Floats, words: Shapes, points: Shapes) -> Flags:
    """Return which leaders cross words or another leader, or pass through another note's point."""
    there = ~np.isnan(leaders[:, 0, 0])
    blocked = np.zeros(len(leaders), dtype=bool)
    if not there.any():
        return blocked
    lines = many(shapely.linestrings(leaders[there]))[:, None]
    across = shapely.intersects(lines, words).any(axis=1)
    through = shapely.dwithin(lines, points, THROUGH).any(axis=1)
    blocked[there] = across | through
    return blocked


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
