"""A network with a thermostat: what runs, how warm, from one outlet or from several together.

The thermostat fixes the share of hot water by mass, (mixed - cold) / (hot - cold), with one heat capacity
for all; at 10, 40 and 60 C that is 0.0002 off what the enthalpies give. What is left is one unknown, the
flow, and one equation: both sides together must leave open exactly the way that the shuttle has. More flow
always asks for more way, so there is one solution and a bracket always finds it.

Where the thermostat cannot hold its setting the result says so and gives what comes instead.
"""

import math
from functools import lru_cache
from typing import NamedTuple

from geometry.supply.hydraulics import Drains, Shuttle, Source
from geometry.supply.loss import litre_flow
from geometry.supply.network import Network, Outlet
from geometry.supply.report import State, report
from geometry.supply.root import flow_root, root
from geometry.supply.rounds import Flows, driven, passed, settled, together
from geometry.supply.solution import Problem, Solution, Trouble
from geometry.supply.water import water


def solve(network: Network, *running: str) -> Solution:
    """Work out what the network does with the outlets of these names open, one or more.

    Raises:
        ValueError: no outlet is named, or one that does not exist.
        ArithmeticError: no solution was found; this should not happen with any network that can be made.
    """
    if not running:
        raise ValueError("no outlet is open; name one or more")
    outlets = network.open_outlets(running)
    state, problems = _Thermostat(network, outlets).steady()
    return report(network, outlets, state, problems)


def solved(network: Network, *running: str) -> Solution:
    """Return what `solve` does, from memory where all that runs is as it was: shut outlets do not matter."""
    return _solved(network.but(outlets=network.open_outlets(running)), running)


@lru_cache(maxsize=1024)
def _solved(network: Network, running: tuple[str, ...]) -> Solution:
    return solve(network, *running)


@lru_cache(maxsize=1024)
def total_flow(network: Network, running: tuple[str, ...]) -> float:
    """Return the l/min of all open outlets together that `solve` finds, without the account of each piece."""
    state, _ = _Thermostat(network, network.open_outlets(running)).steady()
    return sum(litre_flow(mass, state.mixed) for mass in state.flows)


@lru_cache(maxsize=256)
def shared_out(outlets: tuple[Outlet, ...], temperature: float, mass: float) -> tuple[float, Flows]:
    """Return what `Drains.sharing` does, from memory: what a heater can warm does not hang on branches."""
    return Drains.of(outlets, temperature).sharing(mass)


class _Mix(NamedTuple):
    """What the thermostat aims at, or the best that it can do."""

    share: float
    temperature: float


class _Thermostat:
    """One network with some outlets open; `hot` is what the hot supply is set to or stored at."""

    def __init__(self, network: Network, outlets: tuple[Outlet, ...]) -> None:
        self.network, self.outlets = network, outlets
        self.cold, self.hot = network.cold.temperature, network.hot.temperature
        self.setting = network.valve.setting
        self.cold_source, self.hot_source = Source(network.cold, self.cold), Source(network.hot, self.hot)
        self.warming = math.inf
        """kg/s x K that the heater gives."""
        if network.heater is not None:
            # one heat capacity for all, at the middle of the heater's range
            capacity = water((self.cold + self.hot) / 2.0).heat_capacity
            self.warming = 1000.0 * network.heater.power / capacity

    def steady(self) -> tuple[State, tuple[Problem, ...]]:
        """Return the steady state, and why it is not what was set, if it is not."""
        mix, problems = self._aim()
        drains = Drains.of(self.outlets, mix.temperature)
        weak = self._too_weak(mix, drains.floor)
        if weak:
            return State.at_rest(self.hot, drains.floor, len(self.outlets)), (*problems, *weak)
        if self.network.heater is not None and mix.share > 0.0:
            # what the power can warm to the setting, if it runs: of hot water, or of more that is less hot
            total = self.warming / (mix.temperature - self.cold)
            pressure, flows = shared_out(self.outlets, mix.temperature, total)
            if self._passes(mix, self.hot_source, total, pressure):
                if self.network.heater.beyond == "slower":
                    state = self._slowed(mix, total, pressure, flows)
                else:
                    state = self._cooler(mix, drains, total, pressure, flows)
                return state, (*problems, self._heater_too_small(mix, state))
        return self._unbounded(mix, drains), problems

    def _aim(self) -> tuple[_Mix, tuple[Problem, ...]]:
        if self.setting > self.hot:
            message = (
                f"The hot water at {self.hot:g} °C cannot give the {self.setting:g} °C that is set:"
                " only hot water runs."
            )
            return _Mix(1.0, self.hot), (Problem(kind="hot_too_cool", message=message),)
        if self.setting < self.cold:
            message = (
                f"The cold water at {self.cold:g} °C is warmer than the {self.setting:g} °C that is set:"
                " only cold water runs."
            )
            return _Mix(0.0, self.cold), (Problem(kind="cold_too_warm", message=message),)
        return _Mix((self.setting - self.cold) / (self.hot - self.cold), self.setting), ()

    def _too_weak(self, mix: _Mix, floor: float) -> tuple[Problem, ...]:
        """Return a problem for each branch that is wanted but does not reach the lowest open outlet."""
        branches: tuple[tuple[Trouble, str, float, float], ...] = (
            ("hot_too_weak", "hot", self.hot_source.still, mix.share),
            ("cold_too_weak", "cold", self.cold_source.still, 1.0 - mix.share),
        )
        return tuple(
            Problem(
                kind=kind,
                message=f"The {word} supply holds {still:.2f} bar at the valve and the water runs from"
                f" {floor:.2f} bar: too little head, the thermostat lets nothing through.",
                parts=tuple(outlet.name for outlet in self.outlets),
            )
            for kind, word, still, share in branches
            if share > 0.0 and still <= floor
        )

    def _unbounded(self, mix: _Mix, drains: Drains) -> State:
        """Return the state with all the hot water that the thermostat asks for."""
        sides = ((self.hot_source, mix.share), (self.cold_source, 1.0 - mix.share))
        held = min(source.still for source, share in sides if share > 0.0)
        flows = settled(drains.guess(held), lambda flows: self._round(mix, self.hot_source, drains, flows))
        if flows is None:
            flows = self._bracketed(mix, drains, held)
        total = sum(flows)
        hot_mass = mix.share * total
        return State(hot_mass, total - hot_mass, self.hot, mix.temperature, drains.pressure(flows), flows)

    def _bracketed(self, mix: _Mix, drains: Drains, held: float) -> Flows:
        """Return the flows that no rounds find."""
        shuttle = self._shuttle(self.hot_source)

        def left(lead: float) -> float:
            pressure, flows = drains.led(lead)
            hot_mass = mix.share * sum(flows)
            return self._left(shuttle, self.hot_source, hot_mass, sum(flows) - hot_mass, pressure)

        return drains.led(flow_root(left, drains.most(held)))[1]

    def _round(self, mix: _Mix, hot: Source, drains: Drains, flows: Flows) -> Flows | None:
        """Return the flows with which parabolas through both sides and the outlets meet at one pressure."""
        mass, outlets, shuttle = sum(flows), drains.touching(flows), self._shuttle(hot)
        sides = [
            (source.touching(share * mass), share, resistance)
            for source, share, resistance in (
                (hot, mix.share, shuttle.hot),
                (self.cold_source, 1.0 - mix.share, shuttle.cold),
            )
            if share > 0.0
        ]
        outlet = together(outlets, flows)
        total = driven(sides, outlet)
        return None if total is None else passed(outlets, outlet.at(total))

    def _shuttle(self, hot: Source) -> Shuttle:
        return Shuttle(self.network.valve, hot.temperature, self.cold)

    def _passes(self, mix: _Mix, hot: Source, total: float, pressure: float) -> bool:
        """Return whether more than `total` kg/s, which need a pressure behind the valve, would come."""
        hot_mass = mix.share * total
        return self._left(self._shuttle(hot), hot, hot_mass, total - hot_mass, pressure) > 0.0

    def _left(
        self, shuttle: Shuttle, hot: Source, hot_mass: float, cold_mass: float, pressure: float
    ) -> float:
        """Return the shuttle's way that is left, drawn into -1 to 1: 1 at no flow, 0 where all is used."""
        over_hot = hot.pressure(hot_mass) - pressure if hot_mass > 0.0 else 0.0
        over_cold = self.cold_source.pressure(cold_mass) - pressure if cold_mass > 0.0 else 0.0
        return 2.0 / (1.0 + shuttle.way(hot_mass, cold_mass, over_hot, over_cold)) - 1.0

    def _slowed(self, mix: _Mix, total: float, pressure: float, flows: Flows) -> State:
        """The heater lets through no more than it can heat; all else follows from the share."""
        hot_mass = mix.share * total
        return State(hot_mass, total - hot_mass, self.hot, mix.temperature, pressure, flows)

    def _cooler(self, mix: _Mix, drains: Drains, total: float, pressure: float, flows: Flows) -> State:
        """The heater lets all through less hot; the thermostat takes more of it, in the end nothing else."""
        if self._passes(_Mix(1.0, mix.temperature), self._warmed(total), total, pressure):
            return self._all_warmed(drains, flows)

        def left(hot_mass: float) -> float:
            hot = self._warmed(hot_mass)
            return self._left(self._shuttle(hot), hot, hot_mass, total - hot_mass, pressure)

        hot_mass = root(left, mix.share * total, total)
        warmed = self._warmed(hot_mass).temperature
        return State(hot_mass, total - hot_mass, warmed, mix.temperature, pressure, flows)

    def _warmed(self, mass: float) -> Source:
        """Return the hot branch as warm as the heater makes so many kg/s."""
        return self.hot_source.at(self.cold + self.warming / mass)

    def _all_warmed(self, drains: Drains, least: Flows) -> State:
        """Nothing but warmed water runs, as warm as the power makes it; flow and warmth have one root.

        More runs than the `least` flows, with which it would be as warm as it is set.
        """

        def next_round(flows: Flows) -> Flows | None:
            hot = self._warmed(sum(flows))
            return self._round(_Mix(1.0, hot.temperature), hot, drains.at(hot.temperature), flows)

        def left(mass: float) -> float:
            hot = self._warmed(mass)
            pressure, _ = drains.at(hot.temperature).sharing(mass)
            return self._left(self._shuttle(hot), hot, mass, 0.0, pressure)

        # a round here leaves about a hundredth of what it changes, since it warms by the flow before it
        flows = settled(least, next_round, 1e-7) if all(least) else None
        if flows is None:
            most = 1.1 * sum(least)
            while left(most) > 0.0:
                most *= 1.1
            mass = root(left, sum(least), most)
            flows = drains.at(self._warmed(mass).temperature).sharing(mass)[1]
        mass = sum(flows)
        mixed = self._warmed(mass).temperature
        return State(mass, 0.0, mixed, mixed, drains.at(mixed).pressure(flows), flows)

    def _heater_too_small(self, mix: _Mix, state: State) -> Problem:
        assert self.network.heater is not None, "only asked with a heater"
        if state.mixed < mix.temperature:
            what = f"the water comes at {state.mixed:.1f} °C, not at {mix.temperature:g} °C"
        else:
            what = "less runs than the supply could give"
        return Problem(
            kind="heater_too_small",
            message=f"The heater of {self.network.heater.power:g} kW is too small for this flow: {what}.",
        )
