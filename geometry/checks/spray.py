"""Whether the water of each head falls inside the enclosure, in plan: x along the wall, z into the room, mm.

Measured is from the edge of the spray plate; how far the water spreads on its way down is in the limit.
Water may hit a wall or a screen: only open edges count.
"""

from collections.abc import Iterator

from geometry.checks.near import Gap, name, report
from geometry.finding import Finding
from geometry.model import XY, Enclosure, Wall
from geometry.plan import Plan
from geometry.shape.solid import Solid
from geometry.units import shown

AGAINST = 30.0
"""How near an edge lies to the wall or screen that closes it, mm: room for a seal or an upstand (common
practice, no source)."""


def spray(plan: Plan) -> Iterator[Finding]:
    """Judge each head by its least margin to an open edge of the enclosure; the wall itself is never open."""
    discs = plan.solids("head")
    gaps = [gap for disc in discs for gap in _margins(disc, plan.job.enclosure, plan.job.wall)]
    if discs and not gaps:
        message = "Walls and screens close every edge round the spray."
        parts = tuple(disc.owner for disc in discs)
        yield Finding(rule="spray.inside", status="clear", parts=parts, message=message)
    else:
        yield from report(plan.rules, "spray.inside", gaps, _sentence)


def _margins(disc: Solid, enclosure: Enclosure, wall: Wall) -> Iterator[Gap]:
    """Go through the open edges with what is left between them and the spray."""
    x0, under, z0, x1, _, z1 = disc.box
    left, right, front = enclosure.left, enclosure.right, enclosure.projection
    if not (wall.left == "corner" and left <= AGAINST) and not _screened(enclosure, under, 0, left, (z0, z1)):
        yield _margin(disc, enclosure, "left", x0 - left, ((x0, under), (left, under)))
    at_corner = wall.right == "corner" and right >= wall.width - AGAINST
    if not at_corner and not _screened(enclosure, under, 0, right, (z0, z1)):
        yield _margin(disc, enclosure, "right", right - x1, ((x1, under), (right, under)))
    if not _screened(enclosure, under, 1, front, (x0, x1)):
        yield _margin(disc, enclosure, "front", front - z1, (((x0 + x1) / 2, under),))


def _screened(enclosure: Enclosure, under: float, axis: int, at: float, span: tuple[float, float]) -> bool:
    """Return whether one screen stands along an edge, at a head's underside, over all of the spray's span."""
    for screen in enclosure.screens:
        ends = (screen.start, screen.end)
        along = sorted(end[1 - axis] for end in ends)
        if (
            all(abs(end[axis] - at) <= AGAINST for end in ends)
            and screen.bottom <= under <= screen.top
            and along[0] <= span[0]
            and span[1] <= along[1]
        ):
            return True
    return False


def _margin(disc: Solid, enclosure: Enclosure, side: str, measured: float, place: tuple[XY, ...]) -> Gap:
    edge = f"{side} edge of the {enclosure.kind.replace('_', ' ')}"
    return Gap(disc.owner, (disc.owner,), name(disc), edge, measured, place)


def _sentence(gap: Gap, found: Finding) -> str:
    measured, wanted = found.measured or 0.0, f"{shown(found.limit or 0.0)} mm"
    whose = f"Spray of {gap.first}"
    if measured < 0:
        return f"{whose} falls {shown(-measured)} mm outside the {gap.second}; {wanted} inside is wanted."
    return f"{whose} falls {shown(measured)} mm inside the {gap.second}; {wanted} is wanted."
