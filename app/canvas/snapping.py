"""Snapping: a moving thing is drawn to lines near it, and the guides say to which. Pure sums in mm, no Qt.

What moves offers anchors: its centre, and its edges. What stays offers targets: lines, edges, tile joints.
A centre snaps to lines, an edge to edges; a joint draws both. The tolerance comes in mm, worked out from
pixels by who calls.
"""

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from geometry.model import XY

Axis = Literal["x", "y"]
SAME = 0.05
"""Coordinates closer than this are one: half of the model's grid, mm."""
PULL: dict[str, float] = {"centre": 1.0, "edge": 0.5}
"""What share of the tolerance counts: there are many edges, and they are seldom what is meant."""


class Target(NamedTuple):
    """A plumb line (axis "x") or a level one (axis "y") that draws; `every` is above 0 where it repeats.

    One without a word draws without a guide.
    """

    axis: Axis
    at: float
    word: str
    kind: Literal["line", "edge", "joint"] = "line"
    every: float = 0.0

    def nearest(self, place: float) -> float:
        """Return its line nearest to a place."""
        if self.every <= 0:
            return self.at
        return self.at + round((place - self.at) / self.every) * self.every


class Anchor(NamedTuple):
    """A line of what moves, before the move."""

    axis: Axis
    at: float
    kind: Literal["centre", "edge"] = "centre"


class Guide(NamedTuple):
    """A line on which something moving has come to lie, and what it is."""

    axis: Axis
    at: float
    word: str


class Snapped(NamedTuple):
    """How far to move, and the guides to show."""

    dx: float
    dy: float
    guides: tuple[Guide, ...] = ()


def snapped(
    anchors: Sequence[Anchor],
    targets: Sequence[Target],
    dx: float,
    dy: float,
    tolerance: float,
    rest: XY | None = None,
) -> Snapped:
    """Return a move drawn to the nearest targets, each axis by itself.

    Args:
        anchors: of what moves.
        targets: of what stays; of two as near the first wins.
        dx: where the hand has moved it to, in mm.
        dy: likewise.
        tolerance: a target farther off than this does not draw.
        rest: the move on an axis where nothing draws, if it is not to be the hand's own.
    """
    plain_x, plain_y = rest or (dx, dy)
    dx = _drawn(anchors, targets, "x", dx, tolerance, plain_x)
    dy = _drawn(anchors, targets, "y", dy, tolerance, plain_y)
    return Snapped(dx, dy, tuple(_guides(anchors, targets, dx, dy)))


def whole(anchors: Sequence[Anchor], datum: XY, dx: float, dy: float) -> XY:
    """Return a move after which the first anchor of each axis lies a whole mm from the datum."""
    steps = {"x": dx, "y": dy}
    for axis, origin in (("x", datum[0]), ("y", datum[1])):
        first = next((anchor.at for anchor in anchors if anchor.axis == axis), None)
        if first is not None:
            steps[axis] = round(first + steps[axis] - origin) + origin - first
    return steps["x"], steps["y"]


def _matches(anchor: Anchor, target: Target) -> bool:
    wanted = "line" if anchor.kind == "centre" else "edge"
    return anchor.axis == target.axis and target.kind in (wanted, "joint")


def _drawn(
    anchors: Sequence[Anchor],
    targets: Sequence[Target],
    axis: Axis,
    step: float,
    tolerance: float,
    plain: float,
) -> float:
    near = [
        exact
        for target in targets
        for anchor in anchors
        if target.axis == axis and _matches(anchor, target)
        if abs((exact := target.nearest(anchor.at + step) - anchor.at) - step)
        <= tolerance * PULL[anchor.kind]
    ]
    return min(near, key=lambda move: round(abs(move - step), 6), default=plain)


def _guides(anchors: Sequence[Anchor], targets: Sequence[Target], dx: float, dy: float) -> Iterator[Guide]:
    """Go through the lines on which an anchor lies, each once with all its words."""
    words: dict[tuple[Axis, float], list[str]] = {}
    for target in targets:
        for anchor in anchors:
            place = anchor.at + (dx if anchor.axis == "x" else dy)
            if target.word and _matches(anchor, target) and abs(target.nearest(place) - place) < SAME:
                found = words.setdefault((target.axis, round(target.nearest(place), 1)), [])
                if target.word not in found:
                    found.append(target.word)
    for (axis, at), found in words.items():
        yield Guide(axis, at, ", ".join(found))
