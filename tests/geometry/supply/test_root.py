"""The root finder: against scipy on awkward functions, and what it refuses."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from geometry.supply.root import root

AWKWARD: list[tuple[str, Callable[[float], float], float, float]] = [
    ("a cube", lambda x: 1 - x**3, 0.0, 7.0),
    ("a square root's foot", lambda x: math.sqrt(max(2 - x, 0.0)) - 1e-3, 0.0, 2.0),
    ("a wall", lambda x: math.tanh(1e3 * (0.3 - x)), 0.0, 1.0),
    ("flat but for a corner", lambda x: max(0.9 - x, -1e-9), 0.0, 1e3),
    ("far from the middle", lambda x: math.exp(-x) - 1e-6, 0.0, 700.0),
    ("bounded, as the thermostat's", lambda x: 2 / (1 + x / max(1e-300, 1 - x)) - 1, 0.0, 1.0),
]


@pytest.mark.parametrize(("name", "of", "low", "high"), AWKWARD, ids=[row[0] for row in AWKWARD])
def test_the_root_is_the_one_that_scipy_finds(
    name: str, of: Callable[[float], float], low: float, high: float
) -> None:
    assert root(of, low, high) == pytest.approx(brentq(of, low, high, xtol=1e-14), rel=1e-9), name


@given(st.floats(0.01, 50), st.floats(0.3, 5), st.floats(1e-6, 1e6))
def test_any_power_is_undone_without_leaving_the_bracket(at: float, power: float, scale: float) -> None:
    high = at * 7
    seen = []

    def of(x: float) -> float:
        seen.append(x)
        return scale * (math.pow(at, power) - math.pow(x, power))

    assert root(of, 0.0, high) == pytest.approx(at, rel=1e-9)
    assert all(0.0 <= x <= high for x in seen)


def test_a_root_on_a_bound_is_found() -> None:
    assert root(lambda x: -x, 0.0, 1.0) == 0.0
    assert root(lambda x: 1.0 - x, 0.0, 1.0) == 1.0


def test_bounds_without_a_root_are_refused() -> None:
    with pytest.raises(ArithmeticError, match="no root between 0 and 1: the values are 2 and 1"):
        root(lambda x: 2.0 - x, 0.0, 1.0)


def test_a_function_that_is_no_number_is_refused() -> None:
    with pytest.raises(ArithmeticError, match=r"no number at 0\.5 between 0 and 1"):
        root(lambda x: math.nan if 0 < x < 1 else 0.5 - x, 0.0, 1.0)


def test_a_function_that_jumps_ends_at_the_jump() -> None:
    assert root(lambda x: 1.0 if x < 0.7 else -1.0, 0.0, 1.0) == pytest.approx(0.7, rel=1e-9)
