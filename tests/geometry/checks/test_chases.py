"""Chases as findings. Hand sums for copper 15: wrapped 23, chase 39 wide and 33 deep, centre 16.5 deep.

The suggested job leads hot up at x = 335 and cold at x = 425 into a recess of the valve from y = 935.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.chases import chases
from geometry.finding import Finding
from geometry.model import XY, Job, Pipe
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")
"""The tray's left edge is the wall's, its floor lies at 30 mm."""
OVER = ((600, 0), (600, 500), (335, 500))
"""A way for hot that crosses cold at (425, 500)."""


def found(job: Job, rule: str) -> tuple[Finding, ...]:
    plan = Plan(job, generic_parts(), standard_rules())
    return tuple(finding for finding in chases(plan) if finding.rule == rule)


def only(job: Job, rule: str, *parts: str) -> Finding:
    (finding,) = (held for held in found(job, rule) if not parts or held.parts == parts)
    return finding


def led(job: Job, name: str, *route: XY, **changes: object) -> Job:
    """Return a job with one pipe led along other points, or changed otherwise."""
    if route:
        changes["route"] = route
    return job.but(pipes=tuple(pipe.but(**changes) if pipe.id == name else pipe for pipe in job.pipes))


def on_wall(thickness: float, **changes: object) -> Job:
    return JOB.but(wall=JOB.wall.but(thickness=thickness, **changes))


# crossings


def test_suggested_job_has_no_crossing_and_says_so() -> None:
    finding = only(JOB, "chase.crossing")
    assert (finding.status, finding.message) == ("clear", "No two pipes cross.")
    assert finding.parts == ("hot", "cold", "riser", "branch")


def test_pipes_that_cross_in_one_depth_clash_by_their_whole_thickness() -> None:
    finding = only(led(JOB, "hot", *OVER), "chase.crossing")
    assert (finding.status, finding.measured, finding.limit) == ("clash", -23, 5)  # 0 apart - (23 + 23) / 2
    assert finding.parts == ("hot", "cold")
    assert finding.place == ((425, 500),)


def test_crossing_says_what_crosses_where_and_what_cures_it() -> None:
    message = only(led(JOB, "hot", *OVER), "chase.crossing").message
    assert "hot and cold cross, hot over cold in one depth" in message
    # y 500 - floor 30 = 470
    assert "425 mm right of the tray's left edge and 470 mm above its floor" in message
    assert "centre of cold 44.5 mm deep" in message  # 16.5 + 23 + 5


def test_crossing_is_told_from_the_trays_edge() -> None:
    job = led(JOB, "hot", *OVER)
    job = job.but(enclosure=job.enclosure.but(left=500.0, floor=600.0, rim=610.0))
    message = only(job, "chase.crossing").message
    assert "75 mm left of the tray's left edge and 100 mm below its floor" in message  # 500 - 425, 600 - 500


def test_cure_named_by_a_crossing_clears_it() -> None:
    job = led(led(JOB, "hot", *OVER), "cold", depth=44.5)
    finding = only(job, "chase.crossing")
    assert (finding.status, finding.measured) == ("tight", 5)  # 44.5 - 16.5 - 23
    assert "hot crosses in front of cold" in finding.message
    assert "the chase of cold is 61 mm deep there" in finding.message  # 44.5 + 11.5 + 5


def test_crossing_with_twice_the_room_is_clear() -> None:
    assert (
        only(led(led(JOB, "hot", *OVER), "cold", depth=49.5), "chase.crossing").status == "clear"
    )  # 10 apart
    assert only(led(led(JOB, "hot", *OVER), "cold", depth=44.4), "chase.crossing").status == "clash"  # 4.9


def test_two_mixed_runs_that_cross_are_not_called_hot_over_cold() -> None:
    job = led(JOB, "branch", start="valve.out2", route=((570, 1030), (570, 1500), (300, 1500), (300, 1030)))
    (crossing,) = (held for held in found(job, "chase.crossing") if held.parts == ("riser", "branch"))
    assert crossing.status == "clash"
    assert "hot over cold" not in crossing.message


def test_pipes_that_lie_on_each_other_clash() -> None:
    job = led(JOB, "hot", (440, 0), (440, 500), (335, 500))  # 15 beside cold, both 23 thick
    finding = only(job, "chase.crossing")
    assert (finding.status, finding.measured) == ("clash", -23)


def test_pipes_that_touch_do_not_cross() -> None:
    apart = led(JOB, "hot", (402, 0), (402, 500), (335, 500))  # 425 - 402 = 23, the wraps touch
    assert only(apart, "chase.crossing").status == "clear"
    near = led(JOB, "hot", (402.1, 0), (402.1, 500), (335, 500))
    assert only(near, "chase.crossing").status == "clash"


def test_pipes_that_meet_in_one_box_do_not_cross() -> None:
    # both outlets are led from the one port: they lie on each other in the valve's recess only
    job = led(JOB, "branch", start="valve.out1", route=((380, 1110), (440, 1110), (440, 1030)))
    assert only(job, "chase.crossing").status == "clear"


@given(st.integers(30, 730), st.integers(30, 900))
def test_crossing_is_the_same_whichever_pipe_comes_first(x: int, y: int) -> None:
    job = led(JOB, "hot", (x, 0), (x, y), (335, y))
    ahead, behind = (
        sorted((frozenset(f.parts), f.status, f.measured) for f in found(held, "chase.crossing") if f.place)
        for held in (job, job.but(pipes=job.pipes[::-1]))
    )
    assert ahead == behind


# the web between


def test_suggested_job_leaves_enough_between_its_chases() -> None:
    assert only(JOB, "chase.web").status == "clear"  # 425 - 335 - 39 = 51


def test_thin_web_is_tight_and_cut_as_one() -> None:
    finding = only(led(JOB, "hot", (370, 0), (370, 500), (335, 500)), "chase.web")
    assert (finding.status, finding.measured, finding.limit) == ("tight", 16, 25)  # 425 - 370 - 39
    assert finding.parts == ("hot", "cold")
    assert "Only 16 mm of wall" in finding.message
    assert "Cut them as one" in finding.message


@pytest.mark.parametrize(("x", "status"), [(361, "clear"), (361.1, "tight")])
def test_web_exactly_at_the_limit_passes(x: float, status: str) -> None:
    job = led(JOB, "hot", (x, 0), (x, 500), (335, 500))  # 425 - 39 - 25 = 361
    assert only(job, "chase.web").status == status


def test_chases_that_overlap_beside_pipes_that_do_not_are_tight() -> None:
    finding = only(led(JOB, "hot", (395, 0), (395, 500), (335, 500)), "chase.web")
    assert (finding.status, finding.measured) == ("tight", -9)  # 30 - 39
    assert "run into each other" in finding.message


def test_web_is_not_asked_of_pipes_that_cross() -> None:
    assert only(led(JOB, "hot", *OVER), "chase.web").status == "clear"


def test_web_is_not_asked_inside_a_recess() -> None:
    # a spur of hot reaches over cold's chase, but its 937.5..976.5 lie in the valve's recess of 935..1125
    job = led(JOB, "hot", (335, 0), (335, 957), (398, 957), (398, 957.5), (335, 957.5))
    assert only(job, "chase.web").status == "clear"


def test_a_stud_wall_has_no_chases_to_stand_apart() -> None:
    job = led(on_wall(100, make_up="timber_stud"), "hot", (370, 0), (370, 500), (335, 500))
    finding = only(job, "chase.web")
    assert (finding.status, finding.message) == ("clear", "The pipes run in the cavity: no chase is cut.")


# wall behind, cover in front


def test_wall_left_behind_a_chase_is_its_thickness_less_the_depth() -> None:
    finding = only(JOB, "chase.wall", "hot")
    assert (finding.status, finding.measured, finding.limit) == ("clear", 107, 15)  # 140 - 33
    assert "39 wide and 33 mm deep" in finding.message


def test_chase_too_deep_for_the_wall_says_by_how_much() -> None:
    finding = only(on_wall(40), "chase.wall", "hot")
    assert (finding.status, finding.measured) == ("clash", 7)  # 40 - 33
    assert "8 mm too deep" in finding.message  # 15 - 7


def test_wall_exactly_thick_enough_for_a_chase_passes() -> None:
    assert only(on_wall(48), "chase.wall", "hot").status == "tight"  # 48 - 33 = 15
    assert only(on_wall(47.9), "chase.wall", "hot").status == "clash"


def test_pipe_in_a_stud_wall_must_fit_the_cavity() -> None:
    fits = only(on_wall(33, make_up="metal_stud"), "chase.wall", "hot")
    assert (fits.status, fits.measured, fits.limit) == ("tight", 0, 0)
    assert "runs in the cavity" in fits.message
    assert only(on_wall(32, make_up="metal_stud"), "chase.wall", "hot").status == "clash"


@given(
    st.integers(115, 1200).map(lambda tenths: tenths / 10),
    st.integers(0, 500).map(lambda tenths: tenths / 10),
)
def test_a_deeper_pipe_never_clears_the_wall_behind(depth: float, more: float) -> None:
    wall = on_wall(100)
    if only(led(wall, "hot", depth=depth), "chase.wall", "hot").status == "clash":
        assert only(led(wall, "hot", depth=depth + more), "chase.wall", "hot").status == "clash"


def test_cover_follows_from_the_rule_unless_the_depth_is_set() -> None:
    finding = only(JOB, "chase.bury", "hot")
    assert (finding.status, finding.measured, finding.limit) == ("clear", 5, 5)


@pytest.mark.parametrize(
    ("depth", "cover", "status"),
    [(16.5, 5, "clear"), (16.4, 4.9, "clash"), (11.5, 0, "clash"), (45, 33.5, "clear")],
)
def test_cover_over_a_pipe_set_by_hand_is_judged(depth: float, cover: float, status: str) -> None:
    finding = only(led(JOB, "hot", depth=depth), "chase.bury", "hot")  # depth - 23 / 2
    assert (finding.measured, finding.status) == (cover, status)


def test_pipe_that_stands_out_of_the_wall_is_told_so() -> None:
    finding = only(led(JOB, "hot", depth=8), "chase.bury", "hot")
    assert (finding.status, finding.measured) == ("clash", -3.5)  # 8 - 11.5
    assert "3.5 mm proud of the bare wall" in finding.message


# many


def test_every_crossing_of_many_pipes_is_found() -> None:
    levels = tuple(
        Pipe(id=f"level{n}", service="cold", end="outlet.in", route=((20, 100 + 60 * n), (740, 100 + 60 * n)))
        for n in range(10)
    )
    job = JOB.but(pipes=(JOB.pipes[0], *levels))
    crossings = [f for f in found(job, "chase.crossing") if f.parts[0] == "hot"]
    assert [f.parts[1] for f in crossings] == [f"level{n}" for n in range(10)]


def test_pipe_without_length_is_judged_without_failing() -> None:
    job = led(JOB, "branch", start=None, route=((570, 1030),))
    assert only(job, "chase.crossing").status == "clear"
    assert only(job, "chase.wall", "branch").status == "clear"
