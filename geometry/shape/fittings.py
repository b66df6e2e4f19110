"""What each fitting takes up: behind the wall, at the face, in front of it.

Each function takes a fitting with its part and the planned build-up at its place, in mm, and returns
solids; z counts from the bare face. The words in `Solid.what` are the trade's.
"""

import math
from functools import lru_cache

from geometry.model import Head, HoseOutlet, Rail, Spout, Valve
from geometry.parts.records import (
    Direction,
    Disc,
    Form,
    HandsetPart,
    HeadPart,
    OutletPart,
    RailPart,
    Screw,
    SpoutPart,
    ValvePart,
)
from geometry.shape.outline import Outline, circle, rectangle, run
from geometry.shape.solid import Solid


def form_at(form: Form, x: float, y: float) -> Outline:
    """Return a part's form as an outline about a point."""
    if isinstance(form, Disc):
        return circle((x, y), form.diameter)
    return _slab(x, y, form.wide, form.high, form.corner)


def _slab(x: float, y: float, wide: float, high: float, corner: float) -> Outline:
    return rectangle(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2, corner)


def recess_outline(valve: Valve, part: ValvePart, sides: frozenset[Direction]) -> Outline:
    """Return the recess of a valve: its box, with room to turn a nut on each side where a pipe joins."""
    x0, y0, x1, y1 = form_at(part.box, valve.x, valve.height).bounds
    room = part.joint_room
    return rectangle(
        x0 - room * ("left" in sides),
        y0 - room * ("down" in sides),
        x1 + room * ("right" in sides),
        y1 + room * ("up" in sides),
    )


@lru_cache(maxsize=256)
def valve_solids(
    valve: Valve, part: ValvePart, face: float, depth: float, sides: frozenset[Direction]
) -> tuple[Solid, ...]:
    """Return box, recess, plate, controls and screws; `depth` is that of the recess."""
    x, y = valve.at
    behind = [
        Solid(valve.id, "recess", recess_outline(valve, part, sides), -depth, 0.0),
        Solid(valve.id, "box", form_at(part.box, x, y), -depth, face),
    ]
    controls = [
        Solid(
            valve.id,
            f"{control.name} control",
            circle((x + control.x, y + control.y), control.diameter),
            face,
            face + control.projection,
        )
        for control in part.controls
    ]
    plate = Solid(valve.id, "plate", form_at(part.plate, x, y), face, face + part.plate_thickness)
    return (*behind, plate, *controls, *_screws(valve.id, x, y, part.screws))


@lru_cache(maxsize=256)
def head_solids(head: Head, part: HeadPart, face: float, depth: float) -> tuple[Solid, ...]:
    """Return pocket, flange, arm and head. A ceiling arm drops from the ceiling at `head.height`."""
    x, y = head.at
    axis = face + (part.reach if head.reach is None else head.reach)
    under = y - part.drop
    top = under + part.thickness
    drop = Solid(head.id, "arm", circle((x, axis), part.arm), min(top, y), y, "plan")
    disc = Solid(head.id, "head", circle((x, axis), part.diameter), under, top, "plan")
    if part.mount == "ceiling":
        flange = Solid(
            head.id, "ceiling flange", circle((x, axis), part.flange), y - part.flange_thickness, y, "plan"
        )
        return flange, drop, disc
    arm = Solid(
        head.id, "arm", run(((x, face), (x, axis)), part.arm), y - part.arm / 2, y + part.arm / 2, "plan"
    )
    return (*_elbow(head.id, x, y, part, face, depth), arm, drop, disc)


@lru_cache(maxsize=256)
def outlet_solids(outlet: HoseOutlet, part: OutletPart, face: float, depth: float) -> tuple[Solid, ...]:
    """Return pocket, flange, nozzle and screws of a hose outlet."""
    x, y = outlet.at
    nozzle = Solid(
        outlet.id,
        "nozzle",
        run(((x, face), (x, face + part.nozzle_out)), part.nozzle_diameter),
        y + min(part.nozzle_y, -part.nozzle_diameter / 2),
        y + max(part.nozzle_y, part.nozzle_diameter / 2),
        "plan",
    )
    return (
        *_elbow(outlet.id, x, y, part, face, depth),
        nozzle,
        *_screws(outlet.id, x, y, part.screws),
    )


@lru_cache(maxsize=256)
def spout_solids(spout: Spout, part: SpoutPart, face: float, depth: float) -> tuple[Solid, ...]:
    """Return pocket, flange and body of a bath spout."""
    x, y = spout.at
    body = Solid(
        spout.id,
        "spout",
        run(((x, face), (x, face + part.reach - part.body / 2)), part.body),
        y - max(part.drop, part.body / 2),
        y + part.body / 2,
        "plan",
    )
    return (*_elbow(spout.id, x, y, part, face, depth), body)


@lru_cache(maxsize=256)
def rail_solids(rail: Rail, part: RailPart, face: float) -> tuple[Solid, ...]:
    """Return bar, brackets and screws of a rail."""
    x, y = rail.at
    bar = Solid(rail.id, "rail", circle((x, face + part.axis_out), part.diameter), y, y + part.length, "plan")
    brackets = [
        Solid(rail.id, "bracket", circle((x, y + up), part.bracket), face, face + part.axis_out)
        for up in (part.fixing_low, part.fixing_high)
    ]
    screws = [
        solid
        for up in (part.fixing_low, part.fixing_high)
        for solid in _screws(rail.id, x, y + up, (part.screw,))
    ]
    return (bar, *brackets, *screws)


@lru_cache(maxsize=256)
def handset_solid(
    rail: Rail, part: RailPart, handset: HandsetPart, face: float, low: float, high: float
) -> Solid:
    """Return what the handset takes up in its holder while the slider goes from `low` to `high`.

    Args:
        rail: the rail that it slides on.
        part: the rail's part.
        handset: the handset's part, with its envelope in the holder.
        face: build-up at the rail, in mm.
        low: slider height above the rail's foot, in mm.
        high: slider height above the rail's foot, in mm.
    """
    r = max(0.0, min(handset.diameter / 2, (handset.out - part.axis_out) / 2))
    near, far = face + part.axis_out + r, face + handset.out - r
    half = handset.diameter / 2 - r
    plan = rectangle(rail.x - half - r, near - r, rail.x + half + r, max(near, far) + r, r)
    bottom, top = rail.height + low - handset.below, rail.height + high + handset.above
    return Solid(rail.id, "handset", plan, bottom, top, "plan")


def slider_of(rail: Rail, part: RailPart) -> float:
    """Return the slider's height above the rail's foot: as set, kept to its range, or two thirds up."""
    if rail.slider is None:
        return round(part.slide_low + (part.slide_high - part.slide_low) * 2 / 3, 1)
    return min(max(rail.slider, part.slide_low), part.slide_high)


def _elbow(
    owner: str, x: float, y: float, part: HeadPart | OutletPart | SpoutPart, face: float, depth: float
) -> tuple[Solid, ...]:
    return (
        Solid(
            owner, "pocket", _slab(x, y, part.pocket.wide, part.pocket.high, part.pocket.corner), -depth, 0.0
        ),
        Solid(owner, "flange", circle((x, y), part.flange), face, face + part.flange_thickness),
    )


def _screws(owner: str, x: float, y: float, screws: tuple[Screw, ...]) -> tuple[Solid, ...]:
    return tuple(
        Solid(owner, "screw", circle((x + screw.x, y + screw.y), screw.diameter), -screw.depth, 0.0)
        for screw in screws
    )


def sector(hinge: tuple[float, float], radius: float, start: float, end: float) -> Outline:
    """Return what a door sweeps in plan, at most 180 degrees: never less than that, at most 0.2 % more."""
    steps = max(2, math.ceil(abs(end - start) / 6))
    half = math.radians(abs(end - start) / steps / 2)
    outer = radius / math.cos(half)
    angles = [math.radians(start + (end - start) * step / steps) for step in range(steps + 1)]
    hx, hz = hinge
    rim = tuple((hx + outer * math.cos(angle), hz + outer * math.sin(angle)) for angle in angles)
    return Outline((hinge, *rim), 0.0, closed=True)
