"""Amounts are read as a gauge, a bucket or a thermometer says them."""

import re

import pytest

from app.quantities import amount


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("2.4", "bar", 2.4),
        ("2,4 bar", "bar", 2.4),
        (".5BAR", "bar", 0.5),
        ("-0.2", "bar", -0.2),
        ("240 kPa", "bar", 2.4),
        ("0.3 MPa", "bar", 3.0),
        # 40 psi x 6894.757 Pa
        ("40 psi", "bar", 2.757903),
        # 3 m x 1000 kg/m3 x 9.80665 m/s2
        ("3 m", "bar", 0.2942),
        ("0.2 l/s", "l/min", 12.0),
        ("720 l/h", "l/min", 12.0),
        ("1.2 m³/h", "l/min", 20.0),
        ("55 C", "°C", 55.0),
        # (131 - 32) x 5/9
        ("131 F", "°C", 55.0),
        ("9500 W", "kW", 9.5),
        ("10 %", "%", 10.0),
        ("6", "", 6.0),
    ],
)
def test_an_amount_is_read_into_the_unit_of_the_record(text: str, unit: str, value: float) -> None:
    assert amount(text, unit) == pytest.approx(value, abs=1e-5)


@pytest.mark.parametrize(
    ("text", "unit", "problem"),
    [
        ("much", "bar", "not a number: 'much'"),
        ("", "bar", "not a number: ''"),
        ("1e3", "bar", "not a number of bar or kPa or psi: '1e3'"),
        ("12 l/min", "bar", "not a number of bar or kPa or psi: '12 l/min'"),
        ("5 mPa", "bar", "not a number of bar or kPa or psi: '5 mPa'"),
        ("2 bar", "l/min", "not a number of l/min or l/s: '2 bar'"),
        ("2 bar", "%", "not a number of %: '2 bar'"),
        ("2 bar", "", "not a number: '2 bar'"),
    ],
)
def test_what_measures_something_else_is_refused(text: str, unit: str, problem: str) -> None:
    with pytest.raises(ValueError, match=f"^{re.escape(problem)}$"):
        amount(text, unit)
