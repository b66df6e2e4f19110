"""The whole network against another solver: all equations at once, put to scipy, on 200 invented houses.

It shares the records and the documented model with the engine, and nothing else: water is IAPWS-IF97 at
0.3 MPa with real enthalpies for the mixing, turbulent friction comes from fluids, and least squares find
pressures, flows, the shuttle and temperatures together.
"""

import math
from collections.abc import Callable, Sequence
from functools import cache
from typing import NamedTuple

import numpy as np
import pytest
from fluids.friction import Colebrook
from iapws import IAPWS97
from scipy.optimize import least_squares

from geometry.supply.network import Network
from geometry.supply.pieces import Device, Piece, Stretch
from geometry.supply.solution import Solution
from geometry.supply.solve import solve
from tests.geometry.supply.houses import HANDSET, HEAD, any_house

Floats = np.ndarray[tuple[int], np.dtype[np.float64]]
HOUSES = 200
WITHIN = 5e-3  # relative, of every flow


class Water(NamedTuple):
    rho: float  # kg/m3
    mu: float  # Pa s
    enthalpy: float  # kJ/kg


@cache
def _tabled(tenth: int) -> Water:
    held = IAPWS97(T=tenth / 10 + 273.15, P=0.3)
    return Water(held.rho, held.mu, held.h)


def water(celsius: float) -> Water:
    """Straight between tenths of a degree."""
    low = math.floor(celsius * 10)
    part = celsius * 10 - low
    return Water(*(a + part * (b - a) for a, b in zip(_tabled(low), _tabled(low + 1), strict=True)))


def factor(re: float, rough: float) -> float:
    if re <= 2300:
        return 64 / max(re, 1e-9)
    if re >= 4000:
        return float(Colebrook(re, rough))
    return float(np.interp(re, [2300, 4000], [64 / 2300, Colebrook(4000, rough)]))


def taken(pieces: Sequence[Piece], mass: float, celsius: float) -> float:
    """bar from start to end at kg/s."""
    held, total = water(celsius), 0.0
    litres = 60_000 * mass / held.rho
    for piece in pieces:
        if isinstance(piece, Stretch):
            bore = piece.bore / 1000
            speed = mass / held.rho / (math.pi * bore**2 / 4)
            f = factor(abs(speed) * bore * held.rho / held.mu, piece.roughness / piece.bore)
            k = f * (piece.length + piece.extra_length) / piece.bore + piece.sum_k
            total += 1e-5 * (k * held.rho * speed**2 / 2 + held.rho * 9.80665 * piece.rise / 1000)
        else:
            assert isinstance(piece, Device)
            total += piece.opening + piece.pressure * (litres / piece.flow) ** 2
    return total


class Found(NamedTuple):
    hot: float
    cold: float
    flows: tuple[float, ...]
    temperature: float
    worst: float


def independent(house: Network, open_: Sequence[str]) -> Found:
    """Try what may limit the shower one after the other, and take the first that is consistent."""
    free = _solved(house, open_, "free")
    power = math.inf if house.heater is None else house.heater.power
    cold, hot = house.cold.temperature, house.hot.temperature
    if free.hot * (water(hot).enthalpy - water(cold).enthalpy) <= power:
        return free
    assert house.heater is not None
    if house.heater.beyond == "slower":
        return _solved(house, open_, "slowed")
    shut = _solved(house, open_, "only hot")
    return shut if shut.temperature < house.valve.setting else _solved(house, open_, "held")


def _solved(house: Network, open_: Sequence[str], limit: str) -> Found:
    outlets = [outlet for outlet in house.outlets if outlet.name in open_]
    cold = house.cold.temperature
    power = house.heater.power if house.heater else math.inf

    def unpack(x: Sequence[float]) -> tuple[float, float, float, float, float, list[float]]:
        # hot and cold kg/s, shuttle, hot temperature or heater's loss, bar behind the valve, outlets
        return (
            math.exp(x[0]),
            math.exp(x[1]),
            1 / (1 + math.exp(-x[2])),
            x[3],
            x[4],
            [math.exp(v) for v in x[5:]],
        )

    def residuals(at: Floats) -> list[float]:
        x = at.tolist()
        m_hot, m_cold, s, free, p, flows = unpack(x)
        if limit == "only hot":
            m_cold, s = 0.0, 1.0
        warm = min(max(free, cold + 0.5), 90.0) if limit in ("held", "only hot") else house.hot.temperature
        mixed = warm if limit == "only hot" else house.valve.setting
        left = []
        for feed, mass, celsius, way, stated in (
            (house.hot, m_hot, warm, s, house.valve.hot_flow),
            (house.cold, m_cold, cold, 1 - s, house.valve.cold_flow),
        ):
            if way == 0.0:
                left.append(x[1])  # nothing depends on it: hold it still
                continue
            litres = 60_000 * mass / water(celsius).rho
            held = feed.curve.static - feed.curve.fall * litres**feed.curve.exponent
            held = held if feed.regulated is None else min(held, feed.regulated)
            side = house.valve.pressure * (litres / way / stated) ** 2
            throttle = free if limit == "slowed" and feed is house.hot else 0.0
            left.append(held - taken(feed.pieces, mass, celsius) - side - throttle - p)
        for outlet, mass in zip(outlets, flows, strict=True):
            left.append(p - taken((*outlet.pieces, outlet.head), mass, mixed))
        left.append((m_hot + m_cold - sum(flows)) / 0.1)
        h_hot, h_cold, h_mixed = (water(c).enthalpy for c in (warm, cold, mixed))
        left.append(
            x[2] if limit == "only hot" else (m_hot * (h_hot - h_mixed) - m_cold * (h_mixed - h_cold)) / 10
        )
        heats = (m_hot * (h_hot - h_cold) - power) / 10
        left.append(heats if limit != "free" else free)
        return left

    start = [math.log(0.1), math.log(0.07), 0.3, 0.0, 0.5, *(math.log(0.15 / len(outlets)) for _ in outlets)]
    if limit == "slowed":
        start[3] = 0.5
    elif limit != "free":
        start[3] = 40.0
    scale = [1.0, 1.0, 1.0, 20.0 if limit in ("held", "only hot") else 1.0, 1.0, *(1.0 for _ in outlets)]
    best = min(
        (
            _attempt(residuals, [*start[:2], start[2] + nudge, *start[3:]], scale)
            for nudge in (0.0, 1.5, -1.5)
        ),
        key=lambda found: found[1],
    )
    m_hot, m_cold, _, free, _, flows = unpack(best[0])
    if limit == "only hot":
        return Found(m_hot, 0.0, tuple(flows), free, best[1])
    return Found(m_hot, m_cold, tuple(flows), house.valve.setting, best[1])


def _attempt(
    residuals: Callable[[Floats], list[float]], start: list[float], scale: list[float]
) -> tuple[list[float], float]:
    found = least_squares(residuals, start, x_scale=scale, xtol=1e-13, ftol=1e-13, gtol=1e-13, max_nfev=200)
    return [float(v) for v in found.x], float(np.max(np.abs(found.fun)))


def running(seed: int) -> tuple[str, ...]:
    return ((HEAD,), (HANDSET,), (HEAD, HANDSET))[seed % 3]


def compared(seed: int) -> tuple[Network, Solution, Found]:
    house = any_house(seed)
    return house, solve(house, *running(seed)), independent(house, running(seed))


@pytest.mark.parametrize("seed", range(HOUSES))
def test_flows_and_temperatures_agree(seed: int) -> None:
    _, ours, theirs = compared(seed)
    assert theirs.worst < 1e-6  # the other solver has settled
    assert ours.hot_mass == pytest.approx(theirs.hot, rel=WITHIN)
    assert ours.cold_mass == pytest.approx(theirs.cold, rel=WITHIN, abs=1e-9)
    assert [outlet.mass for outlet in ours.outlets] == pytest.approx(list(theirs.flows), rel=WITHIN)
    assert ours.temperature == pytest.approx(theirs.temperature, abs=0.1)


@pytest.mark.parametrize("seed", range(HOUSES))
def test_mass_and_energy_are_kept(seed: int) -> None:
    house, ours = any_house(seed), solve(any_house(seed), *running(seed))
    out = sum(outlet.mass for outlet in ours.outlets)
    assert ours.hot_mass + ours.cold_mass == pytest.approx(out, rel=1e-6)
    assert ours.temperature is not None
    brought = ours.hot_mass * ours.hot_temperature + ours.cold_mass * house.cold.temperature
    assert brought == pytest.approx(out * ours.temperature, rel=1e-6)
    for way, feed in (("hot", house.hot), ("cold", house.cold)):
        if any(loss.way == way and loss.flow > 0 for loss in ours.losses):
            taken_ = sum(loss.pressure + loss.height for loss in ours.losses if loss.way == way)
            assert feed.curve.static - taken_ == pytest.approx(ours.mixed_pressure, abs=1e-6)


def test_the_houses_hold_every_limit() -> None:
    # so that none of the comparisons above is empty
    kinds = set()
    for seed in range(HOUSES):
        house, ours = any_house(seed), solve(any_house(seed), *running(seed))
        small = ours.has("heater_too_small")
        beyond = house.heater.beyond if house.heater else ""
        kinds.add((small, beyond if small else "", ours.temperature == house.valve.setting))
    assert kinds == {
        (False, "", True), (True, "slower", True), (True, "cooler", True), (True, "cooler", False)
    }  # fmt: skip
