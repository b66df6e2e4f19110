"""Houses nobody would build: every combination of weak, strong, sucking, blocked and pumped must be answered.

Whatever the answer, mass, energy and pressure must add up, and nothing may be zero without a word.
"""

from random import Random

import pytest

from geometry.supply.fixed import solve_fixed
from geometry.supply.network import Feed, Heater, MixingValve, Network, Outlet
from geometry.supply.pieces import Device, Piece, Pump, Stretch
from geometry.supply.solution import Solution
from geometry.supply.solve import solve
from geometry.supply.supply_curve import SupplyCurve

SEEDS = range(400)


class Wild:
    """One wild house, and the outlets to open in it."""

    def __init__(self, seed: int) -> None:
        self.chance = Random(seed)
        self.pieces = 0
        cold = self.chance.choice((1.0, 5.0, 10.0, 30.0))
        hot = cold + self.chance.choice((0.1, 3.0, 20.0, 50.0, 65.0))
        heaters = [Heater(power=p, beyond=b) for p in (0.01, 1, 8, 24) for b in ("cooler", "slower")]
        self.network = Network(
            cold=self.feed(cold),
            hot=self.feed(hot),
            heater=self.chance.choice((None, None, self.chance.choice(heaters))),
            valve=MixingValve(
                setting=self.chance.choice((cold, hot, 0.0, 38.0, self.chance.uniform(0, 60))),
                hot_flow=self.chance.choice((1, 20, 60)),
                cold_flow=self.chance.choice((1, 20, 60)),
            ),
            outlets=tuple(self.outlet() for _ in range(self.chance.randint(1, 3))),
        )
        names = [outlet.name for outlet in self.network.outlets]
        self.running = tuple(self.chance.sample(names, self.chance.randint(1, len(names))))
        self.position = self.chance.choice((0.0, 1.0, 0.5, 1e-4, self.chance.random()))

    def name(self) -> str:
        self.pieces += 1
        return f"piece {self.pieces}"

    def piece(self) -> Piece:
        one_way = self.chance.random() < 0.4
        kind = self.chance.random()
        if kind < 0.1:
            return Pump(name=self.name(), pressure=self.chance.choice((0.3, 1.5, 4)), flow=30)
        if kind < 0.4:
            return Device(
                name=self.name(), flow=10 ** self.chance.uniform(-0.5, 2.5), pressure=0.3, one_way=one_way,
                opening=self.chance.choice((0.0, 0.05, 0.3)) if one_way else 0.0,
            )  # fmt: skip
        return Stretch(
            name=self.name(), length=self.chance.choice((0, 10, 5000, 60_000)),
            sum_k=self.chance.choice((0, 100)),
            bore=self.chance.choice((3, 6.7, 13.6, 20.2, 40)), roughness=self.chance.choice((0, 0.0015, 0.1)),
            rise=self.chance.choice((0, 0, 1000, -3000, 10_000)),
        )  # fmt: skip

    def feed(self, celsius: float) -> Feed:
        curve = SupplyCurve(
            static=self.chance.choice((0.0, 0.03, 0.3, 1, 3, 3, 10, -0.4)),
            fall=self.chance.choice((0, 0, 0.001, 0.02, 1.0)),
            exponent=self.chance.choice((1, 1.85, 2.0)),
        )
        pieces = tuple(self.piece() for _ in range(self.chance.randint(0, 4)))
        regulated = self.chance.choice((None, None, 0.5))
        return Feed(curve=curve, temperature=celsius, pieces=pieces, regulated=regulated)

    def outlet(self) -> Outlet:
        return Outlet(
            name=f"outlet {self.name()}",
            pieces=tuple(self.piece() for _ in range(self.chance.randint(0, 3))),
            head=Device(name=self.name(), flow=10 ** self.chance.uniform(-1, 2)),
            submerged=self.chance.random() < 0.3,
        )


def all_adds_up(network: Network, found: Solution) -> None:
    masses = [found.hot_mass, found.cold_mass, *(outlet.mass for outlet in found.outlets)]
    most = max(abs(mass) for mass in masses)
    assert found.hot_mass + found.cold_mass == pytest.approx(sum(masses[2:]), abs=1e-6 * most)
    ways = [
        ("hot", found.hot_mass, network.hot.curve.static),
        ("cold", found.cold_mass, network.cold.curve.static),
    ]
    for way, mass, static in ways:
        if mass > 0.0:
            taken = sum(loss.pressure + loss.height for loss in found.losses if loss.way == way)
            assert static - taken == pytest.approx(found.mixed_pressure, abs=1e-6 * max(1, abs(static)))
    for outlet in found.outlets:
        if outlet.mass > 0.0:
            taken = sum(loss.pressure + loss.height for loss in found.losses if loss.way == outlet.name)
            assert taken == pytest.approx(found.mixed_pressure, abs=1e-6 * max(1, abs(taken)))
    if found.hot_share is not None and found.temperature is not None:
        rise = found.hot_share * (found.hot_temperature - network.cold.temperature)
        assert found.temperature == pytest.approx(network.cold.temperature + rise, abs=1e-5)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_thermostat_answers_any_house(seed: int) -> None:
    wild = Wild(seed)
    found = solve(wild.network, *wild.running)
    all_adds_up(wild.network, found)
    assert all(mass >= 0.0 for mass in (found.hot_mass, found.cold_mass, *(o.mass for o in found.outlets)))
    assert found.flow > 0.0 or found.problems
    heater = wild.network.heater
    if heater is not None:
        # kW = kg/s x kJ/(kg K) x K; the heat capacity of water is 4.178 to 4.22 between 1 and 95 C
        given = found.hot_mass * 4.178 * (found.hot_temperature - wild.network.cold.temperature)
        assert given <= heater.power * (1 + 1e-9)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_still_shuttle_answers_any_house(seed: int) -> None:
    wild = Wild(seed)
    for running in ((), wild.running):
        found = solve_fixed(wild.network, *running, position=wild.position)
        all_adds_up(wild.network, found)
        for problem, backwards in (
            ("reverse_hot", found.hot_mass < 0.0),
            ("reverse_cold", found.cold_mass < 0.0),
            ("drawn_back", any(outlet.mass < 0.0 for outlet in found.outlets)),
        ):
            assert any(held.kind == problem for held in found.problems) == backwards
        if running:
            assert found.flow > 0.0 or found.problems


def test_the_wild_houses_meet_every_problem() -> None:
    met = set()
    for seed in SEEDS:
        wild = Wild(seed)
        met |= {problem.kind for problem in solve(wild.network, *wild.running).problems}
        fixed = solve_fixed(wild.network, *wild.running, position=wild.position)
        met |= {problem.kind for problem in fixed.problems}
    assert met == {
        "no_flow", "hot_too_weak", "cold_too_weak", "hot_too_cool", "cold_too_warm", "heater_too_small",
        "reverse_hot", "reverse_cold", "drawn_back", "outlet_dry", "uncertain",
    }  # fmt: skip
