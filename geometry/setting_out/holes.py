"""Every hole that is marked on the wall: whose it is, where its centre lies, how wide it is."""

from typing import Literal, NamedTuple

from geometry.model import XY, Enclosure
from geometry.parts.records import HeadPart
from geometry.plan import Plan
from geometry.units import on_grid

HoleKind = Literal["water", "screw"]


class Hole(NamedTuple):
    """One hole; `across` and `up` are its distances from the tray's left edge and from the tray floor, mm."""

    owner: str
    what: str
    kind: HoleKind
    at: XY
    diameter: float
    across: float
    up: float


def holes(plan: Plan) -> tuple[Hole, ...]:
    """Return the holes of all fittings, in the order of the job, water before screws."""
    enclosure = plan.job.enclosure
    screws = (
        _hole(enclosure, solid.owner, "screw", "screw", solid.outline.middle, 2 * solid.outline.radius)
        for solid in plan.solids("screw")
    )
    return (*water_holes(plan), *screws)


def water_holes(plan: Plan) -> tuple[Hole, ...]:
    """Return the holes through which water comes, in the order of the job."""
    return tuple(
        _hole(plan.job.enclosure, placed.fitting.id, "centre", "water", placed.fitting.at, placed.part.hole)
        for placed in (*plan.valves, *plan.elbowed)
        if not (isinstance(placed.part, HeadPart) and placed.part.mount == "ceiling")
    )


def _hole(enclosure: Enclosure, owner: str, what: str, kind: HoleKind, at: XY, diameter: float) -> Hole:
    across, up = on_grid(at[0] - enclosure.left), on_grid(at[1] - enclosure.floor)
    return Hole(owner, what, kind, at, diameter, across, up)
