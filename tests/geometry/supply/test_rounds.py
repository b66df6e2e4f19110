"""Flows found in rounds: parabolas by hand sums, and the same answers as from bracketed roots."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

import geometry.supply.rounds
from geometry.supply.fixed import crossing
from geometry.supply.loss import Path
from geometry.supply.network import Heater, Network
from geometry.supply.pieces import Device, Stretch
from geometry.supply.rounds import Flows, Parabola, driven, passed, settled, together
from geometry.supply.solve import shared_out, solve, solved
from tests.geometry.supply.houses import HANDSET, HEAD, any_house, feed, plain

SPRAY = Parabola(0.4, 50.0)


def test_one_side_drives_what_all_resistances_leave() -> None:
    # 2.0 - 0.4 = (20 + 30 + 50) x flow²: 0.016, of which the root is 0.12649
    assert driven([(Parabola(2.0, -20.0), 1.0, 30.0)], SPRAY) == pytest.approx(0.12649, abs=1e-5)


def test_two_like_sides_share_the_way() -> None:
    # each has half the flow through half the way, so the valve takes 30 x flow², and its pipe a quarter of 20
    side = (Parabola(2.0, -20.0), 0.5, 30.0)
    assert driven([side, side], SPRAY) == pytest.approx(math.sqrt(1.6 / (5 + 30 + 50)), rel=1e-12)


def test_unlike_sides_need_the_whole_way_together() -> None:
    # without pipes, flow 0.1, needed 0.9: 0.06 x sqrt(r / 2.1) + 0.04 x sqrt(r / 0.6) = 1 for this r
    resistance = (0.06 / math.sqrt(2.1) + 0.04 / math.sqrt(0.6)) ** -2
    sides = [(Parabola(3.0, 0.0), 0.6, resistance), (Parabola(1.5, 0.0), 0.4, resistance)]
    assert driven(sides, SPRAY) == pytest.approx(0.1, rel=1e-9)


def test_a_side_that_does_not_reach_drives_nothing() -> None:
    assert driven([(Parabola(0.4, 0.0), 1.0, 30.0)], SPRAY) is None


def test_outlets_at_one_height_are_one_outlet() -> None:
    # at 1 bar 0.1 and 0.05774 kg/s run, so 1 bar x (0.15774)^-2 = 40.19
    both = [Parabola(0.0, 100.0), Parabola(0.0, 300.0)]
    flows = passed(both, 1.0)
    assert flows == pytest.approx((0.1, 0.05774), abs=1e-5)
    assert together(both, flows) == pytest.approx((0.0, 40.19), abs=5e-3)


def test_an_outlet_above_the_pressure_stays_dry() -> None:
    assert passed([SPRAY, Parabola(1.2, 50.0)], 0.9) == pytest.approx((0.1, 0.0))


def test_rounds_end_where_nothing_changes_and_not_at_a_dry_outlet() -> None:
    def halfway(flows: Flows) -> Flows:
        return tuple(0.3 + 0.01 * (flow - 0.3) for flow in flows)

    assert settled((1.0,), halfway) == pytest.approx((0.3,), rel=1e-9)
    assert settled((1.0, 1.0), lambda flows: (flows[0], 0.0)) is None
    assert settled((1.0,), lambda flows: (flows[0] * 2,)) is None
    assert settled((1.0,), lambda _flows: None) is None


@given(
    st.floats(0.001, 0.6) | st.floats(-0.6, -0.001), st.floats(11, 27), st.sampled_from([10.0, 38.0, 60.0])
)
def test_a_parabola_touches_what_a_way_needs(mass: float, bore: float, warm: float) -> None:
    pieces = (Stretch(name="pipe", length=4000, bore=bore, rise=300, sum_k=3), Device(name="spray", flow=12))
    path = Path(pieces, warm)
    touching, near = path.touching(mass), 1e-5 * abs(mass)
    assert touching.at(mass) == pytest.approx(path.needs(mass), rel=1e-12)
    # but for the ends of the transition, where it has a corner, its slope is the same: a difference of 1e-5
    slopes = [(path.needs(mass + by) - path.needs(mass)) / by for by in (-near, near)]
    if slopes[0] == pytest.approx(slopes[1], rel=1e-4):
        assert 2 * touching.square * mass == pytest.approx(sum(slopes) / 2, rel=1e-4)


@pytest.mark.parametrize("heater", [None, Heater(power=9.0), Heater(power=9.0, beyond="slower")])
@pytest.mark.parametrize("number", range(6))
@pytest.mark.parametrize("running", [(HEAD,), (HEAD, HANDSET)])
def test_bracketed_roots_find_the_same(
    number: int, heater: Heater | None, running: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    house: Network = any_house(number).but(heater=heater)
    quick = solve(house, *running)
    monkeypatch.setattr(geometry.supply.rounds, "MOST_ROUNDS", 0)
    shared_out.cache_clear()
    sure = solve(house, *running)
    assert [outlet.mass for outlet in quick.outlets] == pytest.approx(
        [o.mass for o in sure.outlets], rel=1e-9
    )
    assert quick.hot_mass == pytest.approx(sure.hot_mass, rel=1e-9)
    assert quick.temperature == pytest.approx(sure.temperature, rel=1e-9)


@pytest.mark.parametrize("number", range(4))
def test_what_crosses_is_the_same_by_a_bracketed_root(number: int, monkeypatch: pytest.MonkeyPatch) -> None:
    def open_pipe(name: str) -> Stretch:
        return Stretch(name=name, length=4000.0 + 900 * number, bore=13.6, rise=300, sum_k=3)

    strong = feed(4.0, 10.0, open_pipe("cold pipe"), fall=0.01)
    house = plain(cold=strong, hot=feed(2.0 + 0.5 * number, 60.0, open_pipe("hot pipe"), fall=0.02))
    quick = crossing(house)
    monkeypatch.setattr(geometry.supply.rounds, "MOST_ROUNDS", 0)
    assert quick > 1.0
    assert quick == pytest.approx(crossing(house), rel=1e-9)


def test_what_was_solved_before_does_not_matter() -> None:
    house = any_house(3)
    fresh = solve(house, HEAD, HANDSET)
    for names in ((HEAD,), (HANDSET,), (HEAD, HANDSET)):
        solved(house, *names)
    assert solved(house, HANDSET, HEAD) == fresh
    assert solved(house, HANDSET, HEAD).losses == fresh.losses
