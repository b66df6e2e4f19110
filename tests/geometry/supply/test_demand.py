"""Waiting, heating, storing and draining: sums by hand and the values of references."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.supply.demand import dead_leg, heater_flow, heater_power, hot_share, stored_minutes, wait
from geometry.supply.loss import head, piece_loss
from geometry.supply.pieces import Device, Stretch
from geometry.supply.waste import WASTE_TEMPERATURE, fall_per_metre, waste_capacity


def test_dead_leg_of_ten_metres_of_15_mm_copper() -> None:
    # EN 1057 15 x 0.7 holds 0.1453 l/m; devices hold next to nothing
    pieces = (
        Stretch(name="pipe", length=10_000, bore=13.6, extra_length=2000),
        Device(name="valve", flow=20),
    )
    assert dead_leg(pieces) == pytest.approx(1.453, abs=1e-3)


def test_wait_for_hot_water() -> None:
    # 1.453 l at 6 l/min: 14.5 s
    assert wait(1.453, 6.0) == pytest.approx(14.53, abs=0.01)


@pytest.mark.parametrize(
    # reference (energy balance): l/min that a heater warms by 35 K from 10 C
    ("power", "flow"),
    [(24, 9.8), (28, 11.5), (30, 12.3), (35, 14.3), (40, 16.4)],
)
def test_heater_flow_at_a_rise_of_35_k(power: float, flow: float) -> None:
    assert heater_flow(power, 10, 45) == pytest.approx(flow, rel=6e-3)  # the row has two or three digits


def test_heater_flow_is_the_trades_rule() -> None:
    # l/min = kW x 14.33 / K
    assert heater_flow(24, 10, 38) == pytest.approx(24 * 14.33 / 28, rel=3e-3)


def test_heater_power_for_a_shower() -> None:
    # reference: 12 l/min (0.2 kg/s) from 10 to 41 C takes 25.9 kW
    assert heater_power(12, 10, 41) == pytest.approx(25.9, abs=0.06)


@given(st.floats(1, 100), st.floats(1, 30), st.floats(5, 60))
def test_power_and_flow_undo_each_other(power: float, cold: float, rise: float) -> None:
    assert heater_power(heater_flow(power, cold, cold + rise), cold, cold + rise) == pytest.approx(power)


def test_minutes_of_stored_water() -> None:
    # 120 l, 80 % of it hot, 12 l/min of which 60 % hot: 96 / 7.2 = 13.3 min
    assert stored_minutes(120, 7.2) == pytest.approx(13.33, abs=0.01)
    assert stored_minutes(120, 7.2, usable=1.0) == pytest.approx(16.67, abs=0.01)


def test_share_of_hot_by_mass() -> None:
    # (40 - 10) / (60 - 10)
    assert hot_share(40, 10, 60) == pytest.approx(0.6)


def test_fall_of_a_waste() -> None:
    assert fall_per_metre(54, 3000) == pytest.approx(18.0)


@pytest.mark.parametrize(
    # from memory: verify. EN 12056-2 Annex B, half full, roughness 1.0 mm: bore 96 mm, mm/m, l/s
    ("fall", "litres_per_second"),
    [(10, 2.5), (20, 3.5), (50, 5.6)],
)
def test_waste_half_full_is_near_the_standards_table(fall: float, litres_per_second: float) -> None:
    assert waste_capacity(96, fall, 0.5) / 60 == pytest.approx(litres_per_second, rel=0.05)


def test_waste_running_full_is_pipe_friction_turned_round() -> None:
    # full, 40 mm, 18 mm/m: the friction gradient of that flow is the fall itself
    flow = waste_capacity(40, 18, 1.0, roughness=0.5)
    pipe = Stretch(name="waste", length=1000, bore=40, roughness=0.5)
    # 3.71 there and 3.7 here, both as printed
    assert piece_loss(pipe, flow, WASTE_TEMPERATURE) == pytest.approx(head(18, WASTE_TEMPERATURE), rel=2e-3)


@given(st.floats(30, 110), st.floats(5, 100), st.floats(0.1, 0.8), st.floats(1, 1.5))
def test_wider_steeper_or_fuller_wastes_carry_more(
    bore: float, fall: float, filled: float, more: float
) -> None:
    least = waste_capacity(bore, fall, filled)
    assert waste_capacity(bore * more, fall, filled) >= least
    assert waste_capacity(bore, fall * more, filled) >= least
    assert waste_capacity(bore, fall, min(filled * more, 0.9)) >= least


def test_a_40_mm_waste_at_its_least_fall_carries_an_ordinary_shower_but_not_a_strong_one() -> None:
    # 36 mm bore, 18 mm/m, half full: hydraulic diameter 36, pull sqrt(2 x 9.80665 x 0.036 x 0.018) = 0.1127;
    # smooth term 2.51 x 6.83e-7 / (0.036 x 0.1127) = 4.2e-4, rough 1 / (3.71 x 36) = 7.49e-3;
    # -2 x 0.1127 x log10(7.91e-3) = 0.4738 m/s through 508.9 mm2: 0.2411 l/s = 14.47 l/min
    assert waste_capacity(36, 18, 0.5) == pytest.approx(14.47, rel=2e-3)


def test_a_quarter_full_waste_has_less_water_and_more_wall() -> None:
    # as above, a quarter full: wetted arc 120 degrees, area 0.1536 and hydraulic diameter 0.5866 of the bore:
    # 21.12 mm, pull 0.08635, 9.40e-4 and 1 / (3.71 x 21.12) = 1.2763e-2; 0.3218 m/s through 199.0 mm2
    assert waste_capacity(36, 18, 0.25) == pytest.approx(0.3218 * 199.0e-6 * 60_000, rel=2e-3)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: wait(1.0, 0.0), "hot water does not come at a flow of 0 l/min"),
        (lambda: heater_flow(24, 40, 40), "water at 40 °C is not warmed to 40 °C"),
        (lambda: stored_minutes(120, 0.0), "no hot water is drawn at 0 l/min"),
        (lambda: stored_minutes(120, 5.0, usable=1.1), r"must be above 0 and at most 1, got 1\.1"),
        (lambda: hot_share(70, 10, 60), "10 °C and 60 °C do not mix to 70 °C"),
        (lambda: hot_share(38, 60, 10), "60 °C and 10 °C do not mix to 38 °C"),
        (lambda: fall_per_metre(10, 0), "needs a length above 0 mm, got 0"),
        (lambda: waste_capacity(40, 0), "a fall above 0"),
        (lambda: waste_capacity(40, 18, 1.2), r"got 40 mm, 18 mm/m, 1\.2"),
    ],
)
def test_impossible_demands_are_refused(call: object, message: str) -> None:
    assert callable(call)
    with pytest.raises(ValueError, match=message):
        call()
