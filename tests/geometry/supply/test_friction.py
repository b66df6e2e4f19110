"""The friction factor between its bounds, and what is refused; its values are in `published`."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.supply.friction import friction_factor, uncertain

roughs = st.floats(0, 0.05)


@given(st.floats(1, 1e7), st.floats(1, 1.5), roughs)
def test_more_flow_always_costs_more(re: float, more: float, rough: float) -> None:
    # the loss goes with factor x Re², also across both ends of the transition
    faster = re * more
    assert friction_factor(faster, rough) * faster**2 >= friction_factor(re, rough) * re**2 * (1 - 1e-12)


@given(st.sampled_from([2300.0, 4000.0]), roughs)
def test_the_factor_does_not_jump_at_the_ends_of_the_transition(bound: float, rough: float) -> None:
    below, above = friction_factor(bound * (1 - 1e-9), rough), friction_factor(bound * (1 + 1e-9), rough)
    assert below == pytest.approx(above, rel=1e-6)


@given(st.floats(4001, 1e7), roughs, roughs)
def test_rougher_pipe_never_has_less_friction(re: float, one: float, other: float) -> None:
    smooth, rough = sorted((one, other))
    assert friction_factor(re, rough) >= friction_factor(re, smooth) * (1 - 1e-12)


def test_halfway_through_the_transition_the_factor_is_halfway() -> None:
    # Re 3150: between 64 / 2300 = 0.027826 and the smooth turbulent factor at 4000, 0.03992 (Moody 0.040)
    assert friction_factor(3150, 0.0) == pytest.approx((0.027826 + 0.03992) / 2, rel=1e-3)


@pytest.mark.parametrize(
    ("re", "answer"), [(2299.9, False), (2300, True), (3000, True), (4000, True), (4000.1, False)]
)
def test_the_transition_is_uncertain(re: float, answer: bool) -> None:
    assert uncertain(re) is answer


@pytest.mark.parametrize(
    ("re", "rough"),
    [(0, 0), (-1, 0), (float("nan"), 0), (float("inf"), 0), (1e5, -1e-9), (1e5, 0.051), (1e5, float("nan"))],
)
def test_values_out_of_bounds_are_refused(re: float, rough: float) -> None:
    with pytest.raises(
        ValueError,
        match=r"friction needs a (Reynolds number above 0|relative roughness from 0 to 0\.05), got",
    ):
        friction_factor(re, rough)
