"""Whether the people who use the shower reach what they need: heights of valve, head and slider; scalding.

Heights are mm above the finished floor where they stand. A usual user is judged by common practice, which is
a hint; a tall, small or seated one, if the job names them, by published reach.
"""

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from geometry.finding import Finding, Limit, Status
from geometry.model import XY, Enclosure
from geometry.model.house import User
from geometry.plan import Plan
from geometry.units import EPSILON, shown

What = Literal["valve", "controls", "head", "slider at its highest", "slider at its lowest", "hose"]


class Band(NamedTuple):
    """What suits a user: the rules that something keeps to, the least before the most; the status beyond."""

    user: User
    what: What
    rules: tuple[str, ...]
    failing: Status


BANDS = (
    Band("usual", "valve", ("people.valve_low", "people.valve_high"), "tight"),
    Band("usual", "head", ("people.head_low", "people.head_high"), "tight"),
    Band("usual", "slider at its highest", ("people.slide_top",), "tight"),
    Band("tall", "head", ("people.head_tall",), "clash"),
    Band("tall", "slider at its highest", ("people.slide_top_tall",), "tight"),
    Band("child", "controls", ("people.controls_child",), "clash"),
    Band("child", "slider at its lowest", ("people.slide_foot_child",), "tight"),
    Band("seated", "controls", ("people.controls_seated_low", "people.controls_seated_high"), "clash"),
    Band("seated", "slider at its lowest", ("people.slide_foot_seated",), "clash"),
    Band("seated", "hose", ("people.hose_seated",), "clash"),
    Band("seated", "controls", ("people.controls_australia_low", "people.controls_australia_high"), "refer"),
    Band("seated", "slider at its lowest", ("people.slide_foot_australia",), "refer"),
    Band("seated", "slider at its highest", ("people.slide_top_australia",), "refer"),
    Band("seated", "controls", ("people.controls_england_low", "people.controls_england_high"), "refer"),
)
"""Of several bands for one thing the first is the one that a job must keep."""
_FOR: dict[User, str] = {"usual": "", "tall": "tall user: ", "child": "child: ", "seated": "seated user: "}


class Measured(NamedTuple):
    """What a band is held against: whose it is, its values in mm, and where it is on the wall."""

    owner: str
    values: tuple[float, ...]
    place: tuple[XY, ...]


def people(plan: Plan) -> Iterator[Finding]:
    """Judge heights for each user that the job names, and say what the thermostat is to be set to."""
    measured = measures(plan)
    for band in BANDS:
        if band.user in plan.job.house.users:
            yield from (_judged(plan, band, found) for found in measured[band.what])
    yield from _scald(plan)


def measures(plan: Plan) -> Mapping[What, tuple[Measured, ...]]:
    """Return everything that bands are held against."""
    floor = plan.job.enclosure.floor
    valves = [valve.fitting for valve in plan.valves]
    controls = [
        tuple(valve.fitting.height + control.y - floor for control in valve.part.controls)
        or (valve.fitting.height - floor,)
        for valve in plan.valves
    ]
    slides = [
        (rail.fitting.id, rail.fitting.x, rail.fitting.height + rail.part.slide_low,
         rail.fitting.height + rail.part.slide_high)
        for rail in plan.rails
    ]  # fmt: skip
    return {
        "valve": tuple(Measured(valve.id, (valve.height - floor,), (valve.at,)) for valve in valves),
        "controls": tuple(
            Measured(valve.id, held, (valve.at,)) for valve, held in zip(valves, controls, strict=True)
        ),
        "head": tuple(
            Measured(disc.owner, (disc.low - floor,), ((disc.outline.middle[0], disc.low),))
            for disc in plan.fitted
            if disc.what == "head"
        ),
        "slider at its lowest": tuple(
            Measured(own, (low - floor,), ((x, low),)) for own, x, low, _ in slides
        ),
        "slider at its highest": tuple(
            Measured(own, (high - floor,), ((x, high),)) for own, x, _, high in slides
        ),
        "hose": tuple(Measured(hung.hose.id, (hung.part.length,), ()) for hung in plan.hoses),
    }


def _judged(plan: Plan, band: Band, found: Measured) -> Finding:
    """Judge something by whichever limit of a band it comes nearest to, or misses by most."""
    limits = [plan.rules[rule] for rule in band.rules]
    margin, value, rule = min((*_held(limit, found.values), limit.rule) for limit in limits)
    message = _FOR[band.user] + _said(plan.job.enclosure, band, found) + _wanted(limits)
    if margin < -EPSILON and band.failing == "refer":
        message += f" Where {plan.rules[rule].source.document} holds, building control decides."
    message = message[0].upper() + message[1:]
    return plan.rules.judge(rule, value, message, (found.owner,), found.place, failing=band.failing)


def _held(limit: Limit, values: tuple[float, ...]) -> tuple[float, float]:
    """Return by how much the worst of some values keeps to a limit, and that value."""
    if limit.sense == "at least":
        return min(values) - limit.value, min(values)
    return limit.value - max(values), max(values)


def _said(enclosure: Enclosure, band: Band, found: Measured) -> str:
    """Say what was measured."""
    least, most = shown(min(found.values)), shown(max(found.values))
    spread = least if least == most else f"{least} to {most}"
    if band.what == "hose":
        return f"{found.owner} {spread} mm long"
    what = {"valve": "centre of ", "controls": "controls of ", "head": "underside of "}.get(band.what)
    subject = f"{what}{found.owner}" if what else f"{band.what} on {found.owner}"
    return f"{subject} {spread} mm above the {floor_of(enclosure)}"


def floor_of(enclosure: Enclosure) -> str:
    """Say on what people stand."""
    return "wet floor" if enclosure.kind == "wet_floor" else f"{enclosure.kind} floor"


def _wanted(limits: list[Limit]) -> str:
    """Say between which limits it should lie."""
    first, last = limits[0], limits[-1]
    words = f"{first.sense} {shown(first.value)}" if first is last else ""
    return f"; {words or f'{shown(first.value)} to {shown(last.value)}'} mm is wanted."


# scalding


def _scald(plan: Plan) -> Iterator[Finding]:
    """Say to what the thermostats are to be set."""
    parts = tuple(valve.fitting.id for valve in plan.valves)
    place = tuple(valve.fitting.at for valve in plan.valves[:1])
    uses = [("people.scald", "shower")] if parts else []
    if parts and plan.spouts and plan.job.enclosure.kind == "bath":
        uses.append(("people.scald_bath", "bath"))
    for rule, use in uses:
        limit = plan.rules[rule]
        message = (
            f"Scalding: set the thermostat so that no more than {shown(limit.value)} °C comes out at the "
            f"{use}, measure it with a thermometer and write it down. A licensed plumber sets it."
        )
        yield Finding(
            rule=rule, status="refer", parts=parts, message=message, unit=limit.unit,
            limit=limit.value, source=limit.source, place=place,
        )  # fmt: skip
