"""What of a plan moves and draws: the anchors of things that are dragged, and the targets that draw them.

All in mm on the wall; no Qt. What matters most comes first, since of two targets as near the first wins.
"""

from collections.abc import Collection, Iterator, Sequence

import numpy as np
import shapely

from app.canvas.snapping import Anchor, Axis, Target
from export.drawings.marks import enclosed
from geometry.edits.refs import TILES, Ref, things
from geometry.model import Accessory, Cable, Head, Joist, OldPipe, Opening, Pipe, Rail, Stud, Tiling
from geometry.plan import Plan
from geometry.setting_out.lines import lines
from geometry.shape.outline import Bounds, bounds_of
from geometry.tiling.region import faced
from geometry.zones import rectangle_of

_AT_THE_FACE = ("plate", "flange", "head", "ceiling flange", "rail", "bracket", "spout")
"""Solids of a fitting whose edges people see and line up."""


def anchors_of(plan: Plan, moving: Collection[Ref]) -> tuple[Anchor, ...]:
    """Return the anchors of the things that move: the centre of each, and the edges round all of them."""
    everything = things(plan.job)
    centres = [anchor for ref in moving if ref in everything for anchor in _centres(plan, ref)]
    if TILES in moving and plan.job.finish.tiling:
        centres += _first_tile(plan.job.finish.tiling)
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
    if TILES in moving and plan.job.finish.tiling:
        return (*_datums(plan), *_others(plan, moving), *_face(plan))
    return (*_datums(plan), *_others(plan, moving), *_edges(plan, moving), *_joints(plan.job.finish.tiling))


def pipe_targets(plan: Plan) -> tuple[Target, ...]:
    """Return the targets of a pipe's corners: ports, lines and centres. Behind the tiles no joint matters."""
    ports: list[Target] = []
    for port in plan.ports.values():
        word = port.name.replace(".", " ")
        ports += [
            Target("x", port.at[0], f"plumb with {word}"),
            Target("y", port.at[1], f"level with {word}"),
        ]
    return (*ports, *(target for target in targets_of(plan) if target.kind == "line"))


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
    if ref == TILES and plan.job.finish.tiling:
        tiling = plan.job.finish.tiling
        return tiling.start_x, tiling.start_y, tiling.start_x, tiling.start_y
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
        return rectangle_of(thing)
    if isinstance(thing, Opening):
        return bounds_of(thing)
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


def _first_tile(tiling: Tiling) -> Iterator[Anchor]:
    """Go through what of the first tile comes to lie on lines: its edges, middle, and the joint before it."""
    spans: tuple[tuple[Axis, float, float], ...] = (
        ("x", tiling.start_x, tiling.wide),
        ("y", tiling.start_y, tiling.high),
    )
    for axis, start, size in spans:
        yield from (Anchor(axis, start, "edge"), Anchor(axis, start + size, "edge"))
        yield from (Anchor(axis, start + size / 2), Anchor(axis, start - tiling.joint / 2))


def _face(plan: Plan) -> Iterator[Target]:
    """Go through the edges at which tiles end."""
    job = plan.job
    shapes = [one.shape for one in faced(job.finish, job.wall, job.enclosure, "tile")]
    corners = shapely.get_coordinates(shapes)
    for x in np.unique(corners[:, 0]).tolist():
        yield Target("x", x, "edge of the tiling", "edge")
    for y in np.unique(corners[:, 1]).tolist():
        yield Target("y", y, "edge of the tiling", "edge")


def _joints(tiling: Tiling | None) -> Iterator[Target]:
    """Go through the joints that run right through, without a step from row to row or column to column."""
    if tiling is None:
        return
    half = tiling.joint / 2
    if tiling.bond in ("straight", "vertical"):
        yield Target("x", tiling.start_x - half, "tile joint", "joint", tiling.wide + tiling.joint)
    if tiling.bond in ("straight", "half", "third"):
        yield Target("y", tiling.start_y - half, "tile joint", "joint", tiling.high + tiling.joint)
