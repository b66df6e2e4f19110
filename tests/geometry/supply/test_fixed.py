"""A shuttle that stands still: reverse flow and back-siphonage by hand sums, and the thermostat's own."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.supply.fixed import crossing, solve_fixed
from geometry.supply.network import Network
from geometry.supply.pieces import Device, Stretch
from geometry.supply.solve import solve
from geometry.supply.supply_curve import SupplyCurve
from geometry.supply.waste import least_air_gap
from tests.geometry.supply.houses import HANDSET, HEAD, any_house, feed, outlet, plain

CHECKS = [
    Device(name=f"{side} check valve", flow=500, pressure=0.1, one_way=True) for side in ("cold", "hot")
]


def unequal(*, guarded: bool = False) -> Network:
    """4 bar cold, 1 bar hot."""
    cold, hot = ((CHECKS[0],), (CHECKS[1],)) if guarded else ((), ())
    return plain(cold=feed(4.0, 10.0, *cold), hot=feed(1.0, 60.0, *hot))


def test_shut_outlets_and_unequal_pressures_push_cold_into_the_hot_pipe() -> None:
    # 3 bar over two half-open sides, the hot one still full of hot water, 1.0168 times as large:
    # 3 = (q / 11)² + (1.0168 q / 11)²; q = 11 sqrt(3 / 2.0339) = 13.36 l/min, and 13.58 hot litres
    found = solve_fixed(unequal(), position=0.5)
    assert found.cold_flow == pytest.approx(13.36, rel=2e-3)
    assert found.hot_flow == pytest.approx(-13.58, rel=2e-3)
    assert found.hot_mass == pytest.approx(-found.cold_mass, rel=1e-6)
    assert [problem.kind for problem in found.problems] == ["reverse_hot"]
    assert "check valves" in found.problems[0].message
    assert found.temperature is None
    assert found.hot_share is None


def test_what_crosses_is_measured_as_it_runs_back() -> None:
    # the hot litres of the sum above; the other way round the same mass: 13.58 / 1.0168 = 13.36 cold litres
    assert crossing(unequal()) == pytest.approx(13.58, rel=2e-3)
    assert crossing(plain(cold=feed(1.0, 10.0), hot=feed(4.0, 60.0))) == pytest.approx(-13.36, rel=2e-3)
    assert crossing(unequal(guarded=True)) == 0.0


def test_stronger_hot_water_runs_into_the_cold_pipe() -> None:
    found = solve_fixed(plain(cold=feed(1.0, 10.0), hot=feed(4.0, 60.0)), position=0.5)
    assert found.cold_flow < 0.0 < found.hot_flow
    assert [problem.kind for problem in found.problems] == ["reverse_cold"]


def test_check_valves_hold_it() -> None:
    found = solve_fixed(unequal(guarded=True), position=0.5)
    assert (found.hot_mass, found.cold_mass) == (0.0, 0.0)
    assert found.problems == ()


def test_a_reducing_valve_passes_nothing_back() -> None:
    weak = feed(1.5, 60.0).but(regulated=1.0)
    assert solve_fixed(plain(cold=feed(4.0, 10.0), hot=weak), position=0.5).hot_mass == 0.0


def test_an_open_outlet_does_not_end_the_reverse_flow() -> None:
    # (4 - p) = (cold / 11)², (p - 1) = (hot / 11)², p = (out / 12)², cold = hot + out:
    # at p = 1.21 18.37 against 5.04 + 13.20 = 18.24, at 1.22 18.34 against 18.41: p = 1.216,
    # 5.1 l/min back and 13.23 out
    found = solve_fixed(unequal(), HEAD, position=0.5)
    assert found.mixed_pressure == pytest.approx(1.216, abs=6e-3)
    assert found.hot_flow == pytest.approx(-5.1, rel=3e-2)
    assert found.flow == pytest.approx(13.23, rel=5e-3)
    assert found.temperature == 10.0
    assert found.has("reverse_hot")


def test_equal_pressures_cross_nothing() -> None:
    found = solve_fixed(plain(), position=0.5)
    assert found.hot_mass == pytest.approx(0.0, abs=1e-9)
    assert found.problems == ()


def test_a_mixer_without_thermostat_mixes_by_its_position() -> None:
    # equal pressures: 40 % of the way is 40 % of the litres, by mass
    # 0.4 x 983.2 / (0.4 x 983.2 + 0.6 x 999.7) = 0.396
    found = solve_fixed(plain(), HEAD, position=0.4)
    assert found.flow == pytest.approx(18.25, rel=5e-3)
    assert found.hot_share == pytest.approx(0.396, abs=5e-4)
    assert found.temperature == pytest.approx(10 + 50 * 0.396, abs=0.03)


@pytest.mark.parametrize(("position", "celsius"), [(0.0, 10.0), (1.0, 60.0)])
def test_at_its_ends_one_side_is_shut(position: float, celsius: float) -> None:
    found = solve_fixed(plain(), HEAD, position=position)
    assert found.temperature == celsius
    assert found.flow == pytest.approx(18.25, rel=1e-2)


@given(st.integers(1000, 100_000), st.sampled_from([(HEAD,), (HANDSET,), (HEAD, HANDSET)]))
def test_the_thermostats_own_position_gives_its_own_flows(seed: int, running: tuple[str, ...]) -> None:
    # two solvers, two sets of unknowns, one answer
    house = any_house(seed).but(heater=None)
    wanted = solve(house, *running)
    assert wanted.position is not None
    found = solve_fixed(house, *running, position=wanted.position)
    assert found.temperature == pytest.approx(wanted.temperature, abs=1e-5)
    assert found.hot_mass == pytest.approx(wanted.hot_mass, rel=1e-6)
    assert found.cold_mass == pytest.approx(wanted.cold_mass, rel=1e-6)
    assert [o.mass for o in found.outlets] == pytest.approx([o.mass for o in wanted.outlets], rel=1e-6)


def sucking(*, submerged: bool, height: float = 0.0, guarded: bool = False) -> Network:
    """A burst main sucks with 0.3 bar at a handset `height` mm above the valve."""
    stub = Stretch(name="stub", length=1, bore=20.2, rise=height)
    checks = CHECKS[:1] if guarded else ()
    return plain(cold=feed(-0.3, 10.0, *checks), outlets=(outlet(HANDSET, 8.0, stub, submerged=submerged),))


def test_a_sucking_main_draws_used_water_through_a_handset_in_the_tray() -> None:
    # 0.3 = q² / 22² + q² / 8²; q = sqrt(0.3 / 0.0176911) = 4.118 l/min
    found = solve_fixed(sucking(submerged=True), HANDSET, position=0.0)
    assert found.outlet(HANDSET).flow == pytest.approx(-4.118, rel=5e-3)
    assert [problem.kind for problem in found.problems][:2] == ["reverse_cold", "drawn_back"]
    assert found.problems[1].parts == (HANDSET,)


def test_a_tray_above_the_valve_helps_the_siphon() -> None:
    # 0.5 m of water add 0.049 bar: sqrt(0.349 / 0.0176911) = 4.442 l/min
    found = solve_fixed(sucking(submerged=True, height=500), HANDSET, position=0.0)
    assert found.outlet(HANDSET).flow == pytest.approx(-4.442, rel=5e-3)


def test_an_air_gap_keeps_it_out() -> None:
    found = solve_fixed(sucking(submerged=False), HANDSET, position=0.0)
    assert found.outlet(HANDSET).flow == 0.0
    assert not found.has("drawn_back")


def test_a_check_valve_keeps_it_out() -> None:
    found = solve_fixed(sucking(submerged=True, guarded=True), HANDSET, position=0.0)
    assert found.outlet(HANDSET).flow == 0.0
    assert not found.has("drawn_back")


def test_nothing_runs_where_no_supply_reaches_and_it_says_so() -> None:
    high = outlet(HEAD, 12.0, Stretch(name="riser", length=1, bore=20.2, rise=5000))  # 0.49 bar
    weak = {"cold": feed(0.3, 10.0, CHECKS[0]), "hot": feed(0.4, 60.0, CHECKS[1])}
    found = solve_fixed(plain(**weak, outlets=(high,)), HEAD, position=0.5)  # type: ignore[arg-type]
    assert found.flow == 0.0
    assert [problem.kind for problem in found.problems] == ["no_flow"]


@pytest.mark.parametrize(
    # found: Water Regulations guidance, air gap type AUK3, nominal size and gap in mm
    ("bore", "gap"),
    [(8, 20), (10, 20), (12, 24), (15, 30), (20, 40), (25, 50)],
)
def test_air_gap_by_the_inlets_bore(bore: float, gap: float) -> None:
    assert least_air_gap(bore) == gap


def test_a_position_off_the_scale_is_refused() -> None:
    with pytest.raises(ValueError, match=r"must be from 0 to 1, got 1\.2"):
        solve_fixed(plain(), HEAD, position=1.2)


def test_a_supply_that_falls_is_pushed_up_by_reverse_flow() -> None:
    # hot 1 bar + 0.005 q² at its gauge: 3 = 2 (q / 11)² + 0.005 q²; q = sqrt(3 / (0.016529 + 0.005)) = 11.80
    hot = feed(1.0, 60.0).but(curve=SupplyCurve(static=1.0, fall=0.005, exponent=2.0))
    found = solve_fixed(plain(cold=feed(4.0, 10.0), hot=hot), position=0.5)
    assert found.cold_flow == pytest.approx(11.80, rel=1e-2)
