"""Bends made with a bender: set-back, gain, and where to mark the tube. All in mm and degrees.

A bend of radius R through an angle a begins R tan(a/2) before the corner of the axis (the set-back) and takes
R a of tube, which is less than the two set-backs by the gain.
"""

import math
from typing import NamedTuple

from geometry.model import XY
from geometry.parts.records import TubePart

FACTORS = {"copper": 4.0, "barrier": 8.0, "multilayer": 5.0}
"""Radius of the axis over the outside diameter: copper a bender's (a textbook), the others from memory."""
MOST = 170.0
"""A pipe that turns by more degrees comes back on itself: no bend does that within a wall (own choice)."""
SQUARE = 1.0
"""A turn within this many degrees of 90 is square (common practice, no source)."""


class Bend(NamedTuple):
    """One bend of a piece: its corner on the wall, its angle and radius, and where it begins on the tube."""

    at: XY
    angle: float
    radius: float
    mark: float
    """From the end of the cut tube at which its name begins, along the tube."""


def radius(tube: TubePart) -> float:
    """Return the usual radius of a tube's axis in a bend."""
    return FACTORS[tube.material] * tube.outside


def set_back(bend_radius: float, angle: float) -> float:
    """Return how far before the corner a bend through `angle` degrees begins."""
    return bend_radius * math.tan(math.radians(angle) / 2)


def arc(bend_radius: float, angle: float) -> float:
    """Return how much tube a bend takes along its axis."""
    return bend_radius * math.radians(angle)


def gain(bend_radius: float, angle: float) -> float:
    """Return by how much a bend is shorter than its corner: twice the set-back less the arc."""
    return 2 * set_back(bend_radius, angle) - arc(bend_radius, angle)


def turn(a: XY, b: XY, c: XY) -> float:
    """Return by how many degrees the way from a over b to c turns: 0 straight on, 180 right back."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]
    return math.degrees(abs(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)))


def is_square(angle: float) -> bool:
    """Return whether an elbow makes this turn."""
    return abs(angle - 90.0) <= SQUARE
