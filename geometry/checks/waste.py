"""The waste: whether it carries what the shower gives, its fall and its length. mm, mm/m, l/min."""

from collections.abc import Iterator

from geometry.finding import Finding
from geometry.model import Supply
from geometry.model.supply import Drain
from geometry.plan import Plan
from geometry.supply.waste import waste_capacity
from geometry.units import number

WIDER = 45.0
"""mm bore; from here on a waste is a 50 mm one and may be longer."""


def waste(plan: Plan, supply: Supply, flow: float) -> Iterator[Finding]:
    """Judge the waste against the most that runs at once, in l/min; ask for it where none is stated."""
    rule = plan.rules["supply.waste"]
    if supply.drain is None:
        message = (
            f"No waste is entered. Measure its fall and length on site: up to {number(flow)} l/min must"
            " run off."
        )
        yield Finding(
            rule=rule.rule, status="tight", parts=(), message=message, unit=rule.unit, source=rule.source
        )
        return
    drain = supply.drain
    yield _carries(plan, drain, flow)
    said = f"The waste falls {number(drain.fall)} mm/m."
    yield plan.rules.judge("supply.fall_least", drain.fall, said, ())
    yield plan.rules.judge("supply.fall_most", drain.fall, said, ())
    if drain.bore < WIDER:
        message = f"The waste is {number(drain.length)} mm long."
        if drain.length > plan.rules["supply.waste_length"].value:
            message += " Take a 50 mm waste, or ventilate it."
        yield plan.rules.judge("supply.waste_length", drain.length, message, ())


def _carries(plan: Plan, drain: Drain, flow: float) -> Finding:
    pipe = max(waste_capacity(drain.bore, drain.fall), 0.0) if drain.fall > 0.0 else 0.0
    carried, what = pipe, "pipe, half full,"
    if drain.capacity is not None and drain.capacity < pipe:
        carried, what = drain.capacity, "trap"
    message = f"The waste's {what} carries {number(carried)} l/min; up to {number(flow)} l/min run into it."
    if carried < flow:
        message += " Give it more fall or a wider bore, a quicker trap, or run fewer outlets at once."
    return plan.rules.judge("supply.waste", carried - flow, message, ())
