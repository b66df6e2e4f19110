import math

import pytest

from geometry.model import HoseOutlet, Layer, Tiling, Valve
from geometry.tiling.drilling import Drilled, covers, drilled
from tests.geometry.tiling.walls import TILED, tiled_plan

GRID = Tiling(
    wide=200, high=200, joint=4, border=0
)  # tiles from 0, 204, 408, 612, 816; joints 200-204 and so on


def outlet(x: float, y: float) -> HoseOutlet:
    return HoseOutlet(id="outlet", part="outlet-round", x=x, height=y)  # its hole is 30 wide


def hole(x: float, y: float, tiling: Tiling = GRID, **rest: object) -> Drilled:
    return drilled(tiled_plan(tiling, outlet(x, y), **rest))[0]


def test_a_hole_is_measured_from_the_left_and_lower_edge_of_its_tile() -> None:
    found = hole(500, 300)
    (tile,) = found.tiles
    # the tile begins at 408 and 204
    assert (found.names, tile.across, tile.up) == ("R2 C3", 92, 96)
    # right edge 608 - 500 - 15 = 93, left 92 - 15 = 77, below 96 - 15 = 81, above 404 - 300 - 15 = 89
    assert found.rim == pytest.approx(77)
    assert not found.across_joint
    assert found.off_joint == math.inf


def test_a_hole_on_a_joint_lies_in_both_tiles_and_is_measured_from_the_middle_of_the_joint() -> None:
    found = hole(405, 300)  # the joint is from 404 to 408, its middle at 406
    assert found.names == "R2 C2 + R2 C3"
    assert found.off_joint == pytest.approx(1)
    assert [(tile.across, tile.up) for tile in found.tiles] == [(201, 96), (-3, 96)]


def test_a_hole_at_a_crossing_lies_in_four_tiles() -> None:
    assert len(hole(406, 406).tiles) == 4


def test_a_hole_that_just_touches_the_edge_does_not_cut_it() -> None:
    found = hole(423, 300)  # rim at 408, where its tile begins
    assert found.names == "R2 C3"
    assert hole(422.9, 300).across_joint


def test_a_hole_near_the_end_of_the_tiles_is_measured_to_the_cut_edge() -> None:
    found = hole(960, 300)  # the last tile is cut from 816 to 1000
    assert found.rim == pytest.approx(1000 - 960 - 15)


def test_a_hole_where_nothing_is_tiled_has_no_tile() -> None:
    assert hole(500, 300, layers=(Layer(kind="panel", thickness=10.0),)).tiles == ()


def test_the_hole_in_board_is_wider_by_what_is_set() -> None:
    board = (Layer(kind="board", thickness=12.5), *TILED)
    assert hole(500, 300, layers=board).board == 36  # 30 + 6
    assert hole(500, 300).board is None


def test_a_plate_covers_its_hole_by_half_the_difference() -> None:
    plan = tiled_plan(GRID, Valve(id="valve", part="valve-two-round", x=500, height=300), outlet(800, 300))
    valve, out = covers(plan)
    assert (valve.covered, valve.room) == (25, None)  # plate 170, hole 120
    assert out.covered == 15  # flange 60, hole 30
    assert out.room == pytest.approx((30 - 20.955) / 2)  # G1/2 is 20.955 outside, ISO 228-1


def test_a_tanking_collar_takes_room_round_the_pipe() -> None:
    tanked = (Layer(kind="tanking", thickness=1.0), *TILED)
    (out,) = covers(tiled_plan(GRID, outlet(800, 300), layers=tanked))
    assert out.collar
    assert out.room == pytest.approx((30 - 20.955) / 2 - 2)
