"""How pipes meet their ports: fed at all, once, by the right water, and straight enough for nut and elbow."""

from collections.abc import Iterator
from typing import NamedTuple

from geometry.checks.memory import remembered
from geometry.finding import Finding
from geometry.model import Pipe
from geometry.model.pipes import PipeService
from geometry.parts.records import Direction
from geometry.pipework.routes import PortAt, straight_out
from geometry.plan import Plan
from geometry.units import shown

_WAYS: dict[Direction, str] = {
    "up": "upwards", "down": "downwards", "left": "to the left", "right": "to the right"
}  # fmt: skip
Ends = tuple[tuple[Pipe, PortAt, bool], ...]
"""Each end of each pipe: the pipe, the port, and whether it is the pipe's last point."""


class _Water(NamedTuple):
    """What a pipe carries between which ports, whichever way it runs."""

    pipe: str
    service: PipeService
    ports: tuple[PortAt, ...]
    """From its start, if that is a port, to its end."""


def ports(plan: Plan) -> Iterator[Finding]:
    """Judge every port and every end of a pipe; without any pipe that is one finding, `unchecked`."""
    if not plan.courses:
        if plan.ports:
            message = "No pipe is planned yet: what feeds each fitting could not be checked."
            yield plan.rules.judge("pipe.fed", 0, message, _fittings(plan), failing="unchecked")
        return
    ends = _ends(plan)
    yield from _joined(plan, tuple(_water_of(plan, pipe) for pipe in plan.job.pipes))
    for pipe, port, at_end in ends:
        if port.direction is not None:
            reach = straight_out(plan.courses[pipe.id], port, at_end=at_end)
            yield from _straight(plan, pipe.id, port, port.direction, reach)


def _fittings(plan: Plan) -> tuple[str, ...]:
    """Return the ids of all fittings with a port, in order, each once."""
    return tuple(dict.fromkeys(name.partition(".")[0] for name in plan.ports))


def _ends(plan: Plan) -> Ends:
    found: list[tuple[Pipe, PortAt, bool]] = []
    for pipe in plan.job.pipes:
        course = plan.courses[pipe.id]
        if course.start is not None:
            found.append((pipe, course.start, False))
        found.append((pipe, course.end, True))
    return tuple(found)


def _water_of(plan: Plan, pipe: Pipe) -> _Water:
    course = plan.courses[pipe.id]
    ports = (course.end,) if course.start is None else (course.start, course.end)
    return _Water(pipe.id, pipe.service, ports)


@remembered
def _joined(plan: Plan, pipes: tuple[_Water, ...]) -> Iterator[Finding]:
    """Judge every port by the pipes that join it, and every pipe by its ports."""
    joined: dict[str, list[str]] = {}
    for water in pipes:
        for port in water.ports:
            joined.setdefault(port.name, []).append(water.pipe)
    for port in plan.ports.values():
        yield from _use(plan, port, tuple(joined.get(port.name, ())))
    for water in pipes:
        yield _water(plan, water)


def _use(plan: Plan, port: PortAt, pipes: tuple[str, ...]) -> Iterator[Finding]:
    """Judge how many pipes join a port. A valve's outlet may stay unused, if it is blanked."""
    fitting, place = port.name.partition(".")[0], (port.at,)
    parts = (fitting, *dict.fromkeys(pipes))
    if not pipes and port.service == "mixed" and port.direction is not None:
        message = f"No pipe leaves {port.words}: blank it."
        yield Finding(rule="pipe.fed", status="clear", parts=parts, message=message, place=place)
        return
    verb = "joins" if len(pipes) == 1 else "join"
    leads = f"{_listed(pipes)} {verb} {port.words}." if pipes else f"No pipe leads to {port.words} yet."
    yield plan.rules.judge("pipe.fed", len(pipes), leads, parts, place, failing="unchecked")
    if len(pipes) > 1:
        both = f"{_listed(pipes)} join the one port {port.words}: it takes one pipe."
        yield plan.rules.judge("pipe.once", len(pipes), both, parts, place)


def _listed(names: tuple[str, ...]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last


def _water(plan: Plan, water: _Water) -> Finding:
    """Judge whether a pipe carries what its ports take, from a feed or a valve's outlet to an inlet."""
    pipe, service, joined = water
    wrong = [port for port in joined if port.service != service]
    parts = tuple(dict.fromkeys((pipe, *(port.name.partition(".")[0] for port in joined))))
    place = tuple(port.at for port in wrong)
    message, count = f"{pipe} carries {service} water, as its ports do.", len(wrong)
    if wrong:
        taken = " and ".join(f"{port.words} is for {port.service} water" for port in wrong)
        message = f"{pipe} carries {service} water, but {taken}."
    elif service == "mixed" and len({_gives(port) for port in joined}) < len(joined):
        what = "two outlets" if _gives(joined[-1]) else "two inlets"
        message, count = f"{pipe} joins {what}, {joined[0].words} and {joined[1].words}.", 1
        place = tuple(port.at for port in joined)
    return plan.rules.judge("pipe.service", count, message, parts, place)


def _gives(port: PortAt) -> bool:
    """Return whether mixed water comes out of a port; an elbow, which has no direction, takes it in."""
    return port.direction is not None


def _other_side(plan: Plan, port: PortAt, way: Direction) -> str:
    """Return the other way out: a valve whose outlet leaves it sideways may be set to either side."""
    valves = {valve.fitting.id for valve in plan.valves}
    if way not in ("left", "right") or port.name.partition(".")[0] not in valves:
        return ""
    return f", or set the side of the valve to {'right' if way == 'left' else 'left'}"


@remembered
def _straight(plan: Plan, pipe: str, port: PortAt, way: Direction, reach: float) -> Iterator[Finding]:
    """Judge the first leg from a port, which must lie in the port's direction: so many mm of it do."""
    need = shown(plan.rules["pipe.port"].value)
    if reach > 0:
        message = f"{pipe} leaves {port.words} straight for {shown(reach)} mm; nut and elbow take {need} mm."
    else:
        how = "backwards" if reach < 0 else "sideways"
        message = (
            f"{pipe} leaves {port.words} {how}: the port points {_WAYS[way]}. "
            f"Lead it out that way for {need} mm first{_other_side(plan, port, way)}."
        )
    parts = (pipe, port.name.partition(".")[0])
    yield plan.rules.judge("pipe.port", reach, message, parts, (port.at,))
