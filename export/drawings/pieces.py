"""A small elevation with the pipes by piece, so that a piece is found on the wall by the name written on it.

Millimetres of paper; what is drawn is the wall to a scale that fills the room given.
"""

import math
from itertools import pairwise

from export.drawings.extent import wall_extent
from export.pen import XY, Align, Pen
from geometry.pipework.cut_list import Piece
from geometry.plan import Plan
from geometry.shape.outline import Bounds, bounds_of, rectangle

NAME = 2.5  # mm, lettering of names, ISO 3098 series
SCALES = (5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200)
PITCH = 4.5  # mm, from name to name
BESIDE = 6.0  # mm, from the wall to the names


def scale_for(plan: Plan, wide: float, tall: float) -> int:
    """Return the largest scale, as N of 1:N, at which the wall fits a room on paper."""
    x0, y0, x1, y1 = wall_extent(plan)
    fits = (n for n in SCALES if (x1 - x0) / n <= wide and (y1 - y0) / n <= tall)
    return next(fits, SCALES[-1])


def draw_pieces(plan: Plan, pieces: tuple[Piece, ...], pen: Pen, origin: XY, scale: int) -> None:
    """Draw wall, openings, recesses and pipes, with each piece's name beside the wall.

    Args:
        plan: the job with its parts.
        pieces: of its cut list.
        pen: in mm of paper.
        origin: where the wall's lower left corner stands.
        scale: N of 1:N.
    """

    def at(x: float, y: float) -> XY:
        return origin[0] + x / scale, origin[1] + y / scale

    def box(layer: str, bounds: Bounds) -> None:
        x0, y0, x1, y1 = bounds
        pen.polyline(layer, rectangle(*at(x0, y0), *at(x1, y1)).points, closed=True)

    wall = plan.job.wall
    box("wall", (0.0, 0.0, wall.width, wall.height))
    for opening in wall.openings:
        box("opening", bounds_of(opening))
    for outline in plan.recesses.values():
        box("recess", outline.bounds)
    for pipe in plan.job.pipes:
        points = plan.courses[pipe.id].points
        if len(points) > 1:
            pen.polyline(f"pipe-{pipe.service}", [at(*point) for point in points])
    for piece in pieces:
        for end in (piece.start, piece.end):
            pen.circle("drill", at(*end.at), 0.6)
    left, right = at(0.0, 0.0)[0] - BESIDE, at(wall.width, 0.0)[0] + BESIDE
    spots = sorted((at(*_middle(piece)), piece.name) for piece in pieces)
    half = (len(spots) + 1) // 2
    top = at(0.0, wall.height)[1]
    _draw_column(pen, spots[:half], left, top, "right")
    _draw_column(pen, spots[half:], right, top, "left")


def _middle(piece: Piece) -> XY:
    """Return the middle of a piece's longest leg."""
    (ax, ay), (bx, by) = max(pairwise(piece.axis), key=lambda leg: math.dist(*leg))
    return (ax + bx) / 2, (ay + by) / 2


def _draw_column(pen: Pen, spots: list[tuple[XY, str]], x: float, top: float, align: Align) -> None:
    """Write names below each other, each with a leader to its piece; none above `top`."""
    base = top
    for (spot_x, spot_y), name in sorted(spots, key=lambda spot: -spot[0][1]):
        base = min(base - PITCH, spot_y - NAME / 2)
        pen.text("frame", (x, base), name, NAME, align=align)
        edge = x + (1.0 if align == "right" else -1.0)
        pen.line("leader", (edge, base + NAME / 2), (spot_x, spot_y))
        pen.circle("drill", (spot_x, spot_y), 0.4)
