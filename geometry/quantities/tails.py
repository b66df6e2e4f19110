"""Old pipes that lie where the wall is cut: what is cut out and capped before the wall is cut. In mm."""

import math
from typing import NamedTuple

import shapely

from geometry.model import XY, OldPipe
from geometry.plan import Plan
from geometry.quantities.volumes import prisms

BESIDE = 50.0
"""Cut this much beyond the edge of a chase or recess, so that a cap fits (common practice, no source)."""


class Tail(NamedTuple):
    """A stretch of an old pipe to cut out: from where to where, along it, and how long that is."""

    pipe: str
    start: XY
    end: XY
    length: float


def tails(plan: Plan) -> tuple[Tail, ...]:
    """Return the stretches of old pipes to cut out, each with room for a cap on both sides."""
    area = shapely.union_all([prism.area for prism in prisms(plan)])
    found = []
    for service in plan.job.services:
        if isinstance(service, OldPipe):
            route = shapely.LineString(service.route)
            met = shapely.intersection(route, shapely.buffer(area, service.diameter / 2))
            for low, high in _stretches(route, met):
                a, b = (shapely.line_interpolate_point(route, at) for at in (low, high))
                found.append(Tail(service.id, (a.x, a.y), (b.x, b.y), high - low))
    return tuple(found)


def _stretches(route: shapely.LineString, met: shapely.Geometry) -> list[tuple[float, float]]:
    """Return from where to where along a route it is met, with room beside it; those that overlap as one."""
    whole = float(shapely.length(route))
    spans = []
    for part in shapely.get_parts(met):
        places = [
            float(shapely.line_locate_point(route, shapely.Point(xy)))
            for xy in shapely.get_coordinates(part).tolist()
        ]
        if places:
            spans.append((max(0.0, min(places) - BESIDE), min(whole, max(places) + BESIDE)))
    joined: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if joined and low <= joined[-1][1]:
            joined[-1] = joined[-1][0], max(joined[-1][1], high)
        elif not math.isclose(low, high):
            joined.append((low, high))
    return joined
