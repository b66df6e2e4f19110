"""What is found under a point of the wall, by hand sums on the suggested job for a tray of 760.

The valve's plate is 170 square about (380, 1030), its temperature control 55 wide about (380, 995). The hot
pipe runs plumb at x 335 from the floor to y 960, in a chase that its clip makes 39 wide (15 + 2 x 4 + 2 x 8).
"""

import pytest

from app.canvas.pick import Handle, handles_at, port_at, things_at, things_within
from app.canvas.stages import STAGES
from geometry.edits.refs import Ref
from geometry.model import Accessory, Cable, Opening, Pipe, Stud
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job

VALVE, HEAD, RAIL, OUTLET = (Ref("fitting", name) for name in ("valve", "head", "rail", "outlet"))
HOT, RISER, HOSE = Ref("pipe", "hot"), Ref("pipe", "riser"), Ref("hose", "hose")


@pytest.fixture(scope="module")
def plan() -> Plan:
    job = suggested_job(760, 760, "left", wall_width=2000)
    services = (
        Accessory(id="socket", x=1500.0, height=300.0),
        Cable(id="feed", route=((1500.0, 343.0), (1500.0, 2400.0))),
        Stud(id="stud", x=1200.0),
    )
    window = Opening(id="window", x=1300.0, y=1200.0, width=500.0, height=900.0)
    job = job.but(services=services, wall=job.wall.but(openings=(window,), make_up="timber_stud"))
    return Plan(job, generic_parts(), standard_rules())


@pytest.fixture(scope="module")
def bent_plan(plan: Plan) -> Plan:
    route = ((100.0, 0.0), (100.0, 600.0), (335.0, 600.0))
    hot = Pipe(id="hot", service="hot", end="valve.hot", route=route)
    return Plan(plan.job.but(pipes=(hot,)), plan.catalogue, plan.rules)


def test_a_point_on_the_plate_finds_the_valve(plan: Plan) -> None:
    assert things_at(plan, "all", (300.0, 1030.0), 0.0)[0] == VALVE


def test_a_point_on_the_bare_wall_finds_nothing(plan: Plan) -> None:
    assert things_at(plan, "all", (900.0, 1000.0), 20.0) == ()


def test_the_tolerance_reaches_to_the_rim_and_no_farther(plan: Plan) -> None:
    # the plate's left edge is at 380 - 85 = 295
    assert things_at(plan, "finished", (285.0, 1030.0), 10.0) == (VALVE,)
    assert things_at(plan, "finished", (284.9, 1030.0), 10.0) == ()


def test_a_pipe_is_found_by_its_leg_and_not_by_the_box_round_it(bent_plan: Plan) -> None:
    assert things_at(bent_plan, "piped", (105.0, 300.0), 0.0) == (HOT,)
    assert things_at(bent_plan, "piped", (200.0, 300.0), 20.0) == ()


def test_of_two_that_are_hit_the_smaller_comes_first(plan: Plan) -> None:
    # the cable runs through the window
    assert things_at(plan, "all", (1500.0, 1500.0), 0.0) == (Ref("service", "feed"), Ref("opening", "window"))


def test_the_nearer_comes_before_the_smaller(plan: Plan) -> None:
    # 340 lies on the hot pipe's chase (335 +- 19.5); the valve's recess begins at 935, 15 mm up
    assert things_at(plan, "cut", (340.0, 920.0), 20.0)[0] == HOT


@pytest.mark.parametrize(
    ("at", "ref", "stages"),
    [
        ((335.0, 300.0), HOT, {"cut", "piped", "all"}),
        ((570.0, 1300.0), RAIL, {"finished", "all"}),
        ((570.0, 1145.0), RAIL, {"cut", "piped", "finished", "all"}),  # its lower screw
        ((1500.0, 300.0), Ref("service", "socket"), set(STAGES)),
        ((1500.0, 500.0), Ref("service", "feed"), {"cut", "piped", "all"}),
        ((1200.0, 500.0), Ref("service", "stud"), {"cut", "piped", "all"}),
        ((1400.0, 1300.0), Ref("opening", "window"), set(STAGES)),
    ],
)
def test_only_what_the_stage_shows_is_found(
    plan: Plan, at: tuple[float, float], ref: Ref, stages: set[str]
) -> None:
    assert {stage for stage in STAGES if ref in things_at(plan, stage, at, 1.0)} == stages


def test_the_hose_is_found_where_it_hangs(plan: Plan) -> None:
    # it leaves its outlet at (570, 1030) 30 mm below its centre, straight down
    assert HOSE in things_at(plan, "all", (570.0, 960.0), 12.0)


def test_a_band_takes_what_lies_wholly_within(plan: Plan) -> None:
    # the plate reaches from 945 to 1115, the recess from 935 to 1125; the pipes reach farther
    assert things_within(plan, "all", (250.0, 930.0), (500.0, 1130.0)) == (VALVE,)
    assert things_within(plan, "all", (500.0, 1130.0), (250.0, 936.0)) == ()


def test_corners_come_before_the_legs_on_which_they_lie(bent_plan: Plan) -> None:
    assert handles_at(bent_plan, "hot", (104.0, 603.0), 8.0)[0] == Handle("corner", "hot", 1)
    assert handles_at(bent_plan, "hot", (220.0, 596.0), 8.0) == (Handle("leg", "hot", 1),)
    assert handles_at(bent_plan, "hot", (220.0, 560.0), 8.0) == ()


def test_a_port_is_found_near_it(plan: Plan) -> None:
    # the inlets are 45 either side of and 70 below (380, 1030)
    assert port_at(plan, (338.0, 956.0), 8.0) == "valve.hot"
    assert port_at(plan, (380.0, 960.0), 8.0) is None
