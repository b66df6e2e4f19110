"""The names of the pieces of tube beside their pipes, so that a piece is found on the wall by its name.

Model millimetres; sizes on paper are multiplied by the scale.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from export.drawings.balloons import round_about
from export.drawings.spots import Spot, Spots
from export.pen import XY, Pen
from export.text import RISE, SINK, is_bold, text_width
from geometry.pipework.cut_list import Piece, runs
from geometry.plan import Plan
from geometry.units import number

NAME = 2.5  # mm on paper, ISO 3098 series, from memory
GAP = 0.8  # mm on paper, between a chase and the name beside it
PAD = 0.6  # mm on paper, kept free at both ends of a name
DOT = 0.5  # mm on paper, radius of the dot at which a leader ends
LAYER = "piece"


def draw_piece_names(
    plan: Plan, spots: Spots, pen: Pen, scale: float, *, lengths: bool = False
) -> tuple[str, ...]:
    """Write the name of every piece beside it, or near it with a leader; return those that find no room.

    Short pieces choose first: long ones have room elsewhere.

    Args:
        plan: the job with its parts.
        spots: the drawing so far, of which the names stand clear.
        pen: in model mm.
        scale: 20 for 1:20.
        lengths: write what each is cut to after its name.
    """
    left_out = []
    widths = {chase.pipe: chase.width for chase in plan.chases}
    legs = [
        (max(pairwise(piece.axis), key=lambda leg: math.dist(*leg)), piece, widths[run.pipe.id] / 2)
        for run in runs(plan)
        for piece in run.pieces
    ]
    for leg, piece, off in sorted(legs, key=lambda one: (math.dist(*one[0]), one[1].name)):
        text = f"{piece.name}: {cut_to(piece)}" if lengths else piece.name
        height = NAME * scale
        width, tall = text_width(text, height, bold=is_bold(LAYER)), (RISE + SINK) * height
        width += 2 * PAD * scale
        places = _places(leg, off + (GAP - PAD) * scale, (width, tall), scale)
        spot = spots.take(places, width, tall, clear_leaders=True)
        if spot is None:
            left_out.append(piece.name)
        else:
            x, y = spot.middle
            if spot.tied_to:
                near = (min(max(spot.tied_to[0], x - width / 2), x + width / 2), spot.tied_to[1])
                edge = (near[0], min(max(near[1], y - tall / 2), y + tall / 2))
                pen.line("leader", edge, spot.tied_to)
                pen.circle("leader", spot.tied_to, DOT * scale)
            pen.text(LAYER, (x, y - height / 2), text, height, align="centre")
    return tuple(sorted(left_out))


def cut_to(piece: Piece) -> str:
    """Write the length to cut, or a dash for a piece that cannot be made."""
    return "–" if piece.fault else number(piece.cut)


def _places(leg: tuple[XY, XY], off: float, size: XY, scale: float) -> Iterator[Spot]:
    """Go through places beside a leg, from its middle outwards on both sides, then farther off."""
    (x0, y0), (x1, y1) = leg
    length = math.dist(*leg)
    nx, ny = (y1 - y0) / length, (x0 - x1) / length
    out = off + (size[0] * abs(nx) + size[1] * abs(ny)) / 2
    for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8):
        for side in (out, -out):
            yield Spot((x0 + (x1 - x0) * share + nx * side, y0 + (y1 - y0) * share + ny * side))
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    for spot in round_about(middle, scale):
        if spot.tied_to:
            yield spot
