"""Words on the drawing itself: the letters of pipes, and the names of things where there is room for them.

Places are tried from the best, and the first that covers nothing is taken: quick, and good enough for a
screen, where what is chosen or pointed at has its name in any case. Pixels, y down; no Qt.
"""

import math
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import NamedTuple

from app.canvas.letters import letters
from app.canvas.piece_names import piece_names
from app.canvas.placing import Name, holds, level_at, on_screen
from app.canvas.room import Room
from app.canvas.sizes import SMALL
from app.canvas.stages import Stage, shows
from app.canvas.tags import FIRST_TILE
from app.canvas.targets import face_box
from app.canvas.view import View
from app.canvas.words import named
from export.text import RISE, SINK, text_width
from geometry.edits.refs import TILES, Ref, choosable
from geometry.model import XY, Accessory
from geometry.pipework.cut_list import unjoined
from geometry.plan import Plan
from geometry.shape.outline import Bounds, run

GAP = 6.0
"""Between a thing and its name, pixels."""


class Naming(NamedTuple):
    """What the words of a drawing depend on, besides the plan."""

    stage: Stage
    view: View
    size: XY
    named: Collection[Ref] = ()
    """What has its name in any case, and what it is as well: chosen, or pointed at."""


def names(plan: Plan, naming: Naming, taken: Sequence[Bounds]) -> tuple[Name, ...]:
    """Return the letters of pipes, or the names of their pieces, and the names of things.

    `taken` are boxes that they must not cover.
    """
    room = Room((*taken, *_solid_boxes(plan, naming)))
    return (*_beside_pipes(plan, naming, room), *_names(plan, naming, room, Room(taken)))


def _beside_pipes(plan: Plan, naming: Naming, room: Room) -> Iterator[Name]:
    if shows(naming.stage, "pieces"):
        yield from piece_names(plan, naming.view, naming.size, room)
        yield from letters(plan, naming.view, naming.size, room, unjoined(plan))
    elif shows(naming.stage, "cuts"):
        yield from letters(plan, naming.view, naming.size, room)


def _solid_boxes(plan: Plan, naming: Naming) -> Iterator[Bounds]:
    """Go through the boxes of what must stay visible: edges, fittings, recesses, legs of pipes."""
    wall = plan.job.wall
    edge = on_screen(naming.view, (0.0, 0.0, wall.width, wall.height))
    yield from ((x - 1, edge[1], x + 1, edge[3]) for x in (edge[0], edge[2]))
    yield from ((edge[0], y - 1, edge[2], y + 1) for y in (edge[1], edge[3]))
    if shows(naming.stage, "fittings"):
        for solid in plan.fitted:
            if solid.what not in ("screw", "recess", "pocket", "box"):
                yield on_screen(naming.view, solid.in_elevation().outline.bounds)
    if shows(naming.stage, "cuts"):
        for outline in plan.recesses.values():
            yield on_screen(naming.view, outline.bounds)
        for chase in plan.chases:
            half = chase.width / 2
            for (ax, ay), (bx, by) in chase.legs:
                low, high = (min(ax, bx) - half, min(ay, by) - half), (max(ax, bx) + half, max(ay, by) + half)
                if min(high[0] - low[0], high[1] - low[1]) <= 2 * chase.width:  # not one that slants
                    yield on_screen(naming.view, (*low, *high))


def _names(plan: Plan, naming: Naming, room: Room, fixed: Room) -> Iterator[Name]:
    """Go through the names of things; what is chosen keeps to its id where more would cover what is fixed."""
    wanted = [ref for ref in naming.named if ref in choosable(plan.job)]
    boxes: dict[Ref, Bounds] = {}
    for ref in (*wanted, *(other for other in _things(plan, naming.stage) if other not in naming.named)):
        bounds = thing_bounds(plan, ref, naming.stage)
        if bounds is not None:
            boxes[ref] = on_screen(naming.view, bounds)
    for ref in boxes:
        told, short = ref in naming.named, FIRST_TILE if ref == TILES else ref.id
        placed = _beside(named(plan, ref) if told else short, ref, boxes, naming, room, needed=told)
        if placed and told and fixed.covered(placed.box):
            placed = _beside(short, ref, boxes, naming, room, needed=True)
        if placed:
            room.take(placed.box)
            yield placed


def _things(plan: Plan, stage: Stage) -> Iterator[Ref]:
    seen = shows(stage, "fittings")
    for fitting in plan.job.fittings:
        if seen or (shows(stage, "cuts") and fitting.id in plan.recesses):
            yield Ref("fitting", fitting.id)
    for service in plan.job.services:
        if isinstance(service, Accessory) or shows(stage, "services"):
            yield Ref("service", service.id)


def thing_bounds(plan: Plan, ref: Ref, stage: Stage) -> Bounds | None:
    """Return the bounds beside which a thing is named, in mm, or None if it is not there."""
    tiling = plan.job.finish.tiling
    if ref == TILES and tiling:
        x, y = tiling.start_x, tiling.start_y
        return x, y, x + tiling.wide, y + tiling.high
    if ref.kind == "pipe":
        chase = next((chase for chase in plan.chases if chase.pipe == ref.id), None)
        if chase is None or not chase.legs:
            return None
        return run(max(chase.legs, key=lambda leg: math.dist(*leg)), chase.lagged).bounds
    if ref.kind == "hose":
        hung = next((hung for hung in plan.hoses if hung.hose.id == ref.id), None)
        if hung is None:
            return None
        x, y = hung.outlet.fitting.at
        return x, y + hung.outlet.part.nozzle_y, x, y + hung.outlet.part.nozzle_y
    if ref.kind == "service":
        for solid, service in zip(plan.existing, plan.job.services, strict=True):
            if service.id == ref.id:
                return solid.outline.bounds
        return None
    if ref.kind == "fitting" and not shows(stage, "fittings") and ref.id in plan.recesses:
        return plan.recesses[ref.id].bounds
    return face_box(plan, ref)


def _beside(
    words: str, ref: Ref, boxes: Mapping[Ref, Bounds], naming: Naming, room: Room, *, needed: bool
) -> Name | None:
    """Return a name to the right of its thing, to its left, above or below; the first that covers nothing.

    One that is nearer to another fitting would be read as that one's, and is not taken.
    """
    left, top, right, low = boxes[ref]
    others = [box for other, box in boxes.items() if other != ref and other.kind == "fitting"]
    wide, middle = text_width(words, SMALL), (left + right) / 2
    window = (0.0, 0.0, *naming.size)
    if right < 0 or left > window[2] or low < 0 or top > window[3]:
        return None
    # What is larger than the screen is named at the part of it that is seen.
    level = (max(top, 0.0) + min(low, window[3])) / 2
    half = (RISE + SINK) * SMALL / 2
    places = (
        (right + GAP, level), (left - GAP - wide, level),
        (middle - wide / 2, top - GAP - half), (middle - wide / 2, low + GAP + half),
        (right + GAP, top + half), (left - GAP - wide, top + half),
        (right + GAP, low - half), (left - GAP - wide, low - half),
    )  # fmt: skip
    found = [level_at("text", words, place, SMALL, ref) for place in places]
    inside = [name for name in found if holds(window, name.box)]
    free = next(
        (
            name
            for name in inside
            if room.is_free(name.box)
            and all(_apart(name.box, boxes[ref]) <= _apart(name.box, box) for box in others)
        ),
        None,
    )
    if free or not needed:
        return free
    best = min(inside or found, key=lambda name: room.covered(name.box))
    return best if inside else _pushed(best, naming.size)


def _apart(a: Bounds, b: Bounds) -> float:
    across, up = max(b[0] - a[2], a[0] - b[2], 0.0), max(b[1] - a[3], a[1] - b[3], 0.0)
    return math.hypot(across, up)


def _pushed(name: Name, size: XY) -> Name:
    """Return a name moved onto the screen."""
    x = min(max(name.box[0], 0.0), max(size[0] - (name.box[2] - name.box[0]), 0.0))
    half = (name.box[3] - name.box[1]) / 2
    middle = min(max(name.box[1] + half, half), size[1] - half)
    return level_at(name.layer, name.words, (x, middle), name.height, name.ref)
