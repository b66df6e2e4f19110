"""Hot water: whether it is warm and strong enough, how long it lasts and how long one waits for it.

Celsius, kW, l/min, litres, seconds. Waiting is counted from the place where the hot water was measured.
"""

from collections.abc import Iterator

from geometry.checks.on_wall import judged
from geometry.finding import Finding, Status
from geometry.model import Supply
from geometry.plan import Plan
from geometry.supply.demand import dead_leg, heater_power, stored_minutes, wait
from geometry.supply.from_plan import Shower
from geometry.supply.results import Results
from geometry.supply.solution import Solution
from geometry.units import number

STORED = ("stored_mains", "stored_gravity")
COOLER = 0.05
"""K; less is not felt, and is rounding."""


def hot_water(plan: Plan, supply: Supply, shower: Shower, found: Results) -> Iterator[Finding]:
    """Judge temperatures, the heater or the store, and the wait."""
    yield from _temperatures(plan, supply, shower)
    showers = [name for name in found.alone if name not in shower.spouts] or list(found.alone)
    if supply.source == "instant_heater" and supply.heater_kw:
        yield _heater(plan, supply, shower, showers, found)
    if supply.source in STORED:
        yield _minutes(plan, supply, shower, showers, found)
    yield from _waiting(plan, supply, shower, showers, found)


# temperatures


def _temperatures(plan: Plan, supply: Supply, shower: Shower) -> Iterator[Finding]:
    rules, valve = plan.rules, (shower.valve,)
    hot, cold, setting = supply.hot.temperature, supply.cold.temperature, supply.set_to
    message = f"The hot water is {number(hot - setting)} K above the {number(setting)} °C that is set."
    margin = rules["supply.hot_margin"]
    if hot - setting < margin.value:
        message += " Store or heat it hotter, or the thermostat cannot hold its setting."
    yield judged(plan, margin.rule, hot - setting, message, valve)
    if supply.source in STORED:
        message = f"The hot water is stored at {number(hot)} °C."
        if hot < rules["supply.store"].value:
            message += " Legionella grows in it: whoever is licensed for the cylinder sets it."
        yield rules.judge("supply.store", hot, message, (), failing="refer")
    message = f"The cold water comes at {number(cold)} °C."
    if cold > rules["supply.cold"].value:
        message += " Legionella grows in it: lag the pipe, keep it away from heat, let it run."
    yield rules.judge("supply.cold", cold, message, (), failing="refer")
    yield from _scalding(plan, shower, setting)


def _scalding(plan: Plan, shower: Shower, setting: float) -> Iterator[Finding]:
    heads = [name for name in shower.needs if name not in shower.spouts]
    bath = plan.job.enclosure.kind == "bath" and shower.spouts
    for rule, names in (("supply.scald", heads), ("supply.scald_bath", shower.spouts if bath else ())):
        if names:
            message = f"{shower.valve} is set to {number(setting)} °C."
            if setting > plan.rules[rule].value:
                message += " That scalds: set its stop lower, and measure at the outlet."
            yield judged(plan, rule, setting, message, (shower.valve,))


# heater and store


def _heater(plan: Plan, supply: Supply, shower: Shower, names: list[str], found: Results) -> Finding:
    """Judge the heater by the flow that the thirstiest outlet is made for, at the temperature set."""
    thirsty = max(names, key=lambda name: shower.needs[name].flow)
    need, power = shower.needs[thirsty].flow, supply.heater_kw or 0.0
    cold = supply.cold.temperature
    needed = heater_power(need, cold, supply.set_to) if supply.set_to > cold else 0.0
    message = (
        f"The heater has {number(power)} kW; {number(need)} l/min at {thirsty} from {number(cold)} to"
        f" {number(supply.set_to)} °C take {number(needed)} kW."
    )
    coolest = min(
        found.running, key=lambda one: supply.set_to if one[1].temperature is None else one[1].temperature
    )
    cool = _fully_open(supply, *coolest)
    heater = plan.rules.judge(
        "supply.heater", power, message + cool, shower.parts[thirsty], limit=round(needed, 2)
    )
    return heater.but(status="tight") if cool and heater.status == "clear" else heater


def _fully_open(supply: Supply, running: tuple[str, ...], solution: Solution) -> str:
    """Say how cool the water comes where the heater cannot keep up with what the supply drives through."""
    came = solution.temperature
    if came is None or came >= supply.set_to - COOLER or not solution.has("heater_too_small"):
        return ""
    cold = supply.cold.temperature
    wanted = heater_power(solution.flow, cold, supply.set_to)
    return (
        f" With {' and '.join(running)} fully open {number(solution.flow)} l/min come at {number(came)} °C:"
        f" throttle them, or take {number(wanted)} kW."
    )


def _minutes(plan: Plan, supply: Supply, shower: Shower, names: list[str], found: Results) -> Finding:
    rule = plan.rules["supply.stored_minutes"]
    name = max(names, key=lambda one: found.alone[one].hot_flow)
    flow, parts = found.alone[name].hot_flow, shower.parts[name]
    missing = ""
    if not supply.stored_litres:
        missing = "It is not stated how many litres the cylinder holds, so nobody knows how long it lasts."
    elif flow <= 0.0:
        missing = f"No hot water runs at {name}, so how long it lasts cannot be worked out."
    if missing or supply.stored_litres is None:
        return Finding(
            rule=rule.rule, status="unchecked", parts=parts, message=missing, unit=rule.unit,
            source=rule.source,
        )  # fmt: skip
    lasts = stored_minutes(supply.stored_litres, flow)
    message = (
        f"{number(supply.stored_litres)} l last {number(lasts)} minutes at {name}, which takes"
        f" {number(flow)} l/min of hot water."
    )
    if lasts < rule.value:
        message += " A larger cylinder or a head for less flow lasts longer."
    return plan.rules.judge(rule.rule, lasts, message, parts, failing="tight")


# waiting


def _waiting(
    plan: Plan, supply: Supply, shower: Shower, names: list[str], found: Results
) -> Iterator[Finding]:
    """Judge the longest wait for hot water: first through the hot pipe, then behind the valve."""
    network = shower.network
    hot = dead_leg(network.hot.pieces)
    waits: list[tuple[float, float, str]] = []
    for outlet in network.outlets:
        solution = found.alone[outlet.name]
        if outlet.name in names and solution.hot_flow > 0.0 and solution.flow > 0.0:
            mixed = dead_leg(outlet.pieces)
            seconds = wait(hot, solution.hot_flow) + wait(mixed, solution.flow)
            waits.append((seconds, hot + mixed, outlet.name))
    if not waits:
        return
    seconds, litres, name = max(waits)
    message = (
        f"Hot water comes to {name} after {number(seconds)} s, when {number(litres)} l have run off,"
        " counted from where it was measured."
    )
    rules: list[tuple[str, Status]] = [("supply.dead_leg", "tight")]
    if supply.source in STORED:
        rules.append(("supply.dead_leg_store", "refer"))
    for rule, failing in rules:
        waited = plan.rules.judge(rule, seconds, message, shower.parts[name], failing=failing)
        if waited.status != "clear":
            waited = waited.but(message=f"{message} A shorter or narrower hot pipe, or a circulation, helps.")
        yield waited
