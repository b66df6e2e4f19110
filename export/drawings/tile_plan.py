"""The finished face with its tiles: every piece with its name and cut sizes, the holes by number.

Model millimetres, x right from the wall's left corner and y up from the finished floor; sizes of text are
millimetres on paper times the scale. Cut pieces are shaded. Distances of joints count from the left edge of
the enclosure and from its finished floor.
"""

from collections.abc import Iterator

import shapely

from export.drawings.gaps import draw_gap
from export.drawings.outlines import draw_outline
from export.drawings.spots import Spot, Spots
from export.pen import XY, Axis, Pen
from export.recorder import Recorder
from export.text import RISE, SINK, text_width
from geometry.model import Niche, Opening, Wall
from geometry.model.finish import Bond, MovementJoint
from geometry.plan import Plan
from geometry.setting_out.lines import lines
from geometry.shape.outline import Bounds, circle, rectangle
from geometry.tiling.drilling import Drilled, drilled
from geometry.tiling.pieces import Piece, pieces_of
from geometry.units import number

LETTERING = 1.8  # mm on paper, ISO 3098 series, from memory
MARK = 2.5  # mm on paper, lettering of a hole's number
AROUND = 16.0  # mm on paper, round the wall for the running dimensions
APART = 1.7  # of the lettering, from one running dimension to the next
CROSS = 1.5  # of a hole's radius: half a cross over it
FAINT = frozenset({"tile-whole", "tile-cut", "leader", "wall", "opening"})
"""What a number may cover where there is no free place."""


def plan_bounds(plan: Plan, scale: float) -> Bounds:
    """Return how far the drawing reaches, in model mm."""
    around = AROUND * scale
    return -around, -around, plan.job.wall.width + 2 * scale, plan.job.wall.height + 2 * scale


def draw_tile_plan(plan: Plan, pen: Pen, scale: float, pieces: tuple[Piece, ...] | None = None) -> None:
    """Draw the finished face.

    Args:
        plan: the job with its parts.
        pen: in model mm.
        scale: 20 for a drawing that will be printed at 1:20.
        pieces: panels, to be drawn instead of the tiles.
    """
    straight = pieces is not None
    pieces = pieces_of(plan) if pieces is None else pieces
    holes = drilled(plan, pieces)
    drawn = Recorder()
    draw_pieces(pieces, drawn)
    _draw_wall(plan, drawn)
    _draw_holes(plan, holes, drawn, scale)
    for joint in plan.job.finish.movement if not straight else ():
        draw_movement_joint(joint, plan.job.wall, drawn)
    drawn.replay(pen)
    wall = plan.job.wall
    spots = Spots(drawn, (0.0, 0.0, wall.width, wall.height), FAINT)
    for one in holes:
        _number(one, spots, pen, scale)
    for piece in pieces:
        _name(piece, spots, pen, scale)
    tiling = plan.job.finish.tiling
    bond = "straight" if straight or tiling is None else tiling.bond
    _draw_joints(plan, pieces, bond, pen, scale)


def draw_pieces(pieces: tuple[Piece, ...], pen: Pen) -> None:
    """Draw the outline of every piece, whole ones and cut ones each on their layer."""
    for piece in pieces:
        layer = "tile-whole" if piece.kind == "whole" else "tile-cut"
        pen.polyline(layer, piece.rim, closed=True)


def _draw_wall(plan: Plan, pen: Pen) -> None:
    wall, enclosure, finish = plan.job.wall, plan.job.enclosure, plan.job.finish
    pen.polyline("wall", rectangle(0.0, 0.0, wall.width, wall.height).points, closed=True)
    gaps: tuple[Opening | Niche, ...] = (*wall.openings, *finish.niches)
    for gap in gaps:
        draw_gap(gap, pen)
    if enclosure.rim > 0:
        pen.polyline(
            "tray", rectangle(enclosure.left, 0.0, enclosure.right, enclosure.rim).points, closed=True
        )
    pen.line("centre-line", (enclosure.centre, 0.0), (enclosure.centre, wall.height))


def draw_movement_joint(joint: MovementJoint, wall: Wall, pen: Pen) -> None:
    """Draw the middle of a movement joint, from edge to edge of the wall."""
    if joint.runs == "plumb":
        pen.line("movement-joint", (joint.at, 0.0), (joint.at, wall.height))
    else:
        pen.line("movement-joint", (0.0, joint.at), (wall.width, joint.at))


def _draw_holes(plan: Plan, holes: tuple[Drilled, ...], pen: Pen, scale: float) -> None:
    for solid in plan.fitted:
        if solid.what in ("plate", "flange"):
            draw_outline(pen, "leader", solid.outline)
    for one in holes:
        (x, y), r = one.hole.at, one.hole.diameter / 2
        draw_outline(pen, "tile-hole", circle((x, y), one.hole.diameter))
        arm = max(CROSS * r, 1.2 * scale)
        pen.line("dimension", (x - arm, y), (x + arm, y))
        pen.line("dimension", (x, y - arm), (x, y + arm))


def _number(one: Drilled, spots: Spots, pen: Pen, scale: float) -> None:
    """Write a hole's number beside it, with a leader where there is no place near."""
    text, height = str(one.number), MARK * scale
    width = text_width(text, height) + scale
    (x, y), r = one.hole.at, one.hole.diameter / 2

    def places() -> Iterator[Spot]:
        for away in (1.0, 3.0, 6.0, 10.0):
            off = r + away * scale + height / 2
            for dx, dy in ((1, 1), (1, -1), (-1, 1), (-1, -1), (1, 0), (-1, 0), (0, 1), (0, -1)):
                spot = (x + dx * (off + width / 3), y + dy * off)
                yield Spot(spot, (x, y) if away > 1 else None)

    spot = spots.take(places(), width, (RISE + SINK) * height)
    if spot is None:
        return
    mx, my = spot.middle
    if spot.tied_to:
        share = 1 - (height / 2) / max(abs(mx - x), abs(my - y))
        pen.line("leader", (x, y), (x + (mx - x) * share, y + (my - y) * share))
    pen.text("frame", (mx, my - height / 2), text, height, align="centre")


def _name(piece: Piece, spots: Spots, pen: Pen, scale: float) -> None:
    """Write a piece's name and, where it is cut, its sizes: in it, where they fit."""
    height, (wide, high) = LETTERING * scale, piece.size
    words = [piece.name]
    if piece.kind != "whole":
        words.append(f"{number(wide)} × {number(high)}")
    tall = (RISE + SINK) * height * len(words)
    long = max(text_width(word, height) for word in words) + scale / 2
    turned = long > wide and high > wide
    box = (tall, long) if turned else (long, tall)
    if box[0] > wide or box[1] > high:
        words, long = words[:1], text_width(words[0], height)
        box = (tall / 2, long) if turned else (long, tall / len(words))
        if box[0] > wide or box[1] > high:
            return
    spot = spots.take(_inside(piece, box), *box)
    if spot is None:
        return
    x, y = spot.middle
    for index, word in enumerate(words):
        off = (len(words) - 1) / 2 - index
        step = off * (RISE + SINK) * height
        at = (x - step + height / 2, y) if turned else (x, y + step - height / 2)
        pen.text("text", at, word, height, align="centre", angle=90.0 if turned else 0.0)


def _inside(piece: Piece, box: XY) -> Iterator[Spot]:
    """Go through places in a piece, from its middle outwards, in which a box lies within it."""
    x0, y0, x1, y1 = piece.bounds
    (w, h), middle = box, (0.5, 0.5)
    shares = [(a, b) for b in (0.5, 0.85, 0.15, 0.7, 0.3) for a in (middle[0], 0.2, 0.8)]
    for a, b in shares:
        x, y = x0 + w / 2 + (x1 - x0 - w) * a, y0 + h / 2 + (y1 - y0 - h) * b
        if piece.kind != "notched" or shapely.covers(
            piece.shape, shapely.box(x - w / 2, y - h / 2, x + w / 2, y + h / 2)
        ):
            yield Spot((x, y))


def _draw_joints(plan: Plan, pieces: tuple[Piece, ...], bond: Bond, pen: Pen, scale: float) -> None:
    """Write how far the lower and left edges of tiles lie from the datum, where the bond has such lines."""
    held, height = lines(plan.job.enclosure), LETTERING * scale
    if bond in ("straight", "vertical"):
        _chain(pen, "x", sorted({piece.bounds[0] for piece in pieces}), held.left, height, scale)
    if bond in ("straight", "half", "third"):
        _chain(pen, "y", sorted({piece.bounds[1] for piece in pieces}), held.floor, height, scale)


def _chain(pen: Pen, axis: Axis, marks: list[float], datum: float, height: float, scale: float) -> None:
    last, tag = -1e9, -5.0 * scale
    for at in marks:
        if at - last < APART * height:
            continue
        last = at
        feature, end = ((at, 0.0), (at, tag)) if axis == "x" else ((0.0, at), (tag, at))
        origin = (datum, 0.0) if axis == "x" else (0.0, datum)
        pen.running("dimension", origin, feature, end, axis, number(at - datum), height)
