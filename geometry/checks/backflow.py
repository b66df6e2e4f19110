"""Backflow: whether used water could be drawn back through a handset or a spout that hangs too low.

A handset is held on its hose pulled straight: it reaches all of a ball, and nothing in its way is counted on.
Measured is its lowest point, or a spout's mouth, above the rim over which the water below would spill, in mm.
Beyond a limit the protection that is stated decides, or the water company.
"""

import math
from collections.abc import Iterator

from geometry.finding import Finding, Limit, Status
from geometry.hose.reach import Reach, reach
from geometry.hose.spill import Category, Hang, Vessel, hang, vessels
from geometry.model.house import Backflow
from geometry.parts.records import SpoutPart, Thread, TubePart
from geometry.plan import Hung, Plan
from geometry.rules import Rulebook
from geometry.rules.tables import row
from geometry.shape.solid import Solid
from geometry.supply.waste import least_air_gap
from geometry.units import EPSILON, at_least, shown

NOMINAL: dict[Thread, float] = {"G3/8": 10.0, "G1/2": 15.0, "G3/4": 20.0, "G1": 25.0}
"""Nominal size of a connection by its thread, in mm."""
USUAL_INLET = 15.0
"""Nominal size of the pipe to an outlet that none leads to yet, in mm."""
RINGS: frozenset[Backflow] = frozenset({"retaining_ring", "factory_ring"})
DECIDES = "The water company or a licensed plumber decides."
_RING = "a ring that keeps the hose short enough"


def backflow(plan: Plan) -> Iterator[Finding]:
    """Judge every handset against what it may hang into, and every spout over the enclosure."""
    held = vessels(plan.job)
    inlets = {pipe.end.partition(".")[0]: plan.tubes[pipe.id] for pipe in plan.job.pipes}
    spouts = {placed.fitting.id: placed.part for placed in plan.spouts}
    if not plan.hoses:
        message = "There is no hose, so no handset can hang into used water."
        yield _clear(plan.rules["water.handset_gap"], message)
    for hung in plan.hoses:
        yield from _handset(plan, hung, held, _auk3(plan.rules, inlets.get(hung.outlet.fitting.id)))
    for solid in plan.solids("spout"):
        yield _spout(plan, solid, spouts[solid.owner], held[0])


# handsets


def _handset(plan: Plan, hung: Hung, held: tuple[Vessel, ...], auk3: Limit) -> Iterator[Finding]:
    """Judge one handset by the worst vessel of either category."""
    ball = reach(hung)
    for category in (3, 5):
        hangs = [hang(ball, vessel) for vessel in held if vessel.category == category]
        limit = plan.rules["water.handset_gap"] if category == 3 else auk3
        if hangs:
            yield _judged(plan, hung, min(hangs, key=lambda found: (found.gap, found.short)), limit)
    if not any(fixture.kind != "basin" for fixture in plan.job.sanitary):
        yield _none_entered(plan, hung, ball, auk3)


def _judged(plan: Plan, hung: Hung, found: Hang, limit: Limit) -> Finding:
    vessel, parts, handset = found.vessel, _parts(hung, found.vessel.id), f"Handset of {hung.hose.id}"
    category = f"fluid category {vessel.category}"
    if math.isinf(found.gap):
        message = f"{handset} ends {shown(found.short)} mm short of the {vessel.called} ({category})."
        return _clear(limit, message, parts)
    passes = at_least(found.gap, limit.value)
    status, how = WORTH[vessel.category][plan.job.house.backflow]
    side = "above" if found.gap > -EPSILON else "below"
    message = (
        f"{handset} hangs down to {shown(abs(found.gap))} mm {side} the rim of the {vessel.called} "
        f"({category}); {shown(limit.value)} mm above it is wanted."
    )
    if not passes:
        message += how
        if status == "clear" and plan.job.house.backflow in RINGS:
            message += _free_length(hung, vessel, limit)
    place = (reach(hung).centre[:2],)
    return plan.rules.judge(limit.rule, found.gap, message, parts, place, limit=limit.value, failing=status)


_CATEGORY_3: dict[Backflow, tuple[Status, str]] = {
    "not_known": (
        "refer",
        f" Ways to comply: {_RING}, a double check valve at the hose's outlet or on both supplies, or both "
        f"supplies from a cistern. {DECIDES}",
    ),
    "none": ("clash", f" Fit {_RING}, or a double check valve at the hose's outlet or on both supplies."),
    "retaining_ring": ("clear", " The ring keeps it there, as long as nobody takes the hose out of it."),
    "factory_ring": ("clear", " The ring keeps it there."),
    "double_check_outlet": ("clear", " The double check valve at the hose's outlet protects the supplies."),
    "double_check_supplies": ("clear", " The double check valves on hot and cold protect the supplies."),
    "gravity_feed": (
        "clear",
        " Both supplies come from a cistern; nothing lower may be fed by the same pipes.",
    ),
}
_GAP_ONLY = "only a gap protects from it: fit a ring that is made not to be taken off, or a shorter hose."
_CATEGORY_5: dict[Backflow, tuple[Status, str]] = {
    "not_known": (
        "refer",
        " Ways to comply: a ring that is made not to be taken off, a hose that does not reach, or a cistern "
        f"that feeds nothing else. {DECIDES}",
    ),
    "none": ("clash", f" Of the ways to comply {_GAP_ONLY}"),
    "retaining_ring": ("clash", f" A ring that can be taken off does not count here; {_GAP_ONLY}"),
    "factory_ring": ("clear", " The ring that cannot be taken off keeps it there."),
    "double_check_outlet": ("clash", f" A double check valve does not count here; {_GAP_ONLY}"),
    "double_check_supplies": ("clash", f" Double check valves do not count here; {_GAP_ONLY}"),
    "gravity_feed": ("refer", f" Only a cistern that feeds nothing else may do. {DECIDES}"),
}
WORTH: dict[Category, dict[Backflow, tuple[Status, str]]] = {3: _CATEGORY_3, 5: _CATEGORY_5}
"""What a protection is worth where the gap is not kept, and what to say of it.

A ring of type AUK3 holds in all premises, other rings only where nothing is worse than category 3
(interpretation B20); double check valves and a gravity feed protect up to category 3 (installation
requirements R020 and R040).
"""


def _free_length(hung: Hung, vessel: Vessel, limit: Limit) -> str:
    """Say how much may hang free of a ring at the rail's foot."""
    free = hung.rail.fitting.height - vessel.rim - limit.value
    if free <= hung.handset.length:
        return " At the foot of the rail it would sit too low: fix it higher."
    return f" From a ring at the foot of the rail at most {shown(free)} mm of hose and handset hang free."


def _none_entered(plan: Plan, hung: Hung, ball: Reach, limit: Limit) -> Finding:
    """Ask for the WC, without which nobody knows whether a handset reaches it."""
    message = (
        f"No WC or bidet is entered. Measure on site: the handset of {hung.hose.id} reaches "
        f"{shown(ball.radius)} mm from its outlet, and over one of them it is fluid category 5."
    )
    status: Status = "clear" if plan.job.house.backflow == "factory_ring" else "tight"
    return Finding(
        rule=limit.rule, status=status, parts=_parts(hung), message=message, limit=limit.value,
        source=limit.source, place=(ball.centre[:2],),
    )  # fmt: skip


def _parts(hung: Hung, fixture: str = "") -> tuple[str, ...]:
    own = (hung.hose.id, hung.outlet.fitting.id)
    return (*own, fixture) if fixture else own


def _auk3(rules: Rulebook, inlet: TubePart | None) -> Limit:
    """Return the gap of type AUK3 for an outlet, by the pipe that feeds it."""
    if inlet is None:
        return _gap(rules, "water.auk3_gap", USUAL_INLET)
    limit = _gap(rules, "water.auk3_gap", inlet.outside)
    return limit.but(value=max(limit.value, least_air_gap(inlet.bore)))


def _gap(rules: Rulebook, table: str, nominal: float) -> Limit:
    found = row(rules, table, nominal)
    assert found is not None, f"{table} begins at 0"
    return found


# spouts


def _spout(plan: Plan, solid: Solid, part: SpoutPart, own: Vessel) -> Finding:
    """Judge the mouth of a spout over the rim of the enclosure."""
    rules = plan.rules
    table = "water.auk2_gap" if own.category == 3 else "water.auk3_gap"
    limit = _gap(rules, table, NOMINAL[part.thread])
    x0, mouth, _, x1, _, z1 = solid.box
    if x1 < own.low[0] or x0 > own.high[0] or z1 < own.low[1]:
        message = f"{solid.owner} does not stand over the {own.called}."
        return _clear(limit, message, (solid.owner,))
    gap = mouth - own.rim
    status, how = _BY_SPOUT.get(plan.job.house.backflow, _UNPROTECTED)
    if own.category == 5 and status == "clear":
        status, how = _UNPROTECTED
    side = "above" if gap > -EPSILON else "below"
    message = (
        f"Mouth of {solid.owner} {shown(abs(gap))} mm {side} the rim of the {own.called} (fluid category "
        f"{own.category}); {shown(limit.value)} mm above it is wanted."
    )
    if not at_least(gap, limit.value):
        message += how
    place = (((x0 + x1) / 2, mouth), ((x0 + x1) / 2, own.rim))
    return rules.judge(limit.rule, gap, message, (solid.owner,), place, failing=status)


_UNPROTECTED: tuple[Status, str] = ("clash", " Raise the spout.")
_BY_SPOUT: dict[Backflow, tuple[Status, str]] = {
    "not_known": ("refer", f" Raise the spout, or fit double check valves on hot and cold. {DECIDES}"),
    "double_check_supplies": ("clear", " The double check valves on hot and cold protect the supplies."),
    "gravity_feed": ("clear", " Both supplies come from a cistern."),
}


def _clear(limit: Limit, message: str, parts: tuple[str, ...] = ()) -> Finding:
    return Finding(
        rule=limit.rule, status="clear", parts=parts, message=message, limit=limit.value, source=limit.source
    )
