"""The pen: a few verbs with which a drawing draws itself, whatever the format.

A pen takes plain coordinates in millimetres, y up, and a layer name; it never takes a colour.
What a layer looks like is in `export/layers.py`. Text and arrow sizes are in the same millimetres
as the coordinates, so a drawing made for 1:10 passes text ten times the height it has on paper.
Nothing here asks which format is being written.
"""

from collections.abc import Sequence
from typing import Literal, Protocol

XY = tuple[float, float]
Align = Literal["left", "centre", "right"]
Axis = Literal["x", "y"]


class Pen(Protocol):
    """What every format can draw."""

    def line(self, layer: str, start: XY, end: XY) -> None:
        """Draw one straight line."""

    def polyline(self, layer: str, points: Sequence[XY], *, closed: bool = False) -> None:
        """Draw joined lines through two points or more; a closed one is filled if its layer has a fill."""

    def circle(self, layer: str, centre: XY, radius: float) -> None:
        """Draw a true circle, filled if its layer has a fill."""

    def arc(self, layer: str, centre: XY, radius: float, start: float, end: float) -> None:
        """Draw an arc counter-clockwise from `start` to `end`, in degrees from +x."""

    def text(
        self, layer: str, at: XY, text: str, height: float, *, align: Align = "left", angle: float = 0.0
    ) -> None:
        """Write one line of text; `at` is on the baseline, `height` is that of a capital letter."""

    def dimension(
        self, layer: str, start: XY, end: XY, base: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Dimension the distance of two points along one axis; the dimension line passes through `base`."""

    def running(
        self, layer: str, origin: XY, feature: XY, tag: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Write the distance of `feature` from the datum `origin` along one axis, at `tag`, with a leader.

        This is the running dimension of a tape laid once: every value counts from the same datum.
        `axis` "x": the tag lies above or below the feature and the text stands upright along the leader;
        `axis` "y": the tag lies left or right of it and the text is level.
        """
