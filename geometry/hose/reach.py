"""How far the handset reaches in the hand: the hose pulled straight from its outlet, the handset beyond it.

Millimetres; x right and y up on the wall, z from the bare wall face to the room.
"""

import math
from itertools import product
from typing import NamedTuple

from geometry.hose.sweep import XYZ, nozzle
from geometry.model import XY, Enclosure
from geometry.plan import Hung


class Reach(NamedTuple):
    """The ball within which any point of the handset stays."""

    centre: XYZ
    """The nozzle of the outlet."""
    radius: float
    """Hose and handset, end to end."""


def reach(hung: Hung) -> Reach:
    """Return how far the handset of a hose reaches."""
    return Reach(nozzle(hung.outlet), hung.part.length + hung.handset.length)


def farthest_corner(held: Reach, enclosure: Enclosure) -> tuple[XY, float]:
    """Return the corner (x, z) of an enclosure farthest from the outlet, and the level distance to it."""
    x, _, z = held.centre
    sides, outs = (enclosure.left, enclosure.right), (0.0, enclosure.projection)
    corner = max(product(sides, outs), key=lambda point: math.dist(point, (x, z)))
    return corner, math.dist(corner, (x, z))
