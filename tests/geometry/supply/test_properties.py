"""What must hold for every house: better pipework never gives less, and the mix lies between cold and hot."""

from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.supply.network import Network
from geometry.supply.pieces import Piece, Pump, Stretch
from geometry.supply.solve import solve
from geometry.supply.what_if import Size, with_pump, with_size, with_static
from tests.geometry.supply.houses import BORES, HANDSET, HEAD, any_house

houses = st.integers(1000, 100_000).map(any_house)
open_outlets = st.sampled_from([(HEAD,), (HANDSET,), (HEAD, HANDSET)])
ROUNDING = 1 - 1e-9


def stretches(house: Network) -> list[Stretch]:
    return [piece for _, pieces in house.ways() for piece in pieces if isinstance(piece, Stretch)]


@given(houses, open_outlets, st.floats(0, 3), st.sampled_from([("cold",), ("hot",), ("cold", "hot")]))
def test_more_supply_pressure_never_lowers_the_flow(
    house: Network, running: tuple[str, ...], more: float, branches: tuple[str, ...]
) -> None:
    stronger = house
    for branch in branches:
        static = getattr(house, branch).curve.static + more
        stronger = with_static(stronger, static, "cold" if branch == "cold" else "hot")
    assert solve(stronger, *running).flow >= solve(house, *running).flow * ROUNDING


@given(houses, open_outlets, st.integers(0, 100), st.sampled_from(BORES))
def test_a_wider_tube_never_lowers_the_flow(
    house: Network, running: tuple[str, ...], which: int, bore: float
) -> None:
    stretch = stretches(house)[which % len(stretches(house))]
    wide = with_size(house, stretch.name, Size("wide", max(bore, stretch.bore), stretch.roughness))
    assert solve(wide, *running).flow >= solve(house, *running).flow * ROUNDING


@given(houses, open_outlets, st.floats(0, 1))
def test_fewer_fittings_never_lower_the_flow(house: Network, running: tuple[str, ...], kept: float) -> None:
    def fewer(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
        return tuple(p.but(sum_k=p.sum_k * kept) if isinstance(p, Stretch) else p for p in pieces)

    plainer = house.but(
        cold=house.cold.but(pieces=fewer(house.cold.pieces)),
        hot=house.hot.but(pieces=fewer(house.hot.pieces)),
        outlets=tuple(o.but(pieces=fewer(o.pieces)) for o in house.outlets),
    )
    assert solve(plainer, *running).flow >= solve(house, *running).flow * ROUNDING


@given(houses, open_outlets)
def test_pumps_never_lower_the_flow(house: Network, running: tuple[str, ...]) -> None:
    pumped = house
    for branch in ("cold", "hot"):
        # so wide that it never stands in the way
        pumped = with_pump(
            pumped, "cold" if branch == "cold" else "hot", Pump(name=f"{branch} pump", pressure=1, flow=200)
        )
    assert solve(pumped, *running).flow >= solve(house, *running).flow * ROUNDING


@given(houses, open_outlets)
def test_the_mixed_temperature_lies_between_cold_and_hot(house: Network, running: tuple[str, ...]) -> None:
    found = solve(house, *running)
    assert found.temperature is not None
    assert house.cold.temperature <= found.temperature <= house.hot.temperature
    assert found.temperature <= house.valve.setting + 1e-9
    assert found.hot_share is not None
    assert 0.0 <= found.hot_share <= 1.0
    assert found.position is not None
    assert 0.0 <= found.position <= 1.0 + 1e-9


@given(houses, open_outlets, st.randoms(use_true_random=False))
def test_the_order_of_pipes_does_not_matter(house: Network, running: tuple[str, ...], chance: Random) -> None:
    def shuffled(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
        return tuple(chance.sample(pieces, len(pieces)))

    other = house.but(
        cold=house.cold.but(pieces=shuffled(house.cold.pieces)),
        hot=house.hot.but(pieces=shuffled(house.hot.pieces)),
        outlets=tuple(o.but(pieces=shuffled(o.pieces)) for o in reversed(house.outlets)),
    )
    found, expected = solve(other, *running), solve(house, *running)
    assert found.temperature == pytest.approx(expected.temperature, rel=1e-9)
    for outlet in expected.outlets:
        assert found.outlet(outlet.name).flow == pytest.approx(outlet.flow, rel=1e-9)


@given(houses)
def test_a_second_outlet_never_adds_to_the_first(house: Network) -> None:
    both = solve(house, HEAD, HANDSET)
    for name in (HEAD, HANDSET):
        assert both.outlet(name).flow <= solve(house, name).outlet(name).flow * (1 + 1e-9)
    assert both.flow >= max(solve(house, HEAD).flow, solve(house, HANDSET).flow) * ROUNDING


@given(houses, open_outlets)
def test_a_stretch_cut_in_two_is_the_same_stretch(house: Network, running: tuple[str, ...]) -> None:
    whole = house.cold.pieces[0]
    assert isinstance(whole, Stretch)
    part = whole.but(
        length=whole.length / 2,
        rise=whole.rise / 2,
        sum_k=whole.sum_k / 2,
        extra_length=whole.extra_length / 2,
    )
    halves = (part.but(name="half"), part.but(name="other half"), *house.cold.pieces[1:])
    cut = house.but(cold=house.cold.but(pieces=halves))
    assert solve(cut, *running).flow == pytest.approx(solve(house, *running).flow, rel=1e-9)
