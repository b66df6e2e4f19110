"""Every case of a supply, each against a sum by hand.

The sums count litres as if hot and cold weighed the same, which leaves flows up to 0.5 % off; where no
pipes are, the thermostat's shuttle makes the valve's two sides one opening of 22 l/min at 1 bar.
"""

import pytest

from geometry.supply.network import Heater, Network
from geometry.supply.pieces import Device, Pump, Stretch
from geometry.supply.solution import Solution
from geometry.supply.solve import solve
from geometry.supply.supply_curve import gravity_curve
from tests.geometry.supply.houses import HANDSET, HEAD, feed, outlet, plain

HAND = 5e-3  # relative


def head(network: Network) -> Solution:
    return solve(network, HEAD)


def test_equal_pressures_one_outlet() -> None:
    # 3 bar = q² / 22² + q² / 12²; q = sqrt(3 / (0.0020661 + 0.0069444)) = 18.25; 18.25² / 12² = 2.312 bar
    found = head(plain())
    assert found.flow == pytest.approx(18.25, rel=HAND)
    assert found.outlet(HEAD).pressure == pytest.approx(2.312, rel=2 * HAND)
    assert found.hot_share == pytest.approx(28 / 50)  # (38 - 10) / (60 - 10)
    assert found.temperature == 38.0
    assert found.position == pytest.approx(0.56, rel=2e-2)  # equal pressures: the way is shared as the flow
    assert found.problems == ()


@pytest.mark.parametrize(
    # reference share of hot by mass, cold at 10 C
    ("hot", "mixed", "share"),
    [(60, 38, 0.560), (60, 40, 0.600), (60, 41, 0.620), (55, 38, 0.622), (65, 41, 0.564), (50, 40, 0.750)],
)
def test_share_of_hot(hot: float, mixed: float, share: float) -> None:
    found = head(plain(hot=feed(3.0, hot), setting=mixed))
    assert found.hot_share == pytest.approx(share, abs=6e-4)
    assert found.temperature == mixed


def test_pipe_valve_head_and_height_add_up() -> None:
    # cold only, 12 l/min = 0.2 l/s: 10 m of 15 mm copper at 1973.8 Pa/m (computed row) 0.1974 bar,
    # valve (12 / 22)² 0.2975, head (12 / 12)² 1.0, up 2 m 0.1961: 1.6910 bar
    pipe = Stretch(name="pipe", length=10_000, bore=13.6, rise=2000)
    found = head(plain(cold=feed(1.6910, 10.0, pipe), setting=10.0))
    assert found.flow == pytest.approx(12.0, rel=2e-3)
    assert found.cold_pressure == pytest.approx(1.2975, abs=2e-3)
    assert found.mixed_pressure == pytest.approx(1.0, abs=2e-3)
    (loss,) = (loss for loss in found.losses if loss.name == "pipe")
    assert loss.pressure == pytest.approx(0.1974, abs=2e-3)
    assert loss.height == pytest.approx(0.1961, abs=2e-4)
    assert loss.velocity == pytest.approx(1.377, rel=2e-3)  # reference row: 1.377 m/s at 0.2 kg/s


def test_supply_that_falls_while_water_runs() -> None:
    # cold only, 12 l/min: the supply loses 1.5 x (12 / 20)^1.85 = 0.583 bar of 3.0, the valve takes 0.2975,
    # and 2.119 bar drives a head of 12 / sqrt(2.119) = 8.243 l/min at 1 bar
    supply = feed(3.0, 10.0, fall=1.5 / 20**1.85)
    found = head(plain(cold=supply, setting=10.0, outlets=(outlet(HEAD, 8.243),)))
    assert found.flow == pytest.approx(12.0, rel=1e-3)
    assert found.losses[-3].name == "cold supply" or any(
        loss.name == "cold supply" and loss.pressure == pytest.approx(0.583, abs=2e-3)
        for loss in found.losses
    )


def test_two_outlets_share_by_their_heads() -> None:
    # 12 and 8 l/min at 1 bar are 20 together: sqrt(3 / (1 / 22² + 1 / 20²)) = 25.63, of it 15.38 and 10.25
    found = solve(plain(outlets=(outlet(HEAD, 12.0), outlet(HANDSET, 8.0))), HEAD, HANDSET)
    assert found.outlet(HEAD).flow == pytest.approx(15.38, rel=HAND)
    assert found.outlet(HANDSET).flow == pytest.approx(10.25, rel=HAND)
    assert found.flow == pytest.approx(25.63, rel=HAND)


def test_an_outlet_too_high_stays_dry_beside_another() -> None:
    # the head alone runs at 2.312 bar; 30 m up asks for 2.92 bar
    high = outlet(HANDSET, 8.0, Stretch(name="riser", length=30_000, bore=13.6, rise=30_000))
    found = solve(plain(outlets=(outlet(HEAD, 12.0), high)), HEAD, HANDSET)
    assert found.outlet(HANDSET).flow == 0.0
    assert found.outlet(HEAD).flow == pytest.approx(18.25, rel=HAND)
    assert [problem.kind for problem in found.problems] == ["outlet_dry"]
    assert found.problems[0].parts == (HANDSET,)


def test_unequal_pressures_cost_flow() -> None:
    # half hot (35 C of 10 and 60), hot 2 bar, cold 6 bar; p = q² / 144 behind the valve:
    # 0.5 q / 22 x (1 / sqrt(2 - p) + 1 / sqrt(6 - p)) = 1; at q = 16.1 it is 0.997, at 16.2 1.054: 16.105
    found = head(plain(cold=feed(6.0, 10.0), hot=feed(2.0, 60.0), setting=35.0))
    assert found.flow == pytest.approx(16.105, rel=HAND)
    assert found.pressure_ratio == pytest.approx(3.0)
    assert found.position == pytest.approx(0.5 * 16.1 / 22 / (2 - 1.8) ** 0.5, rel=2e-2)  # 0.82: mostly hot


def test_hot_water_cooler_than_the_setting_runs_alone() -> None:
    # 36 C cannot make 38 C: the cold side shuts; 18.25 l/min as above, at 36 C
    found = head(plain(hot=feed(3.0, 36.0)))
    assert found.temperature == 36.0
    assert found.cold_mass == 0.0
    assert found.flow == pytest.approx(18.25, rel=HAND)
    assert found.has("hot_too_cool")


def test_cold_water_warmer_than_the_setting_runs_alone() -> None:
    found = head(plain(cold=feed(3.0, 25.0), setting=20.0))
    assert found.temperature == 25.0
    assert found.hot_mass == 0.0
    assert found.has("cold_too_warm")


def test_a_strong_heater_changes_nothing() -> None:
    # 18.25 l/min from 10 to 38 C takes 18.25 x 28 / 14.33 = 35.7 kW
    found = head(plain(heater=Heater(power=40.0)))
    assert found.flow == pytest.approx(18.25, rel=HAND)
    assert not found.has("heater_too_small")
    assert head(plain(heater=Heater(power=35.0))).has("heater_too_small")


def test_a_small_heater_that_slows_the_water_holds_the_temperature() -> None:
    # 18 kW x 14.33 / 28 K = 9.21 l/min measured cold, 9.27 at 38 C
    found = head(plain(heater=Heater(power=18.0, beyond="slower")))
    assert found.temperature == 38.0
    assert found.flow == pytest.approx(9.27, rel=HAND)
    assert found.has("heater_too_small")
    # behind the valve 9.27² / 144 = 0.597 bar; cold 4.05 l/min leave 4.05 / 22 / sqrt(2.403) = 0.119 open;
    # hot 5.22 l/min takes (5.22 / 22 / 0.881)² = 0.073 bar of 2.403, the heater the other 2.33
    (held_back,) = (loss for loss in found.losses if loss.role == "heater")
    assert held_back.pressure == pytest.approx(2.33, rel=1e-2)


def test_a_small_heater_that_does_not_slow_the_water_lets_it_come_cold() -> None:
    # all hot: 18.25 l/min; 10 + 18 x 14.33 / 18.2 (measured cold) = 24.2 C
    found = head(plain(heater=Heater(power=18.0)))
    assert found.temperature == pytest.approx(24.2, abs=0.15)
    assert found.cold_mass == 0.0
    assert found.position == pytest.approx(1.0)
    assert found.has("heater_too_small")


def test_a_narrow_hot_side_lets_the_thermostat_hold_the_temperature_on_a_small_heater() -> None:
    # a filter of 8 l/min at 1 bar: hot alone gives sqrt(3 / (1/64 + 1/484 + 1/144)) = 11.04 l/min;
    # 23 kW can warm 23 x 14.33 / 28 = 11.77 l/min (cold) to 38 C: more, so the thermostat still mixes
    hot = feed(3.0, 60.0, Device(name="filter", flow=8.0))
    found = head(plain(hot=hot, heater=Heater(power=23.0)))
    assert found.temperature == 38.0
    assert found.flow == pytest.approx(11.77 * 1.0067, rel=HAND)  # 999.7 / 993.0 kg/m3
    assert 38.0 < found.hot_temperature < 60.0
    assert found.cold_mass > 0.0
    assert found.has("heater_too_small")


def test_gravity_with_enough_head() -> None:
    # cistern 3 m over the valve, head 1 m: 2 m are 0.196 bar; q = sqrt(0.196 / 0.0090105) = 4.66
    riser = Stretch(name="riser", length=1, bore=20.2, rise=1000)
    cold = feed(0.0, 10.0).but(curve=gravity_curve(3000, 10.0))
    hot = feed(0.0, 60.0).but(curve=gravity_curve(3000, 60.0))
    found = head(plain(cold=cold, hot=hot, outlets=(outlet(HEAD, 12.0, riser),)))
    assert found.flow == pytest.approx(4.66, rel=2e-2)  # hot water is 1.7 % lighter: 0.193 bar


def test_gravity_with_too_little_head_gives_nothing_and_says_so() -> None:
    # cistern 0.5 m over the valve, head 1 m: 0.048 bar against 0.097
    riser = Stretch(name="riser", length=1000, bore=20.2, rise=1000)
    hot = feed(0.0, 60.0).but(curve=gravity_curve(500, 60.0))
    found = head(plain(hot=hot, outlets=(outlet(HEAD, 12.0, riser),)))
    assert found.flow == 0.0
    assert found.temperature is None
    assert found.hot_share is None
    assert [problem.kind for problem in found.problems] == ["hot_too_weak"]
    assert "0.05 bar" in found.problems[0].message
    assert "0.10 bar" in found.problems[0].message


def test_no_cold_water_shuts_the_thermostat() -> None:
    riser = Stretch(name="riser", length=1000, bore=20.2, rise=1000)
    found = head(plain(cold=feed(0.05, 10.0), outlets=(outlet(HEAD, 12.0, riser),)))
    assert found.flow == 0.0
    assert found.has("cold_too_weak")


def test_a_check_valves_spring_can_hold_a_weak_supply_back() -> None:
    # 0.04 bar at the valve do not open 0.05 bar
    spring = Device(name="check valve", flow=30, opening=0.05, one_way=True)
    assert head(plain(hot=feed(0.04, 60.0, spring))).has("hot_too_weak")
    assert head(plain(hot=feed(0.06, 60.0, spring))).flow > 0.0


def test_boosted_by_pumps() -> None:
    # half hot, 0.3 bar and pumps of 1.5 bar at no flow and none at 40 l/min on both sides:
    # 1.8 = 1.5 (q / 2 / 40)² + q² / 22² + q² / 12² = 0.0092449 q²; q = 13.95
    pumps = [Pump(name=f"{side} pump", pressure=1.5, flow=40) for side in ("cold", "hot")]
    found = head(plain(cold=feed(0.3, 10.0, pumps[0]), hot=feed(0.3, 60.0, pumps[1]), setting=35.0))
    assert found.flow == pytest.approx(13.95, rel=HAND)
    (gained,) = (loss for loss in found.losses if loss.name == "hot pump")
    assert gained.pressure == pytest.approx(1.5 * (13.95 / 80) ** 2 - 1.5, rel=HAND)


def test_a_pressure_reducing_valve_holds_its_setting() -> None:
    # 6 bar held to 3 on the cold side is the plain house again
    cold = feed(6.0, 10.0).but(regulated=3.0)
    found = head(plain(cold=cold))
    assert found.flow == pytest.approx(18.25, rel=HAND)
    (held,) = (loss for loss in found.losses if loss.role == "regulator")
    assert held.pressure == pytest.approx(3.0)


def test_the_costliest_piece_is_named() -> None:
    # at 12 l/min cold: 15 mm pipe 0.197 bar, filter (12 / 40)² 0.09, valve (12 / 50)² 0.058
    pieces = (Stretch(name="pipe", length=10_000, bore=13.6), Device(name="filter", flow=40))
    wide = plain(cold=feed(1.345, 10.0, *pieces), setting=10.0)
    wide = wide.but(valve=wide.valve.but(cold_flow=50.0))
    found = head(wide)
    assert found.flow == pytest.approx(12.0, rel=3e-3)
    assert found.costliest is not None
    assert found.costliest.name == "pipe"
    short = head(wide.but(cold=feed(1.345, 10.0, pieces[1])))
    assert short.costliest is not None
    assert short.costliest.name == "filter"


def test_a_surplus_that_the_thermostat_holds_back_is_not_the_costliest() -> None:
    # hot 2, cold 6 bar: the cold side holds some 4 bar back; half hot, near 14 l/min, a hot filter of
    # 12 l/min at 1 bar takes (7 / 12)² = 0.34 bar, the hot side what is left of 2 - 0.34 - 14² / 144 = 0.3
    hot = feed(2.0, 60.0, Device(name="filter", flow=12))
    found = head(plain(cold=feed(6.0, 10.0), hot=hot, setting=35.0))
    taken = {loss.name: loss.pressure for loss in found.losses}
    assert taken["valve, cold side"] > 3.5
    assert taken["valve, hot side"] < taken["filter"]
    assert found.costliest is not None
    assert (found.costliest.name, found.costliest.role) == ("filter", "device")


def test_flow_between_laminar_and_turbulent_is_said_to_be_uncertain() -> None:
    # 22 mm copper at 10 C: Re 3000 is 3000 x 1.3057e-3 x 0.0202 x pi / 4 / 999.8 = 0.0622 l/s = 3.73 l/min
    pipe = Stretch(name="pipe", length=5000, bore=20.2)
    found = head(plain(cold=feed(1.05, 10.0, pipe), setting=10.0, outlets=(outlet(HEAD, 3.7),)))
    assert found.flow == pytest.approx(3.73, rel=1e-2)
    assert [problem.kind for problem in found.problems] == ["uncertain"]
    assert found.problems[0].parts == ("pipe",)
    # halfway between 64 / 2300 and 0.0399 at Re 3000: 0.0328 x 5 / 0.0202 x 999.7 x 0.194² / 2 = 153 Pa
    assert "0.002 bar" in found.problems[0].message


def test_losses_and_heights_of_every_way_add_up() -> None:
    riser = Stretch(name="riser", length=1500, bore=13.6, rise=1100, sum_k=3)
    pipe = Stretch(name="hot pipe", length=7000, bore=13.6, rise=-700, sum_k=5)
    found = head(plain(hot=feed(2.5, 60.0, pipe, fall=0.003), outlets=(outlet(HEAD, 12.0, riser),)))
    for way, static in (("hot", 2.5), ("cold", 3.0)):
        taken = sum(loss.pressure + loss.height for loss in found.losses if loss.way == way)
        assert static - taken == pytest.approx(found.mixed_pressure, abs=1e-9)
    out = sum(loss.pressure + loss.height for loss in found.losses if loss.way == HEAD)
    assert out == pytest.approx(found.mixed_pressure, abs=1e-9)


def test_an_unknown_or_missing_outlet_is_refused() -> None:
    with pytest.raises(ValueError, match="no outlet is called 'bath'; there are head"):
        solve(plain(), "bath")
    with pytest.raises(ValueError, match="no outlet is open"):
        solve(plain())
