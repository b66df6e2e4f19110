"""Names beside the wall: a column of labels with leaders, and the spreading that keeps texts apart.

Model millimetres; sizes on paper are multiplied by the scale. The column stands to the right of the
wall. With many labels the lettering gets smaller, then there are two columns, and the column grows.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from export.pen import XY, Pen
from export.text import RISE, SINK, fitted, text_width, wrapped
from geometry.shape.outline import Bounds

LETTERING = 2.5  # mm on paper, ISO 3098 series, from memory
DENSE = 1.8  # mm on paper, the next size down in the series, for crowded drawings only
OFF_WALL = 7.0  # mm on paper from what is drawn to the labels, in which leaders bend
SHELF = 2.5  # mm on paper of leader that is level, before the text
BEFORE = 0.4  # of the lettering, between leader and text
APART = 0.45  # of the lettering, between two labels
DOT = 0.5  # mm on paper, radius of the ring at the feature
ELLIPSIS = "…"  # with which a text that is too long ends
LEAST_ROOM = 140.0  # mm on paper; every paper has this much height, so a column may use it


def spread(
    wanted: Sequence[float],
    gaps: Sequence[float],
    low: float = float("-inf"),
    high: float = float("inf"),
) -> list[float]:
    """Move places along a line no more than is needed to keep neighbours apart.

    The order is kept and the sum of squared moves is the least possible (isotonic regression by pooling
    neighbours, a textbook method, on the places less the gaps before them).

    Args:
        wanted: where each would like to be; the order in which they are given is kept.
        gaps: the least distance from each to the next, one fewer than there are places.
        low: none lies below this.
        high: none lies above this.

    Raises:
        ValueError: there is not enough room from `low` to `high`.
    """
    if not wanted:
        return []
    offsets = [0.0]
    for gap in gaps:
        offsets.append(offsets[-1] + gap)
    if offsets[-1] > high - low + 1e-9:
        raise ValueError(f"{len(wanted)} labels need {offsets[-1]:g} mm, there are {high - low:g} mm")
    pools: list[tuple[float, int]] = []  # sum and count of neighbours that move as one
    for place, offset in zip(wanted, offsets, strict=True):
        total, count = place - offset, 1
        while pools and pools[-1][0] / pools[-1][1] > total / count:
            before, many = pools.pop()
            total, count = total + before, count + many
        pools.append((total, count))
    last = max(high - offsets[-1], low)
    settled = [min(max(total / count, low), last) for total, count in pools for _ in range(count)]
    return [place + offset for place, offset in zip(settled, offsets, strict=True)]


class Label(NamedTuple):
    """What to write, and the point on the wall that it names."""

    text: str
    feature: XY


class PlacedLabel(NamedTuple):
    """A label in its column: its lines, where its leader is level from, where they begin, their middle."""

    label: Label
    lines: tuple[str, ...]
    knee: float
    x: float
    y: float
    height: float

    @property
    def leader(self) -> tuple[XY, XY, XY]:
        """From the feature straight to the column, and level to the text."""
        return self.label.feature, (self.knee, self.y), (self.x - BEFORE * self.height, self.y)

    @property
    def cut(self) -> bool:
        """Whether its text had to be shortened."""
        return self.lines[-1].endswith(ELLIPSIS) and not self.label.text.endswith(ELLIPSIS)

    @property
    def box(self) -> Bounds:
        """The room that its letters take up."""
        width = max(text_width(line, self.height) for line in self.lines)
        half = _tall(len(self.lines), self.height) / 2
        return self.x, self.y - half, self.x + width, self.y + half


class Style(NamedTuple):
    """How labels are written: lettering in mm on paper, most lines each, columns, and room in mm on paper.

    The column is never so high that the wall has to be drawn smaller for it: `room` is what any paper has.
    """

    height: float
    lines: int
    columns: int
    room: float = 0.0


STYLES = (
    Style(LETTERING, 2, 1),
    Style(LETTERING, 1, 1),
    Style(LETTERING, 1, 1, LEAST_ROOM),
    Style(DENSE, 1, 1, LEAST_ROOM),
    Style(DENSE, 1, 2),
)
"""From the most legible to the one that holds the most, which grows above the wall as far as it must."""


def label_column(
    labels: Sequence[Label], beside: Bounds, scale: float, widest: float
) -> tuple[PlacedLabel, ...]:
    """Place labels to the right of a drawing so that no two touch.

    The first style in which they fit beside the drawing is taken; the last grows above it.

    Args:
        labels: in any order.
        beside: the bounds of what is drawn, which the labels stand clear of.
        scale: 20 for 1:20.
        widest: the longest line, in mm on paper; a longer text is broken, then shortened.
    """
    _, low, right, top = beside
    x = right + OFF_WALL * scale
    for style in STYLES:
        texts = [_lines(label.text, style, scale, widest * scale) for label in labels]
        needed = sum(_tall(len(lines), style.height * scale) for lines in texts) / style.columns
        needed += APART * style.height * scale * len(labels) / style.columns
        if needed <= max(top - low, style.room * scale):
            break
    return _placed(labels, texts, style, (x, x + (widest + SHELF) * scale), low, scale)


def _lines(text: str, style: Style, scale: float, width: float) -> tuple[str, ...]:
    """Break a text into the lines of a style; the last is shortened if there is more."""
    height = style.height * scale
    lines = wrapped(text, height, width) or [""]
    kept = lines[: style.lines - 1]
    rest = " ".join(lines[style.lines - 1 :])
    return (*kept, fitted(rest, height, width)) if rest else tuple(kept)


def _tall(lines: int, height: float) -> float:
    """Return how much height the letters of some lines take up, accents and tails included."""
    return ((RISE + SINK) * lines + 0.1 * (lines - 1)) * height


def _placed(
    labels: Sequence[Label],
    texts: Sequence[tuple[str, ...]],
    style: Style,
    lefts: tuple[float, float],
    low: float,
    scale: float,
) -> tuple[PlacedLabel, ...]:
    """Spread the labels up the column, then let neighbours whose leaders cross change places."""
    height = style.height * scale
    order = sorted(range(len(labels)), key=lambda i: (labels[i].feature[1], -labels[i].feature[0]))

    def column(order: Sequence[int]) -> list[PlacedLabel]:
        halves = [_tall(len(texts[i]), height) / 2 for i in order]
        gaps = [(a + b + APART * height) / style.columns for a, b in pairwise(halves)]
        wanted = [labels[i].feature[1] for i in order]
        lowest = low + halves[0] if halves else low
        places = spread(wanted, gaps, low=lowest)
        knee = lefts[0] - SHELF * scale
        return [
            PlacedLabel(labels[i], texts[i], knee, lefts[0], y, height)
            for i, y in zip(order, places, strict=True)
        ]

    placed = column(order)
    for _ in range(len(order)):
        swaps = [i for i in range(len(placed) - 1) if _cross(placed[i], placed[i + 1])]
        if not swaps:
            break
        for i in swaps:
            order[i], order[i + 1] = order[i + 1], order[i]
        placed = column(order)
    if style.columns == 2:
        # Leaders to the second column pass between two labels of the first.
        placed = [one._replace(x=lefts[1]) if i % 2 else one for i, one in enumerate(placed)]
    return tuple(placed)


def _cross(a: PlacedLabel, b: PlacedLabel) -> bool:
    """Return whether the slanting parts of two leaders cross."""
    (p, q), (r, s) = a.leader[:2], b.leader[:2]
    return _side(p, q, r) * _side(p, q, s) < 0 and _side(r, s, p) * _side(r, s, q) < 0


def _side(a: XY, b: XY, c: XY) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def draw_labels(pen: Pen, column: Sequence[PlacedLabel], scale: float) -> None:
    """Draw the labels with a ring at each feature and a thin leader."""
    for placed in column:
        pen.circle("leader", placed.label.feature, DOT * scale)
        pen.polyline("leader", placed.leader)
        top = placed.box[3]
        for number, line in enumerate(placed.lines):
            down = (RISE + number * (RISE + SINK + 0.1)) * placed.height
            pen.text("text", (placed.x, top - down), line, placed.height)


def leaders(column: Sequence[PlacedLabel]) -> Iterator[tuple[XY, XY]]:
    """Go through the straight pieces of all leaders."""
    for placed in column:
        yield from pairwise(placed.leader)
