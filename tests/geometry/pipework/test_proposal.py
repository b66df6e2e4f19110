"""Proposed routes: clear of what they must keep off, from every side, ranked with reasons, or what blocks."""

import math
from collections.abc import Iterator
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.behind import behind
from geometry.checks.chases import chases
from geometry.checks.face import face
from geometry.finding import Finding
from geometry.model import Accessory, Job, Opening, Pipe, Pipework, Stud
from geometry.pipework.obstacles import Side
from geometry.pipework.proposal import applied, proposals, routed
from geometry.plan import Plan
from tests.export.jobs import planned, sample, usual
from tests.geometry.pipework.walls import USUAL, hot, with_pipes
from tests.samples import SAMPLES
from tests.strategies import jobs

SIDES: tuple[Side, ...] = ("below", "above", "left", "right")


def clashes(plan: Plan, pipe: str) -> list[str]:
    def found() -> Iterator[Finding]:
        for check in (chases, behind, face):
            yield from check(plan)

    return [finding.message for finding in found() if finding.status == "clash" and pipe in finding.parts]


@pytest.mark.parametrize("name", SAMPLES)
def test_every_proposed_route_is_without_a_clash(name: str) -> None:
    plan = sample(name)
    for pipe in plan.job.pipes:
        for side in SIDES if pipe.start is None else (None,):
            proposal = proposals(plan, pipe.id, side)
            assert bool(proposal.routes) != bool(proposal.blocked), (pipe.id, side)
            for route in proposal.routes:
                after = planned(applied(plan.job, pipe.id, route))
                assert clashes(after, pipe.id) == [], (pipe.id, side)
                assert after.courses[pipe.id].length == pytest.approx(route.length)


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("side", ["below", "above", "left", "right"])
def test_all_pipes_are_led_from_every_side_that_has_a_way(name: str, side: Side) -> None:
    plan = sample(name)
    job, found = routed(plan, {pipe.id: side for pipe in plan.job.pipes if pipe.start is None})
    led = {proposal.pipe for proposal in found if proposal.routes}
    after = planned(job)
    for pipe in job.pipes:
        if pipe.id in led:
            others = {other.id for other in job.pipes} - led
            left = [words for words in clashes(after, pipe.id) if not any(other in words for other in others)]
            assert left == []
            at = pipe.route[0] if pipe.start is None else None
            wall = job.wall
            edges = {"below": (1, 0.0), "above": (1, wall.height), "left": (0, 0.0), "right": (0, wall.width)}
            axis, edge = edges[side]
            assert at is None or at[axis] == edge
    missing = {pipe.id for pipe in job.pipes} - led
    # a door with a heater over it leaves one way in from the right of that wall, not two
    assert missing == ({"cold"} if (name, side) == ("wet-room-thick-wall", "right") else set())
    assert all(proposal.blocked for proposal in found if not proposal.routes)


def test_straight_up_below_the_port_is_best() -> None:
    best = proposals(usual(), "hot", "below").routes[0]
    assert best.course == ((335, 0), (335, 960))
    assert (best.length, best.level, best.bends, best.buried) == (960, 0, 0, 0)
    assert best.points == ((335, 0),)


def test_a_feed_at_a_place_turns_once_where_that_is_cheapest() -> None:
    # from x 635 to 335: 960 up and 300 level, two turns: 960 + 300 x 2 + 2 x 150
    plan = with_pipes(hot((635, 0)))
    best = proposals(plan, "hot", "below", 635).routes[0]
    assert best.course[0] == (635, 0)
    assert (best.length, best.level, best.bends) == (1260, 300, 2)
    assert best.cost == pytest.approx(960 + 600 + 300)


def test_from_the_side_it_comes_in_level_just_under_the_port() -> None:
    # adaptor 22 and elbow 12, and 10.6 of tube in each: 55.2, to whole mm: y = 960 - 56
    best = proposals(with_pipes(hot((335, 0))), "hot", "left").routes[0]
    assert best.course == ((0, 904), (335, 904), (335, 960))
    assert "zone 150 mm from the left corner" in best.through


def test_routes_are_ranked_with_reasons_and_differ() -> None:
    plan = with_pipes(hot((635, 0)))
    routes = proposals(plan, "hot", "below", 635).routes
    assert not any(route.fault for route in routes)
    assert [route.cost for route in routes] == sorted(route.cost for route in routes)
    assert len({route.course for route in routes}) == len(routes) > 1
    assert "1260 mm long (the shortest)" in routes[0].reasons
    assert "2 joints buried (the fewest)" in routes[0].reasons


def test_reasons_are_in_the_unit_that_is_asked_for() -> None:
    best = proposals(with_pipes(hot((635, 0))), "hot", "below", 635, display="cm").routes[0]
    assert "126 cm long (the shortest)" in best.reasons
    assert any("30 cm of it level" in reason for reason in best.reasons)


def test_no_sidestep_is_too_short_for_its_elbows() -> None:
    # a feed 15 beside the port: elbows of 12 and 10.6 of tube in each take 45.2 of any leg between two turns,
    # so it steps out and in again by whole mm: 46 to the right of the feed or of the port
    for route in proposals(with_pipes(hot((350, 0))), "hot", "below", 350).routes:
        assert route.fault == ""
        between = [math.dist(*leg) for leg in pairwise(route.course)][1:-1]
        assert all(leg >= 45.2 for leg in between), route.course


@pytest.mark.parametrize("name", SAMPLES)
def test_every_proposed_route_can_be_made(name: str) -> None:
    plan = sample(name)
    for pipe in plan.job.pipes:
        assert [route.fault for route in proposals(plan, pipe.id).routes if route.fault] == []


def test_where_fittings_leave_no_way_that_is_said() -> None:
    # an opening on either side of the port, and one 120 below it: no room to step 46 aside and back
    sides = tuple(Opening(id=f"side-{x}", x=x, y=0, width=200, height=960) for x in (60, 410))
    job = USUAL.but(pipes=(hot((350, 0)),), wall=USUAL.wall.but(openings=sides))
    proposal = proposals(planned(job), "hot", "below", 350)
    assert proposal.routes == ()
    assert proposal.blocked


def test_bends_bury_no_joint() -> None:
    plan = with_pipes(hot((635, 0), turns="bends"))
    assert proposals(plan, "hot", "below", 635).routes[0].buried == 0


def test_no_way_is_said_with_what_blocks_it() -> None:
    # a hatch from wall to wall between floor and valve
    hatch = Opening(id="hatch", x=0, y=300, width=2000, height=200)
    job = USUAL.but(pipes=(hot((335, 0)),), wall=USUAL.wall.but(openings=(hatch,)))
    proposal = proposals(planned(job), "hot", "below")
    assert proposal.routes == ()
    assert proposal.blocked == ("hatch",)
    assert proposal.message == "hot: no way was found. In the way: hatch."


def test_hot_is_not_led_across_cold_in_one_depth() -> None:
    cold = Pipe(id="cold", service="cold", end="valve.cold", route=((425, 0),))
    plan = with_pipes(hot((335, 0)), cold)
    best = proposals(plan, "hot", "right").routes
    for route in best:
        for (ax, ay), (bx, by) in pairwise(route.course):
            assert not (ay == by and ay < 960 and min(ax, bx) < 425 < max(ax, bx))
    # deeper, behind it, it may: 20 + 40 and 5 between wraps of 23 each
    deep = with_pipes(hot((335, 0), depth=60), cold)
    assert proposals(deep, "hot", "right").routes[0].bends == 1


def test_it_keeps_its_distance_from_a_socket() -> None:
    # chase 39 wide, 50 and 25 more to a service: 19.5 + 75 = 94.5 beside a socket 86 wide at x 335
    plan = with_pipes(hot((335, 0)))
    job = plan.job.but(services=(Accessory(id="socket", x=335, height=400),))
    best = proposals(planned(job), "hot", "below").routes[0]
    assert all(
        not (abs(x - 335) < 43 + 94.5 - 1e-6 and abs(y - 400) < 43 + 94.5 - 1e-6) for x, y in best.course
    )
    assert best.bends >= 1


def test_it_runs_along_a_bay_rather_than_through_studs() -> None:
    wall = USUAL.wall.but(make_up="timber_stud", thickness=89)
    studs = tuple(Stud(id=f"stud-{x}", x=x) for x in (19, 500, 900))
    plan = planned(USUAL.but(pipes=(hot((335, 0)),), wall=wall, services=studs))
    best = proposals(plan, "hot", "below", 700).routes[0]
    assert "stud-500" in best.through  # the only way over
    assert not any(ax == bx and abs(ax - 500) < 19 + 11.5 for (ax, _), (bx, _) in pairwise(best.course))
    assert proposals(plan, "hot", "below").routes[0].through == ()


@given(jobs(), st.sampled_from((None, *SIDES)))
def test_any_job_has_proposals_or_says_what_blocks_them(job: Job, side: Side | None) -> None:
    plan = planned(job.but(pipework=Pipework()))
    for pipe in job.pipes:
        proposal = proposals(plan, pipe.id, side)
        assert bool(proposal.routes) != bool(proposal.blocked)
        for route in proposal.routes:
            after = planned(applied(plan.job, pipe.id, route))
            assert after.courses[pipe.id].length == pytest.approx(route.length, abs=0.2)
