"""A network whose shuttle stands still: a mixer without a thermostat, a stuck one, or all outlets shut.

Then water may run the wrong way: from the stronger branch through the valve into the weaker one, or, where
a supply sucks, in through a handset that lies under water. Only here can flows be negative. It is the first
moment of it: the water in each branch is still its own.
"""

import math
from typing import NamedTuple

from geometry.supply.hydraulics import Drains, Source
from geometry.supply.loss import litre_flow
from geometry.supply.network import Network, Ways
from geometry.supply.report import State
from geometry.supply.root import flow_root, root
from geometry.supply.rounds import Flows, settled
from geometry.supply.solution import Problem, Solution


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
    ways = network.opened(running)
    state = _steady(ways, position)
    return Solution(ways=ways, state=state, reasons=_backwards(ways, state))


def crossing(network: Network) -> float:
    """Return the l/min from cold into hot through a valve left open midway behind shut outlets.

    Below zero it runs from hot into cold. The water is measured as it runs back, as warm as that branch.
    """
    state = _steady(network.opened(()), position=0.5)
    if state.hot < 0.0:
        return litre_flow(-state.hot, state.hot_temperature)
    return litre_flow(state.cold, network.cold.temperature)


def _steady(ways: Ways, position: float) -> State:
    cold, hot = ways.cold.temperature, ways.hot.temperature

    def warmer(mixed: float) -> float:
        """Return by how many K the mix comes out warmer than the friction behind the valve was worked for."""
        return _mixed(_flows(ways, position, mixed), cold, hot, position) - mixed

    mixed = root(warmer, cold, hot) if ways.outlets else cold  # no matter, behind shut outlets
    found = _flows(ways, position, mixed)
    after = _mixed(found, cold, hot, position)
    return State(found.hot, found.cold, hot, after, found.pressure, found.outlets, position)


class _Found(NamedTuple):
    hot: float
    cold: float
    pressure: float
    outlets: tuple[float, ...]


def _flows(ways: Ways, position: float, mixed: float) -> _Found:
    """Return the flows in kg/s that meet at one pressure behind the valve and leave nothing over."""
    drains = Drains.of(ways.outlets, mixed, drawing=True)
    hot = Source(ways.hot, ways.valve.hot_side, ways.hot.temperature)
    cold = Source(ways.cold, ways.valve.cold_side, ways.cold.temperature)
    sides = [
        (source, source.resistance / way**2 if way > 0.0 else None)
        for source, way in ((hot, position), (cold, 1.0 - position))
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

    rests = [path.start for path in drains.paths]
    both = [(source, resistance) for source, resistance in sides if resistance is not None]
    if not ways.outlets and len(both) == len(sides):
        found = _crossing(both)
    else:
        ends = [source.still for source, _ in both] + rests
        found = at(root(left, min(ends), max(ends)))
    return _balanced(found, [source.still for source, _ in sides], rests)


def _crossing(sides: list[tuple[Source, float]]) -> _Found:
    """Return what crosses from one side of the valve into the other behind shut outlets."""
    (hot, of_hot), (cold, of_cold) = sides
    strong, weak, of_strong = (hot, cold, of_hot) if hot.still > cold.still else (cold, hot, of_cold)
    if weak.one_way or strong.still == weak.still:
        return _Found(0.0, 0.0, strong.still, ())
    apart, taken = strong.still - weak.still, of_hot + of_cold

    def next_round(flows: Flows) -> Flows | None:
        gives, takes = strong.touching(flows[0]), weak.touching(-flows[0])
        over, square = gives.rest - takes.rest, taken + takes.square - gives.square
        return (math.sqrt(over / square),) if over > 0.0 and square > 0.0 else None

    def left(mass: float) -> float:
        return strong.pressure(mass) - weak.pressure(-mass) - taken * mass * mass

    most = math.sqrt(apart / taken) * (1.0 + 1e-9)
    found = settled((0.5 * most,), next_round)
    mass = flow_root(left, most) if found is None else found[0]
    pressure = strong.pressure(mass) - of_strong * mass * mass
    return _Found(mass, -mass, pressure, ()) if strong is hot else _Found(-mass, mass, pressure, ())


def _balanced(found: _Found, still: list[float], rests: list[float]) -> _Found:
    """Return the flows with nothing left over, to the last digit.

    The flow of the way whose own pressure lies nearest is the one that the pressure settles least well, so
    it becomes what the others leave.
    """
    flows, own = [found.hot, found.cold, *(-mass for mass in found.outlets)], [*still, *rests]
    running = [index for index, mass in enumerate(flows) if mass != 0.0]
    if running:
        nearest = min(running, key=lambda index: abs(own[index] - found.pressure))
        flows[nearest] -= sum(flows)
    return _Found(flows[0], flows[1], found.pressure, tuple(-mass for mass in flows[2:]))


def _mixed(found: _Found, cold: float, hot: float, position: float) -> float:
    """Return the temperature of what flows in, mixed by mass; by the position where nothing does."""
    total = max(found.hot, 0.0) + max(found.cold, 0.0)
    share = max(found.hot, 0.0) / total if total > 0.0 else position
    return min(cold + share * (hot - cold), hot)  # no rounding beyond hot


def _backwards(ways: Ways, state: State) -> tuple[Problem, ...]:
    problems = []
    if state.hot < 0.0:
        flow = litre_flow(-state.hot, state.hot_temperature)
        message = (
            f"Cold water runs back into the hot pipe at {flow:.1f} l/min: fit check valves on both inlets."
        )
        problems.append(Problem(kind="reverse_hot", message=message))
    if state.cold < 0.0:
        flow = litre_flow(-state.cold, ways.cold.temperature)
        message = (
            f"Hot water runs back into the cold pipe at {flow:.1f} l/min: fit check valves on both inlets."
        )
        problems.append(Problem(kind="reverse_cold", message=message))
    for outlet, mass in zip(ways.outlets, state.flows, strict=True):
        if mass < 0.0:
            message = (
                f"Used water is drawn back through {outlet.name}: keep the air gap, or fit check valves."
            )
            problems.append(Problem(kind="drawn_back", message=message, parts=(outlet.name,)))
    if ways.outlets and not problems and all(mass == 0.0 for mass in state.flows):
        message = "Nothing runs: neither supply reaches an open outlet."
        problems.append(Problem(kind="no_flow", message=message, parts=tuple(o.name for o in ways.outlets)))
    return tuple(problems)
