"""A network whose shuttle stands still: a mixer without a thermostat, a stuck one, or all outlets shut.

Then water may run the wrong way: from the stronger branch through the valve into the weaker one, or, where
a supply sucks, in through a handset that lies under water. Only here can flows be negative. It is the first
moment of it: the water in each branch is still its own.
"""

from typing import NamedTuple

from geometry.supply.hydraulics import Drains, Shuttle, Source
from geometry.supply.loss import litre_flow
from geometry.supply.network import Network, Outlet
from geometry.supply.report import State, report
from geometry.supply.root import root
from geometry.supply.solution import Problem, Solution

MOST_ROUNDS = 30
_SETTLED = 1e-9
"""K; what the mixed temperature may still move."""


def solve_fixed(network: Network, *running: str, position: float) -> Solution:
    """Work out what the network does with its shuttle at a position, and with these outlets open or none.

    A heater is taken as strong enough: the hot water comes as warm as it is set to.

    Args:
        network: its valve's setting is not used.
        running: names of the open outlets; none for a valve left open behind shut outlets.
        position: 0 all cold to 1 all hot.

    Raises:
        ValueError: no such outlet, or the position is not between 0 and 1.
        ArithmeticError: no solution was found; this should not happen with any network that can be made.
    """
    if not 0.0 <= position <= 1.0:
        raise ValueError(f"the shuttle's position must be from 0 to 1, got {position:g}")
    outlets = network.open_outlets(running)
    cold, hot = network.cold.temperature, network.hot.temperature
    mixed = cold + position * (hot - cold)
    for _ in range(MOST_ROUNDS):  # the mixed water's own temperature bears on its friction, but little
        found = _flows(network, outlets, position, mixed)
        after = _mixed(found, cold, hot, mixed)
        if abs(after - mixed) < _SETTLED:
            state = State(found.hot, found.cold, hot, after, found.pressure, found.outlets, position)
            return report(network, outlets, state, _backwards(network, outlets, state))
        mixed = after
    raise ArithmeticError(f"the mixed temperature has not settled after {MOST_ROUNDS} rounds, at {mixed:g} C")


class _Found(NamedTuple):
    hot: float
    cold: float
    pressure: float
    outlets: tuple[float, ...]


def _flows(network: Network, outlets: tuple[Outlet, ...], position: float, mixed: float) -> _Found:
    """Return the flows in kg/s that meet at one pressure behind the valve and leave nothing over."""
    cold, hot = network.cold.temperature, network.hot.temperature
    shuttle, drains = Shuttle(network.valve, hot, cold), Drains(outlets, mixed)
    sides = [
        (Source(feed, temperature), resistance / way**2 if way > 0.0 else None)
        for feed, temperature, resistance, way in (
            (network.hot, hot, shuttle.hot, position),
            (network.cold, cold, shuttle.cold, 1.0 - position),
        )
    ]

    def at(pressure: float) -> _Found:
        into = [
            0.0 if resistance is None else source.flow_into(pressure, resistance)
            for source, resistance in sides
        ]
        return _Found(into[0], into[1], pressure, drains.flows(pressure))

    def left(pressure: float) -> float:
        found = at(pressure)
        return found.hot + found.cold - sum(found.outlets)

    still = [source.still for source, resistance in sides if resistance is not None]
    ends = [*still, *(path.needs(0.0) for path in drains.paths)]
    return at(root(left, min(ends), max(ends)))


def _mixed(found: _Found, cold: float, hot: float, otherwise: float) -> float:
    """Return the temperature of what flows in, mixed by mass; `otherwise` where nothing does."""
    total = max(found.hot, 0.0) + max(found.cold, 0.0)
    return cold + max(found.hot, 0.0) / total * (hot - cold) if total > 0.0 else otherwise


def _backwards(network: Network, outlets: tuple[Outlet, ...], state: State) -> tuple[Problem, ...]:
    problems = []
    if state.hot < 0.0:
        flow = litre_flow(-state.hot, state.hot_temperature)
        message = (
            f"Cold water runs back into the hot pipe at {flow:.1f} l/min: fit check valves on both inlets."
        )
        problems.append(Problem(kind="reverse_hot", message=message))
    if state.cold < 0.0:
        flow = litre_flow(-state.cold, network.cold.temperature)
        message = (
            f"Hot water runs back into the cold pipe at {flow:.1f} l/min: fit check valves on both inlets."
        )
        problems.append(Problem(kind="reverse_cold", message=message))
    for outlet, mass in zip(outlets, state.flows, strict=True):
        if mass < 0.0:
            message = (
                f"Used water is drawn back through {outlet.name}: keep the air gap, or fit check valves."
            )
            problems.append(Problem(kind="drawn_back", message=message, parts=(outlet.name,)))
    if outlets and not problems and all(mass == 0.0 for mass in state.flows):
        message = "Nothing runs: neither supply reaches an open outlet."
        problems.append(Problem(kind="no_flow", message=message, parts=tuple(o.name for o in outlets)))
    return tuple(problems)
