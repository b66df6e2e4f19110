"""What a user may choose about the drawing on the screen. Lengths are mm."""

from typing import NamedTuple

from geometry.units import Display


class Options(NamedTuple):
    """The choices; they are named as in the settings of the program."""

    unit: Display = "mm"
    snapping: bool = True
    nudge: float = 1.0
    """Step of an arrow key."""
    nudge_far: float = 10.0
    """Step of an arrow key with Shift."""
    nudge_fine: float = 0.1
    """Step of an arrow key with Alt."""
