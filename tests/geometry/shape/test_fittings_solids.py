"""What each fitting takes up, against hand sums from the sizes of its part."""

import math

import pytest
import shapely

from geometry.model import Head, HoseOutlet, Rail, Spout, Valve
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import HandsetPart, HeadPart, OutletPart, RailPart, SpoutPart, ValvePart
from geometry.shape.fittings import (
    handset_solid,
    head_solids,
    outlet_solids,
    rail_solids,
    recess_outline,
    sector,
    slider_of,
    spout_solids,
    valve_solids,
)
from geometry.shape.outline import circle, core, rectangle, run
from geometry.shape.solid import Solid

FACE = 14.0
parts = generic_parts()
VALVE = parts.find("valve-two-round", ValvePart)  # box 130 x 140, plate 170 round and 8 thick
HEAD = parts.find("head-wall-200", HeadPart)  # 200 across, 10 thick, reach 350, drop 60, arm 24
CEILING = parts.find("head-ceiling-250", HeadPart)  # 250 across, 10 thick, reach 450, drop 220
OUTLET = parts.find("outlet-round", OutletPart)  # pocket 50 x 50, flange 60, nozzle 24, 45 out, 30 down
SPOUT = parts.find("spout-170", SpoutPart)  # reach 170, drop 25, body 45, flange 65
RAIL = parts.find("rail-700", RailPart)  # fixings at 25 and 675, slides 80 to 620, axis 55 out
HANDSET = parts.find("handset-110", HandsetPart)  # 110 across, 130 above and 60 below, 210 out


def named(solids: tuple[Solid, ...], what: str) -> list[Solid]:
    return [solid for solid in solids if solid.what == what]


# valve

valve = Valve(id="valve", part=VALVE.id, x=380, height=1030)


def test_a_recess_has_room_to_turn_a_nut_on_each_side_where_a_pipe_joins() -> None:
    # box 315..445 x 960..1100, 25 more on the right, above and below
    found = recess_outline(valve, VALVE, frozenset({"right", "up", "down"}))
    assert found == rectangle(315, 935, 470, 1125)


def test_a_recess_without_pipes_is_its_box() -> None:
    assert recess_outline(valve, VALVE, frozenset()).bounds == (315, 960, 445, 1100)


def test_the_recess_ends_at_the_bare_wall_and_the_box_at_the_finished_face() -> None:
    solids = valve_solids(valve, VALVE, FACE, 58, frozenset())
    (recess,), (box,) = named(solids, "recess"), named(solids, "box")
    assert (recess.low, recess.high) == (-58, 0)
    assert (box.low, box.high) == (-58, 14)


def test_plate_and_controls_stand_on_the_finished_face() -> None:
    solids = valve_solids(valve, VALVE, FACE, 58, frozenset())
    assert named(solids, "plate") == [Solid("valve", "plate", circle((380, 1030), 170), 14, 22)]
    # 35 below the centre, 55 across, 70 out
    knob = Solid("valve", "temperature control", circle((380, 995), 55), 14, 84)
    assert named(solids, "temperature control") == [knob]


def test_screws_reach_behind_the_bare_wall() -> None:
    solids = named(valve_solids(valve, VALVE, FACE, 58, frozenset()), "screw")
    assert [screw.outline for screw in solids] == [circle((325, 970), 6), circle((435, 1090), 6)]
    assert {(screw.low, screw.high) for screw in solids} == {(-100, 0)}


# head

head = Head(id="head", part=HEAD.id, x=380, height=2190)


def test_a_head_hangs_its_drop_below_its_arm() -> None:
    # axis 14 + 350 from the bare wall, underside 2190 - 60
    (disc,) = named(head_solids(head, HEAD, FACE, 36), "head")
    assert disc == Solid("head", "head", circle((380, 364), 200), 2130, 2140, "plan")


def test_a_wall_arm_runs_from_the_face_to_the_axis_and_down_to_the_head() -> None:
    level, drop = named(head_solids(head, HEAD, FACE, 36), "arm")
    assert level == Solid("head", "arm", run(((380, 14), (380, 364)), 24), 2178, 2202, "plan")
    assert drop == Solid("head", "arm", circle((380, 364), 24), 2140, 2190, "plan")


def test_a_heads_own_reach_counts_before_that_of_its_part() -> None:
    (disc,) = named(head_solids(head.but(reach=500), HEAD, FACE, 36), "head")
    assert disc.outline == circle((380, 514), 200)


def test_a_wall_head_has_pocket_and_flange() -> None:
    solids = head_solids(head, HEAD, FACE, 36)
    assert named(solids, "pocket") == [Solid("head", "pocket", rectangle(355, 2165, 405, 2215), -36, 0)]
    assert named(solids, "flange") == [Solid("head", "flange", circle((380, 2190), 60), 14, 22)]


def test_a_ceiling_arm_drops_from_the_ceiling_and_cuts_nothing_into_the_wall() -> None:
    solids = head_solids(head.but(height=2400), CEILING, FACE, 0)
    assert {solid.what for solid in solids} == {"ceiling flange", "arm", "head"}
    # underside 2400 - 220, 10 thick; axis 14 + 450
    (disc,) = named(solids, "head")
    assert disc == Solid("head", "head", circle((380, 464), 250), 2180, 2190, "plan")
    (arm,) = named(solids, "arm")
    assert (arm.low, arm.high) == (2190, 2400)


def test_a_head_thicker_than_its_drop_has_no_arm_upside_down() -> None:
    for solid in head_solids(head, HEAD.but(drop=5), FACE, 36):
        assert solid.low <= solid.high


# outlet and spout

outlet = HoseOutlet(id="outlet", part=OUTLET.id, x=570, height=1030)
spout = Spout(id="spout", part=SPOUT.id, x=800, height=650)


def test_a_nozzle_points_down_from_the_outlet() -> None:
    # 30 down from the centre, half of 24 up; 45 out from the face
    (nozzle,) = named(outlet_solids(outlet, OUTLET, FACE, 36), "nozzle")
    assert nozzle == Solid("outlet", "nozzle", run(((570, 14), (570, 59)), 24), 1000, 1042, "plan")


def test_a_nozzle_that_points_up_is_not_upside_down() -> None:
    # 20 up from the centre, half of 24 down
    (nozzle,) = named(outlet_solids(outlet, OUTLET.but(nozzle_y=20), FACE, 36), "nozzle")
    assert (nozzle.low, nozzle.high) == (1018, 1050)


def test_an_outlet_has_pocket_flange_and_two_screws() -> None:
    solids = outlet_solids(outlet, OUTLET, FACE, 36)
    assert named(solids, "pocket") == [Solid("outlet", "pocket", rectangle(545, 1005, 595, 1055), -36, 0)]
    assert named(solids, "flange") == [Solid("outlet", "flange", circle((570, 1030), 60), 14, 22)]
    assert [screw.outline.middle for screw in named(solids, "screw")] == [(550, 1030), (590, 1030)]


def test_a_spout_reaches_out_as_far_as_its_part_says() -> None:
    # 14 + 170 from the bare wall; mouth 25 below the axis, half of 45 above it
    (body,) = named(spout_solids(spout, SPOUT, FACE, 36), "spout")
    assert body.box == (777.5, 625, 14 - 22.5, 822.5, 672.5, 184)


# rail and handset

rail = Rail(id="rail", part=RAIL.id, x=570, height=1120)


def test_a_rail_stands_upright_off_the_wall_between_its_brackets() -> None:
    solids = rail_solids(rail, RAIL, FACE)
    assert named(solids, "rail") == [Solid("rail", "rail", circle((570, 69), 22), 1120, 1820, "plan")]
    assert [bracket.outline.middle for bracket in named(solids, "bracket")] == [(570, 1145), (570, 1795)]
    assert {(bracket.low, bracket.high) for bracket in named(solids, "bracket")} == {(14, 69)}
    assert [screw.outline.middle for screw in named(solids, "screw")] == [(570, 1145), (570, 1795)]


def test_a_handset_stands_between_the_rails_axis_and_its_outermost_point() -> None:
    # slider at 1120 + 400; 60 below and 130 above it; 14 + 55 to 14 + 210 off the wall; 110 wide
    found = handset_solid(rail, RAIL, HANDSET, FACE, 400, 400)
    assert found.box == pytest.approx((515, 1460, 69, 625, 1650, 224))


def test_a_handsets_travel_goes_from_its_lowest_to_its_highest_place() -> None:
    # 1120 + 80 - 60 to 1120 + 620 + 130
    found = handset_solid(rail, RAIL, HANDSET, FACE, 80, 620)
    assert (found.low, found.high) == (1140, 1870)


def test_a_handset_that_stands_no_farther_out_than_its_rail_is_flat_not_inside_out() -> None:
    found = handset_solid(rail, RAIL, HANDSET.but(out=40), FACE, 80, 620)
    assert found.box == pytest.approx((515, 1140, 69, 625, 1870, 69))
    assert found.outline.radius == 0


def test_a_slider_stands_two_thirds_up_unless_it_is_set_and_keeps_to_its_range() -> None:
    # 80 + (620 - 80) x 2 / 3
    assert slider_of(rail, RAIL) == 440
    assert slider_of(rail.but(slider=200), RAIL) == 200
    assert slider_of(rail.but(slider=0), RAIL) == 80
    assert slider_of(rail.but(slider=700), RAIL) == 620


# door


@pytest.mark.parametrize(("start", "end"), [(0, 90), (180, 90), (270, 360), (0, 180), (-90, 0), (10, 13)])
def test_a_door_sweeps_never_less_than_its_circle_and_at_most_a_hair_more(start: float, end: float) -> None:
    swept = core(sector((100, 200), 700, start, end))
    exact = math.radians(abs(end - start)) / 2 * 700**2
    assert exact <= shapely.area(swept) <= exact * 1.004  # 0.2 % more radius is 0.4 % more area
    for step in range(101):
        angle = math.radians(start + (end - start) * step / 100)
        tip = shapely.Point(100 + 700 * math.cos(angle), 200 + 700 * math.sin(angle))
        assert shapely.distance(swept, tip) < 1e-6


def test_a_sector_is_convex() -> None:
    for end in (0, 30, 90, 180):
        area = core(sector((0, 0), 700, 0, end))
        assert shapely.area(area) == pytest.approx(shapely.area(shapely.convex_hull(area)))


def test_no_solid_is_inside_out() -> None:
    every = (
        *valve_solids(valve, VALVE, FACE, 58, frozenset()),
        *head_solids(head, HEAD, FACE, 36),
        *outlet_solids(outlet, OUTLET, FACE, 36),
        *spout_solids(spout, SPOUT, FACE, 36),
        *rail_solids(rail, RAIL, FACE),
    )
    assert len(every) == 7 + 5 + 5 + 3 + 5
    assert all(solid.low < solid.high for solid in every)
