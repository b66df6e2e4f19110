"""Units against the agreement that defines them."""

import pytest

from geometry.units import INCH, length, shown


def test_an_inch_is_25_4_mm_exactly() -> None:
    # International yard and pound agreement, 1959: 1 yard = 0.9144 m, so 1 inch = 0.9144 m / 36 = 25.4 mm
    assert INCH == 25.4
    assert length('36"') == pytest.approx(914.4, abs=1e-9)
    assert length('1/16"') == pytest.approx(1.5875, abs=1e-12)


def test_a_metre_is_1000_mm_and_100_cm() -> None:
    # SI prefixes: milli 1e-3, centi 1e-2 (SI brochure, 9th edition, Table 7)
    assert length("1m") == length("1000mm") == length("100cm") == 1000


def test_a_yard_is_shown_as_36_inches() -> None:
    assert shown(914.4, "in") == '36"'
