"""The hanging hose against valve, outlet and tray floor, its length, and the reach of the handset.

Millimetres; slider heights in messages are above the finished tray floor, as they are measured on site.
Where a hose is too short at some slider heights, it is judged at the others.
"""

import math
from collections.abc import Iterator
from functools import lru_cache
from typing import Literal, NamedTuple

import numpy as np
import shapely

from geometry.arrays import Floats
from geometry.finding import Finding
from geometry.hose.reach import farthest_corner, reach
from geometry.hose.slide import Along, Stretch, along
from geometry.hose.sweep import Ends, Sweep, at, clearance_to, ends_of, hose_gaps, loop_gaps, sweep
from geometry.model import XY
from geometry.plan import Hung, Plan
from geometry.shape.outline import Outline, circle, core, holds, nearest, run
from geometry.shape.solid import Solid
from geometry.units import number

FAR = 400.0
"""A valve farther than this from all that a hose sweeps, in mm, is not listed beside nearer ones."""
TOO_SHORT = "Hose is too short at every slider height, so its hang could not be worked out."
_CALLED = {"tray": "tray", "bath": "bath", "wet_floor": "wet floor"}
_FLOOR = {"tray": "tray floor", "bath": "bath floor", "wet_floor": "wet floor"}


def hose(plan: Plan) -> Iterator[Finding]:
    """Judge every hose: its length, by every valve, bend, floor and reach. No hose, no findings."""
    fronts = _fronts(plan)
    for hung in plan.hoses:
        ends = ends_of(hung)
        yield _length(plan, hung, ends)
        if ends.hangs is None:
            yield from _unchecked(plan, hung)
        else:
            yield from (_valve(plan, hung, ends, name, fronts[name]) for name in _near(ends, fronts))
            yield _bend(plan, hung, ends)
            yield _floor(plan, hung, ends)
        yield _reach(plan, hung)


def _unchecked(plan: Plan, hung: Hung) -> Iterator[Finding]:
    """Say what cannot be judged of a hose that is too short at every slider height."""
    own, outlet = hung.hose.id, hung.outlet.fitting.id
    unjudged = [("hose.valve", (own, valve.fitting.id)) for valve in plan.valves]
    for rule, parts in (*unjudged, ("hose.bend", (own, outlet)), ("hose.floor", (own,))):
        held = plan.rules[rule]
        limit = hung.part.least_bend if rule == "hose.bend" else held.value
        yield Finding(
            rule=rule, status="unchecked", parts=parts, message=TOO_SHORT,
            unit=held.unit, limit=limit, source=held.source,
        )  # fmt: skip


# across the valve


class _Nearest(NamedTuple):
    """How near a hose comes to the parts of a valve, which of them is nearest, and between which points."""

    along: Along
    part: int
    place: tuple[XY, ...]
    looped: bool
    """Whether a loop is counted in at some slider height."""


def _fronts(plan: Plan) -> dict[str, tuple[Solid, ...]]:
    """Return the plate and controls of each valve, by the valve's id."""
    fronts: dict[str, tuple[Solid, ...]] = {valve.fitting.id: () for valve in plan.valves}
    for solid in plan.fitted:
        if solid.owner in fronts and (solid.what == "plate" or solid.what.endswith(" control")):
            fronts[solid.owner] += (solid,)
    return fronts


def _near(ends: Ends, fronts: dict[str, tuple[Solid, ...]]) -> Iterator[str]:
    """Go through the valves that a hose may come near, and the nearest one in any case."""
    swept = sweep(ends)
    x0, x1 = sorted((ends.nozzle[0], ends.nut[0]))
    y0, y1 = float(np.min(swept.lows[:, 1])), max(ends.nozzle[1], ends.nut[1] + ends.slide[1])
    apart = {}
    for name, solids in fronts.items():
        left, low, right, top = solids[0].outline.bounds
        apart[name] = max(left - x1, x0 - right, low - y1, y0 - top)
    nearest_one = min(apart, key=lambda name: apart[name], default=None)
    yield from (name for name, distance in apart.items() if distance < FAR or name == nearest_one)


def _valve(plan: Plan, hung: Hung, ends: Ends, valve: str, solids: tuple[Solid, ...]) -> Finding:
    limit = plan.rules["hose.valve"].value
    near = _nearest(ends, tuple(solid.outline for solid in solids), limit)
    message = _hangs(plan, hung, ends, near, solids[near.part].what, limit)
    return plan.rules.judge("hose.valve", near.along.least, message, (hung.hose.id, valve), near.place)


@lru_cache(maxsize=256)
def _nearest(ends: Ends, outlines: tuple[Outline, ...], limit: float) -> _Nearest:
    parts = _outermost(outlines)

    def gaps(swept: Sweep) -> Floats:
        return np.asarray(np.min([clearance_to(swept, outlines[part]) for part in parts], axis=0))

    swept = sweep(ends)
    found = along(lambda sliders: gaps(at(ends, sliders)), swept.sliders, gaps(swept), limit)
    worst = swept.one(found.at)
    part = min(parts, key=lambda index: float(clearance_to(worst, outlines[index])[0]))
    return _Nearest(found, part, _place(worst, outlines[part]), bool(np.any(swept.loops)))


@lru_cache(maxsize=256)
def _outermost(outlines: tuple[Outline, ...]) -> tuple[int, ...]:
    """Return the indices of the outlines that no earlier one holds."""
    kept: list[int] = []
    for index, outline in enumerate(outlines):
        if not any(holds(outlines[earlier], outline) for earlier in kept):
            kept.append(index)
    return tuple(kept)


def _place(worst: Sweep, outline: Outline) -> tuple[XY, ...]:
    """Return the two points between which one curve is nearest to an outline; one where it crosses it."""
    ends, line = worst.ends, worst.lines[0]
    (x, low), (right, high) = line.min(axis=0).tolist(), line.max(axis=0).tolist()
    if loop_gaps(worst, outline)[0] < hose_gaps(worst, outline)[0]:
        x, y = worst.centres[0].tolist()
        hanging = circle((x, y), 2 * (ends.least_bend + ends.radius))
    elif x == right:
        hanging = run(((x, low), (x, high)), 2 * ends.radius)
    else:
        x, y = shapely.shortest_line(worst.axes[0], core(outline)).coords[0]
        hanging = circle((x, y), 2 * ends.radius)
    points = nearest(hanging, outline)
    return points if points[0] != points[1] else points[:1]


def _hangs(plan: Plan, hung: Hung, ends: Ends, near: _Nearest, part: str, limit: float) -> str:
    least, failing = near.along.least, near.along.failing
    loop = f", its loop of {number(ends.least_bend)} mm radius counted in" if near.looped else ""
    if not failing:
        return f"Hose hangs at least {number(least)} mm clear of the {part} {_wherever(ends)}{loop}."
    sliders = _stretches(plan, hung, ends, failing)
    if least <= 0:
        over = f", {number(-least)} mm over the edge of its {part}" if number(least) != "0" else ""
        return f"Hose hangs across the valve{over}; it is nearer than {number(limit)} mm {sliders}{loop}."
    return (
        f"Hose hangs too near the valve: {number(least)} mm from the {part}, "
        f"and nearer than {number(limit)} mm {sliders}{loop}."
    )


# slider heights as they are measured on site


def _above_floor(plan: Plan, hung: Hung, slider: float) -> float:
    return hung.rail.fitting.height + slider - plan.job.enclosure.floor


def _slider(plan: Plan, hung: Hung, slider: float) -> str:
    return f"with the slider {number(_above_floor(plan, hung, slider), 0)} mm above the {_floor_of(plan)}"


def _floor_of(plan: Plan) -> str:
    return _FLOOR[plan.job.enclosure.kind]


def _wherever(ends: Ends) -> str:
    return "at every slider height" + ("" if ends.hangs_throughout else " where it is long enough")


def _stretches(plan: Plan, hung: Hung, ends: Ends, failing: tuple[Stretch, ...]) -> str:
    """Say at which slider heights something fails, to the millimetre."""
    if failing == (ends.hangs,):
        return _wherever(ends)
    spoken = []
    for stretch in failing:
        low, high = (number(_above_floor(plan, hung, slider), 0) for slider in stretch)
        spoken.append(f"at {low}" if low == high else f"between {low} and {high}")
    return f"with the slider {' and '.join(spoken)} mm above the {_floor_of(plan)}"


# length, bend, floor, reach


def _length(plan: Plan, hung: Hung, ends: Ends) -> Finding:
    slider = max(ends.slide, key=ends.straight)
    straight, limit = ends.straight(slider), plan.rules["hose.length"].value
    slack = ends.length - straight
    where = _slider(plan, hung, slider)
    wanted = f"it wants to be {math.ceil(straight + limit - 1e-6)} mm long or more"
    if slack < 0:
        message = f"Hose is {number(-slack)} mm too short {where}: {wanted}."
    elif slack < limit:
        message = f"Hose has only {number(slack)} mm to spare {where}: {wanted}."
    else:
        message = f"Hose has {number(slack)} mm to spare at its farthest, {where}."
    nut = ends.nut[0], ends.nut[1] + slider
    return plan.rules.judge(
        "hose.length", slack, message, (hung.hose.id, hung.rail.fitting.id), (ends.nozzle[:2], nut)
    )


@lru_cache(maxsize=64)
def _lowest(ends: Ends, which: Literal["under the outlet", "height"], limit: float) -> tuple[Along, XY]:
    """Follow the lowest point, by how far it is under the outlet or by its height; say where it is worst."""

    def measure(swept: Sweep) -> Floats:
        y = swept.lows[:, 1]
        return np.asarray(ends.nozzle[1] - y if which == "under the outlet" else y - ends.radius)

    swept = sweep(ends)
    found = along(lambda sliders: measure(at(ends, sliders)), swept.sliders, measure(swept), limit)
    x, y = swept.one(found.at).lows[0].tolist()
    return found, (x, y)


def _bend(plan: Plan, hung: Hung, ends: Ends) -> Finding:
    limit = ends.least_bend
    found, low = _lowest(ends, "under the outlet", limit)
    if found.failing:
        message = (
            f"Hose kinks at its outlet: it has {number(found.least)} mm under it to turn in and needs "
            f"{number(limit)} mm, {_stretches(plan, hung, ends, found.failing)}."
        )
    else:
        message = f"Hose has at least {number(found.least)} mm under its outlet to turn in {_wherever(ends)}."
    parts = (hung.hose.id, hung.outlet.fitting.id)
    return plan.rules.judge("hose.bend", found.least, message, parts, (ends.nozzle[:2], low), limit=limit)


def _floor(plan: Plan, hung: Hung, ends: Ends) -> Finding:
    floor, limit = plan.job.enclosure.floor, plan.rules["hose.floor"].value
    found, (x, y) = _lowest(ends, "height", floor + limit)
    above = found.least - floor
    if found.failing:
        hangs = "lies on" if above <= 0 else f"hangs down to {number(above)} mm above"
        message = (
            f"Hose {hangs} the {_floor_of(plan)}, less than {number(limit)} mm above it "
            f"{_stretches(plan, hung, ends, found.failing)}; a stiff hose hangs a little higher."
        )
    else:
        lowest = _slider(plan, hung, found.at).capitalize()
        message = f"{lowest} the hose hangs down to {number(above)} mm above it; a stiff hose a little less."
    place = ((x, y - ends.radius), (x, floor))
    return plan.rules.judge("hose.floor", above, message, (hung.hose.id,), place)


def _reach(plan: Plan, hung: Hung) -> Finding:
    held, enclosure = reach(hung), plan.job.enclosure
    (x, _), distance = farthest_corner(held, enclosure)
    beyond, called = held.radius - distance, _CALLED[enclosure.kind]
    outcome = f"{number(beyond)} mm beyond" if beyond >= 0 else f"{number(-beyond)} mm short of"
    message = (
        f"Handset in the hand reaches {number(held.radius)} mm from its outlet, "
        f"{outcome} the far corner of the {called}."
    )
    place = (held.centre[:2], (x, held.centre[1]))
    parts = (hung.hose.id, hung.outlet.fitting.id)
    return plan.rules.judge("hose.reach", beyond, message, parts, place)
