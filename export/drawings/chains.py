"""Running dimension chains: distances along the wall below the floor, heights at the left of the wall.

Every number counts from one datum: the tray's left edge, or the finished tray floor. Model
millimetres; sizes on paper are multiplied by the scale. Tags never touch: they are spread, and each
has a leader to what it measures.
"""

from collections.abc import Sequence
from typing import NamedTuple

from export.drawings.extent import wall_extent
from export.drawings.labels import APART, DENSE, LEAST_ROOM, LETTERING, spread
from export.drawings.marks import enclosed
from export.drawings.names import datum_words
from export.pen import XY, Axis, Pen
from export.plain_dimensions import CLEAR
from export.text import RISE, SINK, text_width
from geometry.plan import Plan
from geometry.setting_out.chains import Mark, across, upward
from geometry.setting_out.lines import lines
from geometry.shape.outline import Bounds
from geometry.units import number

OFF_WALL = 5.0  # mm on paper, from what is drawn to the tags
BENDS = 12.0  # mm on paper, the most that leaders get to bend in; with less room they only run steeper
TALL = RISE + SINK + APART  # of the lettering, from one tag to the next
LINES = ("tray edge", "quarter line", "centre line", "tray floor")
"""The marks that are no fittings; a tag names them first."""


class Tag(NamedTuple):
    """One running dimension: what is measured, the edge of the drawing, where its leader ends, the text."""

    feature: XY
    edge: XY
    at: XY
    text: str


class Chain(NamedTuple):
    """A running dimension chain, in model mm; `axis` is that along which it measures."""

    axis: Axis
    origin: XY
    height: float
    tags: tuple[Tag, ...]

    @property
    def boxes(self) -> tuple[Bounds, ...]:
        """The room that the text of each tag takes up."""
        return tuple(self._box(tag) for tag in self.tags)

    def _box(self, tag: Tag) -> Bounds:
        x, y = tag.at
        near, far = CLEAR * self.height, CLEAR * self.height + text_width(tag.text, self.height)
        below, above = (0.5 + SINK) * self.height, (RISE - 0.5) * self.height
        if self.axis == "y":
            return x - far, y - below, x - near, y + above
        return x - above, y - far, x + below, y - near


def chain_across(plan: Plan, scale: float, longest: float) -> Chain:
    """Return the distances along the wall, with their tags below everything that is drawn.

    Args:
        plan: the job with its parts.
        scale: 20 for 1:20.
        longest: room for the text of a tag, in mm on paper; too little for any name leaves the number.
    """
    low = wall_extent(plan)[1]
    heights = {fitting.id: fitting.height for fitting in plan.job.fittings}
    marks = across(plan)

    def feature(mark: Mark) -> XY:
        up = [heights[label] for label in mark.labels if label in heights]
        datum = any(label in LINES for label in mark.labels)
        return mark.at, low if datum or not up else min(up)

    texts = _texts(plan, marks, longest)
    return chain("x", _origin(plan), [feature(mark) for mark in marks], texts, low, scale)


def chain_upward(plan: Plan, scale: float, longest: float) -> Chain:
    """Return the heights, with their tags to the left of everything that is drawn; see `chain_across`."""
    left, low, _, _ = wall_extent(plan)
    marks = upward(plan)
    places = {fitting.id: fitting.x for fitting in plan.job.fittings}

    def feature(mark: Mark) -> XY:
        owners = [fitting for label in mark.labels for fitting in places if _is_of(label, fitting)]
        return min((places[owner] for owner in owners), default=plan.job.enclosure.left), mark.at

    texts = _texts(plan, marks, longest)
    return chain("y", _origin(plan), [feature(mark) for mark in marks], texts, left, scale, low)


def chain(
    axis: Axis,
    origin: XY,
    features: Sequence[XY],
    texts: Sequence[str],
    edge: float,
    scale: float,
    low: float = float("-inf"),
) -> Chain:
    """Return a running chain whose tags stand below the drawing (axis x) or to its left (axis y).

    Args:
        axis: along which it measures.
        origin: what all its numbers count from.
        features: what is measured, in rising order along the axis.
        texts: of the tags.
        edge: the drawing's lower or left edge.
        scale: 20 for 1:20.
        low: along the axis, no tag reaches below this.
    """

    def onto(along: float, out: float) -> XY:
        return (along, out) if axis == "x" else (out, along)

    height = _lettering(len(features)) * scale
    gap = TALL * height
    wanted = [feature["xy".index(axis)] for feature in features]
    places = spread(wanted, [gap] * (len(wanted) - 1), low=low + (0.5 + SINK) * height)
    bend = max(abs(a - b) for a, b in zip(places, wanted, strict=True))
    line = edge - min(max(OFF_WALL, bend / scale + 1.5), BENDS) * scale
    tags = [
        Tag(feature, onto(at, edge), onto(place, line), text)
        for feature, at, place, text in zip(features, wanted, places, texts, strict=True)
    ]
    return Chain(axis, origin, height, tuple(tags))


def _lettering(count: int) -> float:
    """Return the height of so many tags' text, in mm on paper."""
    return LETTERING if TALL * LETTERING * count <= LEAST_ROOM else DENSE


def _origin(plan: Plan) -> XY:
    held = lines(plan.job.enclosure)
    return held.left, held.floor


def _is_of(label: str, fitting: str) -> bool:
    """Return whether a mark's label is of a fitting: its id, or its id and which fixing of it."""
    return label in (fitting, f"{fitting} low fixing", f"{fitting} high fixing")


def _texts(plan: Plan, marks: Sequence[Mark], longest: float) -> list[str]:
    height = _lettering(len(marks))
    return [_text(mark.distance, _names(plan, mark), height, longest) for mark in marks]


def _names(plan: Plan, mark: Mark) -> list[str]:
    """Return the names of a mark, lines of the datum first; what is called a tray there may be a bath."""
    words = datum_words(enclosed(plan))
    names = sorted(dict.fromkeys(mark.labels), key=lambda name: name not in LINES)
    return [words.get(name, name) for name in names]


def _text(distance: float, names: list[str], height: float, room: float) -> str:
    """Return the distance and as many names as there is room for, none if there is room for none."""
    texts = [f"{number(distance)} {', '.join(names[:count])}" for count in range(len(names), 0, -1)]
    fitting = [text for text in texts if text_width(text, height) <= room]
    return fitting[0] if fitting else number(distance)


def draw_chain(pen: Pen, chain: Chain) -> None:
    """Draw every running dimension of a chain, with a thin line to it from what it measures."""
    for tag in chain.tags:
        if tag.feature != tag.edge:
            pen.line("leader", tag.feature, tag.edge)
        pen.running("dimension", chain.origin, tag.edge, tag.at, chain.axis, tag.text, chain.height)
