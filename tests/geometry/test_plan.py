"""The plan: parts looked up with the path of what is wrong, ports in their places, depths, what is fitted."""

import pytest
from hypothesis import given

from geometry.model import (
    Door,
    Enclosure,
    FinishArea,
    Head,
    Hose,
    HoseOutlet,
    Job,
    Layer,
    Pipe,
    Rail,
    Region,
    Screen,
    Spout,
    Stud,
    Valve,
    Wall,
)
from geometry.parts.catalogue import generic_parts, read_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.strategies import jobs

PARTS, RULES = generic_parts(), standard_rules()
JOB = suggested_job(760, 760, "left")


def plan_of(job: Job) -> Plan:
    return Plan(job, PARTS, RULES)


def refusal(job: Job) -> str:
    with pytest.raises(ValueError, match=r"^\$") as problem:
        plan_of(job)
    return str(problem.value)


def changed(field: str, index: int, **changes: object) -> Job:
    records = list(getattr(JOB, field))
    records[index] = records[index].but(**changes)
    return JOB.but(**{field: tuple(records)})


# what a job names must be there

VALVE_PORTS = "there are valve.hot, valve.cold, valve.out1, valve.out2"


@pytest.mark.parametrize(
    ("job", "said"),
    [
        (changed("fittings", 0, part="x"), "$.fittings[0].part: no part is called 'x'"),
        (changed("fittings", 1, part="x"), "$.fittings[1].part: no part is called 'x'"),
        (changed("fittings", 2, part="x"), "$.fittings[2].part: no part is called 'x'"),
        (changed("fittings", 3, part="x"), "$.fittings[3].part: no part is called 'x'"),
        (
            changed("fittings", 0, part="rail-700"),
            "$.fittings[0].part: the part 'rail-700' is of the kind 'rail', not 'valve'",
        ),
        (
            changed("fittings", 2, part="spout-170"),
            "$.fittings[2].part: the part 'spout-170' is of the kind 'spout', not 'hose outlet'",
        ),
        (changed("hoses", 0, part="x"), "$.hoses[0].part: no part is called 'x'"),
        (
            changed("hoses", 0, part="copper-15"),
            "$.hoses[0].part: the part 'copper-15' is of the kind 'tube', not 'hose'",
        ),
        (changed("pipes", 3, tube="lead"), "$.pipes[3].tube: no part is called 'lead'"),
        (changed("pipes", 0, end="valve.x"), f"$.pipes[0].end: no port is called 'valve.x'; {VALVE_PORTS}"),
        (changed("pipes", 2, start="valve"), f"$.pipes[2].start: no port is called 'valve'; {VALVE_PORTS}"),
        (changed("pipes", 2, end="head.x"), "$.pipes[2].end: no port is called 'head.x'; there are head.in"),
        (changed("pipes", 2, end="rail.in"), "$.pipes[2].end: no port is called 'rail.in'; there are none"),
    ],
)  # fmt: skip
def test_what_a_job_names_and_is_not_there_is_refused_with_its_path(job: Job, said: str) -> None:
    assert refusal(job) == said


def test_a_user_s_rail_without_its_handset_is_refused() -> None:
    own = read_parts(
        b"[[part]]\ntype = 'rail'\nid = 'mine'\nname = ''\nlength = 700\nfixing_low = 25\nfixing_high = 675\n"
        b"slide_low = 80\nslide_high = 620\nhandset = 'gone'\n",
        "own.toml",
    )
    with pytest.raises(ValueError, match=r"^part 'mine', handset: no part is called 'gone'$"):
        Plan(changed("fittings", 3, part="mine"), PARTS.with_own(own), RULES)


@given(jobs())
def test_a_valid_job_can_be_planned_and_everything_derived(job: Job) -> None:
    plan = plan_of(job)
    found = [one.fitting.id for one in (*plan.valves, *plan.elbowed)] + [one.fitting.id for one in plan.rails]
    assert sorted(found) == sorted(fitting.id for fitting in job.fittings)
    assert {solid.owner for solid in plan.fitted} == {fitting.id for fitting in job.fittings}
    assert all(solid.low <= solid.high for solid in plan.fitted)
    assert [chase.pipe for chase in plan.chases] == [pipe.id for pipe in job.pipes]
    assert plan.courses.keys() == {pipe.id for pipe in job.pipes}
    for pipe in job.pipes:
        course = plan.courses[pipe.id]
        assert course.points[-1] == plan.ports[pipe.end].at
        assert course.points[0] == (plan.ports[pipe.start].at if pipe.start else pipe.route[0])
    assert len(plan.panes) == len(job.enclosure.screens) + len(job.enclosure.doors)
    assert [solid.owner for solid in plan.existing] == [service.id for service in job.services]


# ports


def test_ports_stand_where_the_part_has_them() -> None:
    ports = plan_of(JOB).ports
    # valve-two-round at (380, 1030): inlets 45 either side and 70 below, outlets 70 above and 65 to the right
    found = {name: (port.at, port.direction, port.service) for name, port in ports.items()}
    assert found == {
        "valve.hot": ((335, 960), "down", "hot"),
        "valve.cold": ((425, 960), "down", "cold"),
        "valve.out1": ((380, 1100), "up", "mixed"),
        "valve.out2": ((445, 1030), "right", "mixed"),
        "head.in": ((380, 2190), None, "mixed"),
        "outlet.in": ((570, 1030), None, "mixed"),
    }


def test_a_valve_for_the_left_has_its_sideways_port_there_and_hot_still_on_the_left() -> None:
    job = changed("fittings", 0, side="left").but(pipes=())
    ports = plan_of(job).ports
    assert (ports["valve.out2"].at, ports["valve.out2"].direction) == ((315, 1030), "left")
    assert ports["valve.hot"].at == (335, 960)
    assert ports["valve.cold"].at == (425, 960)
    assert (ports["valve.out1"].at, ports["valve.out1"].direction) == ((380, 1100), "up")


def test_both_sideways_ports_of_a_valve_change_sides_and_keep_their_heights() -> None:
    valve = Valve(id="v", part="valve-three-square", x=500, height=1000, side="left")
    job = JOB.but(fittings=(valve,), hoses=(), pipes=())
    ports = plan_of(job).ports
    assert (ports["v.out2"].at, ports["v.out3"].at) == ((435, 1000), (435, 940))


def test_ports_are_on_the_grid_where_binary_fractions_are_not() -> None:
    job = JOB.but(fittings=(Valve(id="v", part="valve-two-round", x=100.1, height=0.3),), hoses=(), pipes=())
    assert plan_of(job).ports["v.hot"].at == (55.1, -69.7)


def test_a_pipe_joins_a_valve_on_the_sides_that_it_uses() -> None:
    assert plan_of(JOB).joined("valve") == {"down", "up", "right"}
    feeds = JOB.but(pipes=JOB.pipes[:2])
    assert plan_of(feeds).joined("valve") == {"down"}


def test_a_valve_without_a_pipe_yet_keeps_room_at_every_port() -> None:
    bare = JOB.but(pipes=())
    assert plan_of(bare).joined("valve") == {"down", "up", "right"}


def test_a_valve_whose_name_begins_like_another_s_is_not_mixed_up_with_it() -> None:
    twin = Valve(id="valve 2", part="valve-two-round", x=1000, height=1030, side="left")
    job = JOB.but(fittings=(*JOB.fittings, twin), pipes=JOB.pipes[:2])
    plan = plan_of(job)
    assert plan.joined("valve") == {"down"}
    assert plan.joined("valve 2") == {"down", "up", "left"}


# depths: build-up of the suggested job is 1 + 4 + 9 = 14 mm, 13 to 15 within the adhesive's 1 mm


def test_how_deep_to_cut_follows_from_the_finish() -> None:
    plan = plan_of(JOB)
    # the valve wants its back 60 to 85 behind the finished face: 60 - 13 = 47 to 85 - 15 = 70
    assert (plan.depths["valve"].least, plan.depths["valve"].most) == (47, 70)
    # elbows want 40 to 60: 40 - 13 = 27 to 60 - 15 = 45
    assert (plan.depths["head"].least, plan.depths["head"].most) == (27, 45)
    assert plan.depths.keys() == {"valve", "head", "outlet"}
    assert plan.cuts == {name: depth.target for name, depth in plan.depths.items()}


def test_a_depth_set_by_hand_is_the_one_that_is_cut() -> None:
    plan = plan_of(changed("fittings", 0, recess=75))
    assert plan.cuts["valve"] == 75
    recess = next(solid for solid in plan.fitted if (solid.owner, solid.what) == ("valve", "recess"))
    assert (recess.low, recess.high) == (-75, 0)


def test_the_finish_at_the_fitting_s_own_place_counts() -> None:
    low = FinishArea(
        id="low", layers=(Layer(kind="tile", thickness=20),), region=Region(x=0, y=0, width=760, height=1500)
    )
    job = JOB.but(finish=JOB.finish.but(areas=(low, *JOB.finish.areas)))
    faces = {placed.fitting.id: placed.face for placed in (*plan_of(job).valves, *plan_of(job).elbowed)}
    assert faces == {"valve": 20, "outlet": 20, "head": 14}


def test_a_head_on_a_ceiling_arm_is_not_cut_into_the_wall() -> None:
    head = Head(id="head", part="head-ceiling-250", x=380, height=2400, recess=50)
    plan = plan_of(JOB.but(fittings=(head,), hoses=(), pipes=()))
    assert plan.depths == {}
    assert plan.cuts == {}
    assert plan.recesses == {}
    assert {solid.what for solid in plan.fitted} == {"ceiling flange", "arm", "head"}
    assert all(solid.low > 0 for solid in plan.fitted)  # heights: nothing of it lies in the wall


def test_each_part_behind_the_wall_has_its_recess() -> None:
    recesses = plan_of(JOB).recesses
    # box 130 x 140 with 25 of room below, above and to the right, where pipes join
    assert recesses["valve"].bounds == (315, 935, 470, 1125)
    assert recesses["outlet"].bounds == (545, 1005, 595, 1055)  # pocket 50 x 50
    assert recesses.keys() == {"valve", "head", "outlet"}


# what is fitted and what is there


def test_a_hose_hangs_with_its_outlet_rail_and_handset() -> None:
    hung = plan_of(JOB).hoses[0]
    assert (hung.part.id, hung.outlet.fitting.id, hung.rail.fitting.id) == ("hose-1500", "outlet", "rail")
    assert hung.handset.id == "handset-110"


def test_the_handset_sits_at_its_slider_and_can_be_asked_for_along_its_slide() -> None:
    plan = plan_of(changed("fittings", 3, slider=300))
    at = next(solid for solid in plan.fitted if solid.what == "handset")
    # foot 1120 + slider 300, the handset reaching 60 below and 130 above it
    assert (at.low, at.high) == (1360, 1550)
    swept = plan.handset(plan.rails[0], 80, 620)
    assert (swept.low, swept.high) == (1120 + 80 - 60, 1120 + 620 + 130)


def test_pipes_lie_behind_the_wall_with_their_wrap() -> None:
    pipe = plan_of(JOB).lagged_pipes[0]
    # copper 15 with 4 of wrap all round is 23 thick, 5 under the bare face
    assert (pipe.owner, pipe.low, pipe.high) == ("hot", -28, -5)
    assert pipe.outline.radius == 11.5


def test_screens_doors_and_what_is_in_the_wall_are_there() -> None:
    enclosure = JOB.enclosure.but(
        screens=(Screen(id="pane", start=(760, 0), end=(760, 760)),),
        doors=(Door(id="door", hinge=(0, 760), width=700, angle_from=0, angle_to=90),),
    )
    plan = plan_of(JOB.but(enclosure=enclosure, services=(Stud(id="stud", x=400),)))
    assert [(solid.owner, solid.what) for solid in plan.panes] == [("pane", "screen"), ("door", "door")]
    assert [(solid.owner, solid.what) for solid in plan.existing] == [("stud", "stud")]


def test_a_bare_wall_can_be_planned() -> None:
    job = Job(wall=Wall(width=760, height=2400), enclosure=Enclosure(left=0, width=760, projection=760))
    plan = plan_of(job)
    assert (plan.fitted, plan.chases, plan.hoses, plan.panes, plan.existing) == ((), (), (), (), ())


def test_two_hoses_on_two_rails_each_find_their_own() -> None:
    more = (
        HoseOutlet(id="outlet 2", part="outlet-round", x=190, height=1030),
        Rail(id="rail 2", part="rail-900", x=190, height=1120),
        Spout(id="spout", part="spout-170", x=380, height=600),
    )
    second = Hose(id="hose 2", part="hose-1750", outlet="outlet 2", rail="rail 2")
    job = JOB.but(fittings=(*JOB.fittings, *more), hoses=(*JOB.hoses, second))
    hung = plan_of(job).hoses
    assert [(one.outlet.fitting.id, one.rail.part.id) for one in hung] == [
        ("outlet", "rail-700"),
        ("outlet 2", "rail-900"),
    ]


def test_a_plan_of_an_edited_job_keeps_the_courses_that_did_not_change() -> None:
    before, after = plan_of(JOB), plan_of(JOB.moved("outlet", 600, 1030))
    assert after.courses["hot"] is before.courses["hot"]
    assert after.courses["branch"].points == ((445, 1030), (600, 1030))


def test_a_port_has_one_dot() -> None:
    bad = Pipe(id="hot", service="hot", end="valve.hot.in", route=((0, 0),))
    assert refusal(JOB.but(pipes=(bad,))).startswith(
        "$.pipes[0].end: no port is called 'valve.hot.in'; there are "
    )
