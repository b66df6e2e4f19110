"""The hose on the wall: where its curves lie, which slider heights they cover, how near they come."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from geometry.arrays import Floats
from geometry.hose.sweep import (
    TAUT,
    Ends,
    at,
    clearance_to,
    curves,
    ends_of,
    line_at,
    loop_gaps,
    nozzle,
    sweep,
    swept_outline,
)
from geometry.parts.catalogue import generic_parts
from geometry.plan import Hung, Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from geometry.shape.outline import circle, rectangle

JOB = suggested_job(760, 760, "left")


def hung(x: float = 570.0, y: float = 1030.0, hose: str = "hose-1500") -> Hung:
    """Return the suggested job's hose with its outlet at this place."""
    job = JOB.moved("outlet", x, y)
    job = job.but(hoses=(job.hoses[0].but(part=hose),))
    return Plan(job, generic_parts(), standard_rules()).hoses[0]


def ends(
    nozzle: tuple[float, float, float] = (0.0, 1000.0, 0.0),
    nut: tuple[float, float, float] = (0.0, 1000.0, 0.0),
    slide: tuple[float, float] = (100.0, 600.0),
    length: float = 1500.0,
    least_bend: float = 0.0,
) -> Ends:
    return Ends(nozzle, nut, slide, length, 7.5, least_bend)


PLUMB = ends()
"""Hangs on x = 0 from 1000 down and up again to 1100-1600; a hose that may bend as sharply as it likes."""


# where the ends are


def test_the_ends_are_the_nozzle_and_the_nut_with_the_finish_counted_in() -> None:
    held = ends_of(hung())
    # outlet at 30 + 1000, nozzle 30 below; tiles, adhesive and tanking are 14 thick, nozzle 45 out from them
    assert held.nozzle == (570, 1000, 59)
    assert nozzle(hung().outlet) == held.nozzle
    # rail's foot at 30 + 1090, nut 40 below the slider and 95 out
    assert held.nut == (570, 1080, 109)
    assert held.slide == (80, 620)
    assert (held.length, held.radius, held.least_bend) == (1500, 7.5, 45)


def test_every_curve_goes_from_the_nozzle_to_the_nut() -> None:
    swept = curves(hung(x=190.0))
    assert np.all(swept.lines[:, 0] == (190, 1000))
    np.testing.assert_allclose(swept.lines[:, -1, 0], 570, atol=1e-9)
    np.testing.assert_allclose(swept.lines[:, -1, 1], 1080 + swept.sliders, atol=1e-9)


def test_a_hose_under_its_rail_stays_on_the_rails_line_although_it_comes_forward() -> None:
    swept = curves(hung())
    assert np.all(swept.lines[..., 0] == 570)


def test_the_level_span_counts_the_depth_and_shows_foreshortened_on_the_wall() -> None:
    # 240 along and 320 out are 400 level. Reference: a hose of 1500 over 400 along and 500 up is lowest
    # 177.528 along and 438.306 down (worked with scipy, see the table of catenaries with unequal ends)
    held = ends(nut=(240.0, 1000.0, 320.0), slide=(100.0, 500.0))
    assert held.span == 400
    x, y = at(held, np.array([500.0])).lows[0]
    assert x == pytest.approx(177.528 * 240 / 400, abs=0.001)
    assert y == pytest.approx(1000 - 438.306, abs=0.001)


def test_upright_legs_are_lowest_half_the_slack_below_the_lower_end() -> None:
    # 1500 of hose: nut 100 above the nozzle, (1500 - 100) / 2 = 700 below it; 400 below it, (1500 - 400) / 2
    # = 550 below the nut
    lows = at(ends(slide=(-400.0, 100.0)), np.array([-400.0, 100.0])).lows
    np.testing.assert_allclose(lows, [(0, 1000 - 400 - 550), (0, 1000 - 700)], atol=1e-6)


def test_a_nut_to_the_left_is_the_mirror_image_of_one_to_the_right() -> None:
    right = sweep(ends(nut=(380.0, 1000.0, 50.0)))
    left = sweep(ends(nut=(-380.0, 1000.0, 50.0)))
    np.testing.assert_allclose(left.lines * (-1, 1), right.lines, atol=1e-12)


# slider heights


@given(st.floats(0, 500), st.floats(1, 1500))
def test_the_whole_slide_is_covered_in_steps_of_at_most_10_mm(low: float, more: float) -> None:
    swept = sweep(ends(nut=(300.0, 900.0, 0.0), slide=(low, low + more), length=5000.0))
    assert (swept.sliders[0], swept.sliders[-1]) == (low, low + more)
    steps = np.diff(swept.sliders)
    assert np.all(steps > 0)
    assert np.max(steps) <= 10 + 1e-9


def test_positions_at_which_the_hose_is_too_short_are_left_out() -> None:
    # 600 level and 800 up are 1000 straight: a hose of 1000 and the slack that counts as none
    held = ends(nut=(600.0, 1000.0, 0.0), slide=(-900.0, 900.0), length=1000 + TAUT)
    assert held.hangs == pytest.approx((-800, 800))
    assert not held.hangs_throughout
    swept = sweep(held)
    assert (swept.sliders[0], swept.sliders[-1]) == held.hangs
    assert held.straight(800) == pytest.approx(1000)


def test_a_hose_shorter_than_the_level_span_never_hangs() -> None:
    held = ends(nut=(600.0, 1000.0, 0.0), length=600.0)
    assert held.hangs is None
    swept = sweep(held)
    assert len(swept.sliders) == 0
    assert len(clearance_to(swept, circle((0, 0), 100))) == 0


def test_a_hose_that_reaches_only_below_the_slide_never_hangs() -> None:
    # 600 of hose straight up reaches 1600; the slide begins at 1700
    assert ends(slide=(700.0, 900.0), length=600.0).hangs is None


def test_one_line_is_asked_for_by_its_slider_height() -> None:
    line = line_at(hung(), 80)
    assert line is not None
    assert (line[0].tolist(), line[-1].tolist()) == ([570, 1000], [570, 1160])
    assert line_at(hung(), 79) is None
    assert line_at(hung(y=50.0), 620) is None  # 1700 - 20 is more than 1500


# clearance


def test_a_plumb_hose_beside_a_round_plate_is_its_distance_less_both_radii() -> None:
    # 190 between centre line and quarter line, 85 for the plate and 7.5 for the hose: 97.5
    gaps = clearance_to(sweep(PLUMB), circle((-190, 1050), 170))
    np.testing.assert_allclose(gaps, 97.5, atol=1e-9)


def test_a_hose_over_a_round_plate_is_negative_by_its_depth() -> None:
    # 20 off the middle of a plate of 85 radius: 65 and half the hose, 72.5 deep
    gaps = clearance_to(sweep(PLUMB), circle((-20, 900), 170))
    np.testing.assert_allclose(gaps, -72.5, atol=1e-9)


@pytest.mark.parametrize("corner", [0.0, 8.0])
@pytest.mark.parametrize(
    ("x", "gap"),
    [
        (-175.0, 92.5),  # 175 off the middle: 175 - 75 - 7.5
        (-82.5, 0.0),  # touches
        (-75.0, -7.5),  # its axis on the edge
        (-45.0, -37.5),  # its axis 30 inside the right edge: 30 + 7.5
        (0.0, -82.5),  # through the middle: 75 + 7.5
        (45.0, -37.5),
        (175.0, 92.5),
    ],
)
def test_a_plumb_hose_and_a_square_plate(x: float, gap: float, corner: float) -> None:
    plate = rectangle(x - 75, 800 - 85, x + 75, 800 + 85, corner)
    # lowest (1500 - 100) / 2 = 700 below 1000, so both legs pass the whole plate
    gaps = clearance_to(sweep(PLUMB), plate)
    assert gaps[0] == pytest.approx(gap, abs=1e-9)


def test_the_depth_in_a_polygon_does_not_hang_on_the_way_round() -> None:
    plate = rectangle(-30, 700, 120, 900)
    back = plate._replace(points=plate.points[::-1])
    swept = sweep(PLUMB)
    assert clearance_to(swept, back).tolist() == clearance_to(swept, plate).tolist()
    assert clearance_to(swept, plate)[0] == pytest.approx(-37.5)


def test_a_hose_over_a_slot_is_measured_from_the_slots_middle_line() -> None:
    # a plate of 40 x 100 with round ends: a line with 20 about it; 5 off it is 20 - 5 + 7.5 deep
    gaps = clearance_to(sweep(PLUMB), rectangle(-15, 750, 25, 850, 20))
    np.testing.assert_allclose(gaps, -22.5, atol=1e-9)


def signed_box(points: Floats, plate: tuple[float, float, float, float, float]) -> Floats:
    """Return the well-known signed distance to a box with round corners: middle, half sizes, corner."""
    x, y, wide, high, corner = plate
    q = np.abs(points - (x, y)) - (wide - corner, high - corner)
    outside = np.hypot(*np.maximum(q, 0).T)
    return np.asarray(outside + np.minimum(np.max(q, axis=-1), 0) - corner)


@given(
    nut=st.tuples(st.floats(-500, 500), st.floats(600, 1400), st.floats(0, 100)),
    where=st.tuples(st.floats(-400, 400), st.floats(200, 1500)),
    size=st.tuples(st.floats(20, 200), st.floats(20, 200)),
    share=st.floats(0, 0.9),
)
def test_gaps_agree_with_a_dense_walk_along_the_hose(
    nut: tuple[float, float, float], where: tuple[float, float], size: tuple[float, float], share: float
) -> None:
    held = ends(nut=nut, slide=(0.0, 200.0), length=1600.0)
    corner = share * min(size)
    (x, y), (wide, high) = where, size
    plate = rectangle(x - wide, y - high, x + wide, y + high, corner)
    sliders = np.array([0.0, 100.0, 200.0])
    for slider, gap in zip(sliders, clearance_to(at(held, sliders), plate), strict=True):
        line = at(held, np.array([slider]), 2001).lines[0]
        walked = np.min(signed_box(line, (x, y, wide, high, corner))) - 7.5
        # the walk misses the nearest point by half a step at most; the chords stand off by at most 0.01
        step = np.max(np.hypot(*np.diff(line, axis=0).T))
        assert walked - step / 2 - 0.02 <= gap <= walked + 0.02


@given(st.floats(-300, 300), st.floats(10, 300), st.floats(0, 300))
def test_a_wider_plate_is_never_farther_away(x: float, wide: float, more: float) -> None:
    swept = sweep(ends(nut=(300.0, 1000.0, 50.0), least_bend=45.0))
    for narrow, broad in (
        (circle((x, 900), wide), circle((x, 900), wide + more)),
        (
            rectangle(x - wide, 850, x + wide, 950, 8),
            rectangle(x - wide - more, 850, x + wide + more, 950, 8),
        ),
    ):
        assert np.all(clearance_to(swept, broad) <= clearance_to(swept, narrow) + 1e-9)


# loops


def test_a_curve_that_bends_tighter_than_the_hose_can_makes_a_loop() -> None:
    # radii at the lowest point, worked with scipy for 1500 of hose: 10.565 over 100 along and 900 up,
    # 64.840 over 400 along and 500 up
    tight = at(ends(nut=(100.0, 1000.0, 0.0), slide=(800.0, 900.0), least_bend=45.0), np.array([900.0]))
    wide = at(ends(nut=(400.0, 1000.0, 0.0), slide=(400.0, 500.0), least_bend=45.0), np.array([500.0]))
    assert (tight.loops.tolist(), wide.loops.tolist()) == ([True], [False])
    assert loop_gaps(wide, circle((0, 0), 100)).tolist() == [math.inf]


def test_the_loop_stands_on_the_lowest_point_and_is_as_wide_as_the_hose_bends() -> None:
    held = ends(least_bend=45.0)
    swept = at(held, np.array([100.0]))
    # lowest 700 below 1000, so the loop's middle is at 345; 200 beside it: 200 - 50 - 45 - 7.5
    assert swept.centres[0] == pytest.approx((0, 345), abs=1e-6)
    assert clearance_to(swept, circle((200, 345), 100))[0] == pytest.approx(97.5)
    # the hose alone would be 45 farther away
    assert clearance_to(at(PLUMB, np.array([100.0])), circle((200, 345), 100))[0] == pytest.approx(142.5)


def test_a_loop_over_a_square_plate_is_negative_by_its_depth() -> None:
    # the loop's middle 10 inside the plate's left edge: 10 + 45 + 7.5
    swept = at(ends(least_bend=45.0), np.array([100.0]))
    assert clearance_to(swept, rectangle(-10, 245, 290, 445))[0] == pytest.approx(-62.5)


# drawing


@given(st.floats(0, 760), st.floats(300, 1800), st.floats(80, 620))
def test_what_is_drawn_covers_the_hose_between_the_curves_too(x: float, y: float, slider: float) -> None:
    held = hung(round(x, 1), round(y, 1), "hose-1750")
    line = line_at(held, slider)
    assume(line is not None)
    assert line is not None
    # of the hose's 7.5 radius at most 2 is lost where two curves meet at the nut's line
    hose = shapely.LineString(line).buffer(5)
    assert swept_outline(held).buffer(0.5).covers(hose)


def test_what_is_drawn_of_a_plumb_hose_is_a_band_with_its_loops() -> None:
    held = hung()
    x0, low, x1, high = swept_outline(held).bounds
    # a loop of 45 and half the hose each side of 570; top 7.5 over the nut at 1080 + 620
    assert (x0, x1, high) == pytest.approx((570 - 52.5, 570 + 52.5, 1707.5), abs=0.5)
    assert low == pytest.approx(curves(held).lows[:, 1].min() - 7.5, abs=0.5)


def test_clearance_grows_what_is_drawn_all_round() -> None:
    held = hung(x=190.0)
    tight, wide = swept_outline(held), swept_outline(held, clearance=20.0)
    assert wide.buffer(0.1).covers(tight.buffer(19.5))
    assert tight.buffer(21).covers(wide)
    assert swept_outline(hung(x=190.0)) is tight  # kept, so that a drawing does not work it out again


def test_nothing_is_drawn_of_a_hose_that_never_hangs() -> None:
    assert swept_outline(hung(x=-2000.0)).is_empty


def test_the_curves_of_an_unchanged_hose_are_kept() -> None:
    assert curves(hung()) is curves(hung())
