"""The chase of a pipe. Hand sums for copper 15 with a clip of 8 at each side and 5 behind."""

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.chase.channel import chase, cut, leg_boxes, rings
from geometry.model import XY, Pipe
from geometry.parts.records import TubePart
from geometry.pipework.routes import Course, PortAt
from geometry.shape.outline import rectangle

TUBE = TubePart(
    id="tube", name="Copper 15", material="copper", outside=15, wall=0.7, clip_side=8, clip_back=5
)
PORT = PortAt("valve.hot", (100, 900), "down", "hot", "G3/4")
STRAIGHT = ((100.0, 0.0), (100.0, 900.0))


def pipe(wrap: float = 4, depth: float | None = None) -> Pipe:
    return Pipe(id="hot", service="hot", end="valve.hot", route=((100, 0),), wrap=wrap, depth=depth)


def along(*points: XY) -> Course:
    return Course(points, None, PORT)


def bounds(area: shapely.Geometry) -> list[float]:
    return list(shapely.bounds(area).tolist())


def test_width_is_tube_wrap_and_a_clip_each_side() -> None:
    held = chase(pipe(), TUBE, along(*STRAIGHT), cover=5)
    assert held.lagged == 23  # 15 + 2 x 4
    assert held.width == 39  # 23 + 2 x 8


def test_depth_is_cover_wrapped_tube_and_clip() -> None:
    held = chase(pipe(), TUBE, along(*STRAIGHT), cover=5)
    assert held.depth == 33  # 5 + 23 + 5
    assert held.axis == 16.5  # 5 + 23 / 2


def test_depth_set_by_hand_is_that_of_the_centre() -> None:
    held = chase(pipe(depth=45), TUBE, along(*STRAIGHT), cover=5)
    assert held.axis == 45
    assert held.depth == 61.5  # 45 + 11.5 + 5


def test_bare_tube_has_the_narrowest_chase() -> None:
    held = chase(pipe(wrap=0), TUBE, along(*STRAIGHT), cover=5)
    assert (held.width, held.depth) == (31, 25)  # 15 + 2 x 8; 5 + 15 + 5


@given(st.integers(0, 200), st.integers(0, 200))
def test_more_wrap_widens_and_deepens_by_twice_that(tenths: int, more: int) -> None:
    wrap, added = tenths / 10, more / 10
    thin, thick = (chase(pipe(w), TUBE, along(*STRAIGHT), cover=5) for w in (wrap, wrap + added))
    assert thick.width - thin.width == pytest.approx(2 * added, abs=1e-9)
    assert thick.depth - thin.depth == pytest.approx(2 * added, abs=1e-9)


def test_cut_of_a_straight_run_is_a_rectangle_with_flat_ends() -> None:
    area = cut(STRAIGHT, 39)
    assert bounds(area) == [80.5, 0, 119.5, 900]  # 100 -+ 19.5
    assert shapely.area(area) == 39 * 900


def test_cut_has_square_corners() -> None:
    area = cut(((0, 0), (0, 500), (300, 500)), 40)
    (ring,) = rings(area)
    assert set(ring) == {(-20, 0), (20, 0), (20, 480), (300, 480), (300, 520), (-20, 520)}


def test_cut_stops_at_the_recess_that_it_runs_into() -> None:
    recess = rectangle(50, 860, 250, 1050)
    assert bounds(cut(STRAIGHT, 39, (recess,))) == [80.5, 0, 119.5, 860]


def test_recess_in_the_way_divides_a_cut() -> None:
    parts = tuple(rings(cut(STRAIGHT, 39, (rectangle(50, 400, 250, 500),))))
    assert sorted(min(y for _, y in part) for part in parts) == [0, 500]


def test_a_pipe_without_length_has_no_cut() -> None:
    assert shapely.is_empty(cut(((100, 900),), 39))
    assert tuple(rings(shapely.Polygon())) == ()


def test_box_of_a_leg_reaches_past_a_square_corner_by_half_the_width() -> None:
    # up 900, then right 200, 40 wide: 20 to each side, past the corner and past both ends; 1 % more of each
    up, right = leg_boxes(((100, 0), (100, 900), (300, 900)), 40)
    assert up == pytest.approx((79.8, -20.2, 120.2, 920.2))
    assert right == pytest.approx((79.8, 879.8, 320.2, 920.2))


PLACES = st.integers(0, 30).map(lambda n: n * 10.0)
ROUTES = st.lists(st.tuples(PLACES, PLACES), min_size=2, max_size=6, unique=True)


@settings(max_examples=50)
@given(ROUTES, st.integers(10, 80))
def test_boxes_of_the_legs_hold_the_chase_and_the_pipe(points: list[XY], width: int) -> None:
    boxes = shapely.union_all([shapely.box(*box) for box in leg_boxes(tuple(points), width)])
    pipe_seen = shapely.LineString(points).buffer(width / 2)
    for held in (cut(tuple(points), width), pipe_seen):
        assert shapely.difference(held, boxes.buffer(1e-6)).is_empty
