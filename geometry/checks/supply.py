"""The water: what comes out of each outlet against what it needs, and what the supplies do to each other.

l/min, bar, m/s, Celsius. What is judged here follows from the readings taken at the house; a job without them
has one finding, which asks for them.
"""

from collections.abc import Iterator
from functools import lru_cache

from geometry.checks.hot_water import hot_water
from geometry.checks.on_wall import judged, place
from geometry.checks.waste import waste
from geometry.finding import Finding, Source, Status
from geometry.model import Supply
from geometry.plan import Plan
from geometry.supply.from_plan import Lacking, Shower, showers
from geometry.supply.loss import head, velocity
from geometry.supply.network import Feed
from geometry.supply.pieces import Stretch
from geometry.supply.results import Results, results
from geometry.supply.solution import Loss, Solution
from geometry.supply.tryouts import best_size
from geometry.units import number

NOT_MEASURED = "The supply is not measured yet: measure static pressure and one flow at the kitchen tap."
_STOPPED = ("hot_too_weak", "cold_too_weak", "no_flow", "outlet_dry")


def supply(plan: Plan) -> Iterator[Finding]:
    """Judge the water of every valve, and what carries it away."""
    held = plan.job.supply
    if held is None:
        if plan.valves:
            rule = plan.rules["supply.flow"]
            yield Finding(
                rule=rule.rule, status="refer", parts=(), message=NOT_MEASURED, unit=rule.unit,
                source=rule.source,
            )  # fmt: skip
        return
    most = 0.0
    for shower in showers(plan):
        if isinstance(shower, Lacking):
            rule = plan.rules["supply.flow"]
            yield Finding(
                rule=rule.rule, status="unchecked", parts=shower.parts, message=shower.message,
                unit=rule.unit, source=rule.source, place=place(plan, shower.parts),
            )  # fmt: skip
            continue
        found = results(shower.network)
        most = max(most, *(solution.flow for _, solution in found.running))
        yield from _outlets(plan, shower, found)
        yield from _supplies(plan, held, shower, found)
        yield from _velocities(plan, shower, found)
        yield from hot_water(plan, held, shower, found)
    yield from _pumps(plan, held)
    yield from waste(plan, held, most)


# outlets


def _outlets(plan: Plan, shower: Shower, found: Results) -> Iterator[Finding]:
    """Judge each outlet alone by flow and pressure, and every two together by the one that lacks most."""
    for name, solution in found.alone.items():
        failing: Status = "tight" if name in shower.spouts else "clash"
        yield _flow(plan, shower, (name,), solution, name, failing)
        yield _pressure(plan, shower, solution, name, failing)
    for pair, solution in found.pairs.items():
        worst = min(pair, key=lambda name: solution.outlet(name).flow / shower.needs[name].flow)
        yield _flow(plan, shower, pair, solution, worst, "tight")


def _flow(
    plan: Plan, shower: Shower, running: tuple[str, ...], solution: Solution, name: str, failing: Status
) -> Finding:
    flow, need = solution.outlet(name).flow, shower.needs[name].flow
    others = [other for other in running if other != name]
    beside = f" with {others[0]} running too" if others else ""
    stopped = [problem.message for problem in solution.troubles if problem.kind in _STOPPED]
    if stopped:
        message = f"{name}{beside}: {stopped[0]}"
    else:
        message = (
            f"{name} gives {number(flow)} l/min{beside}, at {number(solution.temperature or 0.0)} C;"
            f" its maker states {number(need)} l/min."
        )
    parts = shower.parts[name]
    found = judged(plan, "supply.flow", flow, message, parts, limit=need, failing=failing)
    if found.status != "clear" and not stopped:
        message += _cure(plan, shower, running, solution, need - flow)
    return found.but(message=message, source=_stated(shower.needs[name].part))


@lru_cache(maxsize=64)
def _stated(part: str) -> Source:
    return Source(standing="from memory: verify", document=f"Part {part}", clause="stated flow")


def _cure(plan: Plan, shower: Shower, running: tuple[str, ...], solution: Solution, lacking: float) -> str:
    """Say which part costs most, and on which stretch the next tube size gains how much."""
    costliest = max((*_house(solution), *filter(None, (solution.costliest,))), key=_cost, default=None)
    said = f" {_capital(costliest.name)} costs {number(costliest.pressure, 2)} bar." if costliest else ""
    if len(running) > 1:
        return f"{said} Run them one at a time, or take heads for less flow."
    best = best_size(plan, shower, running)
    if best is None:
        return f"{said} No wider tube gains anything: {_BEYOND_TUBES}"
    said += f" {best.tube.name} for {best.stretch} would gain {number(best.gain)} l/min."
    return said if best.gain >= lacking else f"{said} That is not enough: {_BEYOND_TUBES}"


_BEYOND_TUBES = "take a head for less flow, or raise the pressure."


def _house(solution: Solution) -> tuple[Loss, ...]:
    """Return what is lost before the place of measurement, on the side that loses more there."""
    return tuple(loss for loss in solution.losses if loss.role == "supply" and loss.pressure > 0.0)


def _cost(loss: Loss) -> float:
    return loss.pressure


def _pressure(plan: Plan, shower: Shower, solution: Solution, name: str, failing: Status) -> Finding:
    rule, pressure = plan.rules["supply.pressure"], solution.outlet(name).pressure
    limit, parts = min(rule.value, shower.needs[name].pressure), shower.parts[name]
    message = f"{name} has {number(pressure, 2)} bar before its spray while it runs."
    if name in shower.spouts:
        message = f"{name} has {number(pressure, 2)} bar before its mouth while it runs."
    return judged(plan, rule.rule, pressure, message, parts, limit=limit, failing=failing)


# supplies


def _supplies(plan: Plan, supply: Supply, shower: Shower, found: Results) -> Iterator[Finding]:
    yield _static(plan, supply, shower)
    if supply.source == "stored_gravity" and supply.hot.pump is None:
        yield from _gravity(plan, supply, shower)
    running = [solution for _, solution in found.running]
    ratios = [solution.pressure_ratio for solution in running if solution.flow > 0.0]
    if ratios:
        worst = max(ratio or float("inf") for ratio in ratios)
        yield _ratio(plan, shower, worst)
    yield _reverse(plan, supply, shower, found.crossing)


def _at_rest(feed: Feed, gauge: float, boost: float, height: float) -> float:
    """Return the pressure in bar at a height above the floor with all taps shut."""
    held = feed.curve.static if feed.regulated is None else min(feed.curve.static, feed.regulated)
    return held + boost - head(height - gauge, feed.temperature)


def _static(plan: Plan, supply: Supply, shower: Shower) -> Finding:
    lowest = min(shower.mouths.values())
    pressure, side = max(
        (_at_rest(feed, branch.gauge_height, branch.pump.pressure if branch.pump else 0.0, lowest), side)
        for feed, branch, side in (
            (shower.network.cold, supply.cold, "cold"),
            (shower.network.hot, supply.hot, "hot"),
        )
    )
    rule = plan.rules["supply.static"]
    where = f"the lowest outlet of {shower.valve}"
    message = f"With all taps shut {side} stands at {number(pressure, 2)} bar at {where}."
    if pressure > rule.value:
        message += " Fit a pressure reducing valve, set to 3 bar, for hot and cold together."
    parts = (shower.valve,)
    return judged(plan, rule.rule, pressure, message, parts)


def _gravity(plan: Plan, supply: Supply, shower: Shower) -> Iterator[Finding]:
    """Judge how high the cistern stands over the highest shower."""
    heads = {name: height for name, height in shower.mouths.items() if name not in shower.spouts}
    if not heads:
        return
    highest = max(heads, key=lambda name: heads[name])
    feed = shower.network.hot
    level = supply.hot.gauge_height + feed.curve.static / head(1.0, feed.temperature)
    above, parts = level - heads[highest], shower.parts[highest]
    message = f"The cistern's water stands {number(above, 0)} mm above {highest}."
    rule = plan.rules["supply.gravity_head"]
    if above < rule.value:
        message += " Raise the cistern, lower the head, or fit a pump for hot and cold."
    yield judged(plan, rule.rule, above, message, parts)


def _ratio(plan: Plan, shower: Shower, worst: float) -> Finding:
    rule, parts = plan.rules["supply.pressure_ratio"], (shower.valve,)
    if worst == float("inf"):
        message = f"One inlet of {shower.valve} has no pressure while water runs: balance the supplies."
        return Finding(
            rule=rule.rule, status="clash", parts=parts, message=message, unit=rule.unit,
            limit=rule.value, source=rule.source, place=place(plan, parts),
        )  # fmt: skip
    message = (
        f"Of the pressures at {shower.valve} while water runs, the higher is {number(worst, 2)} x the lower."
    )
    if worst > rule.value:
        message += " Balance them: a pressure reducing valve on the stronger, or a pump on the weaker."
    return judged(plan, rule.rule, worst, message, parts)


def _reverse(plan: Plan, supply: Supply, shower: Shower, crossing: float) -> Finding:
    """Judge what crosses from cold into hot, or back, through a valve left open behind shut outlets."""
    parts = (shower.valve,)
    into = "cold into hot" if crossing > 0.0 else "hot into cold"
    message = f"Nothing crosses from one supply into the other through {shower.valve}."
    if crossing:
        message = (
            f"Left open behind shut outlets, {shower.valve} would let {number(abs(crossing), 2)} l/min across"
            f" from {into}: fit check valves on both inlets, unless the valve has them built in."
        )
    stated = (supply.cold.check_valves, supply.hot.check_valves)
    failing: Status = "clash" if "none" in stated else "refer"
    return judged(plan, "supply.reverse", abs(crossing), message, parts, failing=failing)


def _pumps(plan: Plan, supply: Supply) -> Iterator[Finding]:
    """Say that a pump on the supply pipe is the water company's business."""
    for side, branch in (("hot", supply.hot), ("cold", supply.cold)):
        if branch.pump is not None and branch.pump.draws_from == "mains":
            message = f"The {side} pump draws up to {number(branch.pump.flow)} l/min from the supply pipe."
            if branch.pump.flow > plan.rules["supply.pump"].value:
                message += " Tell the water company before the work; let it draw from a cistern instead."
            yield plan.rules.judge("supply.pump", branch.pump.flow, message, (), failing="refer")


# velocities


def _velocities(plan: Plan, shower: Shower, found: Results) -> Iterator[Finding]:
    """Judge the fastest water by each rule: noise in every tube, erosion in copper."""
    fastest: dict[str, tuple[float, str, tuple[str, ...]]] = {}
    pieces = dict(shower.network.ways())
    for way, (flow, running) in found.most.items():
        for piece in pieces[way]:
            if isinstance(piece, Stretch) and piece.name in shower.tubes:
                speed = velocity(flow, piece.bore)
                for rule in _velocity_rules(shower, way, piece.name):
                    if rule not in fastest or speed > fastest[rule][0]:
                        fastest[rule] = speed, piece.name, running
    for rule, (speed, stretch, running) in fastest.items():
        yield _velocity(plan, shower, rule, speed, stretch, running)


def _velocity_rules(shower: Shower, way: str, stretch: str) -> Iterator[str]:
    feeds = way in ("hot", "cold")
    shared = feeds and len(shower.network.outlets) > 1
    yield "supply.velocity" if shared else "supply.velocity_connection"
    if shower.tubes[stretch].material == "copper":
        if way == "cold":
            yield "supply.velocity_cold"
        elif way == "hot" and shower.network.hot.temperature > 60.0:
            yield "supply.velocity_hotter"
        else:  # mixed water is judged as hot: the stricter
            yield "supply.velocity_hot"


def _velocity(
    plan: Plan, shower: Shower, rule: str, speed: float, stretch: str, running: tuple[str, ...]
) -> Finding:
    noise = rule in ("supply.velocity", "supply.velocity_connection")
    both = " and ".join(running)
    message = f"{_capital(stretch)}: {number(speed, 2)} m/s with {both} running."
    failing: Status = "clash" if noise and len(running) == 1 else "tight"
    found = plan.rules.judge(rule, speed, message, shower.parts[stretch], failing=failing)
    if found.status == "clear":
        return found
    what = "It will be heard" if noise else "In the long run it wears copper away"
    return found.but(message=f"{message} {what}: take the next tube size there.")


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
