"""Solids: distances in three dimensions, across the planes in which they are drawn."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.shape.outline import circle, rectangle, run
from geometry.shape.solid import Solid, clearance, distance
from tests.geometry.shape.test_outline import outlines, sizes


def plate(x: float, y: float, diameter: float, low: float = 0, high: float = 10) -> Solid:
    return Solid("valve", "plate", circle((x, y), diameter), low, high)


def bar(x: float, z: float, diameter: float, low: float, high: float) -> Solid:
    return Solid("rail", "rail", circle((x, z), diameter), low, high, "plan")


@st.composite
def solids(draw: st.DrawFn) -> Solid:
    low = draw(sizes)
    plane = draw(st.sampled_from(["elevation", "plan"]))
    return Solid("a", "part", draw(outlines()), low, low + draw(sizes), plane)  # type: ignore[arg-type]


def points_of(solid: Solid) -> list[tuple[float, float, float]]:
    """Return points of a solid as x, y, z: round each corner of its core, at both ends of its interval."""
    ways = [(math.cos(math.radians(step)), math.sin(math.radians(step))) for step in range(0, 360, 45)]
    r = solid.outline.radius
    flat = [(u + c * r, v + s * r) for u, v in solid.outline.points for c, s in ways]
    ends = (solid.low, solid.high)
    if solid.plane == "elevation":
        return [(x, y, z) for x, y in flat for z in ends]
    return [(x, y, z) for x, z in flat for y in ends]


def moved(solid: Solid, dx: float) -> Solid:
    return solid._replace(outline=solid.outline.shifted(dx, 0))


def test_side_by_side_the_outlines_decide() -> None:
    # 200 between centres, radii 50 and 60
    assert distance(plate(0, 0, 100), plate(200, 0, 120)) == pytest.approx(90)


def test_one_behind_the_other_the_depth_decides() -> None:
    assert distance(plate(0, 0, 100, -60, -40), plate(0, 0, 100, -10, 0)) == pytest.approx(30)


def test_askew_both_count_as_sides_of_a_right_angle() -> None:
    # 30 apart on the wall, 40 apart in depth: 50
    assert distance(plate(0, 0, 100, -60, -40), plate(130, 0, 100, 0, 10)) == pytest.approx(50)


def test_overlapping_is_as_deep_as_the_shorter_way_out() -> None:
    # on the wall 100 deep, in depth from -10 to 0: 10
    assert distance(plate(0, 0, 100, -60, 0), plate(0, 0, 100, -10, 30)) == pytest.approx(-10)


def test_two_upright_bars_are_measured_in_plan() -> None:
    # 3-4-5: axes 50 apart, radii 10 and 5
    assert distance(bar(0, 60, 20, 0, 900), bar(30, 100, 10, 0, 900)) == pytest.approx(35)


def test_a_head_above_a_rail_is_measured_upright() -> None:
    assert distance(bar(0, 60, 20, 0, 900), bar(0, 60, 200, 950, 960)) == pytest.approx(50)


def test_a_bar_in_front_of_a_plate_is_measured_from_the_wall_out() -> None:
    # the bar's back is at 60 - 11 = 49, the plate's front at 10
    assert distance(plate(0, 500, 100), bar(0, 60, 22, 0, 900)) == pytest.approx(39)


def test_a_bar_beside_a_control_that_stands_out_is_measured_along_the_wall() -> None:
    # the control's rim is at x = 30, the bar's side at 100 - 11 = 89; both stand 49 to 71 off the wall
    assert distance(plate(0, 500, 60, 8, 80), bar(100, 60, 22, 0, 900)) == pytest.approx(59)


def test_a_control_in_the_corner_of_a_slanted_pane_is_not_measured_to_the_box_of_the_pane() -> None:
    # The pane runs in plan from (0, 700) to (700, 0). The control's outer corner in plan is (110, 80): the
    # pane's line x + z = 700 lies (700 - 190) / sqrt 2 = 360.6 off it, less half of the pane's 8 mm.
    pane = Solid("pane", "screen", run(((0, 700), (700, 0)), 8), 0, 1950, "plan")
    assert distance(plate(80, 1000, 60, 8, 80), pane) == pytest.approx(510 / math.sqrt(2) - 4)


def test_the_place_of_two_plan_solids_is_seen_from_the_room() -> None:
    # a head over a rail, 50 between them
    found = clearance(bar(0, 60, 20, 0, 900), bar(0, 60, 200, 950, 960))
    assert found.gap == pytest.approx(50)
    assert [y for _, y in found.place] == [900, 950]


def test_the_place_of_two_plan_solids_level_with_each_other_is_the_middle_of_their_heights() -> None:
    # facing from y = 100 to 900, rims at x = 10 and 85
    found = clearance(bar(0, 60, 20, 0, 900), bar(100, 60, 30, 100, 1000))
    assert found.place == ((10, 500), (85, 500))


def test_the_place_of_a_plate_and_a_bar_is_where_they_are_seen_on_the_wall() -> None:
    found = clearance(plate(0, 500, 60, 8, 80), bar(100, 60, 22, 0, 900))
    assert found.place == ((30, 500), (89, 500))


def test_a_box_of_a_plan_solid_counts_height_second() -> None:
    assert bar(0, 60, 20, 100, 900).box == (-10, 100, 50, 10, 900, 70)
    assert plate(0, 500, 60, 8, 80).box == (-30, 470, 8, 30, 530, 80)


def test_seen_in_the_other_plane_a_solid_is_its_box() -> None:
    assert bar(0, 60, 20, 100, 900).in_elevation().outline == rectangle(-10, 100, 10, 900)
    assert plate(0, 500, 60, 8, 80).in_plan().outline == rectangle(-30, 8, 30, 80)


@given(solids(), solids())
def test_the_distance_is_the_same_both_ways(a: Solid, b: Solid) -> None:
    assert distance(a, b) == pytest.approx(distance(b, a), abs=1e-6)


@given(solids(), solids())
def test_no_two_points_of_them_are_nearer_than_the_distance(a: Solid, b: Solid) -> None:
    nearest = min(math.dist(p, q) for p in points_of(a) for q in points_of(b))
    assert distance(a, b) <= nearest + 1e-6


@given(solids(), solids())
def test_the_distance_is_never_less_than_that_of_the_boxes(a: Solid, b: Solid) -> None:
    lows = [max(p - q, r - s) for p, q, r, s in zip(a.box[:3], b.box[3:], b.box[:3], a.box[3:], strict=True)]
    assert distance(a, b) >= max(lows) - 1e-6


@given(solids(), solids(), sizes)
def test_moving_away_never_brings_nearer(a: Solid, b: Solid, by: float) -> None:
    away = by if a.outline.middle[0] >= b.outline.middle[0] else -by
    assert distance(moved(a, away), b) >= distance(a, b) - 1e-6


@given(solids(), solids(), sizes)
def test_moving_both_along_the_wall_changes_nothing(a: Solid, b: Solid, by: float) -> None:
    assert distance(moved(a, by), moved(b, by)) == pytest.approx(distance(a, b), abs=1e-6)
