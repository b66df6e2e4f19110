"""Zones and distances of the wiring rules, as published pages give them; what is from memory says so.

BS 7671:2018. Zones of cables, 522.6.202: the-regs.co.uk/blog/?p=586. Bathroom zones, 701.32:
2kelectrical.co.uk/locations. Sockets: 3 m there; 2.5 m from the draft of the amendment of 2022,
engx.theiet.org/f/wiring-and-regulations/23498.
"""

import pytest

from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from geometry.zones import bathroom_zones, cable_zones

VALUES = [
    ("electricity.zone_top", 150, "522.6.202", "published"),  # within 150 mm of the top of the wall
    ("electricity.zone_corner", 150, "522.6.202", "published"),  # within 150 mm of an angle of two walls
    ("electricity.through", 100, "522.6.202", "published"),  # walls of 100 mm or less
    ("electricity.bathroom_top", 2250, "701.32", "published"),  # 2.25 m, or the highest head if higher
    ("electricity.zone_1_radius", 1200, "701.32", "published"),  # 1.20 m from the fixed outlet
    ("electricity.zone_2_width", 600, "701.32", "published"),  # 0.60 m beyond zone 1
    ("electricity.zone_0_height", 100, "701.32", "from memory: verify"),  # 0.10 m
    ("electricity.socket", 2500, "701.512.3", "from memory: verify"),  # draft seen, final text not
]


@pytest.mark.parametrize(("rule", "value", "clause", "standing"), VALUES)
def test_limit_is_the_published_one_and_says_how_well_it_is_known(
    rule: str, value: float, clause: str, standing: str
) -> None:
    limit = standard_rules()[rule]
    assert limit.value == value
    assert (limit.source.document, limit.source.clause, limit.source.standing) == (
        "BS 7671",
        clause,
        standing,
    )


def test_margin_beside_an_accessory_claims_no_standard() -> None:
    # the standard gives no figure for the width of the zone
    assert standard_rules()["electricity.zone_margin"].source.standing == "common practice"


def test_zones_as_a_guide_draws_them() -> None:
    # a tray 760 wide, 920 from each end of the wall: zone 1 over it, zone 2 600 either side, all 2250 high
    job = suggested_job(760, 760, "left", 2600)
    job = job.but(enclosure=job.enclosure.but(left=920.0))
    plan = Plan(job, generic_parts(), standard_rules())
    zones = {(zone.kind, zone.bounds) for zone in bathroom_zones(plan)}
    assert zones == {
        ("bathroom 0", (920, 0, 1680, 40)),
        ("bathroom 1", (920, 0, 1680, 2250)),
        ("bathroom 2", (320, 0, 920, 2250)),
        ("bathroom 2", (1680, 0, 2280, 2250)),
    }
    assert {zone.bounds for zone in cable_zones(plan)} == {
        (0, 2250, 2600, 2400),  # 150 mm under the ceiling at 2400
        (0, 0, 150, 2400),
        (2450, 0, 2600, 2400),
    }
