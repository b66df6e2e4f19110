"""Recess depths. Hand sums: [least - b, most - b], tolerances carried to the worst case."""

from hypothesis import given
from hypothesis import strategies as st

from geometry.build_up import BuildUp, build_up
from geometry.chase.recess import CutDepth, cut_depth
from geometry.model import Finish, FinishArea, Layer

depths = st.integers(10, 1500).map(lambda tenths: tenths / 10)
thicknesses = st.integers(0, 800).map(lambda tenths: tenths / 10)


def even(thickness: float) -> BuildUp:
    return BuildUp(thickness, thickness, thickness, ())


def test_range_is_the_parts_range_less_the_build_up() -> None:
    # 60 - 14 = 46, 85 - 14 = 71; (46 + 71) / 2 = 58.5, and the even one of 58 and 59 is taken
    depth = cut_depth(60, 85, even(14))
    assert (depth.least, depth.most, depth.room, depth.target) == (46, 71, 25, 58)


def test_tolerance_narrows_the_range_at_both_ends() -> None:
    # adhesive 4 +- 1: the finish comes to 13..15, so 60 - 13 = 47 and 85 - 15 = 70
    depth = cut_depth(60, 85, BuildUp(14, 13, 15, ()))
    assert (depth.least, depth.most) == (47, 70)
    assert (depth.planned_least, depth.planned_most) == (46, 71)
    assert depth.room == 23


def test_tolerances_of_layers_add_up() -> None:
    layers = (
        Layer(kind="board", thickness=12.5, tolerance=0.5),
        Layer(kind="adhesive", thickness=4, tolerance=1),
        Layer(kind="tile", thickness=9, tolerance=0.5),
    )
    finish = build_up(Finish(areas=(FinishArea(id="wall", layers=layers),)), (0, 0))
    # 12.5 + 4 + 9 = 25.5 +- 2: 60 - 23.5 = 36.5, 85 - 27.5 = 57.5
    assert cut_depth(60, 85, finish)[:2] == (36.5, 57.5)


def test_nothing_is_cut_where_the_finish_alone_is_deep_enough() -> None:
    # 60 - 70 = -10: already deep enough; 85 - 70 = 15 mm may be cut, the middle of 0..15 is 7.5
    depth = cut_depth(60, 85, even(70))
    assert depth.least == -10
    assert (depth.shallowest, depth.most, depth.room, depth.target) == (0, 15, 15, 8)


def test_no_room_is_left_where_the_finish_is_thicker_than_the_part_allows() -> None:
    depth = cut_depth(60, 85, even(95))  # 85 - 95 = -10
    assert (depth.room, depth.target) == (-10, 0)


def test_target_stays_inside_a_range_without_a_whole_millimetre() -> None:
    depth = CutDepth(47.2, 47.8, 47.2, 47.8)
    assert depth.target == 47.5


@given(depths, thicknesses, thicknesses, thicknesses)
def test_a_thicker_finish_shifts_the_range_by_just_that(
    least: float, width: float, finish: float, more: float
) -> None:
    thin, thick = (
        cut_depth(least, least + width, even(finish)),
        cut_depth(least, least + width, even(finish + more)),
    )
    assert abs(thin.least - thick.least - more) < 1e-9
    assert abs(thin.most - thick.most - more) < 1e-9


@given(depths, thicknesses, thicknesses, thicknesses)
def test_target_lies_in_a_range_that_is_not_empty(
    least: float, width: float, finish: float, slack: float
) -> None:
    depth = cut_depth(least, least + width, BuildUp(finish, max(0.0, finish - slack), finish + slack, ()))
    assert depth.target >= 0
    if depth.room >= 0:
        assert depth.shallowest <= depth.target <= depth.most
