import pytest

from geometry.checks.tiling import tiling
from geometry.finding import Finding
from geometry.model import Fitting, HoseOutlet, Layer, Region, Tiling
from geometry.model.finish import MovementJoint
from tests.geometry.checks.walls import bare, plan_of, told
from tests.geometry.tiling.walls import TILED, tiled

GRID = Tiling(wide=200, high=200, joint=2, border=5)


def judged(rule: str, tiles: Tiling, *fittings: Fitting, **rest: object) -> list[Finding]:
    job = tiled(tiles, *fittings, **rest)  # type: ignore[arg-type]
    return [finding for finding in tiling(plan_of(job)) if finding.rule == f"tiling.{rule}"]


def outlet(x: float, y: float = 400.0) -> HoseOutlet:
    return HoseOutlet(id="outlet", part="outlet-round", x=x, height=y)


# 1000 wide, border 5: tiles end at 995. From start s the last full column and the rest:
@pytest.mark.parametrize(
    ("start", "status", "measured"),
    [
        (40, "tight", 35),  # 40 - 5 = 35 of a tile to the left of the first, its joint 2: 40 - 2 - 5 = 33
        (57, "clear", 50),  # 57 - 2 - 5 = 50, exactly at the limit
        (56.9, "tight", 49.9),
    ],
)
def test_a_narrow_cut_is_a_hint(start: float, status: str, measured: float) -> None:
    (finding,) = judged("least_cut", GRID.but(start_x=start, start_y=100))
    expected = 33 if start == 40 else measured
    assert told(finding) == (status, expected)


def test_half_a_tile_exactly_is_enough() -> None:
    # border 0, joint 0: 1000 = 100 + 4 x 200 + 100
    (finding,) = judged("half_cut", Tiling(wide=200, high=200, joint=0, border=0, start_x=100, start_y=100))
    assert told(finding) == ("clear", 50)
    (finding,) = judged("half_cut", Tiling(wide=200, high=200, joint=0, border=0, start_x=99, start_y=100))
    assert told(finding) == ("tight", 49.5)


@pytest.mark.parametrize(
    ("x", "status", "measured"),
    [
        (446, "clear", 25),  # the tile begins at 404 + 2 = 406 - 2: 404; 446 - 404 - 15 = 27
        (444, "clear", 25),
        (443.9, "tight", 24.9),
    ],
)
def test_a_hole_keeps_from_the_edge_of_its_tile(x: float, status: str, measured: float) -> None:
    # tiles begin at 0, 202, 404; the hole is 30 wide, so its rim is 444 - 404 - 15 = 25 from the edge
    (finding,) = judged("hole_edge", GRID, outlet(x, 504))
    assert told(finding) == (status, 27 if x == 446 else measured)


@pytest.mark.parametrize(
    ("x", "status", "off"), [(403, "clear", 0), (405, "clear", 2), (405.1, "tight", 2.1)]
)
def test_a_hole_across_a_joint_is_centred_on_it(x: float, status: str, off: float) -> None:
    (finding,) = judged("hole_joint", GRID, outlet(x, 504))  # the joint is from 402 to 404
    assert told(finding) == (status, off)


def test_plaster_carries_twenty_kilograms() -> None:
    # 9 mm of tile at 2.3, 4 mm of bed at 1.5 and (400 / 40000) x 2 x 9 x 1.6 of grout: 20.7 + 6 + 0.288
    plaster = (Layer(kind="plaster", thickness=12.0), *TILED)
    (finding,) = judged("weight_plaster", GRID, layers=plaster)
    assert told(finding) == ("refer", 27)
    (finding,) = judged("weight_plaster", GRID.but(weight=13.7), layers=plaster)  # 13.7 + 6 + 0.288 = 19.988
    assert told(finding) == ("clear", 20)


def test_what_a_background_is_stated_to_carry_goes_first() -> None:
    job = tiled(GRID)
    stated = job.but(finish=job.finish.but(carries=26.0))
    (finding,) = [one for one in tiling(plan_of(stated)) if one.rule == "tiling.weight_own"]
    assert (finding.status, finding.limit) == ("refer", 26)
    assert not judged("weight_own", GRID)  # bare masonry: nothing is published


def test_joints_are_wider_for_large_tiles() -> None:
    assert told(judged("joint_small", GRID)[0]) == ("clear", 2)
    assert told(judged("joint_large", GRID.but(wide=300, high=600))[0]) == ("tight", 2)  # 0.18 m2
    assert told(judged("joint_large", GRID.but(wide=100, high=650, joint=3))[0]) == (
        "clear",
        3,
    )  # a side over 600


def test_a_long_face_wants_a_movement_joint() -> None:
    (finding,) = judged("movement", GRID, width=4510)  # 4510 less a border of 5 at each end
    assert told(finding) == ("clear", 4500)
    (finding,) = judged("movement", GRID, width=4511)
    assert told(finding) == ("tight", 4501)


def test_a_movement_joint_makes_two_faces_of_a_long_one() -> None:
    job = tiled(GRID, width=4600)
    parted = job.but(finish=job.finish.but(movement=(MovementJoint(id="move", at=2000.0),)))
    (finding,) = (each for each in tiling(plan_of(parted)) if each.rule == "tiling.movement")
    # from 2003 to 4595
    assert told(finding) == ("clear", 2592)


def test_what_is_over_the_rim_is_tanked() -> None:
    tanked = (Layer(kind="tanking", thickness=1.0), *TILED)
    (finding,) = judged("tanked", GRID, layers=tanked)
    assert told(finding) == ("clear", 100)
    # the region covers 600 of 1000 mm
    (finding,) = judged("tanked", GRID, layers=tanked, region=Region(x=0, y=0, width=600, height=1000))
    assert told(finding) == ("tight", 60)


def test_a_bare_wall_has_nothing_to_judge_but_what_covers_its_holes() -> None:
    assert {finding.rule for finding in tiling(plan_of(bare(outlet(500))))} == {"tiling.cover", "tiling.room"}


def test_mosaic_beyond_counting_is_said_and_not_raised() -> None:
    (finding,) = judged("least_cut", Tiling(wide=5, high=5, joint=1))
    assert finding.status == "refer"
    assert "more than 20000" in finding.message
