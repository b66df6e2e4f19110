"""Electricity: cuts and screws where cables run out of sight, and accessories near the water.

Nothing here is a clash: a licensed electrician decides, and before a cut in a zone the circuits are isolated
and proved dead. Cables that are known are another subject. Distances in mm on the wall.
"""

from collections.abc import Iterator

from geometry.checks.memory import remembered
from geometry.checks.readings import listed
from geometry.finding import Finding
from geometry.model import Accessory
from geometry.plan import Plan
from geometry.shape.outline import Outline, gap, nearest, rectangle
from geometry.units import EPSILON, at_least, shown
from geometry.zones import (
    Cuts,
    Zone,
    accessories,
    bathroom_zones,
    cable_zones,
    cuts_of,
    rectangle_of,
    zoned,
)

PROVE = "Detect, isolate and prove dead before cutting; a licensed electrician decides."
SCAN = "Old cables may run anywhere: scan before cutting all the same."


def electricity(plan: Plan) -> Iterator[Finding]:
    """Judge every cut against the zones of cables, and every accessory against those of the bathroom."""
    yield from _cuts(plan)
    yield from _other_face(plan)
    yield from _accessories(plan)


def _cuts(plan: Plan) -> Iterator[Finding]:
    """Judge the chase of each pipe and the recess and screws of each fitting: one finding each."""
    for owner, cuts in cuts_of(plan).items():
        yield from _cut(plan, owner, cuts)


@remembered
def _cut(plan: Plan, owner: str, outlines: Cuts) -> Iterator[Finding]:
    """Judge what is cut for one pipe or fitting."""
    rule, cuts = "electricity.zone", zoned(owner, outlines, cable_zones(plan))
    worst = min(cuts, key=lambda cut: cut.gap)
    near = [cut for cut in cuts if not at_least(cut.gap, plan.rules[rule].value)]
    zones = tuple(dict.fromkeys(zone for cut in near or [worst] for zone in cut.zones))
    where = listed(dict.fromkeys(zone.name for zone in zones))
    if near:
        what = listed(dict.fromkeys(cut.what for cut in near))
        deep = f"up to {shown(-worst.gap)} mm inside" if worst.enters else f"{shown(worst.gap)} mm off"
        message = f"{owner}: {what} {deep} the {where}, where cables may run out of sight. {PROVE}"
    else:
        message = f"{owner} keeps {shown(worst.gap)} mm off the {where}. {SCAN}"
    accessories = tuple(dict.fromkeys(zone.owner for zone in zones if near and zone.owner))
    nearby = min(worst.zones, key=lambda zone: gap(worst.outline, zone.outline))
    place = nearest(worst.outline, nearby.outline)
    yield plan.rules.judge(rule, worst.gap, message, (owner, *accessories), place, failing="refer")


@remembered
def _other_face(plan: Plan) -> Iterator[Finding]:
    """Say that zones of accessories on the other face of a thin wall reach through to this one."""
    rule, thick = "electricity.through", plan.job.wall.thickness
    limit = plan.rules[rule].value
    through = thick <= limit + EPSILON
    message = (
        f"The wall is {shown(thick)} mm thick: zones of accessories on its other face do not reach here."
    )
    if through:
        message = (
            f"The wall is {shown(thick)} mm thick, no more than {shown(limit)} mm: zones of accessories on "
            f"its other face reach through. Look there. {PROVE}"
        )
    found = plan.rules.judge(rule, thick, message, (), failing="refer")
    yield found.but(status="refer") if through else found


# bathroom zones

_RULES = {"socket": "socket", "switch": "switch", "spur": "switch", "shaver": "shaver"}
_ZONES = {"socket": ("bathroom 1",), "shaver": ("bathroom 0", "bathroom 1")}
"""The zones that count for a rule; for the others all do."""
_ALLOWED = {
    "socket": "sockets keep well away from the water",
    "switch": "switches stay outside zones 0, 1 and 2, but for pull cords",
    "shaver": "a shaver point stays outside zones 0 and 1",
    "equipment": "in zones 1 and 2 only what its maker allows there, splash-proof to IPX4",
}


@remembered
def _accessories(plan: Plan) -> Iterator[Finding]:
    """Judge each accessory by its kind."""
    found = accessories(plan)
    zones = bathroom_zones(plan) if found else ()
    if found and not zones:
        message = (
            "There is no fixed outlet yet, so the zones of this shower without a tray are not known: "
            "accessories could not be checked."
        )
        parts = tuple(accessory.id for accessory in found)
        yield Finding(rule="electricity.socket", status="unchecked", parts=parts, message=message)
        return
    for accessory in found:
        yield _accessory(plan, accessory, zones)


def _accessory(plan: Plan, accessory: Accessory, zones: tuple[Zone, ...]) -> Finding:
    kind = _RULES.get(accessory.kind, "equipment")
    rule, outline = f"electricity.{kind}", rectangle(*rectangle_of(accessory))
    barred = [zone for zone in zones if zone.kind in _ZONES.get(kind, (zone.kind,))]
    measure = _level if kind == "socket" else _flat
    zone = min(barred, key=lambda zone: measure(outline, zone))
    apart, need = measure(outline, zone), plan.rules[rule].value
    where = f"{shown(-apart)} mm inside" if apart < 0 else f"{shown(apart)} mm from"
    called = accessory.id if accessory.kind in accessory.id.casefold() else f"{accessory.kind} {accessory.id}"
    message = f"{called} is {where} {zone.name}"
    if kind == "socket":
        message += f", at least {shown(need)} mm"
    if at_least(apart, need):
        message += "."
    else:
        message += f": {_ALLOWED[kind]}. A licensed electrician decides whether it moves."
    place = nearest(outline, zone.outline)
    return plan.rules.judge(rule, apart, message, (accessory.id,), place, failing="refer")


def _flat(outline: Outline, zone: Zone) -> float:
    """Return the distance on the wall."""
    return gap(outline, zone.outline)


def _level(outline: Outline, zone: Zone) -> float:
    """Return the level distance, whatever the height."""
    x0, _, x1, _ = outline.bounds
    left, _, right, _ = zone.bounds
    return max(left - x1, x0 - right)
