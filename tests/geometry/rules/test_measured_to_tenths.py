"""A measured value is kept to 0.1, or 0.01 of a coarse unit, and says the same as the finding's status."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.rules import standard_rules
from geometry.rules.rulebook import quantity
from geometry.units import at_least

RULES = standard_rules()
LEAST = "front.head_rail"  # 50 mm at least, 15 mm beyond that is tight


def test_a_value_just_under_its_limit_is_not_rounded_up_to_it() -> None:
    found = RULES.judge(LEAST, 49.98, "", ())
    assert (found.status, found.measured, found.limit) == ("clash", 49.9, 50)


def test_a_value_just_over_a_limit_that_is_the_most_is_not_rounded_down_to_it() -> None:
    found = RULES.judge("recess.finish", 1.02, "", ())  # 1 mm at most
    assert (found.status, found.measured, found.limit) == ("clash", 1.1, 1)


@pytest.mark.parametrize(("value", "kept"), [(50.0, 50.0), (50.04, 50.0), (72.26, 72.3), (-0.04, 0.0)])
def test_any_other_value_is_rounded_to_the_nearest_tenth(value: float, kept: float) -> None:
    assert RULES.judge(LEAST, value, "", ()).measured == kept


@given(st.floats(min_value=-1000, max_value=1000))
def test_the_value_kept_passes_just_when_the_finding_does(value: float) -> None:
    found = RULES.judge(LEAST, value, "", ())
    assert found.measured is not None
    assert at_least(found.measured, 50) == (found.status != "clash")
    assert found.measured == pytest.approx(value, abs=0.1 + 1e-9)


@pytest.mark.parametrize(
    ("rule", "value", "kept", "status"),
    [
        ("supply.pressure", 0.46, 0.46, "clash"),  # bar, 0.5 at least
        ("supply.pressure", 0.4999, 0.49, "clash"),
        ("supply.velocity", 1.684, 1.68, "clear"),  # m/s, 2.0 at most
        ("supply.velocity", 2.004, 2.01, "clash"),
        ("supply.pressure_ratio", 5.003, 5.01, "clash"),  # no unit, 5 at most
    ],
)
def test_bars_metres_a_second_and_ratios_are_kept_to_a_hundredth(
    rule: str, value: float, kept: float, status: str
) -> None:
    found = RULES.judge(rule, value, "", ())
    assert (found.measured, found.status) == (kept, status)


@pytest.mark.parametrize(
    ("value", "unit", "written"),
    [(28.4, "mm", "28.4 mm"), (0.35, "bar", "0.35 bar"), (1, "joints", "1 joint"), (2, "joints", "2 joints"),
     (0, "answers", "0 answers"), (1, "bar", "1 bar"), (1, "m/s", "1 m/s"), (1.5, "", "1.5")],
)  # fmt: skip
def test_a_quantity_is_written_as_people_say_it(value: float, unit: str, written: str) -> None:
    assert quantity(value, unit) == written
