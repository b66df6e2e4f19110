"""Snapping: a moving thing is drawn to lines near it, and the guides say to which. Pure sums in mm, no Qt.

What moves offers anchors: its centre, and its edges. What stays offers targets: lines of the tray, centres
and edges of other things, tile joints. A centre snaps to lines and centres, an edge to edges; a joint draws
both. The tolerance comes in mm, worked out from pixels by who calls.
"""

from collections.abc import Collection, Iterator, Sequence
from typing import Literal, NamedTuple

from export.drawings.marks import enclosed
from geometry.edits.refs import Ref, things
from geometry.model import XY, Accessory, Cable, Head, Joist, OldPipe, Opening, Pipe, Rail, Stud, Tiling
from geometry.plan import Plan
from geometry.setting_out.lines import lines
from geometry.shape.outline import Bounds

Axis = Literal["x", "y"]
SAME = 0.05
"""Coordinates closer than this are one: half of the model's grid, mm."""
_AT_THE_FACE = ("plate", "flange", "head", "ceiling flange", "rail", "bracket", "spout")
"""Solids of a fitting whose edges people see and line up."""


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


# what moves and what stays


def anchors_of(plan: Plan, moving: Collection[Ref]) -> tuple[Anchor, ...]:
    """Return the anchors of the things that move: the centre of each, and the edges round all of them."""
    everything = things(plan.job)
    centres = [anchor for ref in moving if ref in everything for anchor in _centres(plan, ref)]
    boxes = [box for ref in moving if (box := face_box(plan, ref))]
    if not boxes:
        return tuple(centres)
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    edges = (
        Anchor("x", min(x0), "edge"), Anchor("x", max(x1), "edge"),
        Anchor("y", min(y0), "edge"), Anchor("y", max(y1), "edge"),
    )  # fmt: skip
    return (*centres, *edges)


def targets_of(plan: Plan, moving: Collection[Ref] = ()) -> tuple[Target, ...]:
    """Return the targets of all that stays; what matters most comes first."""
    return (*_datums(plan), *_others(plan, moving), *_edges(plan, moving), *_joints(plan.job.finish.tiling))


def as_it_was(anchors: Sequence[Anchor]) -> tuple[Target, ...]:
    """Return targets by which what moves keeps its level while it goes across, and the other way round."""
    found = {
        anchor.axis: Target(anchor.axis, anchor.at, "")
        for anchor in reversed(anchors)
        if anchor.kind == "centre"
    }
    return tuple(found.values())


def face_box(plan: Plan, ref: Ref) -> Bounds | None:
    """Return the bounds of a thing as it is seen at the face of the wall, or None if it has none there."""
    if ref.kind == "fitting":
        boxes = [
            solid.in_elevation().outline.bounds
            for solid in plan.fitted
            if solid.owner == ref.id and solid.what in _AT_THE_FACE
        ]
        if not boxes:
            return None
        x0, y0, x1, y1 = zip(*boxes, strict=True)
        return min(x0), min(y0), max(x1), max(y1)
    thing = things(plan.job).get(ref)
    if isinstance(thing, Accessory):
        w, h = thing.wide / 2, thing.high / 2
        return thing.x - w, thing.height - h, thing.x + w, thing.height + h
    if isinstance(thing, Opening):
        return thing.x, thing.y, thing.x + thing.width, thing.y + thing.height
    return None


def _centres(plan: Plan, ref: Ref) -> Iterator[Anchor]:
    """Go through the lines of a thing that people set out: its centre, or the fixings of a rail."""
    thing = things(plan.job)[ref]
    match thing:
        case Rail():
            part = next(rail.part for rail in plan.rails if rail.fitting.id == thing.id)
            yield Anchor("x", thing.x)
            yield Anchor("y", thing.height + part.fixing_low)
            yield Anchor("y", thing.height + part.fixing_high)
        case Accessory():
            yield Anchor("x", thing.x)
            yield Anchor("y", thing.height)
        case Opening():
            yield Anchor("x", thing.x + thing.width / 2)
        case Cable() | OldPipe() | Pipe():
            if thing.route:
                yield Anchor("x", thing.route[0][0])
                yield Anchor("y", thing.route[0][1])
        case Stud():
            yield Anchor("x", thing.x)
        case Joist():
            yield Anchor("y", thing.height)
        case Head() if _hangs(plan, thing.id):
            yield Anchor("x", thing.x)
        case _ if ref.kind == "fitting":
            x, y = plan.job.fitting(ref.id).at
            yield Anchor("x", x)
            yield Anchor("y", y)


def _hangs(plan: Plan, head: str) -> bool:
    return any(placed.fitting.id == head and placed.part.mount == "ceiling" for placed in plan.heads)


def _datums(plan: Plan) -> Iterator[Target]:
    held, wall, enclosure = lines(plan.job.enclosure), plan.job.wall, plan.job.enclosure
    thing = enclosed(plan)
    yield Target("x", held.centre, "centre line")
    yield Target("x", held.quarter_left, "quarter line")
    yield Target("x", held.quarter_right, "quarter line")
    for at in (held.left, held.right):
        yield Target("x", at, f"{thing} edge", "edge")
    for at in (0.0, wall.width):
        yield Target("x", at, "wall edge", "edge")
    yield Target("y", enclosure.rim, f"{thing} rim", "edge")
    yield Target("y", wall.height, "ceiling", "edge")


def _others(plan: Plan, moving: Collection[Ref]) -> Iterator[Target]:
    """Go through the lines of what stays: its centre is plumb or level with what comes to lie there."""
    for ref in things(plan.job):
        if ref.kind in ("fitting", "service") and ref not in moving:
            for anchor in _centres(plan, ref):
                way = "plumb" if anchor.axis == "x" else "level"
                yield Target(anchor.axis, anchor.at, f"{way} with {ref.id}")


def _edges(plan: Plan, moving: Collection[Ref]) -> Iterator[Target]:
    for ref in things(plan.job):
        box = None if ref in moving or ref.kind in ("hose", "pipe") else face_box(plan, ref)
        if box:
            word = f"edge of {ref.id}"
            x0, y0, x1, y1 = box
            yield from (Target("x", x0, word, "edge"), Target("x", x1, word, "edge"))
            yield from (Target("y", y0, word, "edge"), Target("y", y1, word, "edge"))


def _joints(tiling: Tiling | None) -> Iterator[Target]:
    """Go through the joints that run right through, without a step from row to row or column to column."""
    if tiling is None:
        return
    half = tiling.joint / 2
    if tiling.bond in ("straight", "vertical"):
        yield Target("x", tiling.start_x - half, "tile joint", "joint", tiling.wide + tiling.joint)
    if tiling.bond in ("straight", "half", "third"):
        yield Target("y", tiling.start_y - half, "tile joint", "joint", tiling.high + tiling.joint)
