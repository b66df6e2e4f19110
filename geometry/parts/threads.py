"""Pipe threads by name: the sizes of parallel threads G, in mm."""

from typing import NamedTuple

from geometry.parts.records import Thread
from geometry.units import INCH


class ThreadSize(NamedTuple):
    """Basic sizes of a parallel pipe thread, in mm."""

    major: float
    """Outside diameter of the male thread."""
    minor: float
    per_inch: int

    @property
    def pitch(self) -> float:
        """Distance from thread to thread, in mm, as the standard rounds it."""
        return round(INCH / self.per_inch, 3)


THREADS: dict[Thread, ThreadSize] = {
    "G3/8": ThreadSize(16.662, 14.950, 19),
    "G1/2": ThreadSize(20.955, 18.631, 14),
    "G3/4": ThreadSize(26.441, 24.117, 14),
    "G1": ThreadSize(33.249, 30.291, 11),
}
"""ISO 228-1, table of basic sizes."""
