"""Outlines: circles stay circles, gaps are exact, and the points shown lie on both rims."""

import math
from itertools import chain

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.model import XY
from geometry.shape.fittings import sector
from geometry.shape.outline import Outline, circle, core, gap, holds, nearest, outside, rectangle, run

places = st.integers(min_value=-5000, max_value=5000).map(lambda tenths: tenths / 10)
sizes = st.integers(min_value=1, max_value=4000).map(lambda tenths: tenths / 10)


@st.composite
def outlines(draw: st.DrawFn) -> Outline:
    """An outline that is even in x and in y about its middle: circle, level or plumb run, rectangle."""
    x, y, wide, high = draw(places), draw(places), draw(sizes), draw(sizes)
    kind = draw(st.sampled_from(["circle", "level", "plumb", "rectangle"]))
    if kind == "circle":
        return circle((x, y), wide)
    if kind == "level":
        return run(((x - wide, y), (x + wide, y)), high)
    if kind == "plumb":
        return run(((x, y - high), (x, y + high)), wide)
    corner = draw(sizes)
    return rectangle(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2, corner)


def on_rim(outline: Outline, point: XY) -> bool:
    away = shapely.distance(core(outline), shapely.Point(point))
    return bool(abs(away - outline.radius) < 1e-6)


# gaps


def test_two_circles_are_as_far_apart_as_their_centres_less_both_radii() -> None:
    # 3-4-5: centres 500 apart, radii 100 and 50
    assert gap(circle((0, 0), 200), circle((300, 400), 100)) == pytest.approx(350)


def test_a_circle_off_the_corner_of_a_rectangle_is_measured_to_the_corner() -> None:
    # the corner is (100, 100), the centre (130, 140): 30-40-50, less the radius 20
    assert gap(rectangle(0, 0, 100, 100), circle((130, 140), 40)) == pytest.approx(30)


def test_a_circle_off_a_rounded_corner_is_measured_to_the_round() -> None:
    # the round of 20 is centred at (80, 80); the centre lies 50-120-130 from it: 130 - 20 - 10
    assert gap(rectangle(0, 0, 100, 100, 20), circle((130, 200), 20)) == pytest.approx(100)


def test_a_circle_beside_a_run_is_measured_to_the_pipe() -> None:
    # 100 from the axis, less 10 of the pipe and 25 of the circle
    assert gap(run(((0, 0), (0, 500)), 20), circle((100, 250), 50)) == pytest.approx(65)


def test_two_runs_end_to_end_are_measured_between_their_round_ends() -> None:
    assert gap(run(((0, 0), (0, 500)), 20), run(((0, 600), (0, 900)), 30)) == pytest.approx(75)


def test_outlines_that_touch_have_no_gap() -> None:
    assert gap(circle((0, 0), 100), circle((100, 0), 100)) == 0
    assert gap(rectangle(0, 0, 50, 50), rectangle(50, 0, 90, 50)) == 0


def test_overlapping_rectangles_are_as_deep_as_the_shorter_way_out() -> None:
    # 30 to the right or 60 up: 30
    assert gap(rectangle(0, 0, 100, 100), rectangle(70, 40, 200, 300)) == pytest.approx(-30)


def test_a_circle_with_its_centre_in_a_rectangle_is_that_deep_and_its_radius() -> None:
    # the centre lies 10 from the nearest side: 10 + 25
    assert gap(circle((90, 50), 50), rectangle(0, 0, 100, 100)) == pytest.approx(-35)


def test_a_pipe_through_a_box_is_as_deep_as_the_way_out_sideways() -> None:
    # axis 40 from the left side of the box, pipe 20 across: 40 + 10
    assert gap(run(((40, -500), (40, 500)), 20), rectangle(0, 0, 100, 100)) == pytest.approx(-50)


def test_a_circle_on_the_middle_leg_of_a_bent_pipe_is_judged_by_that_leg() -> None:
    # moving off the leg clears it: 10 + 5, however far the other legs reach
    bent = run(((0, 0), (0, 1000), (500, 1000), (500, 2000)), 20)
    assert gap(circle((250, 1000), 10), bent) == pytest.approx(-15)
    assert gap(circle((250, 1000.1), 10), bent) == pytest.approx(-14.9)


def test_a_bent_pipe_through_a_box_is_as_deep_as_its_deepest_leg() -> None:
    # the plumb leg runs 40 from the left side of the box, pipe 20 across: 40 + 10; the level one is far off
    bent = run(((40, -500), (40, 500), (900, 500)), 20)
    assert gap(bent, rectangle(0, 0, 100, 100)) == pytest.approx(-50)


def test_a_slanted_edge_is_left_square_to_itself() -> None:
    # a square on its corner, half-diagonal 100: its edges lie 70.71 from its middle, where the circle sits
    diamond = Outline(((100, 0), (0, 100), (-100, 0), (0, -100)), 0.0, closed=True)
    assert gap(diamond, circle((0, 0), 20)) == pytest.approx(-100 / math.sqrt(2) - 10)


def test_a_door_that_does_not_move_still_has_a_gap() -> None:
    # a line from (0, 700) to (0, 1400) and a circle of 10 whose centre stands 100 beside it
    assert gap(sector((0, 700), 700, 90, 90), circle((100, 750), 10)) == pytest.approx(95)


@given(outlines(), outlines())
def test_the_gap_is_the_same_both_ways(a: Outline, b: Outline) -> None:
    assert gap(a, b) == pytest.approx(gap(b, a), abs=1e-6)


@given(outlines(), outlines(), places, places)
def test_moving_both_along_leaves_the_gap(a: Outline, b: Outline, dx: float, dy: float) -> None:
    assert gap(a.shifted(dx, dy), b.shifted(dx, dy)) == pytest.approx(gap(a, b), abs=1e-6)


@given(outlines(), outlines())
def test_a_mirror_leaves_the_gap(a: Outline, b: Outline) -> None:
    def mirrored(outline: Outline) -> Outline:
        return outline._replace(points=tuple((-x, y) for x, y in outline.points))

    assert gap(mirrored(a), mirrored(b)) == pytest.approx(gap(a, b), abs=1e-6)


@given(outlines(), outlines(), sizes, st.booleans())
def test_moving_away_never_reduces_the_gap(a: Outline, b: Outline, by: float, level: bool) -> None:
    axis = 0 if level else 1
    way = 1 if a.middle[axis] >= b.middle[axis] else -1
    moved = a.shifted(way * by * level, way * by * (not level))
    assert gap(moved, b) >= gap(a, b) - 1e-6


@given(outlines(), outlines(), sizes)
def test_growing_takes_from_the_gap_what_it_adds(a: Outline, b: Outline, by: float) -> None:
    assert gap(a.grown(by), b) == pytest.approx(gap(a, b) - by, abs=1e-6)


@given(outlines(), outlines())
def test_moving_out_by_the_depth_leaves_them_touching(a: Outline, b: Outline) -> None:
    depth = -gap(a, b)
    if depth <= 1e-6:
        return
    # no way out is shorter, and at least one of many is no longer than 1 / cos 2.5 degrees times as long
    steps = [(math.cos(math.radians(step)), math.sin(math.radians(step))) for step in range(0, 360, 5)]
    assert all(gap(a.shifted(x * (depth - 1e-3), y * (depth - 1e-3)), b) < 0 for x, y in steps)
    far = depth * 1.001
    assert any(gap(a.shifted(x * far, y * far), b) >= -1e-3 * depth for x, y in steps)


# the points shown


def test_parallel_edges_are_measured_in_the_middle_of_where_they_face() -> None:
    # they face each other from y = 40 to y = 100
    assert nearest(rectangle(0, 0, 50, 100), rectangle(80, 40, 90, 300)) == ((50, 70), (80, 70))
    assert nearest(rectangle(0, 0, 100, 50), rectangle(40, 80, 300, 90)) == ((70, 50), (70, 80))


def test_a_circle_beside_a_rectangle_is_measured_level_with_its_centre() -> None:
    assert nearest(circle((0, 10), 100), rectangle(100, 0, 200, 1000)) == ((50, 10), (100, 10))


def test_the_end_of_a_slanted_pane_is_measured_at_its_end() -> None:
    assert nearest(run(((100, 50), (300, 500)), 8), rectangle(0, 0, 50, 1000)) == ((96, 50), (50, 50))


@given(outlines(), outlines())
def test_the_points_shown_lie_on_both_rims_and_are_the_gap_apart(a: Outline, b: Outline) -> None:
    if gap(a, b) <= 1e-6:
        return
    start, end = nearest(a, b)
    assert on_rim(a, start)
    assert on_rim(b, end)
    assert math.dist(start, end) == pytest.approx(gap(a, b), abs=1e-6)


# forms


@pytest.mark.parametrize("x", [0.0, 0.1, 380.0, -12.3, 19999.9])
def test_a_rectangle_with_no_edge_left_is_a_circle(x: float) -> None:
    assert len(rectangle(x - 55, -55, x + 55, 55, 55).points) == 1


def test_a_rectangle_with_no_upright_edge_left_is_a_slot() -> None:
    assert rectangle(0, 0, 200, 50, 25) == Outline(((25, 25), (175, 25)), 25)


def test_bounds_take_the_radius_in() -> None:
    assert run(((0, 0), (0, 100)), 20).bounds == (-10, -10, 10, 110)
    assert rectangle(1, 2, 31, 42, 5).bounds == (1, 2, 31, 42)
    assert rectangle(0, 0, 30, 40, 5).middle == (15, 20)


@given(outlines(), outlines())
def test_outlines_that_are_apart_are_as_far_apart_as_their_cores_less_both_radii(
    a: Outline, b: Outline
) -> None:
    apart = float(shapely.distance(core(a), core(b)))  # another way to the same, by a library
    assert apart == 0 or gap(a, b) == pytest.approx(apart - a.radius - b.radius, abs=1e-9)


@pytest.mark.parametrize(
    ("inner", "held"),
    [
        (circle((50, 40), 40), True),  # 20 of radius, 40 from the lower and upper edges
        (circle((20, 40), 40), True),  # touches the left edge
        (circle((19, 40), 40), False),
        (circle((5, 5), 0), True),  # on the round of the corner: 7.07 from its middle, radius 10
        (circle((2, 2), 0), False),  # 11.3 from it
        (run(((20, 20), (80, 60)), 10), True),
        (run(((20, 20), (120, 60)), 10), False),
        (rectangle(0, 0, 100, 80), False),  # its sharp corners stand out of the round ones
    ],
)
def test_an_outline_holds_what_lies_inside_it_as_a_whole(inner: Outline, held: bool) -> None:
    assert holds(rectangle(0, 0, 100, 80, corner=10), inner) is held


@given(outlines(), st.floats(0, 1), outlines())
def test_nothing_is_nearer_to_what_an_outline_holds_than_to_the_outline(
    outer: Outline, share: float, other: Outline
) -> None:
    x0, y0, x1, y1 = outer.bounds
    inner = circle(outer.middle, share * min(x1 - x0, y1 - y0))
    assert holds(outer, inner)
    assert gap(inner, other) >= gap(outer, other) - 1e-6


# legs outside boxes


@pytest.mark.parametrize(
    ("leg", "parts"),
    [
        (((0, 50), (300, 50)), (((0, 50), (100, 50)), ((200, 50), (300, 50)))),  # through it
        (((300, 50), (150, 50)), (((300, 50), (200, 50)),)),  # into it, from the right
        (((150, 50), (150, 400)), (((150, 80), (150, 400)),)),  # out of it, upwards
        (((120, 20), (180, 60)), ()),  # within it
        (((0, 80), (300, 80)), (((0, 80), (100, 80)), ((200, 80), (300, 80)))),  # along its upper edge
        (((0, 81), (300, 81)), (((0, 81), (300, 81)),)),  # past it
        (((40, -10), (90, -10)), (((40, -10), (90, -10)),)),  # short of it
        # 0.8 up for each 1 along: at x = 100 it stands at y = 80, on the corner
        (((0, 0), (200, 160)), (((0, 0), (200, 160)),)),
        # 1 up for each 2 along: enters at x = 100, y = 40, leaves at y = 80, x = 180
        (((20, 0), (260, 120)), (((20, 0), (100, 40)), ((180, 80), (260, 120)))),
    ],
)
def test_a_leg_ends_where_it_enters_a_box_and_goes_on_where_it_leaves(
    leg: tuple[XY, XY], parts: tuple[tuple[XY, XY], ...]
) -> None:
    found = outside(*leg, [(100, 0, 200, 80)])
    assert [*chain.from_iterable(found)] == [pytest.approx(point) for point in chain.from_iterable(parts)]


def test_a_leg_through_two_boxes_is_left_before_between_and_behind_them() -> None:
    found = outside((0, 10), (100, 10), [(60, 0, 80, 20), (20, 0, 40, 20)])
    assert sorted(found) == [((0, 10), (20, 10)), ((40, 10), (60, 10)), ((80, 10), (100, 10))]
