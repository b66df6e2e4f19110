"""What is fitted to the wall. Each names its part, and has its place: `x` and `height` in mm.

`height` is above the finished floor. Of a valve, outlet, spout or wall-mounted head the place is the
centre of the hole in the wall; of a rail it is the foot of its axis; of a head on a ceiling arm, `x`
is the axis and `height` the ceiling.
"""

from typing import Literal

from geometry.model.record import XY, Extent, Name, Position, Record


class _Fitting(Record, frozen=True, kw_only=True):
    id: Name
    part: Name
    x: Position
    height: Position

    @property
    def at(self) -> XY:
        """The place on the wall, in mm."""
        return self.x, self.height


class _Sunk(_Fitting, frozen=True, kw_only=True):
    recess: Extent | None = None
    """Depth of its recess behind the bare face, in mm, if set by hand; None follows from the finish."""


class Valve(_Sunk, frozen=True, kw_only=True, tag="valve"):
    """The concealed valve; `side` is the side on which an outlet port leaves it sideways."""

    side: Literal["left", "right"] = "right"


class Head(_Sunk, frozen=True, kw_only=True, tag="head"):
    """The overhead head; `reach` overrides how far its axis stands from the finished face."""

    reach: Extent | None = None


class HoseOutlet(_Sunk, frozen=True, kw_only=True, tag="hose_outlet"):
    """The elbow at the wall from which the hose hangs."""


class Rail(_Fitting, frozen=True, kw_only=True, tag="rail"):
    """The upright rail on which the handset slides; `slider` is the slider's height above its foot."""

    slider: Extent | None = None


class Spout(_Sunk, frozen=True, kw_only=True, tag="spout"):
    """A bath spout."""


Fitting = Valve | Head | HoseOutlet | Rail | Spout


class Hose(Record, frozen=True, kw_only=True):
    """A hose that hangs between an outlet and the handset on a rail."""

    id: Name
    part: Name
    outlet: Name
    rail: Name
