"""What would change if: each change does what it says and leaves the rest alone."""

import pytest

from geometry.supply.pieces import Device, Pump, Stretch
from geometry.supply.solve import solve
from geometry.supply.what_if import (
    Size,
    next_sizes,
    over_pressure,
    with_head,
    with_pump,
    with_regulator,
    with_size,
    with_static,
)
from tests.geometry.supply.houses import HANDSET, HEAD, any_house, feed, outlet, plain

COPPER = (Size("copper-10", 8.6), Size("copper-15", 13.6), Size("copper-22", 20.2))
LONG = Stretch(name="long", length=15_000, bore=13.6)
SHORT = Stretch(name="short", length=500, bore=13.6)
WIDE = Stretch(name="wide", length=9000, bore=20.2)
COLD = plain(cold=feed(1.6306, 10.0, LONG, SHORT, WIDE), setting=10.0)
"""Cold only, 12 l/min: 15.5 m x 1973.8 + 9 m x 301.6 Pa, valve 0.2975, head 1.0 bar: 1.6306."""


def test_the_next_size_of_the_costliest_stretch_gains_most() -> None:
    gains = next_sizes(COLD, (HEAD,), reversed(COPPER))
    assert [(gain.stretch, gain.size.name) for gain in gains] == [
        ("long", "copper-22"),
        ("short", "copper-22"),
    ]
    assert gains[0].gain > gains[1].gain > 0.0
    changed = solve(with_size(COLD, "long", COPPER[2]), HEAD)
    assert gains[0].flow == pytest.approx(changed.flow)
    assert gains[0].gain == pytest.approx(changed.flow - 12.0, abs=0.03)


def test_the_gain_of_22_over_15_is_the_hand_sum() -> None:
    # at 12 l/min valve and head take 1.2975 bar, 10 m of 15 mm 0.1974 and of 22 mm 0.0302 (computed rows);
    # with 22 mm 1.2975 x² + 0.0302 x^1.73 = 1.4949 at x = 1.0613: 1.4615 + 0.0335
    pipe = Stretch(name="pipe", length=10_000, bore=13.6)
    house = plain(cold=feed(1.4949, 10.0, pipe), setting=10.0)
    assert solve(house, HEAD).flow == pytest.approx(12.0, rel=2e-3)
    (gain,) = next_sizes(house, (HEAD,), COPPER)
    assert gain.flow == pytest.approx(12 * 1.0613, rel=2e-3)
    assert gain.gain == pytest.approx(12 * 0.0613, rel=3e-2)


def test_pipes_without_flow_and_the_widest_are_left_out() -> None:
    house = any_house(3).but(heater=None)
    names = {gain.stretch for gain in next_sizes(house, (HEAD,), COPPER)}
    assert not any(name.startswith(HANDSET) for name in names)
    assert next_sizes(plain(), (HEAD,), COPPER) == ()


def test_another_head() -> None:
    # 8 for 12 l/min at 1 bar: sqrt(3 / (1 / 484 + 1 / 64)) = 13.02
    found = solve(with_head(plain(), HEAD, Device(name="small", flow=8.0)), HEAD)
    assert found.flow == pytest.approx(13.02, rel=5e-3)
    with pytest.raises(ValueError, match="no outlet is called 'bath'"):
        with_head(plain(), "bath", Device(name="small", flow=8.0))


def test_pump_and_regulator_act_on_their_branch_only() -> None:
    pump = Pump(name="pump", pressure=1.0, flow=60)
    assert with_pump(COLD, "cold", pump).cold.pieces == (pump, *COLD.cold.pieces)
    assert with_pump(COLD, "cold", pump).hot is COLD.hot
    assert with_regulator(COLD, "hot", 2.0).hot.regulated == 2.0
    assert with_regulator(COLD, "hot", 2.0).cold is COLD.cold


def test_a_regulator_evens_unequal_pressures() -> None:
    house = plain(cold=feed(6.0, 10.0), hot=feed(2.0, 60.0))
    assert solve(house, HEAD).pressure_ratio == pytest.approx(3.0)
    assert solve(with_regulator(house, "cold", 2.0), HEAD).pressure_ratio == pytest.approx(1.0)


def test_flow_over_supply_pressure_goes_with_its_root() -> None:
    # without pipes q = 10.53 sqrt(p): 1, 2 and 4 bar give 10.53, 14.90 and 21.07
    rows = over_pressure(plain(), (HEAD,), (1.0, 2.0, 4.0), "cold", "hot")
    assert [bar for bar, _ in rows] == [1.0, 2.0, 4.0]
    assert [found.flow for _, found in rows] == pytest.approx([10.53, 14.90, 21.07], rel=5e-3)


def test_a_static_pressure_leaves_the_fall_alone() -> None:
    house = any_house(5)
    changed = with_static(house, 2.5, "hot")
    assert changed.hot.curve == house.hot.curve.but(static=2.5)
    assert changed.cold is house.cold


def test_an_unknown_stretch_is_refused() -> None:
    with pytest.raises(ValueError, match="no stretch is called 'filter'"):
        with_size(plain(cold=feed(3.0, 10.0, Device(name="filter", flow=20))), "filter", COPPER[1])


def test_an_outlets_own_pipe_can_be_resized() -> None:
    house = plain(outlets=(outlet(HEAD, 12.0, SHORT),))
    (piece,) = with_size(house, "short", COPPER[2]).outlets[0].pieces
    assert piece == SHORT.but(bore=20.2)
