"""The build-up: how thick the finish is at a place, from the bare face to the finished face, in mm."""

import math
from functools import lru_cache
from typing import NamedTuple

from geometry.model import XY, Finish, FinishArea, Layer, Region
from geometry.units import at_least, at_most


class BuildUp(NamedTuple):
    """Thickness of the finish at one place: as planned, and the least and most within the tolerances."""

    planned: float
    least: float
    most: float
    layers: tuple[Layer, ...]

    @property
    def likely(self) -> tuple[float, float]:
        """The least and most that are likely: tolerances of layers that vary by themselves add by squares."""
        slack = math.sqrt(sum(min(layer.tolerance, layer.thickness) ** 2 for layer in self.layers))
        more = math.sqrt(sum(layer.tolerance**2 for layer in self.layers))
        return self.planned - slack, self.planned + more


def area_at(finish: Finish, at: XY) -> FinishArea | None:
    """Return the first area that covers a point, edges included, or None where the wall stays bare."""
    x, y = at
    for area in finish.areas:
        if area.region is None or _covers(area.region, x, y):
            return area
    return None


def _covers(region: Region, x: float, y: float) -> bool:
    along = at_least(x, region.x) and at_most(x, region.x + region.width)
    return along and at_least(y, region.y) and at_most(y, region.y + region.height)


@lru_cache(maxsize=1024)
def build_up(finish: Finish, at: XY) -> BuildUp:
    """Return the build-up at a point; 0 where no area covers it. The worst cases add all tolerances."""
    area = area_at(finish, at)
    layers = area.layers if area else ()
    planned = sum(layer.thickness for layer in layers)
    slack = sum(min(layer.tolerance, layer.thickness) for layer in layers)
    more = sum(layer.tolerance for layer in layers)
    return BuildUp(planned, planned - slack, planned + more, layers)
