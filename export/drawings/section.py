"""The upright section through a valve or an elbow: the leaf, its recess, the box, the finish, the trim.

Millimetres; x of the drawing is the depth z, from the bare face towards the room at the right, and y is
the height on the wall. Sizes of text are millimetres on paper times the scale.
"""

import math
from collections.abc import Iterator
from typing import NamedTuple

from export.drawings.chains import Chain, chain, draw_chain
from export.drawings.extent import around
from export.drawings.fittings import fitting_layer
from export.drawings.labels import LETTERING, Label, PlacedLabel, draw_labels, label_column
from export.drawings.seats import Joint, Seat, seat
from export.pen import XY, Pen
from export.text import text_width
from export.wrapped_pens import Clipped
from geometry.model.wall import MakeUp
from geometry.plan import Plan
from geometry.shape.outline import Bounds, rectangle
from geometry.units import number

FIRST_ROW = 6.0  # mm on paper, from the drawing to the first dimension line
ROW = 6.5  # mm on paper, from one dimension line to the next
HATCH = 5.0  # mm on paper, between hatching lines
ZIGZAG = 2.5  # mm on paper, half the height of the break in a wall that goes on
WIDEST = 54.0  # mm on paper, the longest line of a label
MAKE_UPS: dict[MakeUp, str] = {
    "aerated_block": "aerated block",
    "dense_block": "dense block",
    "hollow_block": "hollow block",
    "brick": "brick",
    "timber_stud": "timber stud",
    "metal_stud": "metal stud",
}
"""What a wall is made of, in words."""


class _Row(NamedTuple):
    """One dimension across: from and to (z, y), and what is written at its right."""

    start: XY
    end: XY
    text: str


class _Notes(NamedTuple):
    """What stands round a section: labels at the right, dimensions over it, a running chain under it."""

    column: tuple[PlacedLabel, ...]
    rows: tuple[_Row, ...]
    base: float
    """y of the lowest dimension line."""
    depths: Chain


def section_bounds(plan: Plan, fitting_id: str, scale: float) -> Bounds:
    """Return how far a section reaches with its dimensions and labels, in mm; `scale` is 2 for 1:2."""
    held = seat(plan, fitting_id)
    left, low, right, high = held.window
    notes = _notes(plan, held, scale)
    past = 2 * ZIGZAG * scale
    texts = [(x, y, x + wide, y + LETTERING * scale) for x, y, wide in _row_texts(held, notes, scale)]
    labels = [label.box for label in notes.column]
    return around(((left - past, low, right, high + past), *texts, *labels, *notes.depths.boxes))


def draw_section(plan: Plan, fitting_id: str, pen: Pen, scale: float) -> None:
    """Draw the section through the centre of a fitting.

    Args:
        plan: the job with its parts.
        fitting_id: one of `seats.seats`.
        pen: in mm, x from the bare face towards the room, y up the wall.
        scale: 2 for 1:2.

    Raises:
        KeyError: nothing of this id sits in the wall.
    """
    held = seat(plan, fitting_id)
    left, low, right, high = held.window
    seen = Clipped(pen, *held.window)
    if plan.job.wall.is_stud_wall:
        for z in (0.0, held.rear):
            seen.line("stud", (z, low), (z, high))
    else:
        _draw_leaf(held, seen, scale)
    _draw_finish(held, seen, scale)
    _draw_breaks(held, pen, scale)
    for depth in {held.depth.shallowest, held.depth.most} - {held.cut}:
        if depth > 0:
            seen.line("joint-room", (-depth, held.recess[1]), (-depth, held.recess[3]))
    for joint in held.joints:
        _draw_joint(plan, held, joint, seen)
    if held.tail:
        seen.polyline("body", rectangle(*held.tail[1]).points, closed=True)
    for solid, side in held.trim:
        layer = fitting_layer(solid)
        if layer:
            seen.polyline(layer, rectangle(*side).points, closed=True)
    pen.line("centre-line", (left, held.centre), (right, held.centre))
    notes = _notes(plan, held, scale)
    for row, (x, y, _) in zip(notes.rows, _row_texts(held, notes, scale), strict=True):
        base = (row.start[0], y + LETTERING * scale / 2)
        pen.dimension("dimension", row.start, row.end, base, "x", "", LETTERING * scale)
        pen.text("text", (x, y), row.text, LETTERING * scale)
    draw_chain(pen, notes.depths)
    draw_labels(pen, notes.column, scale)


# the wall


def _draw_leaf(held: Seat, pen: Pen, scale: float) -> None:
    """Draw the masonry round the recess, with light hatching."""
    left, low, _, high = held.window
    past = 10 * scale  # beyond the window, where the pen cuts it off without a line
    under, over, rear = low - past, high + past, held.rear - past * held.broken
    _, lower, _, upper = held.recess
    back = max(-held.cut, held.rear)
    if back > held.rear:
        notch = ((0.0, over), (0.0, upper), (back, upper), (back, lower), (0.0, lower), (0.0, under))
        pen.polyline("masonry", (*notch, (rear, under), (rear, over)), closed=True)
    else:
        for y0, y1 in ((under, lower), (upper, over)):
            pen.polyline("masonry", rectangle(rear, y0, 0.0, y1).points, closed=True)
    for piece in ((left, upper, 0.0, high), (left, low, 0.0, lower), (left, lower, back, upper)):
        _hatch(pen, piece, HATCH * scale, 1.0)


def _draw_finish(held: Seat, pen: Pen, scale: float) -> None:
    """Draw each layer over and under the hole in it, hatched the other way from the masonry."""
    _, low, _, high = held.window
    past, half, z = 10 * scale, held.hole / 2, 0.0
    for layer in held.layers:
        end = z + layer.thickness
        for y0, y1 in ((low - past, held.centre - half), (held.centre + half, high + past)):
            if layer.thickness > 0:
                pen.polyline("lining", rectangle(z, y0, end, y1).points, closed=True)
                _hatch(pen, (z, max(y0, low), end, min(y1, high)), HATCH * scale / 2, -1.0)
        z = end


def _hatch(pen: Pen, piece: Bounds, step: float, slope: float) -> None:
    """Draw thin lines at 45 degrees across a rectangle, rising (slope 1) or falling (-1)."""
    x0, y0, x1, y1 = piece
    if x1 <= x0 or y1 <= y0:
        return
    inside, rise = Clipped(pen, *piece), slope * (x1 - x0)
    start = y0 - max(rise, 0.0)
    for index in range(math.ceil((y1 - min(rise, 0.0) - start) / step)):
        y = start + (index + 0.5) * step
        inside.line("rule", (x0, y), (x1, y + rise))


def _draw_breaks(held: Seat, pen: Pen, scale: float) -> None:
    """Draw a thin zigzag where the wall goes on: over, under, and behind if the leaf is thicker."""
    left, low, _, high = held.window
    z = ZIGZAG * scale
    for y in (low, high):
        pen.polyline("rule", [(left + along, y + off) for along, off in _zigzag(held.face - left, z)])
    if held.broken:
        pen.polyline("rule", [(left + off, low + along) for along, off in _zigzag(high - low, z)])


def _zigzag(length: float, size: float) -> list[XY]:
    """Return a line of this length with one break in its middle, as (along, off)."""
    middle = length / 2
    steps = ((-size, 0.0), (-size / 2, size), (size / 2, -size), (size, 0.0))
    return [(-size, 0.0), *((middle + along, off) for along, off in steps), (length + size, 0.0)]


def _draw_joint(plan: Plan, held: Seat, joint: Joint, pen: Pen) -> None:
    """Draw a pipe along its axis with the back of its chase, or round where it leaves sideways."""
    chase, (_, low, _, high) = joint.chase, held.window
    service = next(pipe.service for pipe in plan.job.pipes if pipe.id == chase.pipe)
    radius = plan.tubes[chase.pipe].outside / 2
    if joint.way == "across":
        pen.circle(f"pipe-{service}", (-chase.axis, joint.y), radius)
        return
    end, edge = (high, held.recess[3]) if joint.way == "up" else (low, held.recess[1])
    pen.line("joint-room", (-chase.depth, edge), (-chase.depth, end))
    for z in (-chase.axis - radius, -chase.axis + radius):
        pen.line("body", (z, joint.y), (z, end))
    pen.line(f"pipe-{service}", (-chase.axis, joint.y), (-chase.axis, end))


# dimensions and words


def _notes(plan: Plan, held: Seat, scale: float) -> _Notes:
    column = label_column(tuple(_names(plan, held)), held.window, scale, WIDEST)
    top = max(held.window[3], *(label.box[3] for label in column))
    return _Notes(column, _rows(held), top + FIRST_ROW * scale, _depths(held, scale))


def _rows(held: Seat) -> tuple[_Row, ...]:
    """Return the depths of the recess, the shortest first and nearest, and that to the finished face."""
    top, edge = held.recess[3], held.window[3]
    depths = {"least": held.depth.shallowest, "cut": held.cut, "most": held.depth.most}
    least, most = held.span
    to_face = f"back to finished face {number(held.cut + held.face)} ({number(least)} to {number(most)})"
    rows = [
        _Row((-depth, top), (0.0, edge), f"{what} {number(depth)}")
        for what, depth in sorted(depths.items(), key=lambda item: item[1])
    ]
    rows.append(_Row((-held.cut, top), (held.face, edge), to_face))
    return tuple(row for row in rows if abs(row.end[0] - row.start[0]) > 0.05)


def _row_texts(held: Seat, notes: _Notes, scale: float) -> Iterator[tuple[float, float, float]]:
    """Go through x, y and width of the texts of the rows: in line with theirs, right of all of them."""
    x = max(held.face, 0.0) + 3.0 * scale
    for index, row in enumerate(notes.rows):
        y = notes.base + (index * ROW - LETTERING / 2) * scale
        yield x, y, text_width(row.text, LETTERING * scale)


def _depths(held: Seat, scale: float) -> Chain:
    """Return the depths from the bare face, negative behind it: pipes, the back of the leaf, the finish."""
    low = held.window[1]
    marks = {0.0: "bare face", held.face: "finished"}
    if held.joints:
        chase = held.joints[0].chase
        marks |= {-chase.axis: "pipe", -chase.depth: "chase"}
    if not held.broken:
        marks |= {held.rear: "back of wall"}
    places = sorted(marks)
    texts = [f"{number(abs(z))} {marks[z]}" for z in places]
    return chain("x", (0.0, low), [(z, low) for z in places], texts, low, scale)


def _names(plan: Plan, held: Seat) -> Iterator[Label]:
    """Go through what is named beside the section."""
    left, low, right, high = held.window
    wall, over = plan.job.wall, high - held.recess[3]
    behind = "" if wall.is_stud_wall else f", {number(wall.thickness - held.cut)} left"
    yield Label(f"{MAKE_UPS[wall.make_up]} {number(wall.thickness)}{behind}", (left / 2, high - over * 0.2))
    z = 0.0
    for index, layer in enumerate(layer for layer in held.layers if layer.thickness > 0):
        slack = f" ± {number(layer.tolerance)}" if layer.tolerance else ""
        at = z + layer.thickness / 2, high - over * (0.35 + 0.15 * index)
        yield Label(f"{layer.name or layer.kind} {number(layer.thickness)}{slack}", at)
        z += layer.thickness
    named = set()
    for solid, (z0, y0, z1, y1) in held.trim:
        shown = z0 < right and low < y1 and y0 < high
        if fitting_layer(solid) and shown and solid.what not in named:
            named.add(solid.what)
            out = f", {number(z1 - held.face)} out" if held.face < z1 <= right else ""
            y = y0 + 4.0 if solid.what == "box" else (y0 + y1) / 2
            yield Label(f"{solid.what}{out}", (min(z1, right) - 1.0, y))
    if held.tail:
        thread, (_, y0, z1, _) = held.tail
        yield Label(f"{thread} thread to finished face", (z1 - 1.0, y0))
    x0, y0, x1, y1 = held.recess
    what = "opening" if wall.is_stud_wall else "recess"
    yield Label(f"{what} {number(x1 - x0)} wide, {number(y1 - y0)} high", (-held.cut, y0 + 2.0))
    for joint in held.joints:
        text = f"{', '.join(joint.pipes)}: centre {number(joint.chase.axis)} deep"
        y = {"up": high - 6.0, "down": low + 6.0, "across": joint.y}[joint.way]
        yield Label(text, (-joint.chase.axis, y))
