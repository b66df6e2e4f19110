"""What lies behind the face.

Sizes in the sums, on a bare wall: head's pocket 50 x 50 and 50 deep; valve's recess 120 wide and 72 deep;
a 15 mm pipe with 4 of wrap is 23 across and lies with its axis 5 + 11.5 = 16.5 deep; its chase is 39 wide;
rail's screws 6 across and 45 deep, 25 and 675 above its foot.
"""

import pytest

from geometry.checks.behind import behind
from geometry.model import Head, HoseOutlet, Joist, Pipe, Rail, Stud, Valve, Wall
from geometry.model.record import XY
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.walls import bare, found, only, plan_of, told


def head(x: float, height: float = 2000, name: str = "head") -> Head:
    return Head(id=name, part="head-wall-200", x=x, height=height)


def valve(x: float, height: float = 1200) -> Valve:
    return Valve(id="valve", part="valve-one-round", x=x, height=height)


def rail(x: float, height: float = 1100) -> Rail:
    return Rail(id="rail", part="rail-700", x=x, height=height)


def up(x: float, name: str = "pipe", to: str = "head.in", depth: float | None = None) -> Pipe:
    """Return a pipe plumb up from the floor to 1500, and from there level and plumb to its port."""
    return Pipe(id=name, service="mixed", end=to, route=((x, 0), (x, 1500)), depth=depth)


# recesses to each other


def test_pockets_exactly_at_the_minimum_from_each_other_pass() -> None:
    # 100 between centres, less 25 and 25
    assert told(only(behind, "behind.boxes", bare(head(1000), head(1100, name="b")))) == ("tight", 50)


def test_pockets_a_tenth_nearer_clash() -> None:
    finding = only(behind, "behind.boxes", bare(head(1000), head(1099.9, name="b")))
    assert told(finding) == ("clash", 49.9)
    assert finding.message == "Pocket of head is 49.9 mm from the pocket of b; 50 mm is wanted."
    assert finding.place == ((1025, 2000), (1099.9 - 25, 2000))


def test_a_recess_takes_in_the_room_to_turn_a_nut() -> None:
    # the valve's outlet points up: recess to 1200 + 60 + 25; pocket from 1400 - 25
    finding = only(behind, "behind.boxes", bare(valve(1000), head(1000, 1400)))
    assert told(finding) == ("clear", 90)


def test_pockets_that_run_into_each_other_say_how_deep() -> None:
    # 30 between centres: 20 over each other along the wall; 50 in depth
    finding = only(behind, "behind.boxes", bare(head(1000), head(1030, name="b")))
    assert told(finding) == ("clash", -20)


# pipes side by side


def test_pipes_exactly_at_the_minimum_beside_each_other_pass() -> None:
    # two pipes to heads far apart, 28 between axes: less 23
    job = bare(head(500), head(3000, name="b"), pipes=[up(1000), up(1028, "other", "b.in")])
    assert told(only(behind, "behind.pipes", job)) == ("tight", 5)


def test_pipes_a_tenth_nearer_clash() -> None:
    job = bare(head(500), head(3000, name="b"), pipes=[up(1000), up(1027.9, "other", "b.in")])
    finding = only(behind, "behind.pipes", job)
    assert told(finding) == ("clash", 4.9)
    assert finding.message == "Pipe is 4.9 mm from the pipe other; 5 mm is wanted."


def test_pipes_beside_each_other_are_measured_in_depth_too() -> None:
    # 3 beside each other, 43.5 - 16.5 - 23 = 4 one behind the other (3-4-5)
    job = bare(head(500), head(3000, name="b"), pipes=[up(1000), up(1026, "other", "b.in", 43.5)])
    assert told(only(behind, "behind.pipes", job)) == ("tight", 5)


def test_pipes_that_cross_are_left_to_the_check_of_crossings() -> None:
    level = Pipe(id="level", service="mixed", end="b.in", route=((0, 700), (3000, 700)))
    job = bare(head(1000), head(3000, name="b"), pipes=[up(1000), level])
    finding = only(behind, "behind.pipes", job)
    assert finding.status == "clear"


def test_pipes_that_cross_and_then_run_beside_each_other_are_judged_where_they_do() -> None:
    # It crosses at 700, turns up 26 past the other pipe's axis, runs beside it to 1400 and away: 26 - 23.
    zigzag = Pipe(
        id="zigzag",
        service="mixed",
        end="b.in",
        route=((0, 700), (1026, 700), (1026, 1400), (3000, 1400)),
    )
    job = bare(head(1000, 1900), head(3000, name="b"), pipes=[up(1000), zigzag])
    finding = only(behind, "behind.pipes", job)
    assert told(finding) == ("clash", 3)
    assert set(finding.parts) == {"pipe", "zigzag"}


def test_pipes_of_one_valve_may_be_near_each_other_inside_its_recess() -> None:
    # Hot and cold part from feeds 200 apart at each side. They lie 90 apart where they enter the recess.
    pipes = [
        Pipe(id="hot", service="hot", end="valve.hot", route=((955, 0),)),
        Pipe(id="cold", service="cold", end="valve.cold", route=((1045, 0),)),
    ]
    # 90 between axes, less 23
    assert told(only(behind, "behind.pipes", bare(valve(1000), pipes=pipes))) == ("clear", 67)


def test_pipes_of_one_valve_are_judged_outside_its_recess() -> None:
    # hot comes plumb at 955; cold runs up 25 beside it and turns level at 1000 to its own port at 1045
    pipes = [
        Pipe(id="hot", service="hot", end="valve.hot", route=((955, 0),)),
        Pipe(id="cold", service="cold", end="valve.cold", route=((980, 0), (980, 1000))),
    ]
    finding = only(behind, "behind.pipes", bare(valve(1000), pipes=pipes))
    assert told(finding) == ("clash", 2)


# pipes and recesses, pipes and screws


def test_a_pipe_exactly_at_the_minimum_past_a_pocket_passes() -> None:
    # 1000 + 25 + 5 + 11.5
    job = bare(head(1000, 700), head(3000, name="b"), pipes=[up(1041.5, to="b.in")])
    assert told(only(behind, "behind.pipes", job)) == ("tight", 5)


def test_a_pipe_through_a_pocket_that_it_does_not_join_clashes() -> None:
    job = bare(head(1000, 700), head(3000, name="b"), pipes=[up(1000, to="b.in")])
    finding = only(behind, "behind.pipes", job)
    # The way out sideways is 25 + 11.5; out of the pocket forwards, 16.5 + 11.5 deep at its back, it is 28.
    assert told(finding) == ("clash", -28)
    assert finding.parts == ("head", "pipe")


def test_a_pipe_behind_a_pocket_is_measured_in_depth() -> None:
    # pocket 50 deep; axis 50 + 5 + 11.5
    job = bare(head(1000, 700), head(3000, name="b"), pipes=[up(1000, to="b.in", depth=66.5)])
    assert told(only(behind, "behind.pipes", job)) == ("tight", 5)


def test_a_pipe_may_run_into_the_pocket_that_it_joins() -> None:
    job = bare(head(1000, 2000), pipes=[up(1000)])
    assert told(only(behind, "behind.pipes", job)) == ("clear", None)


def test_a_screw_exactly_at_the_minimum_from_a_pipe_passes() -> None:
    # 3 + 5 + 11.5 along the wall; screws end 45 deep, pipe from 5 to 28
    job = bare(rail(1000), head(3000), pipes=[up(1019.5)])
    assert told(only(behind, "behind.pipes", job)) == ("tight", 5)


def test_a_screw_into_a_pipe_clashes() -> None:
    finding = only(behind, "behind.pipes", bare(rail(1000), head(3000), pipes=[up(1000)]))
    # way out sideways: 3 + 11.5
    assert told(finding) == ("clash", -14.5)
    assert finding.message == "Screw of rail and pipe overlap by 14.5 mm; 5 mm between them is wanted."


def test_a_screw_that_ends_in_front_of_a_deep_pipe_passes() -> None:
    # 45 + 5 + 11.5
    job = bare(rail(1000), head(3000), pipes=[up(1000, depth=61.5)])
    assert told(only(behind, "behind.pipes", job)) == ("tight", 5)


def test_the_screws_of_an_outlet_do_not_count_against_its_own_pipe() -> None:
    outlet = HoseOutlet(id="outlet", part="outlet-round", x=1000, height=1000)
    job = bare(outlet, pipes=[Pipe(id="pipe", service="mixed", end="outlet.in", route=((1000, 0),))])
    assert told(only(behind, "behind.pipes", job)) == ("clear", None)


# edges


def test_a_pocket_exactly_at_the_minimum_from_the_end_of_the_wall_passes() -> None:
    assert told(only(behind, "behind.edge", bare(head(75)))) == ("tight", 50)
    assert told(only(behind, "behind.edge", bare(head(3925)))) == ("tight", 50)


def test_a_pocket_a_tenth_nearer_to_an_edge_clashes() -> None:
    finding = only(behind, "behind.edge", bare(head(74.9)))
    assert told(finding) == ("clash", 49.9)
    assert finding.message == "Pocket of head is 49.9 mm from the left end of the wall; 50 mm is wanted."
    top = only(behind, "behind.edge", bare(head(1000, 2325.1)))
    assert (told(top), "ceiling" in top.message) == (("clash", 49.9), True)


def test_a_chase_exactly_at_the_minimum_from_the_end_of_the_wall_passes() -> None:
    # 69.5 less half of 39
    assert told(only(behind, "behind.edge", bare(head(1000), pipes=[up(69.5)]))) == ("tight", 50)
    finding = only(behind, "behind.edge", bare(head(1000), pipes=[up(69.4)]))
    assert told(finding) == ("clash", 49.9)
    assert finding.message == "Chase of pipe is 49.9 mm from the left end of the wall; 50 mm is wanted."


@pytest.mark.parametrize("at", [(0.0, 1000.0), (4000.0, 1000.0), (1000.0, 2400.0), (1000.0, 0.0)])
def test_a_pipe_may_come_in_at_the_edge_from_which_it_is_fed(at: XY) -> None:
    pipe = Pipe(id="pipe", service="mixed", end="head.in", route=(at, (1000, 1000)))
    finding = only(behind, "behind.edge", bare(head(1000, 2000), pipes=[pipe]))
    assert finding.status == "clear"


def test_a_pipe_that_comes_in_at_one_edge_keeps_off_it_afterwards() -> None:
    # in at the left end, then plumb up 60 from it: 60 - 19.5
    pipe = Pipe(id="pipe", service="mixed", end="head.in", route=((0, 1000), (60, 1000), (60, 1600)))
    finding = only(behind, "behind.edge", bare(head(1000, 2000), pipes=[pipe]))
    assert told(finding) == ("clash", 40.5)


def test_a_pipe_that_comes_up_from_the_floor_keeps_off_the_end_of_the_wall() -> None:
    assert told(only(behind, "behind.edge", bare(head(1000), pipes=[up(30)]))) == ("clash", 10.5)


def test_a_pipe_may_leave_the_wall_for_a_ceiling_arm() -> None:
    arm = Head(id="head", part="head-ceiling-250", x=1000, height=2400)
    # to the sides it is clear: 1000 - 19.5; a point on the way, at 1500, changes nothing
    assert told(only(behind, "behind.edge", bare(arm, pipes=[up(1000)]))) == ("clear", 980.5)


def test_in_a_stud_wall_it_is_the_pipe_and_not_a_chase_that_counts() -> None:
    # 61.5 - 11.5
    wall = Wall(width=4000, height=2400, thickness=90, make_up="timber_stud")
    assert told(only(behind, "behind.edge", bare(head(1000), pipes=[up(61.5)], wall=wall))) == ("tight", 50)


# timbers


def test_a_pocket_exactly_at_the_minimum_from_a_stud_passes() -> None:
    # stud 38 wide: 1000 - 19 - 5 - 25
    stud = Stud(id="stud", x=1000)
    assert told(only(behind, "behind.stud", bare(head(951), services=[stud]))) == ("tight", 5)
    finding = only(behind, "behind.stud", bare(head(951.1), services=[stud]))
    assert told(finding) == ("clash", 4.9)
    assert finding.message == "Pocket of head is 4.9 mm from the stud; 5 mm is wanted."


def test_a_pocket_exactly_at_the_minimum_under_a_noggin_passes() -> None:
    # timber 50 high: 2060 - 25 - 5 - 25
    noggin = Joist(id="noggin", height=2060, left=800, right=1200)
    assert told(only(behind, "behind.stud", bare(head(1000, 2005), services=[noggin]))) == ("tight", 5)
    assert told(only(behind, "behind.stud", bare(head(1000, 2005.1), services=[noggin]))) == ("clash", 4.9)


# whole jobs


def test_the_suggested_arrangement_is_clear_behind_the_face() -> None:
    findings = list(behind(plan_of(suggested_job(760, 760, "left"))))
    assert [finding.rule for finding in findings] == [
        "behind.boxes", "behind.pipes", "behind.edge", "behind.stud",
    ]  # fmt: skip
    assert {finding.status for finding in findings} == {"clear"}
    # recess to 380 + 65 + 25, pocket from 570 - 25; hot and cold 90 apart, less 23; pocket 595 of 760
    assert [finding.measured for finding in findings] == [75, 67, 165, None]


def test_each_pair_that_is_too_near_has_a_finding_of_its_own() -> None:
    job = bare(head(1000), head(1090, name="b"), head(1170, name="c"))
    findings = found(behind, "behind.boxes", job)
    assert [(f.parts, f.measured) for f in findings] == [(("b", "c"), 30), (("head", "b"), 40)]
