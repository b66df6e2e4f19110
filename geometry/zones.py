"""Zones on the wall: where cables run out of sight, and the bathroom zones round the enclosure.

A cable zone says where a cable that nobody sees should run: along the top, along the corners, and level with
and plumb with every accessory. Zones are rectangles on the wall, in mm, for checks and drawings alike; they
say where cables should be, not where they are.
"""

import math
from collections.abc import Iterator
from functools import lru_cache
from typing import Literal, NamedTuple

from geometry.model import Accessory, Head
from geometry.plan import Plan
from geometry.shape.outline import Bounds, Outline, gap, rectangle, run
from geometry.units import EPSILON, shown

ZoneKind = Literal["ceiling", "corner", "accessory", "bathroom 0", "bathroom 1", "bathroom 2"]
CAUTION = (
    "Before cutting in a zone: scan for cables and metal, isolate the circuits and lock them off, prove dead "
    "(prove the tester, test, prove the tester again). Old cables may run outside the zones."
)
"""What a sheet says wherever a cut enters a zone (from memory of usual safe-isolation practice: verify)."""


class Zone(NamedTuple):
    """A rectangle on the wall, in mm; `owner` is the accessory that a zone follows from."""

    kind: ZoneKind
    name: str
    bounds: Bounds
    owner: str | None = None

    @property
    def outline(self) -> Outline:
        """The zone as an outline on the wall."""
        return rectangle(*self.bounds)


class ZonedCut(NamedTuple):
    """A chase, recess or screw with the nearest zones: those that it enters, or else the one next to it."""

    owner: str
    what: str
    zones: tuple[Zone, ...]
    gap: float
    """Least distance to them in mm; negative is how far it reaches in."""
    outline: Outline

    @property
    def enters(self) -> bool:
        """Whether it reaches into a zone; a cut exactly at the edge does not."""
        return self.gap < -EPSILON


Cuts = tuple[tuple[str, Outline], ...]
"""What is cut, in a word, and its outline on the wall."""


# zones of cables


def cable_zones(plan: Plan) -> tuple[Zone, ...]:
    """Return the zones in which cables run out of sight: top of the wall, corners, accessories."""
    return tuple(_cable_zones(plan))


def _cable_zones(plan: Plan) -> Iterator[Zone]:
    wall, rules = plan.job.wall, plan.rules
    top, corner = rules["electricity.zone_top"].value, rules["electricity.zone_corner"].value
    yield Zone(
        "ceiling",
        f"zone {shown(top)} mm under the ceiling",
        (0.0, wall.height - top, wall.width, wall.height),
    )
    if wall.left == "corner":
        yield Zone("corner", f"zone {shown(corner)} mm from the left corner", (0.0, 0.0, corner, wall.height))
    if wall.right == "corner":
        right = (wall.width - corner, 0.0, wall.width, wall.height)
        yield Zone("corner", f"zone {shown(corner)} mm from the right corner", right)
    for accessory in accessories(plan):
        x0, y0, x1, y1 = rectangle_of(accessory)
        margin = rules["electricity.zone_margin"].value
        plumb, level = (
            (x0 - margin, 0.0, x1 + margin, wall.height),
            (0.0, y0 - margin, wall.width, y1 + margin),
        )
        yield Zone("accessory", f"zone above and below {accessory.id}", plumb, accessory.id)
        yield Zone("accessory", f"zone level with {accessory.id}", level, accessory.id)


def accessories(plan: Plan) -> tuple[Accessory, ...]:
    """Return the electrical points on the wall."""
    return tuple(service for service in plan.job.services if isinstance(service, Accessory))


def rectangle_of(accessory: Accessory) -> Bounds:
    """Return what an accessory covers, in mm on the wall."""
    x, y, w, h = accessory.x, accessory.height, accessory.wide / 2, accessory.high / 2
    return x - w, y - h, x + w, y + h


# cuts in them


def zoned_cuts(plan: Plan) -> tuple[ZonedCut, ...]:
    """Return every leg of a chase, recess and fixing screw with the zones that it enters or lies next to."""
    zones = cable_zones(plan)
    return tuple(found for owner, cuts in cuts_of(plan).items() for found in zoned(owner, cuts, zones))


@lru_cache(maxsize=1024)
def zoned(owner: str, cuts: Cuts, zones: tuple[Zone, ...]) -> tuple[ZonedCut, ...]:
    """Return the cuts of one pipe or fitting with the zones that each enters or lies next to."""
    return tuple(ZonedCut(owner, what, *_next_to(outline, zones), outline) for what, outline in cuts)


def cuts_in_zones(plan: Plan) -> tuple[ZonedCut, ...]:
    """Return the cuts and screws that reach into a zone: where to isolate and prove dead before cutting."""
    return tuple(cut for cut in zoned_cuts(plan) if cut.enters)


def cuts_of(plan: Plan) -> dict[str, Cuts]:
    """Return the legs of each pipe's chase and the recess and screws of each fitting, by their ids."""
    what = "pipe" if plan.job.wall.is_stud_wall else "chase"
    found: dict[str, list[tuple[str, Outline]]] = {
        chase.pipe: [(what, run(leg, chase.width)) for leg in chase.legs] for chase in plan.chases
    }
    for name, outline in plan.recesses.items():
        found.setdefault(name, []).append(("recess", outline))
    for solid in plan.solids("screw"):
        found.setdefault(solid.owner, []).append(("screw", solid.outline))
    return {owner: tuple(cuts) for owner, cuts in found.items() if cuts}


def _next_to(outline: Outline, zones: tuple[Zone, ...]) -> tuple[tuple[Zone, ...], float]:
    """Return the zones that an outline enters, or else the nearest, and the least distance to them."""
    gaps = [gap(outline, zone.outline) for zone in zones]
    inside = tuple(zone for zone, apart in zip(zones, gaps, strict=True) if apart < -EPSILON)
    least = min(gaps)
    return inside or (zones[gaps.index(least)],), least


# bathroom zones


def bathroom_zones(plan: Plan) -> tuple[Zone, ...]:
    """Return zones 0, 1 and 2 as far as they lie on this wall.

    Round a tray or bath zone 1 stands over it and zone 2 beside that. Round a shower without a tray zone 1
    reaches so far from every fixed outlet, there is no zone 2, and with no outlet yet there are no zones.
    Screens and doors are not counted as limits.
    """
    rules, wall, enclosure = plan.rules, plan.job.wall, plan.job.enclosure
    top = min(bathroom_top(plan), wall.height)
    if enclosure.kind == "wet_floor":
        spans, floor, beside = _reached(plan), rules["electricity.zone_0_height"].value, 0.0
    else:
        spans, floor = ((enclosure.left, enclosure.right),), enclosure.rim
        beside = rules["electricity.zone_2_width"].value
    zones = [Zone("bathroom 0", "zone 0", (x0, 0.0, x1, floor)) for x0, x1 in spans]
    zones += [Zone("bathroom 1", "zone 1", (x0, 0.0, x1, top)) for x0, x1 in spans]
    if beside:
        for x0, x1 in (
            (enclosure.left - beside, enclosure.left),
            (enclosure.right, enclosure.right + beside),
        ):
            zones.append(Zone("bathroom 2", "zone 2", (x0, 0.0, x1, top)))
    return tuple(kept for zone in zones if (kept := _on_wall(zone, wall.width)) is not None)


def bathroom_top(plan: Plan) -> float:
    """Return up to which height the zones reach, in mm: to the highest fixed head or outlet if higher."""
    heads = [solid.high for solid in plan.solids("head")]
    outlets = [placed.fitting.height for placed in plan.elbowed if not isinstance(placed.fitting, Head)]
    return max([plan.rules["electricity.bathroom_top"].value, *heads, *outlets])


def _reached(plan: Plan) -> tuple[tuple[float, float], ...]:
    """Return what the radius of zone 1 reaches of the wall from each fixed outlet, overlaps put together.

    The outlet of an arm or hose is where it leaves the wall; that of a ceiling arm lies out in the room.
    """
    radius = plan.rules["electricity.zone_1_radius"].value
    out = {solid.owner: solid.outline.middle[1] for solid in plan.solids("ceiling flange")}
    spans = []
    for placed in plan.elbowed:
        half = math.sqrt(max(0.0, radius**2 - out.get(placed.fitting.id, 0.0) ** 2))
        spans.append((placed.fitting.x - half, placed.fitting.x + half))
    merged: list[tuple[float, float]] = []
    for x0, x1 in sorted(spans):
        if merged and x0 <= merged[-1][1]:
            merged[-1] = merged[-1][0], max(merged[-1][1], x1)
        else:
            merged.append((x0, x1))
    return tuple(merged)


def _on_wall(zone: Zone, width: float) -> Zone | None:
    """Return the part of a zone that lies on the wall, or None."""
    x0, y0, x1, y1 = zone.bounds
    x0, x1 = max(0.0, x0), min(width, x1)
    return zone._replace(bounds=(x0, y0, x1, y1)) if x1 > x0 and y1 > y0 else None
