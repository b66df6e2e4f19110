"""What is cut into the wall, by hand sums. Copper 15 with 4 mm of wrap: chase 39 wide and 33 deep.

The suggested job: hot at x = 335, cold at 425, riser at 380, branch at y = 1030 from the valve to the outlet.
"""

import pytest

from geometry.chase.cuts import chase_cuts, recess_cuts, way_of
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.cut_walls import PARTS

JOB = suggested_job(760, 760, "left")
RULES = standard_rules()


def test_chase_ends_at_the_recesses_that_it_joins() -> None:
    # the valve's recess reaches from 935 to 1125, the pockets of head and outlet 25 about their centres
    cuts = {cut.owners: cut for cut in chase_cuts(Plan(JOB, PARTS, RULES))}
    assert cuts["hot",].bounds == (315.5, 0, 354.5, 935)
    assert cuts["riser",].bounds == (360.5, 1125, 399.5, 2165)
    assert (cuts["branch",].bounds, cuts["branch",].length) == ((470, 1010.5, 545, 1049.5), 75)
    assert [(cut.way, cut.depth) for cut in cuts.values()] == [("upright", 33)] * 3 + [("level", 33)]


def test_recess_of_the_valve_is_a_cut_of_its_own() -> None:
    valve = recess_cuts(Plan(JOB, PARTS, RULES))[0]
    # box 130 x 140 with 25 for nuts below, above and on the right: 155 x 190; 58 is the depth to aim for
    assert (valve.owners, valve.width, valve.length, valve.depth) == (("valve",), 155, 190, 58)


def test_part_that_its_finish_holds_is_no_cut() -> None:
    valve = JOB.fitting("valve").but(recess=0.0)
    cuts = recess_cuts(Plan(JOB.with_fitting(valve), PARTS, RULES))
    assert [cut.owners for cut in cuts] == [("head",), ("outlet",)]


def test_chases_that_overlap_side_by_side_are_one_wide_chase() -> None:
    # wrap 13: 15 + 26 = 41, chase 57 wide; hot at 335 and cold at 385 overlap by 7: 50 + 57 = 107 wide;
    # cold's centre lies 40 deep: 40 + 41 / 2 + 5 = 65.5
    pipes = tuple(
        pipe.but(wrap=13, depth=depth, route=((x, 0.0), (x, 700.0), (x + dx, 700.0)))
        for pipe, x, dx, depth in zip(JOB.pipes[:2], (335.0, 385.0), (0.0, 40.0), (30.0, 40.0), strict=True)
    )
    cuts = chase_cuts(Plan(JOB.but(pipes=pipes), PARTS, RULES))
    assert cuts[0].owners == ("hot", "cold")
    assert (cuts[0].width, cuts[0].depth) == (107, 65.5)


@pytest.mark.parametrize(
    ("x", "way"),
    [(17.4, "upright"), (17.5, "inclined"), (982.5, "inclined"), (60_000, "level")],
)
def test_leg_within_a_degree_of_plumb_is_upright(x: float, way: str) -> None:
    # tan 1 degree = 0.017455: 17.455 off plumb over 1000
    assert way_of(((0, 0), (x, 1000))) == way


def test_points_on_the_way_do_not_split_a_chase() -> None:
    pipes = tuple(
        pipe.but(route=((335.0, 0.0), (335.0, 300.0), (335.0, 600.0))) if pipe.id == "hot" else pipe
        for pipe in JOB.pipes
    )
    cuts = [cut for cut in chase_cuts(Plan(JOB.but(pipes=pipes), PARTS, RULES)) if cut.owners == ("hot",)]
    assert [cut.length for cut in cuts] == [935]
