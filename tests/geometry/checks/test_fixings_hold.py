"""What holds a fixing screw: its depth behind the recess, the wall left behind its tip, plugs."""

from typing import get_args

import pytest

from geometry.checks.fixings import fixings
from geometry.finding import Status
from geometry.fixings import PLUG
from geometry.model import Finish, FinishArea, Fitting, Layer
from geometry.model.wall import MakeUp
from tests.geometry.checks.screwed import outlet, rail, said, studded, valve, wall
from tests.geometry.checks.walls import bare, plan_of, told

FITTED = ("clear", "tight")


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


def test_a_stud_wall_has_no_plug_to_hold() -> None:
    rules = {finding.rule for finding in fixings(plan_of(studded(2000)))}
    assert rules == {"fixings.plug", "fixings.leaf", "fixings.stud_edge", "fixings.tile_edge"}
