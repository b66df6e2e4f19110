"""Datum lines: the centre line and quarter lines of the enclosure, and the level from which heights count.

A quarter line lies midway between the centre line and an edge of the tray (common practice, no source).
"""

from typing import NamedTuple

from geometry.model import Enclosure


class Lines(NamedTuple):
    """x of the plumb lines and y of the level datum, in mm on the wall."""

    left: float
    quarter_left: float
    centre: float
    quarter_right: float
    right: float
    floor: float
    """The finished tray floor, from which heights count."""


def lines(enclosure: Enclosure) -> Lines:
    """Return the datum lines of an enclosure."""
    left, width = enclosure.left, enclosure.width
    return Lines(
        left, left + width / 4, left + width / 2, left + width * 3 / 4, left + width, enclosure.floor
    )
