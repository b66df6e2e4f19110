"""Fixing screws and the edges of their tiles: 300 x 600, joints 3, the first at 0 / 0."""

import pytest

from geometry.finding import Finding, Status
from geometry.fixings import to_tile_edge
from geometry.model import Finish, FinishArea, Layer, Region, Tiling
from geometry.model.finish import Bond
from tests.geometry.checks.screwed import TILED, outlet, rail, said, valve, wall
from tests.geometry.checks.walls import bare, told


def tiled(x: float, foot: float = 1260, **tiling: object) -> Finding:
    # screws at 1285 and 1935: 79 and 126 above the joints under them
    finish = Finish(areas=(TILED,), tiling=Tiling(**tiling))  # type: ignore[arg-type]
    return said(bare(rail(x, foot)).but(finish=finish), "tile_edge")


# holes in tiles


@pytest.mark.parametrize(
    ("x", "status", "gap"),
    [
        (1818 + 28, "clear", 25),  # 28 - 3 from the left edge of the seventh tile, which begins at 6 x 303
        (1818 + 27.9, "tight", 24.9),
        (1818 + 3.1, "tight", 0.1),
        (1818 + 300 - 28, "clear", 25),
        (1818 + 300 - 27.9, "tight", 24.9),
    ],
)
def test_screw_hole_in_its_tile(x: float, status: Status, gap: float) -> None:
    assert told(tiled(x)) == (status, gap)


@pytest.mark.parametrize("x", [1818 - 1.5, 1818, 1818 + 3, 1815 - 3])
def test_a_hole_that_cuts_a_joint_counts_to_the_other_edges_only(x: float) -> None:
    # lower screw 79 above its joint, less 3; upper 126
    assert told(tiled(x)) == ("clear", 76)


@pytest.mark.parametrize(
    ("foot", "status", "gap"),
    [
        (1206 + 28 - 25, "clear", 25),  # the lower screw 28 above a joint, the upper 75 above the next
        (1206 + 27.9 - 25, "tight", 24.9),
        (1806 - 28 - 675, "clear", 25),  # the upper screw 28 below the upper edge of its tile, the lower 75
        (1806 - 27.9 - 675, "tight", 24.9),
    ],
)
def test_screw_hole_by_level_joints(foot: float, status: Status, gap: float) -> None:
    assert told(tiled(1970, foot)) == (status, gap)


# where tiles lie


def test_a_started_tile_moves_the_joints() -> None:
    assert tiled(1818 + 10 + 28, start_x=10).measured == 25


def test_rows_shifted_to_the_left() -> None:
    # the second row begins 101 to the left: a tile from 202, the hole 40 into it
    tiling = Tiling(bond="third", direction="left")
    assert to_tile_edge(tiling, TILED, wall(), (202 + 40, 603 + 300), 6) == pytest.approx(37)


def row_of(bond: Bond, x: float, y: float) -> float | None:
    return to_tile_edge(Tiling(bond=bond), TILED, wall(), (x, y), 6)


@pytest.mark.parametrize(
    ("bond", "x", "y", "gap"),
    [
        # rows begin at 0, 603, 1206; the pitch is 303
        ("straight", 303 + 40, 603 + 300, 37),
        ("half", 303 + 40, 300, 37),
        ("half", 303 + 151.5 + 40, 603 + 300, 37),
        ("half", 303 + 40, 1206 + 300, 37),
        ("third", 303 + 101 + 40, 603 + 300, 37),
        ("third", 303 + 202 + 40, 1206 + 300, 37),
        ("third", 303 + 40, 1809 + 300, 37),
        # columns are staggered by half their pitch of 603
        ("vertical", 150, 603 + 40, 37),
        ("vertical", 303 + 150, 603 + 301.5 + 40, 37),
    ],
)
def test_rows_and_columns_are_staggered_by_the_bond(bond: Bond, x: float, y: float, gap: float) -> None:
    assert row_of(bond, x, y) == pytest.approx(gap)


def test_a_herringbone_is_left_to_the_eye() -> None:
    assert row_of("herringbone", 100, 100) is None
    finding = tiled(1818, bond="herringbone")
    assert (finding.status, "keep their holes 25 mm from joints" in finding.message) == ("tight", True)


def test_a_tile_ends_where_the_wall_does() -> None:
    # 28 - 3 from the left end, though the tile began behind it
    assert tiled(28, start_x=-100).measured == 25


def test_a_tile_ends_where_its_area_does() -> None:
    region = Region(x=1900, y=900, width=500, height=1300)
    finish = Finish(areas=(TILED.but(region=region),), tiling=Tiling())
    assert said(bare(rail(1928, 1260)).but(finish=finish), "tile_edge").measured == 25


# no tile


def test_behind_no_tile_there_is_no_edge() -> None:
    panel = FinishArea(id="all", layers=(Layer(kind="panel", thickness=10),))
    job = bare(rail())
    for finish in (Finish(), Finish(areas=(TILED,)), Finish(areas=(panel,), tiling=Tiling())):
        assert told(said(job.but(finish=finish), "tile_edge")) == ("clear", None)


def test_screws_in_a_recess_go_through_no_tile() -> None:
    job = bare(valve(), outlet(x=3000)).but(finish=Finish(areas=(TILED,), tiling=Tiling()))
    assert told(said(job, "tile_edge")) == ("clear", None)
