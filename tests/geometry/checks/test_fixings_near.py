"""What fixing screws must keep from: chases, other recesses, edges of the wall and of studs."""

import pytest

from geometry.checks.fixings import fixings
from geometry.finding import Status
from geometry.model import Job, Opening, Pipe, Wall
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import OutletPart, Screw
from tests.geometry.checks.screwed import outlet, rail, said, studded, valve
from tests.geometry.checks.walls import bare, found, plan_of, told

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


# edges of studs


@pytest.mark.parametrize(("off", "status"), [(0, "clear"), (6, "clear"), (-6, "clear"), (6.1, "tight")])
def test_timber_beside_a_screw(off: float, status: Status) -> None:
    # 38 / 2 - 3 - off; 10 at least
    finding = said(studded(2000 + off), "stud_edge")
    assert told(finding) == (status, round(16 - abs(off), 1))


def test_a_screw_between_studs_or_in_metal_is_no_matter_of_edges() -> None:
    assert said(studded(2300), "stud_edge").measured is None
    assert said(studded(2010, "metal_stud"), "stud_edge").measured is None
