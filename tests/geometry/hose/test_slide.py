"""The least of a measure along the slide, and the stretches in which it falls short: plain functions."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.arrays import Floats
from geometry.hose.slide import Along, Measure, along

SLIDERS = np.linspace(0, 500, 51)


def follow(measure: Measure, limit: float) -> Along:
    return along(measure, SLIDERS, measure(SLIDERS), limit)


def failing(measure: Measure, limit: float) -> list[float]:
    """Return the ends of the failing stretches one after the other."""
    return [end for stretch in follow(measure, limit).failing for end in stretch]


def test_the_least_is_found_between_the_samples() -> None:
    found = follow(lambda s: np.abs(s - 333.3), 20)
    assert found.least == pytest.approx(0, abs=0.2)
    assert found.at == pytest.approx(333.3, abs=0.2)
    # within 20 of it
    assert list(found.failing[0]) == pytest.approx([313.3, 353.3], abs=0.1)


def test_a_dip_below_the_limit_between_two_samples_is_found() -> None:
    # at 330 and 340 it is 23, above the limit; at 335 it is 18
    assert failing(lambda s: 18 + np.abs(s - 335), 20) == pytest.approx([333, 337], abs=0.1)


def test_two_dips_are_two_stretches() -> None:
    def two(s: Floats) -> Floats:
        return np.asarray(np.minimum(10 + np.abs(s - 102), np.abs(s - 404)))

    assert failing(two, 20) == pytest.approx([92, 112, 384, 424], abs=0.1)
    assert follow(two, 20).at == pytest.approx(404, abs=0.2)


def test_a_stretch_reaches_to_the_end_of_the_slide() -> None:
    assert failing(lambda s: s, 20) == pytest.approx([0, 20], abs=0.1)
    assert failing(lambda s: 500 - s, 20) == pytest.approx([480, 500], abs=0.1)
    assert failing(lambda s: 0 * s, 20) == [0, 500]


def test_exactly_at_the_limit_passes_everywhere() -> None:
    found = follow(lambda s: 0 * s + 20, 20)
    assert found.failing == ()
    assert found.least == 20


def test_one_position_is_enough() -> None:
    one = np.array([80.0])
    assert along(np.abs, one, one, 100) == (80, 80, ((80, 80),))
    assert along(np.abs, one, one, 50) == (80, 80, ())


def test_what_could_not_be_worked_out_fails() -> None:
    assert failing(lambda s: np.where(s > 400, np.nan, 50), 20) == pytest.approx([400, 500], abs=0.1)


@given(st.floats(5, 495), st.floats(5, 300), st.floats(0.1, 1.0), st.floats(0, 100))
def test_a_higher_limit_never_fails_over_less(middle: float, floor: float, slope: float, more: float) -> None:
    def valley(s: Floats) -> Floats:
        return np.asarray(floor + slope * np.abs(s - middle))

    def extent(limit: float) -> float:
        return sum(high - low for low, high in follow(valley, limit).failing)

    assert extent(100 + more) >= extent(100) - 0.2
