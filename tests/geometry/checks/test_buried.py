"""Joints in the wall, isolating valves and notice.

The valve's centre is at 1000 / 1000. Its box is 120 square with 25 more below for nuts: the recess begins at
1000 - 60 - 25 = 915 and is from 940 to 1060 wide. Its hot port is at 955 / 940 and points down.
"""

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.buried import buried, joints
from geometry.edits.moves import mirrored_wall
from geometry.finding import Status
from geometry.model import Head, Hose, HoseOutlet, House, Job, Pipe, Rail, Valve, Wall
from geometry.model.house import Isolation
from geometry.model.record import XY
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.walls import bare, found, only, plan_of, told

RULE = "water.buried_joint"


def hot(*route: XY, wall: Wall | None = None, tube: str = "copper-15") -> Job:
    valve = Valve(id="valve", part="valve-one-round", x=1000, height=1000)
    return bare(
        valve, pipes=[Pipe(id="hot", service="hot", end="valve.hot", route=route, tube=tube)], wall=wall
    )


def count(job: Job) -> int:
    return len(joints(plan_of(job))["hot"])


@pytest.mark.parametrize(
    ("route", "expected"),
    [
        (((955, 0),), 0),  # straight up to the port
        (((955, 0), (955, 300), (955, 600)), 0),  # points on the way
        (((800, 0), (800, 500), (955, 500)), 2),
        (((800, 0), (800, 915), (955, 915)), 1),  # the second turn just in the recess
        (((800, 0), (800, 914.9), (955, 914.9)), 2),  # and just below it
        (((955, 500),), 1),  # on a pipe that is there already
        (((0, 500), (955, 500)), 1),  # in through the left edge, one turn
        (((955, 2400), (955, 2000), (800, 2000), (800, 500), (955, 500)), 4),  # down from the ceiling
    ],
)
def test_joints_are_turns_and_tees_outside_the_recess(route: tuple[XY, ...], expected: int) -> None:
    assert count(hot(*route)) == expected


def test_a_bent_tube_has_no_joint_where_it_turns() -> None:
    job = hot((955, 500), (800, 500), (800, 700), (955, 700))
    (pipe,) = job.pipes
    assert count(job) == 4
    assert count(job.but(pipes=(pipe.but(turns="bends"),))) == 1  # the tee where it starts


def test_a_slanting_turn_is_bent_whatever_is_said() -> None:
    # 45 degrees twice; 155 across and 2 up is 0.7 degrees off level, as good as square
    assert count(hot((800, 0), (800, 345), (955, 500))) == 0
    assert count(hot((800, 0), (800, 500), (955, 502))) == 2


def test_a_straight_pipe_is_clear() -> None:
    finding = only(buried, RULE, hot((955, 0)))
    assert told(finding) == ("clear", 0)
    assert finding.message == "No joint of hot is buried."


def test_buried_joints_are_referred_with_the_ways_out() -> None:
    finding = only(buried, RULE, hot((800, 0), (800, 500), (955, 500)))
    assert told(finding) == ("refer", 2)
    assert finding.place == ((800, 500), (955, 500))
    assert finding.message == (
        "hot has 2 joints outside the recesses, buried in a solid wall. Ways out: bend the tube, to 60 mm "
        "radius, lead the pipe so that it turns in a recess, or have the joints tested under pressure before "
        "a witness. The water company or a licensed plumber decides."
    )


def test_a_bend_is_four_times_as_wide_as_the_tube() -> None:
    # 4 x 22, a bender's radius (plumbing textbook)
    finding = only(buried, RULE, hot((800, 0), (800, 500), (955, 500), tube="copper-22"))
    assert "to 88 mm radius" in finding.message


def test_a_stud_wall_may_hold_joints() -> None:
    wall = Wall(width=4000, height=2400, thickness=100, make_up="timber_stud")
    finding = only(buried, RULE, hot((800, 0), (800, 500), (955, 500), wall=wall))
    assert told(finding) == ("tight", 2)


def test_pipes_without_joints_share_a_finding() -> None:
    job = suggested_job(760, 760, "left")
    assert [finding.parts for finding in found(buried, RULE, job)] == [("hot", "cold", "riser", "branch")]


def test_without_pipes_nothing_is_buried() -> None:
    assert told(only(buried, RULE, bare())) == ("clear", None)


@given(st.integers(100, 1800), st.integers(50, 900))
def test_mirrored_it_has_as_many_joints(x: int, y: int) -> None:
    # hot stays on the left of a valve, so hot and cold change courses in the mirror
    cold = Pipe(id="cold", service="cold", end="valve.cold", route=((1045, 0),))
    job = hot((x, 0), (x, y), (955, y))
    job = job.but(pipes=(*job.pipes, cold))
    here, there = joints(plan_of(job)), joints(plan_of(mirrored_wall(job)))
    assert (len(here["hot"]), len(here["cold"])) == (len(there["cold"]), len(there["hot"]))


@given(st.integers(100, 900), st.integers(50, 900), st.integers(1, 99))
def test_a_point_on_the_way_is_no_joint(x: int, y: int, share: int) -> None:
    assert count(hot((x, 0), (x, y * share / 100), (x, y), (955, y))) == count(hot((x, 0), (x, y), (955, y)))


# isolating valves

ISOLATION: list[tuple[Isolation, Status]] = [
    ("not_known", "refer"),
    ("behind_plate", "clear"),
    ("accessible", "clear"),
    ("none", "clash"),
]


@pytest.mark.parametrize(("stated", "status"), ISOLATION)
def test_where_the_supplies_are_shut_off(stated: Isolation, status: Status) -> None:
    job = hot((955, 0)).but(house=House(isolation=stated))
    assert only(buried, "water.isolation", job).status == status


def test_every_answer_is_in_the_table() -> None:
    assert {row[0] for row in ISOLATION} == set(get_args(Isolation))


def test_without_a_valve_there_is_nothing_to_shut_off() -> None:
    assert found(buried, "water.isolation", bare()) == []


# notice


def heads(number: int) -> Job:
    fitted = [Head(id=f"head{n}", part="head-wall-200", x=500 * n, height=2200) for n in range(number)]
    pipes = [Pipe(id=f"p{n}", service="mixed", start="valve.out1", end=f"head{n}.in") for n in range(number)]
    return bare(Valve(id="valve", part="valve-one-round", x=1000, height=1000), *fitted, pipes=pipes)


@pytest.mark.parametrize(("number", "status"), [(0, "clear"), (1, "clear"), (2, "refer"), (3, "refer")])
def test_more_than_one_head_on_a_valve_wants_notice(number: int, status: Status) -> None:
    assert told(only(buried, "water.notice", heads(number))) == (status, number)


def test_a_handset_counts_as_a_head() -> None:
    job = heads(1)
    job = job.but(
        fittings=(
            *job.fittings,
            HoseOutlet(id="outlet", part="outlet-round", x=1500, height=1000),
            Rail(id="rail", part="rail-700", x=1500, height=1100),
        ),
        pipes=(*job.pipes, Pipe(id="branch", service="mixed", start="valve.out1", end="outlet.in")),
    )
    assert told(only(buried, "water.notice", job)) == ("clear", 1)
    hung = job.but(hoses=(Hose(id="hose", part="hose-1500", outlet="outlet", rail="rail"),))
    finding = only(buried, "water.notice", hung)
    assert (told(finding), finding.parts) == (("refer", 2), ("valve", "head0", "outlet"))


def test_heads_on_two_valves_are_counted_apart() -> None:
    job = heads(1)
    other = Valve(id="other", part="valve-one-round", x=3000, height=1000)
    head = Head(id="second", part="head-wall-200", x=3000, height=2200)
    pipe = Pipe(id="second-pipe", service="mixed", start="other.out1", end="second.in")
    job = job.but(fittings=(*job.fittings, other, head), pipes=(*job.pipes, pipe))
    assert told(only(buried, "water.notice", job)) == ("clear", 1)
