"""The build-up: how thick the finish is at a place, from the bare face to the finished face, in mm."""

from functools import lru_cache
from typing import NamedTuple

from geometry.model import XY, Finish, FinishArea, Layer


class BuildUp(NamedTuple):
    """Thickness of the finish at one place: as planned, and the least and most within the tolerances."""

    planned: float
    least: float
    most: float
    layers: tuple[Layer, ...]


def area_at(finish: Finish, at: XY) -> FinishArea | None:
    """Return the first area that covers a point, edges included, or None where the wall stays bare."""
    x, y = at
    for area in finish.areas:
        region = area.region
        if region is None or (
            region.x <= x <= region.x + region.width and region.y <= y <= region.y + region.height
        ):
            return area
    return None


@lru_cache(maxsize=1024)
def build_up(finish: Finish, at: XY) -> BuildUp:
    """Return the build-up at a point; 0 where no area covers it. The worst cases add all tolerances."""
    area = area_at(finish, at)
    layers = area.layers if area else ()
    planned = sum(layer.thickness for layer in layers)
    slack = sum(min(layer.tolerance, layer.thickness) for layer in layers)
    more = sum(layer.tolerance for layer in layers)
    return BuildUp(planned, planned - slack, planned + more, layers)
