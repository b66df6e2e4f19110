"""Shaping routes by hand: corners and legs moved, added and removed, and pipes drawn.

The valve of the suggested job stands at (380, 1030); its part has the inlets 45 mm either side and 70 mm
below the centre, pointing down, and its outlets 70 mm above and 65 mm to the side.
"""

import pytest

from geometry.edits.refs import Ref
from geometry.edits.routes import (
    corner_added,
    corner_moved,
    corner_removed,
    corners,
    leg_moved,
    legs,
    nearest_on,
    pipe_drawn,
)
from geometry.model import XY, Job, Pipe
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job


def plan_with(*pipes: Pipe) -> Plan:
    return plan_of(suggested_job(760, 760, "left").but(pipes=pipes))


def plan_of(job: Job) -> Plan:
    return Plan(job, generic_parts(), standard_rules())


def hot(*route: XY) -> Pipe:
    return Pipe(id="hot", service="hot", end="valve.hot", route=route)


def riser(*route: XY) -> Pipe:
    return Pipe(id="riser", service="mixed", start="valve.out1", end="head.in", route=route)


def route_of(job: Job, pipe_id: str) -> tuple[XY, ...]:
    return next(pipe.route for pipe in job.pipes if pipe.id == pipe_id)


# corners and legs


def test_the_feed_is_a_corner_and_the_ports_are_none() -> None:
    plan = plan_with(hot((100.0, 0.0), (100.0, 500.0), (335.0, 500.0)))
    assert corners(plan, "hot") == ((100.0, 0.0), (100.0, 500.0), (335.0, 500.0))
    assert legs(plan, "hot")[-1] == ((335.0, 500.0), (335.0, 960.0))


def test_a_corner_that_follows_from_the_ports_can_be_moved_too() -> None:
    # out2 at (445, 1030) points right: the pipe turns once where it is plumb with the point at x 500
    branch = Pipe(id="branch", service="mixed", start="valve.out2", end="outlet.in", route=((500.0, 1200.0),))
    plan = plan_with(branch)
    assert corners(plan, "branch")[0] == (500.0, 1030.0)
    after = corner_moved(plan, "branch", 0, (510.0, 1030.0))
    assert route_of(after, "branch")[0] == (510.0, 1030.0)


def test_moving_a_corner_leaves_the_others_and_keeps_the_grid() -> None:
    plan = plan_with(hot((100.0, 0.0), (100.0, 500.0), (335.0, 500.0)))
    after = corner_moved(plan, "hot", 1, (120.04, 500.26))
    assert route_of(after, "hot") == ((100.0, 0.0), (120.0, 500.3), (335.0, 500.0))


def test_a_corner_is_added_where_the_leg_is_nearest() -> None:
    plan = plan_with(hot((335.0, 0.0)))
    after = corner_added(plan, "hot", 0, (390.0, 400.0))
    assert route_of(after, "hot") == ((335.0, 0.0), (335.0, 400.0))


def test_a_corner_is_added_between_two_ports() -> None:
    after = corner_added(plan_with(riser()), "riser", 0, (300.0, 1500.0))
    assert route_of(after, "riser") == ((380.0, 1500.0),)


def test_an_added_corner_is_taken_away_again() -> None:
    plan = plan_with(hot((100.0, 0.0), (100.0, 500.0), (335.0, 500.0)))
    added = plan_of(corner_added(plan, "hot", 1, (200.0, 500.0)))
    assert corners(added, "hot")[2] == (200.0, 500.0)
    assert corner_removed(added, "hot", 2) == plan.job


def test_the_feed_cannot_be_taken_away_if_nothing_takes_its_place() -> None:
    with pytest.raises(ValueError, match="hot is fed from its first point"):
        corner_removed(plan_with(hot((335.0, 0.0))), "hot", 0)


def test_nearest_on_a_leg_never_lies_past_its_ends() -> None:
    leg = ((100.0, 0.0), (100.0, 500.0))
    assert nearest_on(leg, (130.0, 250.0)) == (100.0, 250.0)
    assert nearest_on(leg, (130.0, 900.0)) == (100.0, 500.0)
    assert nearest_on(leg, (130.0, -40.0)) == (100.0, 0.0)


# legs moved


def test_a_level_leg_moves_up_and_its_plumb_neighbours_stretch() -> None:
    plan = plan_with(hot((100.0, 0.0), (100.0, 500.0), (335.0, 500.0)))
    after = leg_moved(plan, "hot", 1, (40.0, 60.0))  # only the 60 up counts
    assert route_of(after, "hot") == ((100.0, 0.0), (100.0, 560.0), (335.0, 560.0))


def test_the_leg_of_the_feed_takes_the_feed_with_it() -> None:
    plan = plan_with(hot((100.0, 0.0), (100.0, 500.0), (335.0, 500.0)))
    after = leg_moved(plan, "hot", 0, (-30.0, 10.0))
    assert route_of(after, "hot") == ((70.0, 0.0), (70.0, 500.0), (335.0, 500.0))


def test_a_leg_into_a_port_keeps_a_straight_run_and_jogs() -> None:
    after = leg_moved(plan_with(hot((335.0, 0.0))), "hot", 0, (-35.0, 0.0))
    # 30 mm straight and 10 mm over, so that it is not tight: the port at y 960 less 40
    assert route_of(after, "hot") == ((300.0, 0.0), (300.0, 920.0), (335.0, 920.0))


def test_a_leg_between_two_ports_jogs_at_both() -> None:
    after = leg_moved(plan_with(riser()), "riser", 0, (50.0, 0.0))
    # from 1100 + 40 to 2190 - 40
    assert route_of(after, "riser") == (
        (380.0, 1140.0),
        (430.0, 1140.0),
        (430.0, 2150.0),
        (380.0, 2150.0),
    )


def test_a_piece_of_a_straight_leg_moves_aside_by_itself() -> None:
    plan = plan_with(riser((380.0, 1400.0), (380.0, 1600.0)))
    after = leg_moved(plan, "riser", 1, (80.0, 0.0))
    assert route_of(after, "riser") == (
        (380.0, 1400.0),
        (460.0, 1400.0),
        (460.0, 1600.0),
        (380.0, 1600.0),
    )


def test_a_leg_moved_there_and_back_is_the_leg_it_was() -> None:
    plan = plan_with(hot((100.0, 0.0), (100.0, 500.0), (335.0, 500.0)))
    there = plan_of(leg_moved(plan, "hot", 1, (0.0, 75.0)))
    assert leg_moved(there, "hot", 1, (0.0, -75.0)) == plan.job


def test_moved_legs_stay_plumb_or_level() -> None:
    plan = plan_with(hot((100.0, 0.0), (100.0, 500.0), (335.0, 500.0)))
    for leg in range(3):
        moved = plan_of(leg_moved(plan, "hot", leg, (33.0, 21.0)))
        assert all(a[0] == b[0] or a[1] == b[1] for a, b in legs(moved, "hot"))


# drawing


def test_a_pipe_drawn_from_feed_to_port() -> None:
    job, ref = pipe_drawn(plan_with().job, "cold", None, [(425.0, 0.0), (425.0, 500.0)], "valve.cold")
    assert ref == Ref("pipe", "cold")
    assert job.pipes == (
        Pipe(id="cold", service="cold", end="valve.cold", route=((425.0, 0.0), (425.0, 500.0))),
    )


def test_a_pipe_drawn_from_a_port_to_its_feed_is_turned_round() -> None:
    job, _ = pipe_drawn(plan_with().job, "hot", "valve.hot", [(335.0, 500.0), (335.0, 0.0)], None)
    assert job.pipes == (
        Pipe(id="hot", service="hot", end="valve.hot", route=((335.0, 0.0), (335.0, 500.0))),
    )


def test_a_second_pipe_of_the_same_water_gets_a_name_of_its_own() -> None:
    job, ref = pipe_drawn(plan_with(hot((335.0, 0.0))).job, "hot", None, [(10.0, 0.0)], "valve.hot")
    assert ref == Ref("pipe", "hot-2")
    assert len(job.pipes) == 2


@pytest.mark.parametrize(
    ("service", "start", "says"),
    [("hot", None, "must join a port"), ("mixed", "valve.out1", "mixed water must join a port at each end")],
)
def test_a_pipe_that_joins_too_little_is_refused(service: str, start: str | None, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        pipe_drawn(plan_with().job, service, start, [(0.0, 0.0), (10.0, 0.0)], None)  # type: ignore[arg-type]
