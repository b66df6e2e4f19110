"""The view: which part of the wall is seen, and how large. Pure sums, no Qt.

The wall is in mm, x right and y up; the screen is in pixels, x right and y down, from the upper left corner.
"""

from typing import NamedTuple

from geometry.model import XY
from geometry.shape.outline import Bounds

LEAST = 0.02
"""Pixels a mm at which 20 m, the farthest that a job reaches, are 400 pixels wide; own choice."""
MOST = 40.0
"""Pixels a mm at which the model's grid of 0.1 mm is 4 pixels wide; own choice."""


class Margin(NamedTuple):
    """Pixels kept free at each side of what is fitted in."""

    left: float
    top: float
    right: float
    bottom: float


class View(NamedTuple):
    """Pixels a mm, and where on the screen the wall's origin lies."""

    scale: float = 1.0
    x: float = 0.0
    y: float = 0.0

    @classmethod
    def fitted(cls, bounds: Bounds, size: XY, margin: Margin) -> "View":
        """Return the view that shows the bounds as large as they go into a screen, in the middle of it.

        Args:
            bounds: what to show, in mm.
            size: width and height of the screen in pixels.
            margin: what stays free round it, unless the screen is smaller than that.
        """
        x0, y0, x1, y1 = bounds
        room = max(size[0] - margin.left - margin.right, 1.0), max(size[1] - margin.top - margin.bottom, 1.0)
        scale = _within(min(room[0] / max(x1 - x0, 1e-3), room[1] / max(y1 - y0, 1e-3)))
        middle = margin.left + room[0] / 2, margin.top + room[1] / 2
        return cls(scale, middle[0] - (x0 + x1) / 2 * scale, middle[1] + (y0 + y1) / 2 * scale)

    def to_screen(self, at: XY) -> XY:
        """Return where a point of the wall is seen."""
        return self.x + at[0] * self.scale, self.y - at[1] * self.scale

    def to_wall(self, at: XY) -> XY:
        """Return the point of the wall that is seen at a place on the screen."""
        return (at[0] - self.x) / self.scale, (self.y - at[1]) / self.scale

    def mm(self, pixels: float) -> float:
        """Return how long so many pixels are on the wall."""
        return pixels / self.scale

    def zoomed(self, at: XY, factor: float) -> "View":
        """Return the view `factor` times as large; what is seen at `at` stays there."""
        scale = _within(self.scale * factor)
        grown = scale / self.scale
        return View(scale, at[0] + (self.x - at[0]) * grown, at[1] + (self.y - at[1]) * grown)

    def panned(self, by: XY) -> "View":
        """Return the view with everything moved by so many pixels."""
        return self._replace(x=self.x + by[0], y=self.y + by[1])

    def resized(self, before: XY, after: XY) -> "View":
        """Return the view in a screen of another size: what was in its middle stays there."""
        return self.panned(((after[0] - before[0]) / 2, (after[1] - before[1]) / 2))

    def held(self, bounds: Bounds, size: XY, least: float) -> "View":
        """Return the view moved so that `least` pixels of the bounds stay on the screen each way."""
        (left, low), (right, top) = self.to_screen(bounds[:2]), self.to_screen(bounds[2:])
        least_x, least_y = min(least, size[0] / 2), min(least, size[1] / 2)
        return self.panned(
            (_back(left, right, least_x, size[0] - least_x), _back(top, low, least_y, size[1] - least_y))
        )

    def window(self, size: XY) -> Bounds:
        """Return the part of the wall's plane that a screen shows, in mm."""
        (x0, y1), (x1, y0) = self.to_wall((0.0, 0.0)), self.to_wall(size)
        return x0, y0, x1, y1


def _within(scale: float) -> float:
    return min(max(scale, LEAST), MOST)


def _back(low: float, high: float, least: float, most: float) -> float:
    """Return the shift that brings an interval back to end beyond `least` and to begin before `most`."""
    if high < least:
        return least - high
    return most - low if low > most else 0.0
