"""Recess depths as findings. Hand sums for a valve of 60 to 85 mm and elbows of 40 to 60 mm."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.recesses import recesses
from geometry.finding import Finding
from geometry.model import Finish, FinishArea, Job, Layer, Region, Spout
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import OutletPart
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import USUAL_LAYERS, suggested_job

JOB = suggested_job(760, 760, "left")
"""Build-up 1 + 4 +- 1 + 9 = 14 mm on a 140 mm block wall."""


def found(job: Job, rule: str, part: str = "valve") -> Finding:
    plan = Plan(job, generic_parts(), standard_rules())
    (finding,) = (held for held in recesses(plan) if held.rule == rule and held.parts == (part,))
    return finding


def rules_of(job: Job, part: str) -> list[str]:
    plan = Plan(job, generic_parts(), standard_rules())
    return [finding.rule for finding in recesses(plan) if finding.parts == (part,)]


def finished(*layers: tuple[float, float]) -> Job:
    made = tuple(Layer(kind="board", thickness=thick, tolerance=slack) for thick, slack in layers)
    return JOB.but(finish=Finish(areas=(FinishArea(id="wall", layers=made),)))


def on_wall(thickness: float, **changes: object) -> Job:
    return JOB.but(wall=JOB.wall.but(thickness=thickness, **changes))


def cut(job: Job, depth: float, name: str = "valve") -> Job:
    return job.with_fitting(job.fitting(name).but(recess=depth))


# the range


def test_range_of_a_valve_is_given_with_the_depth_to_aim_for() -> None:
    # worst case 60 - 13 = 47 and 85 - 15 = 70, 23 mm of room
    finding = found(JOB, "recess.range")
    assert (finding.status, finding.measured, finding.limit) == ("clear", 23, 0)
    assert finding.message == "valve: cut 47 to 70 mm deep, aim for 58 (build-up 14 mm)."
    assert finding.place == ((380, 1030),)


def test_range_of_an_outlet_lets_its_thread_reach_the_finished_face() -> None:
    # 40 - 13 = 27 and 60 - 15 = 45, the middle is 36
    for name in ("outlet", "head"):
        finding = found(JOB, "outlet.stub", name)
        assert (finding.status, finding.measured) == ("clear", 18)
        assert finding.message.startswith(f"{name}: cut 27 to 45 mm deep, aim for 36 (build-up 14 mm)")
        assert "thread reaches the finished face" in finding.message


def test_a_spout_is_judged_as_the_other_elbows_are() -> None:
    job = JOB.with_fitting(Spout(id="spout", part="spout-170", x=200, height=700))
    assert found(job, "outlet.stub", "spout").measured == 18


def test_finish_thicker_than_the_valve_allows_is_a_clash() -> None:
    # board 86 and tile 9 over a valve that allows 85: 85 - 95 = -10
    finding = found(finished((86, 0), (9, 0)), "recess.range")
    assert (finding.status, finding.measured, finding.limit) == ("clash", -10, 0)
    assert "comes to 95 mm" in finding.message
    assert "10 mm too deep" in finding.message
    assert "extension kit" in finding.message


def test_finish_just_as_thick_as_the_valve_allows_passes_as_tight() -> None:
    assert found(finished((85, 0)), "recess.range").status == "tight"  # 85 - 85 = 0, nothing is cut


def test_finish_that_may_vary_by_more_than_the_range_is_a_clash() -> None:
    # 29 +- 13 comes to 16..42: at least 60 - 16 = 44, at most 85 - 42 = 43
    finding = found(finished((29, 13)), "recess.range")
    assert (finding.status, finding.measured) == ("clash", -1)
    assert "at least 44 and at most 43 mm" in finding.message


def test_room_of_less_than_three_is_tight() -> None:
    # 29 +- 11.5: 60 - 17.5 = 42.5, 85 - 40.5 = 44.5, 2 mm of room; +- 11 leaves 3
    assert found(finished((29, 11.5)), "recess.range").status == "tight"
    assert found(finished((29, 11)), "recess.range").status == "clear"


def test_a_ceiling_arm_has_no_recess_in_the_wall() -> None:
    job = JOB.with_fitting(JOB.fitting("head").but(part="head-ceiling-250", height=2400))
    assert rules_of(job, "head") == []


@given(
    st.integers(0, 600).map(lambda tenths: tenths / 10), st.integers(0, 600).map(lambda tenths: tenths / 10)
)
def test_a_thicker_finish_never_gives_more_room(thickness: float, more: float) -> None:
    thin, thick = (found(finished((t, 0)), "recess.range").measured for t in (thickness, thickness + more))
    assert thin is not None
    assert thick is not None
    assert thick <= thin + 1e-9


# a depth set by hand


def test_recess_set_too_shallow_is_a_clash_with_its_range() -> None:
    finding = found(cut(JOB, 40), "recess.shallow")
    assert (finding.status, finding.measured, finding.limit) == ("clash", 40, 47)
    assert finding.message == (
        "Recess of valve 40 mm deep, needs 47 to 70 with this finish (build-up 14 mm): 7 mm too shallow."
    )
    assert found(cut(JOB, 40), "recess.deep").status == "clear"


def test_recess_set_too_deep_is_a_clash_with_its_range() -> None:
    finding = found(cut(JOB, 75), "recess.deep")
    assert (finding.status, finding.measured, finding.limit) == ("clash", 75, 70)
    assert finding.message.endswith("5 mm too deep.")


@pytest.mark.parametrize(
    ("depth", "shallow", "deep"),
    [(46.9, "clash", "clear"), (47, "tight", "clear"), (50, "clear", "clear"), (58, "clear", "clear"),
     (67, "clear", "clear"), (70, "clear", "tight"), (70.1, "clear", "clash")],
)  # fmt: skip
def test_recess_set_exactly_at_an_end_of_its_range_passes(depth: float, shallow: str, deep: str) -> None:
    job = cut(JOB, depth)
    assert found(job, "recess.shallow").status == shallow
    assert found(job, "recess.deep").status == deep


def test_nothing_cut_is_not_too_shallow_where_the_finish_alone_is_deep_enough() -> None:
    finding = found(cut(finished((70, 0)), 0), "recess.shallow")  # 60 - 70 = -10, 10 mm to spare
    assert (finding.status, finding.measured, finding.limit) == ("clear", 0, -10)
    assert "needs 0 to 15 with this finish" in finding.message


def test_depth_worked_out_from_the_finish_needs_no_judging() -> None:
    assert not {"recess.shallow", "recess.deep"} & set(rules_of(JOB, "valve"))


def test_drawn_recess_is_as_deep_as_it_was_set() -> None:
    plan = Plan(cut(JOB, 40), generic_parts(), standard_rules())
    (recess,) = (solid for solid in plan.fitted if solid.owner == "valve" and solid.what == "recess")
    assert recess.low == -40
    assert plan.cuts == {"valve": 40, "head": 36, "outlet": 36}


# the wall behind


def test_wall_left_is_measured_at_the_least_depth_that_works() -> None:
    finding = found(JOB, "recess.wall")
    assert (finding.status, finding.measured, finding.limit) == ("clear", 93, 15)  # 140 - 47


def test_wall_too_thin_says_by_how_much_the_recess_is_too_deep() -> None:
    # 50 - 47 = 3 left of the 15: 12 too deep
    finding = found(on_wall(50), "recess.wall")
    assert (finding.status, finding.measured) == ("clash", 3)
    assert "12 mm too deep" in finding.message


def test_wall_exactly_thick_enough_passes() -> None:
    assert found(on_wall(62), "recess.wall").status == "tight"  # 62 - 47 = 15
    assert found(on_wall(61.9), "recess.wall").status == "clash"


def test_depth_at_which_the_wall_binds_is_named() -> None:
    # 80 - 15 = 65 lies inside 47..70, beyond the 58 to aim for; 80 - 47 = 33 is clear of 15 + 10
    finding = found(on_wall(80), "recess.wall")
    assert (finding.status, finding.measured) == ("clear", 33)
    assert "no deeper than 65 mm" in finding.message


def test_wall_that_binds_before_the_depth_to_aim_for_is_tight() -> None:
    # 72.5 - 15 = 57.5 < 58, though 72.5 - 47 = 25.5 is left at the least depth
    assert found(on_wall(72.5), "recess.wall").status == "tight"
    assert found(on_wall(73), "recess.wall").status == "clear"


def test_wall_is_judged_at_the_depth_set_by_hand() -> None:
    finding = found(cut(on_wall(80), 70), "recess.wall")  # 80 - 70 = 10 of 15
    assert (finding.status, finding.measured) == ("clash", 10)
    assert "5 mm too deep" in finding.message


def test_box_in_a_stud_wall_may_fill_the_cavity() -> None:
    # studs of 47 mm and 47 mm needed: nothing left, nothing wanted
    finding = found(on_wall(47, make_up="timber_stud"), "recess.wall")
    assert (finding.status, finding.measured, finding.limit) == ("tight", 0, 0)
    assert "no deeper than 47 mm" in finding.message


def test_box_deeper_than_the_studs_presses_on_the_far_lining() -> None:
    finding = found(on_wall(40, make_up="metal_stud"), "recess.wall")
    assert (finding.status, finding.measured) == ("clash", -7)
    assert "far lining" in finding.message
    assert "7 mm too deep" in finding.message


@given(
    st.integers(200, 2000).map(lambda tenths: tenths / 10),
    st.integers(1, 500).map(lambda tenths: tenths / 10),
)
def test_a_thinner_wall_never_clears_a_clash(thickness: float, thinner: float) -> None:
    if found(on_wall(thickness), "recess.wall").status == "clash":
        assert found(on_wall(max(1.0, thickness - thinner)), "recess.wall").status == "clash"


# the finish


def test_no_finish_at_a_fitting_leaves_its_depth_unchecked() -> None:
    finding = found(JOB.but(finish=Finish()), "recess.finish")
    assert finding.status == "unchecked"
    assert "No finish is given at valve" in finding.message


def test_an_area_without_layers_is_a_bare_wall_that_is_meant() -> None:
    assert found(finished(), "recess.finish").status == "clear"


def test_step_in_the_finish_under_a_plate_is_a_clash() -> None:
    # tiles of 9 on 1 + 4 up to 1000, bare of them above; the plate of 170 about 1030 reaches down to 945
    below = FinishArea(id="tiled", layers=USUAL_LAYERS, region=Region(x=0, y=0, width=760, height=1000))
    above = FinishArea(id="plaster", layers=(Layer(kind="plaster", thickness=11),))
    finding = found(JOB.but(finish=Finish(areas=(below, above))), "recess.finish")
    assert (finding.status, finding.measured, finding.limit) == ("clash", 3, 1)  # 14 - 11
    assert found(JOB.but(finish=Finish(areas=(below, above))), "recess.finish", "head").status == "clear"


def test_hole_in_the_finish_leaves_room_round_the_thread() -> None:
    finding = found(JOB, "outlet.hole", "outlet")
    assert (finding.status, finding.measured) == ("clear", 4.5)  # (30 - 20.955) / 2 = 4.52


def test_hole_smaller_than_the_thread_is_a_clash() -> None:
    parts = generic_parts()
    small = parts.find("outlet-round", OutletPart).but(hole=20)
    plan = Plan(JOB, parts.with_own((small,)), standard_rules())
    (finding,) = (held for held in recesses(plan) if held.rule == "outlet.hole" and held.parts == ("outlet",))
    assert (finding.status, finding.measured) == ("clash", -0.5)  # (20 - 20.955) / 2 = -0.48
