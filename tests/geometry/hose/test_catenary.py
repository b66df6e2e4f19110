"""The hanging hose: what must hold for every hose, and what is refused."""

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.arrays import Floats
from geometry.hose.catenary import bend_at_low, curve, end_angles, hang, lowest

spans = st.floats(0, 2000)
rises = st.floats(-2000, 2000)
slacks = st.floats(0.01, 2000)
Hose = tuple[float, float, float]


@st.composite
def hoses(draw: st.DrawFn) -> Hose:
    span, rise, slack = draw(spans), draw(rises), draw(slacks)
    return span, rise, float(np.hypot(span, rise)) + slack


def distance(one: Floats, other: Floats) -> Floats:
    return np.asarray(np.hypot(*(other - one).T))


@given(hoses(), st.integers(33, 300))
def test_the_chords_are_as_long_as_the_hose_within_the_stated_error(hose: Hose, points: int) -> None:
    length = hose[2]
    line = curve(*hose, points)
    short = length - distance(line[:-1], line[1:]).sum()
    # a millionth of a mm is the least span that is told from none
    assert -1e-6 <= short <= 1.05 * 0.28 * length / (points - 1) ** 2 + 1e-6


@given(hoses())
def test_both_ends_are_exact(hose: Hose) -> None:
    span, rise, _ = hose
    line = curve(*hose)
    assert line.shape == (129, 2)
    assert line[0].tolist() == [0, 0]
    assert line[-1].tolist() == [span, rise]


@given(hoses())
def test_a_hose_hung_the_other_way_round_is_the_mirror_image(hose: Hose) -> None:
    span, rise, length = hose
    there, back = curve(span, rise, length), curve(span, -rise, length)
    mirrored = back[::-1] * (-1, 1) + (span, rise)
    np.testing.assert_allclose(there, mirrored, rtol=0, atol=1e-7)


@given(hoses(), st.floats(0.01, 500))
def test_a_longer_hose_hangs_lower_everywhere(hose: Hose, more: float) -> None:
    span, rise, length = hose
    short, long = curve(span, rise, length)[1:-1, 1], curve(span, rise, length + more)[1:-1, 1]
    assert np.all(long < short)


@given(hoses())
def test_no_point_of_the_curve_is_below_the_lowest(hose: Hose) -> None:
    span, rise, length = hose
    s, y = lowest(span, rise, length)
    assert 0 <= s <= span
    assert y <= min(0, rise)
    assert y >= min(0, rise) - length / 2
    assert np.all(curve(span, rise, length)[:, 1] >= y - 1e-9)


@given(hoses().filter(lambda hose: hose[0] >= 1))
def test_no_three_points_bend_tighter_than_the_lowest(hose: Hose) -> None:
    line = curve(*hose)
    one, two, three = line[:-2], line[1:-1], line[2:]
    (ax, ay), (bx, by) = (two - one).T, (three - one).T
    # one over the radius of the circle through three points: four times their triangle over its sides
    bends = 2 * (ax * by - ay * bx) / (distance(one, two) * distance(two, three) * distance(one, three))
    assert np.max(bends) <= (1 + 1e-6) / bend_at_low(*hose)


@given(st.floats(-1500, 1500), st.floats(1, 1500), st.floats(0, 1e-3))
def test_a_closing_span_goes_over_into_two_upright_legs_without_a_jump(
    rise: float, slack: float, span: float
) -> None:
    length = abs(rise) + slack
    s, y = lowest(span, rise, length)
    assert 0 <= s <= span
    # the legs of a rope doubled over a peg: their lengths differ by the rise and add up to the hose
    legs = min(0, rise) - slack / 2
    # at a span of 0.001 mm the bight's radius is far below that, and so is the hose it takes up
    assert y == pytest.approx(legs, abs=0.01)


def test_upright_legs_hang_half_the_slack_below_the_lower_end() -> None:
    # 1500 mm of hose over a rise of 900 mm: legs of 300 and 1200 mm
    assert lowest(0, 900, 1500)[1] == pytest.approx(-300, abs=1e-6)
    assert lowest(0, -900, 1500)[1] == pytest.approx(-1200, abs=1e-6)
    assert bend_at_low(0, 900, 1500) == 0
    assert [float(angle) for angle in end_angles(0, 900, 1500)] == pytest.approx([-90, 90])
    assert np.all(curve(0, 900, 1500)[:, 0] == 0)


def test_a_level_hose_is_lowest_and_level_in_the_middle() -> None:
    s, _ = lowest(1000, 0, 1500)
    start, end = end_angles(1000, 0, 1500)
    assert s == pytest.approx(500)
    assert start == pytest.approx(-end)
    # half the hose over the scale is the tangent of the end angle, in any level catenary
    assert np.tan(np.radians(end)) == pytest.approx(750 / bend_at_low(1000, 0, 1500))


def test_a_hose_that_only_climbs_is_lowest_at_its_start() -> None:
    # 1 mm of slack in 1000: nearly the straight line at 36.87 degrees, 800 along and 600 up
    start, end = end_angles(800, 600, 1001)
    assert [float(value) for value in lowest(800, 600, 1001)] == [0, 0]
    assert 0 < start < 36.87 < end
    # the radius grows from the scale with the square of the steepness: scale / cos(slope)²
    radius = hang(800, 600, 1001).scale / np.cos(np.radians(start)) ** 2
    assert bend_at_low(800, 600, 1001) == pytest.approx(radius)


def test_a_hose_that_only_falls_is_lowest_at_its_end() -> None:
    assert [float(value) for value in lowest(800, -600, 1001)] == [800, -600]


def test_every_chord_stands_off_the_curve_by_scale_times_step_squared_over_eight() -> None:
    span, rise, length = 400, 500, 1500
    fine = curve(span, rise, length, 257)
    chord = fine[2::2] - fine[:-2:2]
    offset = fine[1::2] - fine[:-2:2]
    off = np.abs(chord[:, 0] * offset[:, 1] - chord[:, 1] * offset[:, 0]) / np.hypot(*chord.T)
    scale = hang(span, rise, length).scale
    step = span / 128 / scale
    np.testing.assert_allclose(off, scale * step**2 / 8, rtol=0.01)


def test_the_standing_off_stated_for_a_2_m_hose_holds_for_every_span() -> None:
    span = np.linspace(1, 1999, 200)
    scale = hang(span, 0, 2000).scale
    assert np.max(scale * (span / 128 / scale) ** 2 / 8) < 0.035


def test_many_hoses_at_once_are_the_same_as_one_by_one() -> None:
    rise = np.array([[300.0, -100.0], [0.0, 900.0]])
    span = np.array([0.0, 400.0])
    lines = curve(span, rise, 1500, 9)
    assert lines.shape == (2, 2, 9, 2)
    for i, j in np.ndindex(2, 2):
        np.testing.assert_allclose(lines[i, j], curve(span[j], rise[i, j], 1500, 9), rtol=1e-12)


@pytest.mark.parametrize("length", [900, 999.9, 1000])
def test_a_hose_no_longer_than_the_straight_line_is_refused(length: float) -> None:
    with pytest.raises(ValueError, match=rf"longer than .*length {length:g} mm, span 600 mm, rise 800 mm"):
        hang(600, 800, length)


def test_the_one_bad_hose_among_many_is_named() -> None:
    with pytest.raises(ValueError, match="length 700 mm, span 600 mm, rise 800 mm"):
        lowest(600, [0, 800, 100], 700)


@pytest.mark.parametrize(
    ("hose", "said"),
    [
        ((-1, 0, 10), "span of 0 mm or more: length 10 mm, span -1 mm"),
        ((float("nan"), 0, 10), "finite"),
        ((1, float("nan"), 10), "finite"),
        ((1, 0, float("nan")), "finite"),
        ((1, 0, float("inf")), "finite"),
    ],
)
def test_a_senseless_value_is_refused(hose: Hose, said: str) -> None:
    with pytest.raises(ValueError, match=re.escape(said)):
        hang(*hose)


def test_too_few_points_are_refused() -> None:
    with pytest.raises(ValueError, match="3 points or more, got 2"):
        curve(600, 0, 1000, points=2)
