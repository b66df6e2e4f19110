"""Snapping by hand sums: which line draws, how far, and what the guide says.

The suggested job for a tray of 760 has its centre line at 380 and its quarter lines at 190 and 570, the
valve at (380, 1030) with a plate of 170, the outlet at (570, 1030) with a flange of 60, the rail at
(570, 1120) with fixings 25 above its foot and 25 below its top at 1820.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.canvas.snapping import Anchor, Guide, Snapped, Target, snapped, whole
from app.canvas.targets import anchors_of, as_it_was, targets_of
from geometry.edits.refs import Ref
from geometry.model import Accessory, Tiling
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job

RAIL, OUTLET, VALVE = (Ref("fitting", name) for name in ("rail", "outlet", "valve"))
CENTRE = Target("x", 380.0, "centre line")


@pytest.fixture(scope="module")
def plan() -> Plan:
    job = suggested_job(760, 760, "left").but(services=(Accessory(id="spur", x=100.0, height=1500.0),))
    return Plan(job, generic_parts(), standard_rules())


def test_a_centre_within_the_tolerance_is_drawn_to_the_line_exactly() -> None:
    # 570 - 183 = 387, 7 mm from 380
    assert snapped([Anchor("x", 570.0)], [CENTRE], -183.0, 4.0, 8.0) == Snapped(
        -190.0, 4.0, (Guide("x", 380.0, "centre line"),)
    )


def test_exactly_at_the_tolerance_still_draws_and_beyond_it_does_not() -> None:
    assert snapped([Anchor("x", 570.0)], [CENTRE], -182.0, 0.0, 8.0).dx == -190.0
    assert snapped([Anchor("x", 570.0)], [CENTRE], -181.9, 0.0, 8.0) == Snapped(-181.9, 0.0)


def test_the_nearest_of_two_lines_draws() -> None:
    other = Target("x", 392.0, "plumb with spur")
    # 387 is 7 from 380 and 5 from 392
    assert snapped([Anchor("x", 570.0)], [CENTRE, other], -183.0, 0.0, 8.0).dx == -178.0


def test_of_two_as_near_the_first_draws() -> None:
    other = Target("x", 394.0, "plumb with spur")
    assert snapped([Anchor("x", 570.0)], [CENTRE, other], -183.0, 0.0, 8.0).dx == -190.0


def test_an_edge_is_drawn_to_edges_and_not_to_lines() -> None:
    edge = Anchor("x", 600.0, "edge")
    assert snapped([edge], [CENTRE], -223.0, 0.0, 8.0).dx == -223.0
    tray = Target("x", 760.0, "tray edge", "edge")
    assert snapped([edge], [tray], 157.0, 0.0, 8.0).dx == 160.0


def test_edges_draw_from_half_as_far_as_lines() -> None:
    edge, tray = Anchor("x", 600.0, "edge"), Target("x", 760.0, "tray edge", "edge")
    assert snapped([edge], [tray], 156.0, 0.0, 8.0).dx == 160.0
    assert snapped([edge], [tray], 155.9, 0.0, 8.0).dx == 155.9


def test_what_moves_keeps_its_level_while_it_goes_across() -> None:
    anchors = [Anchor("x", 570.0), Anchor("y", 1120.0)]
    level = Target("y", 1125.0, "level with spur")
    move = snapped(anchors, [*as_it_was(anchors), level], 200.0, 2.0, 8.0)
    assert move == Snapped(200.0, 0.0)  # 2 mm from where it was, 3 mm from the spur; no guide for the first
    assert snapped(anchors, [*as_it_was(anchors), level], 200.0, 3.0, 8.0).dy == 5.0


def test_each_axis_snaps_by_itself() -> None:
    level = Target("y", 1030.0, "level with valve")
    move = snapped([Anchor("x", 570.0), Anchor("y", 1120.0)], [CENTRE, level], -185.0, -87.0, 8.0)
    assert (move.dx, move.dy) == (-190.0, -90.0)
    assert [guide.word for guide in move.guides] == ["centre line", "level with valve"]


def test_lines_that_coincide_share_one_guide() -> None:
    both = [CENTRE, Target("x", 380.0, "plumb with valve")]
    assert snapped([Anchor("x", 570.0)], both, -190.0, 0.0, 8.0).guides == (
        Guide("x", 380.0, "centre line, plumb with valve"),
    )


def test_joints_draw_wherever_they_repeat() -> None:
    # joints of 3 mm at -1.5, 301.5, 604.5, ...: 570 + 30 = 600 is 4.5 from the third
    joint = Target("x", -1.5, "tile joint", "joint", 303.0)
    assert snapped([Anchor("x", 570.0)], [joint], 30.0, 0.0, 8.0).dx == pytest.approx(34.5)
    assert joint.nearest(-310.0) == pytest.approx(-304.5)


@given(st.floats(-500, 500), st.floats(-500, 500), st.floats(0, 50))
def test_snapping_never_moves_farther_than_the_tolerance(dx: float, dy: float, tolerance: float) -> None:
    anchors = [Anchor("x", 570.0), Anchor("y", 1120.0), Anchor("x", 545.0, "edge")]
    targets = [CENTRE, Target("y", 1030.0, "level"), Target("x", 10.0, "tile joint", "joint", 77.7)]
    move = snapped(anchors, targets, dx, dy, tolerance)
    assert abs(move.dx - dx) <= tolerance + 1e-9
    assert abs(move.dy - dy) <= tolerance + 1e-9


def test_without_a_target_near_a_place_is_a_whole_mm_from_the_datum() -> None:
    anchors = [Anchor("x", 570.0), Anchor("y", 1120.0)]
    # 570 + 12.3 - 0.5 = 581.8 from the tray's edge: 582; 1120 - 7.6 - 30 = 1082.4: 1082
    dx, dy = whole(anchors, (0.5, 30.0), 12.3, -7.6)
    assert dx == pytest.approx(12.5)
    assert dy == pytest.approx(-8.0)


def test_a_rail_is_set_out_by_its_axis_and_its_fixings(plan: Plan) -> None:
    assert [anchor for anchor in anchors_of(plan, [RAIL]) if anchor.kind == "centre"] == [
        Anchor("x", 570.0),
        Anchor("y", 1145.0),
        Anchor("y", 1795.0),
    ]


def test_edges_are_those_round_all_that_moves(plan: Plan) -> None:
    edges = [anchor.at for anchor in anchors_of(plan, [VALVE, OUTLET]) if anchor.kind == "edge"]
    # from the valve's plate, 380 - 85, to the outlet's flange, 570 + 30; both 1030 +- 85
    assert edges == [295.0, 600.0, 945.0, 1115.0]


def test_what_moves_does_not_draw_itself(plan: Plan) -> None:
    words = {target.word for target in targets_of(plan, [RAIL, OUTLET])}
    assert {"centre line", "quarter line", "tray edge", "plumb with valve", "level with spur"} <= words
    assert not any("rail" in word or "outlet" in word for word in words)


def test_an_outlet_dragged_near_the_valve_comes_level_with_it(plan: Plan) -> None:
    rest = targets_of(plan, [OUTLET])
    # 4 mm up from where it is level, and 2 mm right of the quarter line
    move = snapped(anchors_of(plan, [OUTLET]), rest, 2.0, 4.0, 6.0)
    assert (move.dx, move.dy) == (0.0, 0.0)
    assert Guide("y", 1030.0, "level with valve") in move.guides
    assert Guide("x", 570.0, "quarter line, plumb with rail") in move.guides


def test_tile_joints_draw_only_where_they_run_right_through(plan: Plan) -> None:
    def joints(bond: str) -> set[str]:
        tiling = Tiling(wide=200.0, high=100.0, joint=2.0, bond=bond)  # type: ignore[arg-type]
        job = plan.job.but(finish=plan.job.finish.but(tiling=tiling))
        tiled = Plan(job, plan.catalogue, plan.rules)
        return {target.axis for target in targets_of(tiled) if target.kind == "joint"}

    assert joints("straight") == {"x", "y"}
    assert joints("half") == {"y"}
    assert joints("vertical") == {"x"}
    assert joints("herringbone") == set()
