"""Moving, mirroring, aligning: what follows, what stays, and that there and back is where it was."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.edits.moves import aligned, distributed, mirrored_wall, moved, other_hand
from geometry.edits.refs import Ref, things
from geometry.model import (
    XY,
    Accessory,
    Cable,
    Door,
    Enclosure,
    Head,
    Job,
    Joist,
    Niche,
    OldPipe,
    Opening,
    Panels,
    Pipe,
    Rail,
    Sanitary,
    Screen,
    Spout,
    Stud,
    Tiling,
    Valve,
    Waste,
)
from geometry.model.finish import MovementJoint
from geometry.model.wall import FarCut
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.strategies import jobs, tenths

PARTS, RULES = generic_parts(), standard_rules()
JOB = suggested_job(760, 760, "left")
VALVE, HEAD, OUTLET, RAIL = (Ref("fitting", name) for name in ("valve", "head", "outlet", "rail"))
SOME = [chosen for size in (1, 2, 3) for chosen in combinations((VALVE, HEAD, OUTLET, RAIL), size)]
STEPS = tenths(-900, 900)


def plan_of(job: Job) -> Plan:
    return Plan(job, PARTS, RULES)


def everything(job: Job) -> tuple[Ref, ...]:
    return tuple(things(job))


def places(job: Job) -> dict[str, XY]:
    return {fitting.id: fitting.at for fitting in job.fittings}


def course(job: Job, pipe: str) -> tuple[XY, ...]:
    return plan_of(job).courses[pipe].points


def is_straight(points: tuple[XY, ...]) -> bool:
    return len({x for x, _ in points}) == 1 or len({y for _, y in points}) == 1


# moving


def test_only_what_was_chosen_moves() -> None:
    job = moved(plan_of(JOB), (HEAD,), 20, -35.5)
    assert places(job) == places(JOB) | {"head": (400, 2154.5)}
    assert job.wall is JOB.wall
    assert job.fitting("valve") is JOB.fitting("valve")


def test_things_of_every_kind_move() -> None:
    services = (
        Accessory(id="a", x=100, height=200),
        Cable(id="c", route=((0, 0), (0, 50))),
        OldPipe(id="o", route=((5, 5), (50, 5))),
        Stud(id="s", x=300),
        Joist(id="j", height=1000, left=0, right=400),
    )
    opening = Opening(id="hatch", x=10, y=20, width=30, height=40)
    job = JOB.but(services=services, wall=JOB.wall.but(openings=(opening,)))
    chosen = [Ref("service", service.id) for service in services] + [
        Ref("opening", "hatch"),
        Ref("pipe", "hot"),
    ]
    after = moved(plan_of(job), chosen, 7, -3)
    assert after.services == (
        Accessory(id="a", x=107, height=197),
        Cable(id="c", route=((7, -3), (7, 47))),
        OldPipe(id="o", route=((12, 2), (57, 2))),
        Stud(id="s", x=307),  # a stud stands from floor to ceiling: it has no height
        Joist(id="j", height=997, left=7, right=407),
    )
    assert after.wall.openings[0] == opening.but(x=17, y=17)
    assert after.pipes[0].route == ((342, -3),)
    assert places(after) == places(job)


@given(jobs(), STEPS, STEPS)
def test_moving_everything_there_and_back_is_where_it_was(job: Job, dx: float, dy: float) -> None:
    there = moved(plan_of(job), everything(job), dx, dy)
    assert moved(plan_of(there), everything(there), -dx, -dy) == job


@given(st.sampled_from(SOME), STEPS, STEPS)
def test_moving_some_fittings_there_and_back_is_where_they_were(
    chosen: tuple[Ref, ...], dx: float, dy: float
) -> None:
    there = moved(plan_of(JOB), chosen, dx, dy)
    assert moved(plan_of(there), chosen, -dx, -dy) == JOB


@given(st.floats(-500, 500), st.floats(-500, 500))
def test_a_step_off_the_grid_is_taken_as_whole_tenths_and_so_comes_back(dx: float, dy: float) -> None:
    there = moved(plan_of(JOB), everything(JOB), dx, dy)
    assert moved(plan_of(there), everything(there), -dx, -dy) == JOB


def test_moving_by_nothing_changes_nothing() -> None:
    assert moved(plan_of(JOB), everything(JOB), 0, 0) == JOB
    assert moved(plan_of(JOB), (), 10, 10) == JOB
    assert moved(plan_of(JOB), everything(JOB), 0.04, -0.04) == JOB  # less than half of the grid


def test_moving_off_what_can_be_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^\.x: must be at least -20000 and at most 20000 mm, got "):
        moved(plan_of(JOB), (HEAD,), 25_000, 0)


# pipes follow


def test_the_pipes_of_a_fitting_end_on_it_wherever_it_goes() -> None:
    job = moved(plan_of(JOB), (VALVE,), 33, 44)
    plan = plan_of(job)
    for pipe in ("hot", "cold", "riser", "branch"):
        assert plan.courses[pipe].points[-1] == plan.ports[next(p.end for p in job.pipes if p.id == pipe)].at


@given(STEPS, STEPS)
def test_straight_feeds_stay_straight_when_the_valve_moves(dx: float, dy: float) -> None:
    job = moved(plan_of(JOB), (VALVE,), dx, dy)
    for pipe in ("hot", "cold"):
        assert is_straight(course(job, pipe))
    # the feeds are at the floor still, under their inlets
    assert [pipe.route for pipe in job.pipes[:2]] == [((round(335 + dx, 1), 0),), ((round(425 + dx, 1), 0),)]


def test_a_corner_that_is_plumb_or_level_with_its_port_goes_along() -> None:
    # out2 at (445, 1030): level to a corner at (600, 1030), then plumb up to the outlet at (600, 1400)
    branch = JOB.pipes[3].but(route=((600, 1030),))
    job = JOB.but(pipes=(*JOB.pipes[:3], branch)).moved("outlet", 600, 1400)
    assert course(job, "branch") == ((445, 1030), (600, 1030), (600, 1400))
    sideways = moved(plan_of(job), (OUTLET,), 50, 20)
    assert course(sideways, "branch") == ((445, 1030), (650, 1030), (650, 1420))
    up = moved(plan_of(job), (VALVE,), 10, 100)
    assert course(up, "branch") == ((455, 1130), (600, 1130), (600, 1400))


def test_a_pipe_between_two_things_that_both_move_keeps_its_shape() -> None:
    detour = ((380, 1200), (300, 1200), (300, 1900), (380, 1900))
    job = JOB.but(pipes=(*JOB.pipes[:2], JOB.pipes[2].but(route=detour), JOB.pipes[3]))
    after = moved(plan_of(job), (VALVE, HEAD), 25, -40)
    assert course(after, "riser") == tuple((x + 25, y - 40) for x, y in course(job, "riser"))


def test_a_pipe_moves_alone_when_it_alone_is_chosen() -> None:
    after = moved(plan_of(JOB), (Ref("pipe", "hot"),), 15, 0)
    assert after.pipes[0].route == ((350, 0),)
    assert course(after, "hot")[-1] == (335, 960)


# the other hand


def test_the_other_hand_puts_the_rail_on_the_other_quarter_line_and_hot_stays_on_the_left() -> None:
    job = other_hand(JOB)
    assert places(job) == {
        "valve": (380, 1030),
        "head": (380, 2190),
        "outlet": (190, 1030),
        "rail": (190, 1120),
    }
    valve = job.fitting("valve")
    assert isinstance(valve, Valve)
    assert valve.side == "left"
    assert course(job, "hot") == ((335, 0), (335, 960))
    assert course(job, "cold") == ((425, 0), (425, 960))
    assert course(job, "branch") == ((315, 1030), (190, 1030))
    assert (job.wall, job.enclosure, job.finish) == (JOB.wall, JOB.enclosure, JOB.finish)


@given(jobs())
def test_the_other_hand_twice_is_where_it_was(job: Job) -> None:
    assert other_hand(other_hand(job)) == job


def test_the_other_hand_turns_about_the_tray_and_not_about_the_wall() -> None:
    job = JOB.but(enclosure=JOB.enclosure.but(left=200), wall=JOB.wall.but(width=2000))
    # centre line at 580: 380 becomes 780, 570 becomes 590
    assert places(other_hand(job)) == {
        "valve": (780, 1030), "head": (780, 2190), "outlet": (590, 1030), "rail": (590, 1120),
    }  # fmt: skip


def test_hot_and_cold_change_courses_so_that_neither_crosses() -> None:
    # the hot feed comes from far left: on the other hand the cold one comes from far right
    hot = JOB.pipes[0].but(route=((100, 0), (100, 500), (335, 500)))
    job = other_hand(JOB.but(pipes=(hot, *JOB.pipes[1:])))
    assert job.pipes[1].route == ((660, 0), (660, 500), (425, 500))
    assert job.pipes[0].route == ((335, 0),)


def test_a_second_hot_pipe_does_not_take_the_course_of_the_first() -> None:
    extra = Pipe(id="hot 2", service="hot", end="valve.hot", route=((300, 0),))
    job = other_hand(JOB.but(pipes=(*JOB.pipes, extra)))
    assert [pipe.route for pipe in job.pipes] == [((425, 0),), ((335, 0),), (), (), ((460, 0),)]


# the mirrored wall


@given(jobs())
def test_the_wall_mirrored_twice_is_as_it_was(job: Job) -> None:
    assert mirrored_wall(mirrored_wall(job)) == job


def test_the_mirrored_wall_mirrors_all_that_is_on_it() -> None:
    wall = JOB.wall.but(
        width=1000,
        left="corner",
        right="free_end",
        openings=(Opening(id="hatch", x=700, y=5, width=100, height=50),),
        other_face=(FarCut(id="back", x=0, y=0, width=30, height=900),),
    )
    enclosure = Enclosure(
        left=0, width=760, projection=760, entry="right",
        screens=(Screen(id="pane", start=(760, 100), end=(760, 760)),),
        doors=(Door(id="door", hinge=(100, 760), width=600, angle_from=0, angle_to=80),),
        waste=Waste(x=100, z=50),
    )  # fmt: skip
    services = (
        Stud(id="s", x=300),
        Joist(id="j", height=9, left=0, right=400),
        Cable(id="c", route=((1, 2), (3, 4))),
    )
    finish = JOB.finish.but(tiling=Tiling(wide=300, start_x=50))
    sanitary = (Sanitary(id="wc", x=100, z=300, wide=350, deep=500),)
    changed = JOB.but(wall=wall, enclosure=enclosure, services=services, finish=finish, sanitary=sanitary)
    job = mirrored_wall(changed)
    assert (job.wall.left, job.wall.right) == ("free_end", "corner")
    assert job.wall.openings[0].x == 200  # 1000 - 700 - 100
    assert job.wall.other_face == (FarCut(id="back", x=970, y=0, width=30, height=900),)
    assert (job.enclosure.left, job.enclosure.right, job.enclosure.entry) == (240, 1000, "left")
    assert (job.enclosure.screens[0].start, job.enclosure.screens[0].end) == ((240, 100), (240, 760))
    door = job.enclosure.doors[0]
    assert (door.hinge, door.angle_from, door.angle_to) == ((900, 760), 180, 100)
    assert job.enclosure.waste == Waste(x=900, z=50)
    assert job.services == (
        Stud(id="s", x=700),
        Joist(id="j", height=9, left=600, right=1000),
        Cable(id="c", route=((999, 2), (997, 4))),
    )
    assert places(job) == {
        "valve": (620, 1030),
        "head": (620, 2190),
        "outlet": (430, 1030),
        "rail": (430, 1120),
    }
    tiling = job.finish.tiling
    assert tiling is not None
    assert tiling.start_x == 650  # the tile from 50 to 350 lies from 650 to 950


def test_tiles_of_a_mirrored_wall_are_the_mirror_image() -> None:
    # from 50, wide 300, joint 3, shifted by 101 to the right; mirrored by 101 to the left
    wall = JOB.wall.but(width=1000)
    for bond, turned in (("third", "left"), ("herringbone", "left"), ("half", "right")):
        tiling = Tiling(wide=300, start_x=50, bond=bond)  # type: ignore[arg-type]
        niche = Niche(id="niche", x=100, y=900, width=300, height=200)
        finish = JOB.finish.but(tiling=tiling, panels=Panels(wide=600, start_x=10), niches=(niche,))
        found = mirrored_wall(JOB.but(wall=wall, finish=finish)).finish
        assert found.tiling == tiling.but(start_x=650, direction=turned)
        assert found.panels == Panels(wide=600, start_x=390)  # 1000 - 10 - 600
        assert found.niches[0].x == 600  # 1000 - 100 - 300


def test_movement_joints_are_mirrored_where_they_are_plumb() -> None:
    joints = MovementJoint(id="a", at=200.0), MovementJoint(id="b", runs="level", at=900.0)
    wall = JOB.wall.but(width=1000.0)
    finish = mirrored_wall(JOB.but(wall=wall, finish=JOB.finish.but(movement=joints))).finish
    assert [joint.at for joint in finish.movement] == [800.0, 900.0]


def test_hot_is_on_the_left_of_a_mirrored_wall() -> None:
    job = mirrored_wall(JOB)
    assert course(job, "hot")[0] == (335, 0)
    assert course(job, "cold")[0] == (425, 0)


@pytest.mark.parametrize(("start", "end"), [(-360, -200), (-300, -270), (270, 360), (360, 200), (-90, 90)])
def test_a_door_set_out_at_any_angle_can_be_mirrored(start: float, end: float) -> None:
    door = Door(id="d", hinge=(100, 700), width=600, angle_from=start, angle_to=end)
    job = JOB.but(enclosure=JOB.enclosure.but(doors=(door,)))
    turned = mirrored_wall(job).enclosure.doors[0]
    # a leaf at an angle a points at 180 - a in the mirror, give or take whole turns
    assert (turned.angle_from - (180 - start)) % 360 == 0
    assert (turned.angle_to - (180 - end)) % 360 == 0
    assert turned.angle_to - turned.angle_from == start - end


# aligning and distributing


def test_things_are_aligned_with_the_first_one_chosen() -> None:
    job = aligned(plan_of(JOB), (RAIL, HEAD, VALVE), "x")
    assert places(job) == {
        "valve": (570, 1030),
        "head": (570, 2190),
        "outlet": (570, 1030),
        "rail": (570, 1120),
    }
    level = aligned(plan_of(JOB), (HEAD, VALVE), "y")
    assert places(level)["valve"] == (380, 2190)


def test_pipes_follow_what_is_aligned() -> None:
    job = aligned(plan_of(JOB), (RAIL, VALVE), "x")
    assert course(job, "hot") == ((525, 0), (525, 960))  # 335 + 190


def test_one_thing_alone_and_what_has_no_place_stay() -> None:
    assert aligned(plan_of(JOB), (HEAD,), "x") is JOB
    assert aligned(plan_of(JOB), (Ref("pipe", "hot"), Ref("hose", "hose"), HEAD), "x") is JOB
    assert aligned(plan_of(JOB), (Ref("fitting", "gone"), HEAD), "x") is JOB
    assert distributed(plan_of(JOB), (HEAD, VALVE), "x") is JOB


@given(jobs())
def test_what_is_aligned_is_on_one_line_and_again_changes_nothing(job: Job) -> None:
    chosen = tuple(Ref("fitting", fitting.id) for fitting in job.fittings)
    once = aligned(plan_of(job), chosen, "x")
    assert len({fitting.x for fitting in once.fittings}) <= 1
    assert [f.height for f in once.fittings] == [f.height for f in job.fittings]
    assert aligned(plan_of(once), chosen, "x") == once


def spouts(*at: XY) -> Job:
    fittings = tuple(Spout(id=f"s{n}", part="spout-170", x=x, height=y) for n, (x, y) in enumerate(at))
    return JOB.but(fittings=fittings, hoses=(), pipes=())


def test_things_are_spread_evenly_between_the_outermost() -> None:
    job = spouts((100, 0), (700, 10), (150, 20), (120, 30))
    chosen = everything(job)
    # between 100 and 700, in the order in which they stand: 120 goes to 300, 150 to 500
    assert places(distributed(plan_of(job), chosen, "x")) == {
        "s0": (100, 0), "s1": (700, 10), "s2": (500, 20), "s3": (300, 30),
    }  # fmt: skip
    assert places(distributed(plan_of(job), chosen, "y")) == places(job)


@given(st.lists(tenths(0, 2000), min_size=3, max_size=6))
def test_what_is_spread_has_equal_steps_within_the_grid(heights: list[float]) -> None:
    job = spouts(*((0.0, height) for height in heights))
    spread = sorted(y for _, y in places(distributed(plan_of(job), everything(job), "y")).values())
    assert (spread[0], spread[-1]) == (min(heights), max(heights))
    step = (spread[-1] - spread[0]) / (len(spread) - 1)
    assert all(abs(y - spread[0] - n * step) <= 0.05 + 1e-9 for n, y in enumerate(spread))


def test_the_order_of_choosing_decides_the_line_among_many() -> None:
    heads = tuple(Head(id=f"h{n}", part="head-wall-200", x=n, height=2000) for n in range(12))
    job = JOB.but(fittings=heads, hoses=(), pipes=())
    found = places(aligned(plan_of(job), [Ref("fitting", f"h{n}") for n in (7, 3, 11, 0)], "x"))
    assert [found[f"h{n}"][0] for n in (7, 3, 11, 0, 1)] == [7, 7, 7, 7, 1]


def test_a_rail_moves_with_its_hose() -> None:
    job = moved(plan_of(JOB), (RAIL,), -100, 0)
    hung = plan_of(job).hoses[0]
    assert isinstance(job.fitting("rail"), Rail)
    assert hung.rail.fitting.at == (470, 1120)
    assert job.hoses is JOB.hoses
