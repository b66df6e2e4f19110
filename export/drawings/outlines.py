"""An outline on a pen: circles stay circles, rounded corners stay arcs.

Millimetres, in whatever plane the outline lies. Nothing here knows what the outline is of.
"""

import math
from itertools import pairwise

from export.pen import XY, Pen
from geometry.shape.outline import Outline

_EXACT = 1e-6  # degrees; a turn back on itself is 180, not -180, whatever rounding made of it


def draw_outline(pen: Pen, layer: str, outline: Outline) -> None:
    """Draw the rim of an outline as a circle, as joined lines, or as lines and arcs.

    A polygon's corners are taken as convex, which is what parts and recesses are. Only a circle and a
    polygon with sharp corners take the layer's fill.
    """
    points, radius = outline.points, outline.radius
    if len(points) == 1:
        if radius > 0:
            pen.circle(layer, points[0], radius)
    elif radius == 0:
        pen.polyline(layer, points, closed=outline.closed)
    elif outline.closed:
        _rounded(pen, layer, points, radius)
    else:
        _rounded(pen, layer, (*points, *points[-2:0:-1]), radius)


def _rounded(pen: Pen, layer: str, points: tuple[XY, ...], radius: float) -> None:
    """Draw a line along each side, `radius` outside it, and an arc about each corner.

    An open run is passed there and back: at its ends the arc is half a circle; where it bends, the
    inner side has no arc and its lines meet.
    """
    points = tuple(b for a, b in zip((points[-1], *points), points, strict=False) if a != b)
    corners = points if _area(points) >= 0 else points[::-1]
    sides = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    angles = [math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) - 90 for a, b in sides]
    turns = [_turn(angles[i - 1], angles[i]) for i in range(len(angles))]
    for i, (start, end) in enumerate(sides):
        shortened = [_inset(turn, radius) for turn in (turns[i], turns[(i + 1) % len(turns)])]
        normal, along = math.radians(angles[i]), math.radians(angles[i] + 90)
        pen.line(
            layer,
            _moved(_moved(start, normal, radius), along, shortened[0]),
            _moved(_moved(end, normal, radius), along, -shortened[1]),
        )
        if turns[i] > 0:
            pen.arc(layer, start, radius, angles[i] - turns[i], angles[i])


def _turn(before: float, after: float) -> float:
    """Return by how much the way turns to the left at a corner, above -180 and up to 180 degrees."""
    return 180 + _EXACT - (180 + _EXACT - (after - before)) % 360


def _inset(turn: float, radius: float) -> float:
    """Return how much a side loses at a corner that turns to the right, where its neighbour cuts it off."""
    return radius * math.tan(math.radians(-turn) / 2) if turn < 0 else 0.0


def _moved(point: XY, angle: float, by: float) -> XY:
    return point[0] + by * math.cos(angle), point[1] + by * math.sin(angle)


def _area(points: tuple[XY, ...]) -> float:
    """Return the area to the left of the way round, negative if it goes clockwise."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*points, points[0]))) / 2
