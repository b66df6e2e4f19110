"""Zones on the wall, by hand sums: where cables run out of sight, and round the enclosure.

The job of these tests: a wall 2600 wide and 2400 high, a tray from 0 to 760, valve at (380, 1030), outlet and
rail at x = 570. Limits: 150 from top and corners, 25 beside an accessory, 2250 high, 600 beside, 1200 about.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.edits.moves import mirrored_wall
from geometry.model import Accessory, Enclosure, Head, Job
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import Rulebook, standard_rules
from geometry.setting_out.arrangement import suggested_job
from geometry.zones import Zone, bathroom_top, bathroom_zones, cable_zones, cuts_in_zones, zoned_cuts

JOB = suggested_job(760, 760, "left", 2600)
SOCKET = Accessory(id="socket", x=1400, height=1100)


def plan_of(job: Job, rules: Rulebook | None = None) -> Plan:
    return Plan(job, generic_parts(), rules or standard_rules())


def on_wall(**changes: object) -> Job:
    return JOB.but(wall=JOB.wall.but(**changes))


def with_enclosure(**changes: object) -> Job:
    return JOB.but(enclosure=JOB.enclosure.but(**changes))


def named(zones: tuple[Zone, ...], name: str) -> list[tuple[float, float, float, float]]:
    return [zone.bounds for zone in zones if zone.name == name]


# zones of cables


def test_zones_along_the_ceiling_and_both_corners() -> None:
    bounds = [(zone.kind, zone.bounds) for zone in cable_zones(plan_of(JOB))]
    assert bounds == [
        ("ceiling", (0, 2250, 2600, 2400)),
        ("corner", (0, 0, 150, 2400)),
        ("corner", (2450, 0, 2600, 2400)),
    ]


def test_free_end_has_no_corner_zone() -> None:
    kinds = [zone.kind for zone in cable_zones(plan_of(on_wall(left="free_end", right="free_end")))]
    assert kinds == ["ceiling"]


def test_accessory_has_a_band_up_and_down_and_one_sideways() -> None:
    # 86 wide and high: 43 each way and 25 of margin: 68
    zones = cable_zones(plan_of(JOB.but(services=(SOCKET,))))
    assert named(zones, "zone above and below socket") == [(1332, 0, 1468, 2400)]
    assert named(zones, "zone level with socket") == [(0, 1032, 2600, 1168)]
    assert [zone.owner for zone in zones] == [None, None, None, "socket", "socket"]


def test_margin_beside_an_accessory_is_set_by_the_rules() -> None:
    rules = standard_rules()
    wide = rules.with_own({"electricity.zone_margin": rules["electricity.zone_margin"].but(value=100.0)})
    zones = cable_zones(plan_of(JOB.but(services=(SOCKET,)), wide))
    assert named(zones, "zone level with socket") == [(0, 957, 2600, 1243)]


# cuts in them


def test_suggested_job_stays_out_of_all_zones() -> None:
    assert cuts_in_zones(plan_of(JOB)) == ()


def test_each_cut_and_screw_is_measured_to_the_zone_next_to_it() -> None:
    cuts = {(cut.owner, cut.what): cut.gap for cut in zoned_cuts(plan_of(JOB))}
    assert cuts["hot", "chase"] == 165.5  # 335 - 39 / 2 - 150
    assert cuts["head", "recess"] == 35  # 2250 - (2190 + 25)
    assert cuts["valve", "recess"] == 165  # 315 - 150
    assert cuts["rail", "screw"] == 417  # 570 - 3 - 150


@pytest.mark.parametrize(("corner", "inside"), [(315.4, False), (315.5, False), (315.6, True)])
def test_chase_exactly_at_the_edge_of_a_zone_is_outside(corner: float, inside: bool) -> None:
    # the left edge of the chase of hot: 335 - 39 / 2 = 315.5
    rules = standard_rules()
    made = rules.with_own({"electricity.zone_corner": rules["electricity.zone_corner"].but(value=corner)})
    hot = [cut for cut in zoned_cuts(plan_of(JOB, made)) if cut.owner == "hot"]
    assert [cut.enters for cut in hot] == [inside]


def test_cut_names_every_zone_that_it_enters() -> None:
    # centred on the valve: level band 962 to 1098, plumb band 312 to 448
    switch = Accessory(id="switch", kind="switch", x=380, height=1030)
    cuts = cuts_in_zones(plan_of(JOB.but(services=(switch,))))
    valve = next(cut for cut in cuts if (cut.owner, cut.what) == ("valve", "recess"))
    assert [zone.name for zone in valve.zones] == ["zone above and below switch", "zone level with switch"]
    assert {cut.owner for cut in cuts} == {"hot", "cold", "riser", "branch", "valve", "head", "outlet"}


def test_cut_between_two_zones_names_both_if_it_reaches_into_both() -> None:
    # axis of hot at 335, chase 19.5 either way; the bands end at 257 + 68 = 325 and begin at 413 - 68 = 345
    services = tuple(Accessory(id=name, x=x, height=2000) for name, x in (("left", 257), ("right", 413)))
    (hot,) = (cut for cut in cuts_in_zones(plan_of(JOB.but(services=services))) if cut.owner == "hot")
    assert [zone.owner for zone in hot.zones] == ["left", "right"]
    assert hot.gap == -9.5  # 325 - 315.5


# bathroom zones


def test_zones_of_a_tray_in_a_corner() -> None:
    # rim 40; zone 2 on the left would lie beyond the corner
    zones = bathroom_zones(plan_of(JOB))
    assert named(zones, "zone 0") == [(0, 0, 760, 40)]
    assert named(zones, "zone 1") == [(0, 0, 760, 2250)]
    assert named(zones, "zone 2") == [(760, 0, 1360, 2250)]


def test_zones_of_a_bath_away_from_the_corners() -> None:
    bath = Enclosure(kind="bath", left=450, width=1700, projection=700, floor=150, rim=560)
    zones = bathroom_zones(plan_of(JOB.but(enclosure=bath)))
    assert named(zones, "zone 0") == [(450, 0, 2150, 560)]
    assert named(zones, "zone 1") == [(450, 0, 2150, 2250)]
    assert named(zones, "zone 2") == [(0, 0, 450, 2250), (2150, 0, 2600, 2250)]  # 450 < 600 to either end


def test_shower_without_a_tray_has_zone_1_about_its_outlets_and_no_zone_2() -> None:
    # outlets at 380 and 570: from 380 - 1200 to 570 + 1200 = 1770; zone 0 is 100 high
    zones = bathroom_zones(plan_of(with_enclosure(kind="wet_floor")))
    assert named(zones, "zone 0") == [(0, 0, 1770, 100)]
    assert named(zones, "zone 1") == [(0, 0, 1770, 2250)]
    assert named(zones, "zone 2") == []


def test_outlets_far_apart_have_a_zone_1_each() -> None:
    wide = suggested_job(760, 760, "left", 6000)
    far = Head(id="far", part="head-wall-200", x=5000, height=2190)
    job = wide.but(enclosure=wide.enclosure.but(kind="wet_floor"), fittings=(*wide.fittings, far))
    assert named(bathroom_zones(plan_of(job)), "zone 1") == [(0, 0, 1770, 2250), (3800, 0, 6000, 2250)]


def test_ceiling_arm_reaches_less_of_the_wall_from_out_in_the_room() -> None:
    # its axis is 900 from the finished face, which is 14 out: 1200^2 - 914^2 = 604604, whose root is 777.563
    head = Head(id="head", part="head-ceiling-250", x=1300, height=2400, reach=900)
    job = with_enclosure(kind="wet_floor").but(fittings=(head,), hoses=(), pipes=())
    ((x0, _, x1, _),) = named(bathroom_zones(plan_of(job)), "zone 1")
    assert (x0, x1) == pytest.approx((1300 - 777.563, 1300 + 777.563), abs=1e-3)


def test_shower_without_a_tray_and_without_an_outlet_has_no_zones_yet() -> None:
    job = with_enclosure(kind="wet_floor").but(fittings=(), hoses=(), pipes=())
    assert bathroom_zones(plan_of(job)) == ()


@pytest.mark.parametrize(("height", "top"), [(2190, 2250), (2310, 2260)])
def test_zones_reach_to_the_head_if_that_is_higher_than_2250(height: float, top: float) -> None:
    # underside of the head 60 under its arm, the head 10 thick: 2310 - 60 + 10 = 2260
    assert bathroom_top(plan_of(JOB.moved("head", 380, height))) == top


def test_zones_end_at_the_ceiling() -> None:
    job = suggested_job(760, 760, "left", 2600, 2200).moved("head", 380, 2100)
    assert named(bathroom_zones(plan_of(job)), "zone 1") == [(0, 0, 760, 2200)]


# mirrored


def rounded(bounds: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(round(value, 6) for value in bounds)


@given(st.integers(100, 2500), st.integers(50, 2350), st.sampled_from(["tray", "bath", "wet_floor"]))
def test_mirrored_wall_has_the_mirrored_zones(x: int, height: int, kind: str) -> None:
    services = (Accessory(id="a", x=x, height=height, wide=146),)
    job = JOB.but(services=services, enclosure=JOB.enclosure.but(kind=kind, left=500.0))
    for zones in (cable_zones, bathroom_zones):
        here = {
            rounded((2600 - x1, y0, 2600 - x0, y1))
            for x0, y0, x1, y1 in (z.bounds for z in zones(plan_of(job)))
        }
        there = {rounded(zone.bounds) for zone in zones(plan_of(mirrored_wall(job)))}
        assert here == there
