"""The catenary against sources outside the project; each row names its source and its status.

A catenary has no unit of its own, so the rows keep the metres and feet of their sources.
"""

from typing import NamedTuple

import numpy as np
import pytest
from mpmath import mp, mpf

from geometry.hose.catenary import bend_at_low, curve, end_angles, hang, lowest


class Level(NamedTuple):
    """A level catenary; `within` is relative and comes from the rounding of the row's own numbers."""

    source: str
    span: float
    length: float
    scale: float
    sag: float
    within: float


LEVEL = [
    # found: statics notes "6.7 Cables: Catenaries", Example 1, a power line: c 61.45 m, sag 31.70 m
    Level("statics notes, power line", 120, 140, 61.45, 31.70, 2e-4),
    # found: worked answer on a public mathematics forum (thread 104833), curve through (0, 0) and
    # (+-10, 6): c 9.1889; the length 2 sqrt(sag² + 2 c sag) by hand
    Level("forum, through (10, 6)", 20, 24.1882, 9.1889, 6, 1e-4),
    # extra cable 2.6 m found (lecture page after Cheney and Kincaid); span and sag from memory;
    # c and length computed by scipy 1.17.1
    Level("lecture page, cable with 10 m sag", 100, 102.6187, 126.6324, 10, 1e-4),
    # inputs found (statics problem 7.128): 500 ft, sag 125 ft; c = (250² - 125²) / 250 by hand,
    # span = 2 c asinh(4 / 3) = 375 ln 3
    Level("problem 7.128", 411.9796, 500, 187.5, 125, 1e-5),
    # inputs found (statics problem 7.127): 25 ft, sag 10 ft; c = (12.5² - 10²) / 20 by hand,
    # span = 2 c asinh(40 / 9) = 5.625 ln 9
    Level("problem 7.127", 12.35939, 25, 2.8125, 10, 1e-5),
    # inputs found (statics problem 7.130): tape 50 m, 1.6 kg, pulled with 60 N; span 49.856 m computed by
    # scipy 1.17.1; w = 0.31392 N/m, so y at the end = 60 / w = 191.131, c = sqrt(191.131² - 25²) = 189.489.
    # Half a millimetre of rounding is 0.4 % of the 144 mm of slack, half that of c and of the sag.
    Level("problem 7.130, tape", 49.856, 50, 189.489, 1.642, 2e-3),
    # inputs found (puzzle page, hanging cable): 100 m, sag 0.7 m; c 1785.83 computed by scipy 1.17.1;
    # length = span (1 + x² / 6 + x⁴ / 120) by hand with x = 50 / c = 0.0279982
    Level("puzzle page, nearly taut", 100, 100.013066, 1785.83, 0.7, 5e-5),
    # from memory (Beer and Johnston, Statics): 500 ft, sag 100 ft, c 328 ft, length 550 ft;
    # the digits computed by scipy 1.17.1
    Level("statics textbook, 500 ft", 500, 549.86, 327.93, 100, 1e-4),
    # from memory (Hibbeler, Statics): 20 m, 5 N/m, horizontal pull 45.9 N, length 24.2 m; to three digits
    Level("statics textbook, 45.9 N", 20, 24.2, 45.9 / 5, 6, 5e-3),
    # from memory (Meriam and Kraige, Statics 5/17): 300 m, sag 60 m, 12 kg/m, horizontal pull 23.2 kN;
    # 23.16 kN and 329.92 m computed by scipy 1.17.1; 23160 / (12 x 9.81) = 196.7
    Level("statics textbook, 23.2 kN", 300, 329.92, 196.7, 60, 5e-4),
]


@pytest.mark.parametrize("row", LEVEL, ids=lambda row: row.source)
def test_level_supports(row: Level) -> None:
    s, y = lowest(row.span, 0, row.length)
    assert bend_at_low(row.span, 0, row.length) == pytest.approx(row.scale, rel=row.within)
    assert s == pytest.approx(row.span / 2)
    assert y == pytest.approx(-row.sag, rel=row.within)


def test_unequal_supports() -> None:
    # published example in a public mathematics data set (medium confidence): from (0, 10) to (20, 15),
    # length 20.7, a 61.94 worked with a rounded 20.087; hence 0.1 %
    assert hang(20, 5, 20.7).scale == pytest.approx(61.94, rel=1e-3)


# computed by scipy 1.17.1 (status: no publication); rows 1 and 4 agree with MoorPy 1.3.0, which gives
# H / w of 45.96 and 120.87 mm. Span, rise, length; scale, s and y of the lowest point, all mm.
HOSES = [
    (300, 900, 1500, 45.959, 118.144, -256.238),
    (100, 900, 1500, 10.565, 42.677, -289.551),
    (400, 500, 1500, 64.840, 177.528, -438.306),
    (600, 1000, 1750, 120.870, 221.478, -266.440),
    (1000, 0, 1500, 308.236, 500.000, -502.633),
    (200, 800, 1250, 28.391, 78.475, -197.700),
]


@pytest.mark.parametrize(("span", "rise", "length", "scale", "s", "y"), HOSES)
def test_hoses_over_unequal_ends(
    span: float, rise: float, length: float, scale: float, s: float, y: float
) -> None:
    assert hang(span, rise, length).scale == pytest.approx(scale, abs=6e-4)
    assert [float(value) for value in lowest(span, rise, length)] == pytest.approx([s, y], abs=6e-4)


# computed by mpmath at 30 digits in this test (status: reference library)
PRECISE = [
    (300, 900, 1500),
    (600, -1000, 1750),
    (1000, 0, 1500),
    (600, 800, 1000.001),  # nearly taut: a millionth of slack
    (700, 0, 700 + 2**-18),  # nearly taut and level: 5 parts in a thousand million of slack
    (1e-3, 900, 1500),  # nearly upright
    (1e-5, -300, 1250),
    (2e-6, 0, 2000),
    (0.5, 1200, 1200.01),  # upright and nearly taut
    (1500, 2, 20000),
]


@pytest.mark.parametrize(("span", "rise", "length"), PRECISE)
def test_thirty_digits(span: float, rise: float, length: float) -> None:
    with mp.workdps(30):
        h, v, n = mpf(span), mpf(rise), mpf(length)
        # scale and place of the lowest point from the two conditions a catenary is defined by
        half = mp.findroot(
            lambda t: mp.log(mp.sinh(t) / t) - mp.log((n**2 - v**2) / h**2) / 2,
            (mpf("1e-6"), mpf(60)),
            solver="illinois",
            tol=1e-50,
            maxsteps=300,
        )
        a = h / (2 * half)
        s0 = h / 2 - a * mp.atanh(v / n)
        assert abs(a * (mp.sinh((h - s0) / a) + mp.sinh(s0 / a)) - n) < mpf("1e-15")
        assert abs(a * (mp.cosh((h - s0) / a) - mp.cosh(s0 / a)) - v) < mpf("1e-15")
        fractions = [mpf(i) / 16 for i in range(17)]
        line = [(float(f * h), float(a * (mp.cosh((f * h - s0) / a) - mp.cosh(s0 / a)))) for f in fractions]
        angles = [float(mp.degrees(mp.atan(mp.sinh((x - s0) / a)))) for x in (mpf(0), h)]
    assert hang(span, rise, length).scale == pytest.approx(float(a), rel=1e-9)
    np.testing.assert_allclose(curve(span, rise, length, 17), line, rtol=1e-9, atol=1e-9)
    assert [float(angle) for angle in end_angles(span, rise, length)] == pytest.approx(angles, rel=1e-9)
