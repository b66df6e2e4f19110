"""Fixing screws: what holds them, what they must not reach, and their tiles.

Of the parts used: the rail's screws go 45 deep behind the bare face, 25 and 675 above its foot, 6 wide. The
outlet's go 70 deep, 20 either side of its centre, in a pocket 50 square; those of the valve 100 deep, at
-50 / -50 and 50 / 50 in a box 120 square. Chases are 39 wide and 33 deep: 15 + 2 x 4 + 2 x 8; 5 + 23 + 5.
"""

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.fixings import fixings
from geometry.edits.moves import mirrored_wall
from geometry.finding import Finding, Status
from geometry.fixings import PLUG, to_tile_edge
from geometry.model import (
    Finish,
    FinishArea,
    Fitting,
    HoseOutlet,
    Job,
    Layer,
    Opening,
    Pipe,
    Rail,
    Region,
    Stud,
    Tiling,
    Valve,
    Wall,
)
from geometry.model.finish import Bond
from geometry.model.wall import MakeUp
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import OutletPart, Screw
from geometry.rules import standard_rules
from tests.geometry.checks.walls import bare, found, jobs, only, plan_of, told

TILED = FinishArea(id="all", layers=(Layer(kind="adhesive", thickness=5), Layer(kind="tile", thickness=9)))
FITTED = ("clear", "tight")


def rail(x: float = 2000, foot: float = 1000) -> Rail:
    return Rail(id="rail", part="rail-700", x=x, height=foot)


def outlet(recess: float | None = None, x: float = 2000, y: float = 1000) -> HoseOutlet:
    return HoseOutlet(id="outlet", part="outlet-round", x=x, height=y, recess=recess)


def valve(recess: float | None = None, x: float = 2000, y: float = 1000) -> Valve:
    return Valve(id="valve", part="valve-one-round", x=x, height=y, recess=recess)


def wall(thickness: float = 140, make_up: MakeUp = "dense_block", shell: float | None = None) -> Wall:
    return Wall(
        width=4000, height=2400, thickness=thickness, make_up=make_up, shell=shell,
        left="free_end", right="free_end",
    )  # fmt: skip


def said(job: Job, rule: str) -> Finding:
    return only(fixings, f"fixings.{rule}", job)


# hold


@pytest.mark.parametrize(
    ("fitting", "hold"),
    [
        (rail(), 45),  # from the bare face
        (outlet(40), 30),  # 70 - 40
        (valve(70), 30),  # 100 - 70
        (valve(0), 100),
    ],
)
def test_a_screw_holds_behind_its_recess(fitting: Fitting, hold: float) -> None:
    finding = said(bare(fitting), "hold")
    assert (finding.status in FITTED, finding.measured) == (True, hold)


@pytest.mark.parametrize(
    ("fitting", "said_of"),
    [(outlet(40.1), "70.1 to 125"), (valve(70.1), "100.1 to 125")],  # 40.1 + 30, 70.1 + 30; 140 - 15
)
def test_a_screw_that_holds_too_little_says_which_one_suits(fitting: Fitting, said_of: str) -> None:
    finding = said(bare(fitting), "hold")
    assert told(finding) == ("clash", 29.9)
    assert f"Use one that ends {said_of} mm behind the bare face." in finding.message


def test_no_plain_screw_suits_a_leaf_that_is_too_thin() -> None:
    # 40 + 30 behind, 15 to be left: 85; the leaf has 84
    assert "No plain screw suits" in said(bare(outlet(40), wall=wall(84)), "leaf").message


def test_only_the_shell_of_a_hollow_block_holds() -> None:
    # the rail's screw goes 45 deep, but the shell is 29.9 thick
    thin = said(bare(rail(), wall=wall(140, "hollow_block", 29.9)), "hold")
    assert told(thin) == ("tight", 29.9)
    assert "resin" in thin.message
    assert said(bare(rail(), wall=wall(140, "hollow_block", 33)), "hold").status == "clear"
    assert said(bare(rail(), wall=wall(140, "hollow_block")), "hold").measured == 45


# leaf


@pytest.mark.parametrize(
    ("fitting", "thickness", "status", "left"),
    [
        (rail(), 60, "tight", 15),  # 60 - 45
        (rail(), 59.9, "clash", 14.9),
        (valve(50), 115, "tight", 15),  # 115 - 100
        (valve(50), 114.9, "clash", 14.9),
        (valve(50), 120, "clear", 20),
    ],
)
def test_wall_left_behind_the_tip(fitting: Fitting, thickness: float, status: Status, left: float) -> None:
    assert told(said(bare(fitting, wall=wall(thickness)), "leaf")) == (status, left)


def test_a_screw_that_goes_through_the_wall_says_which_one_suits() -> None:
    finding = said(bare(valve(50), wall=wall(96)), "leaf")
    assert told(finding) == ("clash", -4)
    # 50 + 30; 96 - 15
    assert finding.message == (
        "Screws of valve: go 4 mm through the wall of 96 mm. "
        "Use one that ends 80 to 81 mm behind the bare face."
    )


def test_in_a_stud_wall_a_screw_that_is_too_long_is_a_hint() -> None:
    # 89 - 100; 89 - 15
    finding = said(bare(valve(50), wall=wall(89, "timber_stud")), "leaf")
    assert told(finding) == ("tight", -11)
    assert "within 74 mm of the face of the studs" in finding.message


# chases and other recesses


def beside_chase(apart: float, depth: float | None = None) -> Job:
    """The rail's screws so far from the chase of a pipe that comes straight up to a valve."""
    # port at 1955; half the chase 19.5, half the screw 3
    pipe = Pipe(id="hot", service="hot", end="valve.hot", route=((1955, 0),), depth=depth)
    return bare(valve(), rail(1955 - 19.5 - 3 - apart, 100), pipes=[pipe])


@pytest.mark.parametrize(
    ("apart", "status"), [(20, "clear"), (19.9, "tight"), (10, "tight"), (9.9, "clash"), (0, "clash")]
)
def test_screw_beside_a_chase(apart: float, status: Status) -> None:
    assert told(said(beside_chase(apart), "filled")) == (status, apart)


def test_a_screw_in_a_chase_has_no_hold() -> None:
    finding = said(beside_chase(-22.5), "filled")  # on its axis
    assert finding.status == "clash"
    assert finding.parts == ("rail", "hot")
    assert finding.message.endswith("What is filled does not hold a screw.")


def test_a_screw_that_holds_behind_a_shallow_chase_does_not_mind_it() -> None:
    pipe = Pipe(id="hot", service="hot", end="valve.hot", route=((1955, 0),), wrap=0, depth=2.5)
    # without wrap: 2.5 + 7.5 + 5 = 15 deep, and 45 - 15 = 30 holds
    job = bare(valve(), rail(1955, 100), pipes=[pipe])
    assert found(fixings, "fixings.filled", job)[0].status == "clear"
    deeper = job.but(pipes=(pipe.but(depth=2.6),))
    assert found(fixings, "fixings.filled", deeper)[0].status == "clash"


def test_own_recess_and_the_chase_that_leads_into_it_are_no_fault() -> None:
    # the branch ends between the outlet's screws, but the pocket is deeper than its chase
    pipe = Pipe(id="branch", service="mixed", end="outlet.in", route=((500, 1000),))
    assert said(bare(outlet(40), pipes=[pipe]), "filled").status == "clear"


def test_a_screw_that_begins_to_hold_behind_a_chase_is_not_weakened_by_it() -> None:
    # a chase of 25.5 + 11.5 + 5 = 42 leads to a pocket 45 deep
    pipe = Pipe(id="branch", service="mixed", end="outlet.in", route=((500, 1000),), depth=25.5)
    assert said(bare(outlet(45), pipes=[pipe]), "filled").status == "clear"


def test_a_screw_beside_its_own_pocket_holds_from_the_face_on() -> None:
    # 30 - 2.5 - 25 beside a pocket 50 wide
    part = generic_parts().find("outlet-round", OutletPart)
    wide = part.but(id="outlet-wide", screws=(Screw(x=30, diameter=5, depth=45),))
    job = bare(outlet(40).but(part="outlet-wide"))
    judged = {f.rule: f for f in fixings(plan_of(job, generic_parts().with_own([wide])))}
    assert told(judged["fixings.hold"]) == ("clear", 45)
    assert told(judged["fixings.filled"]) == ("clear", None)


def test_a_screw_in_another_recess_has_no_hold() -> None:
    # the lower screw of the rail at 975 + 25, in the middle of the valve's box
    finding = said(bare(valve(), rail(2000, 975)), "filled")
    assert (finding.status, finding.parts) == ("clash", ("rail", "valve"))


# edges of the wall


@pytest.mark.parametrize(("x", "status"), [(63, "clear"), (62.9, "tight")])
def test_a_screw_keeps_from_a_free_end(x: float, status: Status) -> None:
    finding = said(bare(rail(x)), "edge")
    assert told(finding) == (status, round(x - 3, 1))


def test_a_screw_keeps_from_an_opening() -> None:
    # 2000 + 3 + 59.9
    opening = Opening(id="hatch", x=2062.9, y=900, width=300, height=300)
    finding = said(bare(rail(), openings=[opening]), "edge")
    assert (told(finding), finding.parts) == (("tight", 59.9), ("rail", "hatch"))


def test_a_corner_is_no_edge() -> None:
    closed = Wall(width=4000, height=2400, thickness=140)
    assert told(said(bare(rail(10), wall=closed), "edge")) == ("clear", None)


# studs


def studded(x: float, make_up: MakeUp = "timber_stud") -> Job:
    return bare(rail(2000), services=[Stud(id="stud", x=x, wide=38)], wall=wall(89, make_up))


@pytest.mark.parametrize(("off", "status"), [(0, "clear"), (6, "clear"), (-6, "clear"), (6.1, "tight")])
def test_timber_beside_a_screw(off: float, status: Status) -> None:
    # 38 / 2 - 3 - off; 10 at least
    finding = said(studded(2000 + off), "stud_edge")
    assert told(finding) == (status, round(16 - abs(off), 1))


def test_a_screw_between_studs_or_in_metal_is_no_matter_of_edges() -> None:
    assert said(studded(2300), "stud_edge").measured is None
    assert said(studded(2010, "metal_stud"), "stud_edge").measured is None


def test_a_stud_wall_has_no_plug_to_hold() -> None:
    rules = {finding.rule for finding in fixings(plan_of(studded(2000)))}
    assert rules == {"fixings.plug", "fixings.leaf", "fixings.stud_edge", "fixings.tile_edge"}


# plugs


@pytest.mark.parametrize("make_up", get_args(MakeUp))
def test_every_wall_is_told_its_plug(make_up: MakeUp) -> None:
    message = said(bare(rail(), wall=wall(make_up=make_up)), "plug").message
    assert PLUG[make_up] in message


def test_the_screw_through_the_finish_is_longer_by_it() -> None:
    # 30 in the wall and 14 of finish, of which the adhesive may be 1 more
    adhesive = Layer(kind="adhesive", thickness=5, tolerance=1)
    area = FinishArea(id="all", layers=(adhesive, Layer(kind="tile", thickness=9)))
    message = said(bare(rail()).but(finish=Finish(areas=(area,))), "plug").message
    assert "rail: 45 mm or more under what it holds, with up to 15 mm of finish." in message


def test_without_screws_nothing_is_fixed() -> None:
    assert told(said(bare(), "hold")) == ("clear", None)


# tiles: 300 x 600, joints 3, the first at 0 / 0; the rail's lower screw is 25 above its foot


def tiled(x: float, foot: float = 1260, **tiling: object) -> Finding:
    # screws at 1285 and 1935: 79 and 126 above the joints under them
    finish = Finish(areas=(TILED,), tiling=Tiling(**tiling))  # type: ignore[arg-type]
    return said(bare(rail(x, foot)).but(finish=finish), "tile_edge")


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


def test_behind_no_tile_there_is_no_edge() -> None:
    panel = FinishArea(id="all", layers=(Layer(kind="panel", thickness=10),))
    job = bare(rail())
    for finish in (Finish(), Finish(areas=(TILED,)), Finish(areas=(panel,), tiling=Tiling())):
        assert told(said(job.but(finish=finish), "tile_edge")) == ("clear", None)


def test_screws_in_a_recess_go_through_no_tile() -> None:
    job = bare(valve(), outlet(x=3000)).but(finish=Finish(areas=(TILED,), tiling=Tiling()))
    assert told(said(job, "tile_edge")) == ("clear", None)


# properties


def everything(job: Job) -> list[tuple[object, ...]]:
    return sorted(
        (f.rule, f.status, f.measured is None or f.measured)
        for f in fixings(plan_of(job))
        if f.rule != "fixings.filled"  # hot and cold change places in the mirror
    )


@given(st.integers(100, 3900), st.integers(1000, 1700), st.integers(0, 302), st.booleans())
def test_mirrored_it_says_the_same(x: int, foot: int, start: int, tiles: bool) -> None:
    finish = Finish(areas=(TILED,), tiling=Tiling(start_x=start) if tiles else None)
    job = bare(rail(x, foot)).but(finish=finish)
    assert everything(job) == everything(mirrored_wall(job))


@given(st.integers(0, 60), st.integers(60, 200), st.integers(1, 60))
def test_a_deeper_recess_or_a_thinner_wall_never_clears_a_finding(deep: int, thickness: int, by: int) -> None:
    order = ("clear", "tight", "refer", "clash")

    def worst(job: Job) -> int:
        return max(order.index(f.status) for f in fixings(plan_of(job)))

    before = worst(bare(outlet(deep), wall=wall(thickness)))
    assert worst(bare(outlet(deep + by), wall=wall(thickness))) >= before
    assert worst(bare(outlet(deep), wall=wall(max(10, thickness - by)))) >= before


@given(jobs(), st.integers(0, 50))
def test_a_stricter_rule_leaves_no_fewer_faults(job: Job, stricter: int) -> None:
    limits = {
        rule.rule: rule.value + stricter
        for rule in standard_rules()
        if rule.rule in ("fixings.hold", "fixings.leaf", "fixings.filled", "fixings.edge")
    }
    loose, strict = (
        {
            (f.rule, owner)
            for f in fixings(plan_of(job, limits=held))
            if f.status == "clash"
            for owner in f.parts
        }
        for held in ({}, limits)
    )
    assert loose <= strict
