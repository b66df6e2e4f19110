"""A network with a thermostat: what runs, how warm, from one outlet or from several together.

The thermostat fixes the share of hot water by mass, (mixed - cold) / (hot - cold), with one heat capacity
for all; at 10, 40 and 60 C that is 0.0002 off what the enthalpies give. What is left is one unknown, the
flow, and one equation: both sides together must leave open exactly the way that the shuttle has. More flow
always asks for more way, so there is one solution and a bracket always finds it.

Where the thermostat cannot hold its setting the result says so and gives what comes instead.
"""

import math
from functools import cached_property, lru_cache
from typing import NamedTuple

from geometry.supply.hydraulics import Drains, Sides, Source, way_needed
from geometry.supply.network import Feed, Heater, MixingValve, Network, Outlet, Ways
from geometry.supply.report import State
from geometry.supply.root import flow_root, root
from geometry.supply.rounds import Flows, driven, passed, settled, together
from geometry.supply.solution import Problem, Solution, Trouble
from geometry.supply.water import heat_capacity


def solve(network: Network, *running: str) -> Solution:
    """Work out what the network does with the outlets of these names open, one or more.

    Raises:
        ValueError: no outlet is named, or one that does not exist.
        ArithmeticError: no solution was found; this should not happen with any network that can be made.
    """
    if not running:
        raise ValueError("no outlet is open; name one or more")
    return _solve(network.opened(running))


def solved(network: Network, *running: str) -> Solution:
    """Return what `solve` does, from memory where all that runs is as it was: shut outlets do not matter."""
    return _solved(network.opened(running))


def _solve(ways: Ways) -> Solution:
    state, reasons = _thermostat(*ways[:-1]).steady(ways.outlets)
    return Solution(ways=ways, state=state, reasons=reasons)


_solved = lru_cache(maxsize=1024)(_solve)


@lru_cache(maxsize=256)
def shared_out(outlets: tuple[Outlet, ...], temperature: float, mass: float) -> tuple[float, Flows]:
    """Return what `Drains.sharing` does, from memory: what a heater can warm does not hang on branches."""
    return Drains.of(outlets, temperature).sharing(mass)


class _Mix(NamedTuple):
    """What the thermostat aims at, or the best that it can do."""

    share: float
    temperature: float


class _Thermostat:
    """Both branches and the valve; `hot` is what the hot supply is set to or stored at."""

    def __init__(self, cold: Feed, hot: Feed, heater: Heater | None, valve: MixingValve) -> None:
        self.cold, self.hot = cold.temperature, hot.temperature
        self.heater, self.setting = heater, valve.setting
        self.cold_source = Source(cold, valve.cold_side, self.cold)
        self.hot_source = Source(hot, valve.hot_side, self.hot)
        self.mix, self.problems = self._aim()
        self.warming = math.inf
        """kg/s x K that the heater gives."""
        if heater is not None:
            # one heat capacity for all, at the middle of the heater's range
            self.warming = 1000.0 * heater.power / heat_capacity((self.cold + self.hot) / 2.0)

    def steady(self, outlets: tuple[Outlet, ...]) -> tuple[State, tuple[Problem, ...]]:
        """Return the steady state with some outlets open, and why it is not what was set, if it is not."""
        drains = Drains.of(outlets, self.mix.temperature)
        weak = self._too_weak(outlets, drains.floor)
        if weak:
            return State.at_rest(self.hot, drains.floor, len(outlets)), (*self.problems, *weak)
        if self.heater is not None and self.mix.share > 0.0:
            pressure, flows = shared_out(outlets, self.mix.temperature, self.limit)
            if way_needed(self._limited, pressure) < 1.0:
                if self.heater.beyond == "slower":
                    state = self._slowed(pressure, flows)
                else:
                    state = self._cooler(drains, pressure, flows)
                return state, (*self.problems, self._heater_too_small(state))
        return self._unbounded(drains), self.problems

    @cached_property
    def limit(self) -> float:
        """kg/s that the power can warm to the setting, if it runs: of hot water, or of more less hot."""
        return self.warming / (self.mix.temperature - self.cold)

    @cached_property
    def _limited(self) -> Sides:
        """The sides if so much runs, with the hot water as it is set."""
        hot_mass = self.mix.share * self.limit
        return self._sides(self.hot_source, hot_mass, self.limit - hot_mass)

    @cached_property
    def _all_hot(self) -> Sides:
        """The hot side if so much runs and nothing else."""
        return self._sides(self._warmed(self.limit), self.limit, 0.0)

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

    def _too_weak(self, outlets: tuple[Outlet, ...], floor: float) -> tuple[Problem, ...]:
        """Return a problem for each branch that is wanted but does not reach the lowest open outlet."""
        branches: tuple[tuple[Trouble, str, float, float], ...] = (
            ("hot_too_weak", "hot", self.hot_source.still, self.mix.share),
            ("cold_too_weak", "cold", self.cold_source.still, 1.0 - self.mix.share),
        )
        return tuple(
            Problem(
                kind=kind,
                message=f"The {word} supply holds {still:.2f} bar at the valve and the water runs from"
                f" {floor:.2f} bar: too little head, the thermostat lets nothing through.",
                parts=tuple(outlet.name for outlet in outlets),
            )
            for kind, word, still, share in branches
            if share > 0.0 and still <= floor
        )

    def _unbounded(self, drains: Drains) -> State:
        """Return the state with all the hot water that the thermostat asks for."""
        share = self.mix.share
        sides = ((self.hot_source, share), (self.cold_source, 1.0 - share))
        held = min(source.still for source, part in sides if part > 0.0)
        flows = settled(drains.guess(held), lambda flows: self._round(share, self.hot_source, drains, flows))
        if flows is None:
            flows = self._bracketed(drains, held)
        total = sum(flows)
        hot_mass = share * total
        return State(
            hot_mass, total - hot_mass, self.hot, self.mix.temperature, drains.pressure(flows), flows
        )

    def _bracketed(self, drains: Drains, held: float) -> Flows:
        """Return the flows that no rounds find."""

        def left(lead: float) -> float:
            pressure, flows = drains.led(lead)
            hot_mass = self.mix.share * sum(flows)
            return self._left(self.hot_source, hot_mass, sum(flows) - hot_mass, pressure)

        return drains.led(flow_root(left, drains.most(held)))[1]

    def _round(self, share: float, hot: Source, drains: Drains, flows: Flows) -> Flows | None:
        """Return the flows with which parabolas through both sides and the outlets meet at one pressure."""
        mass, outlets = sum(flows), drains.touching(flows)
        sides = [
            (source.touching(part * mass), part, source.resistance)
            for source, part in ((hot, share), (self.cold_source, 1.0 - share))
            if part > 0.0
        ]
        outlet = together(outlets, flows)
        total = driven(sides, outlet)
        return None if total is None else passed(outlets, outlet.at(total))

    def _sides(self, hot: Source, hot_mass: float, cold_mass: float) -> Sides:
        """Return what the sides through which water runs hold."""
        both = ((hot, hot_mass), (self.cold_source, cold_mass))
        return [(mass, source.pressure(mass), source.resistance) for source, mass in both if mass > 0.0]

    def _left(self, hot: Source, hot_mass: float, cold_mass: float, pressure: float) -> float:
        """Return the shuttle's way that is left, drawn into -1 to 1: 1 at no flow, 0 where all is used."""
        return 2.0 / (1.0 + way_needed(self._sides(hot, hot_mass, cold_mass), pressure)) - 1.0

    def _slowed(self, pressure: float, flows: Flows) -> State:
        """The heater lets through no more than it can heat; all else follows from the share."""
        hot_mass = self.mix.share * self.limit
        return State(hot_mass, self.limit - hot_mass, self.hot, self.mix.temperature, pressure, flows)

    def _cooler(self, drains: Drains, pressure: float, flows: Flows) -> State:
        """The heater lets all through less hot; the thermostat takes more of it, in the end nothing else."""
        if way_needed(self._all_hot, pressure) < 1.0:
            return self._all_warmed(drains, flows)

        def left(hot_mass: float) -> float:
            return self._left(self._warmed(hot_mass), hot_mass, self.limit - hot_mass, pressure)

        mass = root(left, self.mix.share * self.limit, self.limit)
        return State(mass, self.limit - mass, self._warmth(mass), self.mix.temperature, pressure, flows)

    def _warmth(self, mass: float) -> float:
        """Return how warm the heater makes so many kg/s, in Celsius."""
        return self.cold + self.warming / mass

    def _warmed(self, mass: float) -> Source:
        """Return the hot branch as warm as the heater makes so many kg/s."""
        return self.hot_source.at(self._warmth(mass))

    def _all_warmed(self, drains: Drains, least: Flows) -> State:
        """Nothing but warmed water runs, as warm as the power makes it; flow and warmth have one root.

        More runs than the `least` flows, with which it would be as warm as it is set.
        """

        def next_round(flows: Flows) -> Flows | None:
            warm = self._warmth(sum(flows))
            return self._round(1.0, self.hot_source.at(warm), drains.at(warm), flows)

        def left(mass: float) -> float:
            pressure, _ = drains.at(self._warmth(mass)).sharing(mass)
            return self._left(self._warmed(mass), mass, 0.0, pressure)

        # a round here leaves about a hundredth of what it changes, since it warms by the flow before it
        flows = settled(least, next_round, 1e-7) if all(least) else None
        if flows is None:
            most = 1.1 * sum(least)
            while left(most) > 0.0:
                most *= 1.1
            mass = root(left, sum(least), most)
            flows = drains.at(self._warmth(mass)).sharing(mass)[1]
        mass = sum(flows)
        mixed = self._warmth(mass)
        return State(mass, 0.0, mixed, mixed, drains.at(mixed).pressure(flows), flows)

    def _heater_too_small(self, state: State) -> Problem:
        assert self.heater is not None, "only asked with a heater"
        if state.mixed < self.mix.temperature:
            what = f"the water comes at {state.mixed:.1f} °C, not at {self.mix.temperature:g} °C"
        else:
            what = "less runs than the supply could give"
        return Problem(
            kind="heater_too_small",
            message=f"The heater of {self.heater.power:g} kW is too small for this flow: {what}.",
        )


_thermostat = lru_cache(maxsize=32)(_Thermostat)
