"""How deep a recess is cut, from the finish that will cover it.

A box must lie with its back between `least` and `most` behind the finished face. With build-up b the
bare wall is cut between `least - b` and `most - b` deep; with a build-up that may be anything from
b1 to b2, between `least - b1` and `most - b2`, so that the box fits whatever the finish comes to.
"""

from typing import NamedTuple

from geometry.build_up import BuildUp


class CutDepth(NamedTuple):
    """The depth to cut behind the bare face, in mm: least, most, and where to aim."""

    least: float
    most: float
    planned_least: float
    planned_most: float

    @property
    def shallowest(self) -> float:
        """The least depth that can be cut: nothing is cut where the finish alone is deep enough."""
        return max(0.0, self.least)

    @property
    def room(self) -> float:
        """What is left to choose from, in mm; negative: no depth fits."""
        return self.most - self.shallowest

    @property
    def target(self) -> float:
        """Where to aim: the whole mm nearest to the middle, or the middle where none lies in the range."""
        middle = (self.shallowest + self.most) / 2
        whole = float(round(middle))
        return max(0.0, whole if self.shallowest <= whole <= self.most else middle)


def cut_depth(depth_least: float, depth_most: float, finish: BuildUp) -> CutDepth:
    """Return how deep to cut for a part whose back must lie so far behind the finished face.

    Args:
        depth_least: least distance from the back to the finished face, in mm.
        depth_most: the most.
        finish: the build-up at the part's place.
    """
    return CutDepth(
        depth_least - finish.least,
        depth_most - finish.most,
        depth_least - finish.planned,
        depth_most - finish.planned,
    )
