"""The curve of a measured supply: exact on few readings, least squares on many, clear on impossible ones."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from geometry.model.supply import Reading
from geometry.supply.supply_curve import SupplyCurve, fit_curve, gravity_curve


def readings(*pairs: tuple[float, float]) -> list[Reading]:
    return [Reading(pressure=pressure, flow=flow) for pressure, flow in pairs]


def test_one_reading_and_the_static_are_enough() -> None:
    # 3 bar static, 1.5 at 20 l/min: 1.5 bar lost; at 10 l/min 1.5 / 2^1.85 = 0.416 bar
    curve = fit_curve(3.0, readings((1.5, 20)))
    assert curve.pressure(20) == pytest.approx(1.5, rel=1e-12)
    assert curve.pressure(10) == pytest.approx(3.0 - 0.416, abs=5e-4)
    assert curve.pressure(0) == 3.0
    assert curve.misfit == pytest.approx(0.0, abs=1e-12)


def test_the_published_projection_of_a_flow_test() -> None:
    # found (NFPA 291 as worked on a public page): static 65 psi, 800 gpm at 50 psi; at 20 psi
    # 800 x (45 / 15)^0.54 = 1448 gpm; the page prints 1424 from a power rounded to 1.78. 1 / 1.85 is 0.5405
    psi, gpm = 0.0689476, 3.785412 / 10  # a tenth, to stay within a house
    curve = fit_curve(65 * psi, readings((50 * psi, 800 * gpm * 0.6)))
    found = curve.flow(20 * psi)
    assert found is not None
    assert found / (0.6 * gpm) == pytest.approx(800 * 3**0.54, rel=1e-3)


def test_two_readings_are_both_met() -> None:
    # made with exponent 1.75: 4 - 0.01 q^1.75
    curve = fit_curve(4.0, readings((4 - 0.01 * 10**1.75, 10), (4 - 0.01 * 25**1.75, 25)))
    assert curve.exponent == pytest.approx(1.75, abs=1e-6)
    assert curve.fall == pytest.approx(0.01, rel=1e-5)
    assert curve.misfit < 1e-7


def test_two_readings_at_one_flow_are_averaged() -> None:
    curve = fit_curve(3.0, readings((1.4, 20), (1.6, 20)))
    assert curve.pressure(20) == pytest.approx(1.5)
    assert curve.misfit == pytest.approx(0.1)


def test_several_readings_are_least_squares() -> None:
    # scipy searches the same sum of squares over both unknowns
    points = readings((3.1, 6), (2.4, 12), (1.9, 15), (0.6, 22))
    curve = fit_curve(3.5, points)

    def squares(exponent: float) -> float:
        powers = [math.pow(r.flow, exponent) for r in points]
        fall = sum(p * (3.5 - r.pressure) for p, r in zip(powers, points, strict=True))
        fall /= sum(p * p for p in powers)
        return sum((3.5 - fall * p - r.pressure) ** 2 for p, r in zip(powers, points, strict=True))

    best = minimize_scalar(squares, bounds=(1.0, 2.0), method="bounded", options={"xatol": 1e-10})
    assert curve.exponent == pytest.approx(best.x, abs=1e-5)
    assert sum((curve.pressure(r.flow) - r.pressure) ** 2 for r in points) == pytest.approx(
        best.fun, rel=1e-6
    )
    assert curve.misfit == pytest.approx(max(abs(curve.pressure(r.flow) - r.pressure) for r in points))


def test_a_gauge_that_does_not_move_gives_a_supply_that_does_not_fall() -> None:
    curve = fit_curve(3.0, readings((3.0, 10), (3.0, 20)))
    assert curve.pressure(100) == 3.0
    assert curve.flow(2.0) is None


@given(st.floats(0.5, 10), st.floats(0.01, 0.99), st.floats(1, 100), st.floats(0.01, 0.99))
def test_the_flow_at_a_pressure_undoes_the_pressure_at_a_flow(
    static: float, kept: float, flow: float, asked: float
) -> None:
    curve = fit_curve(static, readings((static * kept, flow)))
    found = curve.flow(asked * static)
    assert found is not None
    assert curve.pressure(found) == pytest.approx(asked * static, rel=1e-9)


def test_water_pushed_back_raises_the_pressure() -> None:
    curve = SupplyCurve(static=3.0, fall=0.01, exponent=2.0)
    assert curve.pressure(-10) == pytest.approx(4.0)
    assert curve.flow(3.5) == 0.0


def test_a_cistern_holds_its_height() -> None:
    # 3 m at 60 C: 3 x 983.2 x 9.80665 = 0.2893 bar
    assert gravity_curve(3000, 60).static == pytest.approx(0.2893, abs=1e-4)
    with pytest.raises(ValueError, match="must stand above the place, got -1 mm"):
        gravity_curve(-1, 60)


@pytest.mark.parametrize(
    ("static", "points", "message"),
    [
        (3.0, (), "cold: needs at least one reading with water running, has none"),
        (3.0, ((2.0, 0.0),), "cold reading 1: the flow must be at least 0.1 l/min, got 0"),
        (3.0, ((2.0, 10.0), (3.2, 12.0)), "cold reading 2: 3.2 bar .* cannot be above the static 3 bar"),
    ],
)
def test_impossible_readings_are_named(
    static: float, points: tuple[tuple[float, float], ...], message: str
) -> None:
    with pytest.raises(ValueError, match=message):
        fit_curve(static, readings(*points), "cold")
