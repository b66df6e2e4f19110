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
from geometry.supply.network import Network, Outlet
from geometry.supply.report import State, report
from geometry.supply.root import root
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


@lru_cache(maxsize=512)
def _solved(network: Network, running: tuple[str, ...]) -> Solution:
    return solve(network, *running)


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
        self.cold_source = Source(network.cold, self.cold)
        self.warming = math.inf
        """kg/s x K that the heater gives."""
        if network.heater is not None:
            # one heat capacity for all, at the middle of the heater's range
            capacity = water((self.cold + self.hot) / 2.0).heat_capacity
            self.warming = 1000.0 * network.heater.power / capacity

    def steady(self) -> tuple[State, tuple[Problem, ...]]:
        """Return the steady state, and why it is not what was set, if it is not."""
        mix, problems = self._aim()
        weak = self._too_weak(mix)
        if weak:
            floor = Drains(self.outlets, mix.temperature).floor
            return State.at_rest(self.hot, floor, len(self.outlets)), (*problems, *weak)
        state = self._unbounded(mix, self.hot)
        if state.hot * (self.hot - self.cold) > self.warming:
            assert self.network.heater is not None, "nothing else bounds the warming"
            state = self._slowed(mix) if self.network.heater.beyond == "slower" else self._cooler(mix)
            problems = (*problems, self._heater_too_small(mix, state))
        return state, problems

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

    def _too_weak(self, mix: _Mix) -> tuple[Problem, ...]:
        """Return a problem for each branch that is wanted but does not reach the lowest open outlet."""
        floor = Drains(self.outlets, mix.temperature).floor
        branches: tuple[tuple[Trouble, str, float, float], ...] = (
            ("hot_too_weak", "hot", Source(self.network.hot, self.hot).still, mix.share),
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

    def _unbounded(self, mix: _Mix, hot_temperature: float) -> State:
        """Return the state with all the hot water that the thermostat asks for, at a temperature."""
        shuttle = Shuttle(self.network.valve, hot_temperature, self.cold)
        hot, drains = Source(self.network.hot, hot_temperature), Drains(self.outlets, mix.temperature)

        def left(lead: float) -> float:
            pressure, flows = drains.at(lead)
            hot_mass = mix.share * sum(flows)
            return self._left(shuttle, hot, hot_mass, sum(flows) - hot_mass, pressure)

        held = min(
            hot.still if mix.share > 0.0 else math.inf,
            self.cold_source.still if mix.share < 1.0 else math.inf,
        )
        if held <= drains.floor:
            return State.at_rest(hot_temperature, drains.floor, len(self.outlets))
        pressure, flows = drains.at(root(left, 0.0, drains.most(held)))
        hot_mass = mix.share * sum(flows)
        return State(hot_mass, sum(flows) - hot_mass, hot_temperature, mix.temperature, pressure, flows)

    def _left(
        self, shuttle: Shuttle, hot: Source, hot_mass: float, cold_mass: float, pressure: float
    ) -> float:
        """Return the shuttle's way that is left, drawn into -1 to 1: 1 at no flow, 0 where all is used."""
        over_hot = hot.pressure(hot_mass) - pressure if hot_mass > 0.0 else 0.0
        over_cold = self.cold_source.pressure(cold_mass) - pressure if cold_mass > 0.0 else 0.0
        return 2.0 / (1.0 + shuttle.way(hot_mass, cold_mass, over_hot, over_cold)) - 1.0

    def _slowed(self, mix: _Mix) -> State:
        """The heater lets through no more than it can heat; all else follows from the share."""
        hot_mass = self.warming / (self.hot - self.cold)
        total = hot_mass / mix.share
        pressure, flows = Drains(self.outlets, mix.temperature).sharing(total)
        return State(hot_mass, total - hot_mass, self.hot, mix.temperature, pressure, flows)

    def _cooler(self, mix: _Mix) -> State:
        """The heater lets all through less hot; the thermostat takes more of it, in the end nothing else."""
        # what the power can warm to the setting, if it runs: made of less hot water and more of it
        total = self.warming / (mix.temperature - self.cold)
        only_hot = self._unbounded(_Mix(1.0, mix.temperature), mix.temperature)
        if only_hot.hot >= total:
            return self._all_warmed(total, only_hot.hot)
        pressure, flows = Drains(self.outlets, mix.temperature).sharing(total)

        def left(hot_mass: float) -> float:
            warmed = self.cold + self.warming / hot_mass
            shuttle, hot = Shuttle(self.network.valve, warmed, self.cold), Source(self.network.hot, warmed)
            return self._left(shuttle, hot, hot_mass, total - hot_mass, pressure)

        hot_mass = root(left, mix.share * total, total)
        warmed = self.cold + self.warming / hot_mass
        return State(hot_mass, total - hot_mass, warmed, mix.temperature, pressure, flows)

    def _all_warmed(self, least: float, warmest: float) -> State:
        """Nothing but warmed water runs, as warm as the power makes it; flow and warmth have one root.

        More than `least` runs, and about as much as would at the setting, `warmest`: cooler water is denser.
        """

        def warmed(mass: float) -> float:
            return self.cold + self.warming / mass

        def left(mass: float) -> float:
            temperature = warmed(mass)
            pressure, _ = Drains(self.outlets, temperature).sharing(mass)
            shuttle = Shuttle(self.network.valve, temperature, self.cold)
            return self._left(shuttle, Source(self.network.hot, temperature), mass, 0.0, pressure)

        most = warmest
        while left(most) > 0.0:
            most *= 1.1
        mass = root(left, least, most)
        temperature = warmed(mass)
        pressure, flows = Drains(self.outlets, temperature).sharing(mass)
        return State(mass, 0.0, temperature, temperature, pressure, flows)

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
