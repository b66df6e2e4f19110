"""A camera of our own that takes pictures of a wall: pixels from points in space, by similar triangles."""

import math
from typing import NamedTuple

from geometry.model import XY


class Camera(NamedTuple):
    """Where it stands in front of the wall, how it is turned, and its picture; lengths in mm."""

    x: float
    y: float
    away: float
    turned: float
    """Degrees to the right."""
    tipped: float
    """Degrees upwards."""
    focal: float = 1400.0
    """Pixels."""
    width: int = 1600
    height: int = 1200

    def sees(self, at: XY) -> XY:
        """Return the pixel at which a point of the wall is seen."""
        dx, dy, dz = at[0] - self.x, at[1] - self.y, self.away
        turn, tip = math.radians(self.turned), math.radians(self.tipped)
        right = dx * math.cos(turn) - dz * math.sin(turn)
        ahead = dx * math.sin(turn) + dz * math.cos(turn)
        up = dy * math.cos(tip) - ahead * math.sin(tip)
        ahead = dy * math.sin(tip) + ahead * math.cos(tip)
        return self.width / 2 + self.focal * right / ahead, self.height / 2 - self.focal * up / ahead


ASKEW = Camera(x=200.0, y=1500.0, away=3000.0, turned=14.0, tipped=-7.0)
CORNERS: tuple[XY, ...] = ((100.0, 200.0), (1900.0, 150.0), (1850.0, 2200.0), (150.0, 2150.0))
MARKS: tuple[XY, ...] = (
    (380.0, 1030.0), (600.0, 400.0), (1200.0, 1900.0), (250.0, 2000.0), (1500.0, 700.0),
    (900.0, 1200.0), (1700.0, 2000.0), (300.0, 300.0), (1000.0, 250.0), (1750.0, 1300.0),
)  # fmt: skip
