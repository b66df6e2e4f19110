"""Used water drawn back through handsets and spouts. The wall is bare, so that the nozzle is 45 out of it.

The outlet is at 1000, its nozzle 30 lower: 970. The handset is 240 long, the rim at 40, the tray floor at 30.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.backflow import backflow
from geometry.edits.moves import mirrored_wall
from geometry.finding import Finding, Status
from geometry.hose.reach import Reach
from geometry.hose.spill import Vessel, hang
from geometry.model import Enclosure, Hose, HoseOutlet, House, Job, Pipe, Rail, Sanitary, Spout
from geometry.model.house import Backflow, SanitaryKind
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import HosePart, SpoutPart
from geometry.plan import Plan
from geometry.rules import standard_rules
from tests.geometry.checks.walls import along, bare, told

RIM_3, WC = "water.handset_gap", "water.auk3_gap_from_15"
ORDER: tuple[Status, ...] = ("clear", "tight", "refer", "clash")


def shower(
    length: float, *sanitary: Sanitary, protection: Backflow = "not_known", dwelling: bool = True
) -> tuple[Job, float]:
    """A hose of a wished length on a rail beside its outlet, and that length."""
    fittings = (
        HoseOutlet(id="outlet", part="outlet-round", x=1000, height=1000),
        Rail(id="rail", part="rail-700", x=1000, height=1100),
    )
    job = bare(*fittings).but(
        hoses=(Hose(id="hose", part="own", outlet="outlet", rail="rail"),),
        sanitary=sanitary,
        house=House(backflow=protection, dwelling=dwelling),
    )
    return job, length


def checked(shown: tuple[Job, float]) -> tuple[Finding, ...]:
    job, length = shown
    parts = generic_parts().with_own([HosePart(id="own", name="Own", length=length)])
    return tuple(backflow(Plan(job, parts, standard_rules())))


def by_rule(findings: tuple[Finding, ...], rule: str) -> Finding:
    (found,) = [finding for finding in findings if finding.rule == rule]
    return found


def fixture(
    x: float,
    z: float = 0.0,
    rim: float = 140.0,
    kind: SanitaryKind = "wc",
    name: str = "other",
    **size: float,
) -> Sanitary:
    return Sanitary(id=name, kind=kind, x=x, z=z, rim=rim, **size)


# over the enclosure: the nozzle is over it, so the handset hangs straight down


def test_handset_exactly_at_the_least_gap_passes() -> None:
    # 970 - 665 - 240 - 40 = 25
    assert told(by_rule(checked(shower(665)), RIM_3)) == ("tight", 25)


def test_handset_a_tenth_lower_is_referred_with_the_ways_to_comply() -> None:
    found = by_rule(checked(shower(665.1)), RIM_3)
    assert told(found) == ("refer", 24.9)
    assert found.message == (
        "Handset of hose hangs down to 24.9 mm above the rim of the tray (fluid category 3); 25 mm above it "
        "is wanted. Ways to comply: a ring that keeps the hose short enough, a double check valve at the "
        "hose's outlet or on both supplies, or both supplies from a cistern. The water company or a licensed "
        "plumber decides."
    )


def test_handset_well_above_the_rim_is_clear() -> None:
    # 970 - 600 - 240 - 40
    assert told(by_rule(checked(shower(600)), RIM_3)) == ("clear", 90)


def test_handset_hangs_no_lower_than_the_floor_it_lies_on() -> None:
    # 970 - 1500 - 240 is far below the tray floor at 30, which is 10 below the rim
    found = by_rule(checked(shower(1500)), RIM_3)
    assert (found.measured, "10 mm below the rim" in found.message) == (-10, True)


def test_an_enclosure_out_of_reach_is_clear() -> None:
    job, length = shower(300)
    # nozzle at x 1000, tray from 1600: level distance 600, reach 540
    job = job.but(enclosure=Enclosure(left=1600, width=900, projection=900))
    found = by_rule(checked((job, length)), RIM_3)
    assert told(found) == ("clear", None)
    assert "60 mm short of the tray" in found.message


def test_without_a_hose_there_is_nothing_to_draw_back() -> None:
    (found,) = checked((bare(), 1000))
    assert told(found) == ("clear", None)


# other fixtures: 3-4-5 triangles of 600 level, 800 down, 1000 of hose and handset


@pytest.mark.parametrize(
    "wc",
    [
        fixture(1600, wide=400, deep=600),  # 1600 - 1000 beside the nozzle
        fixture(0, wide=400, deep=600),  # 1000 - 400 on the other side
        fixture(800, 645, wide=400, deep=600),  # 645 - 45 in front
        fixture(1360, 525),  # a point 360 beside and 480 in front
    ],
)
def test_handset_over_a_wc_is_measured_in_three_dimensions(wc: Sanitary) -> None:
    # 970 - 800 = 170; over a rim at 140 that is 30
    assert told(by_rule(checked(shower(760, wc)), WC)) == ("tight", 30)
    assert told(by_rule(checked(shower(760, wc.but(rim=140.1))), WC)) == ("refer", 29.9)


def test_a_rim_nearer_to_the_wall_than_the_nozzle_is_measured_too() -> None:
    # 108 beside and 45 behind: 117 level; with 293 + 240 of hose and handset 520 down (9, 40, 41 x 13)
    found = by_rule(checked(shower(293, fixture(1108, rim=420))), WC)
    assert told(found) == ("tight", 30)  # 970 - 520 - 420


def test_a_wc_just_out_of_reach_is_clear() -> None:
    found = by_rule(checked(shower(760, fixture(2000, deep=600, rim=900))), WC)
    assert told(found) == ("clear", None)
    assert found.message == "Handset of hose ends 0 mm short of the WC other (fluid category 5)."


def test_the_worse_of_two_fixtures_is_told() -> None:
    near, far = fixture(1600, name="near"), fixture(1800, name="far")
    found = by_rule(checked(shower(760, far, near)), WC)
    assert found.parts == ("hose", "outlet", "near")


@pytest.mark.parametrize(("kind", "rule"), [("basin", RIM_3), ("bidet", WC), ("wc", WC)])
def test_fluid_category_by_kind(kind: SanitaryKind, rule: str) -> None:
    # water of a basin in a house is category 3, of a bidet and a WC 5 (Regulations 1999, Schedule 1)
    found = by_rule(checked(shower(760, fixture(1600, rim=400, kind=kind))), rule)
    assert found.parts == ("hose", "outlet", "other")


def test_bathing_in_a_place_of_care_is_category_5() -> None:
    found = checked(shower(1500, dwelling=False))
    assert RIM_3 not in {finding.rule for finding in found}
    judged = [finding for finding in found if finding.measured is not None]
    assert [(f.rule, f.status, f.limit) for f in judged] == [(WC, "refer", 30)]


def test_without_a_wc_entered_it_says_how_far_to_measure() -> None:
    found = by_rule(checked(shower(1500)), WC)
    assert (found.status, "reaches 1740 mm" in found.message) == ("tight", True)  # 1500 + 240


# what a stated protection is worth

WORTH: list[tuple[Backflow, Status, Status]] = [
    # protection, fluid category 3, fluid category 5
    ("not_known", "refer", "refer"),
    ("none", "clash", "clash"),
    ("retaining_ring", "clear", "clash"),  # interpretation B20: in a house, nothing worse than category 3
    ("factory_ring", "clear", "clear"),  # interpretation B20: type AUK3, acceptable in all premises
    ("double_check_outlet", "clear", "clash"),  # installation requirement R020: at the hose's connection
    ("double_check_supplies", "clear", "clash"),  # installation requirement R040 a
    ("gravity_feed", "clear", "refer"),  # installation requirement R040 b; for 5 only a cistern of its own
]


@pytest.mark.parametrize(("protection", "third", "fifth"), WORTH)
def test_worth_of_each_protection(protection: Backflow, third: Status, fifth: Status) -> None:
    wc = fixture(1600, rim=400)
    found = checked(shower(1500, wc, protection=protection))
    assert by_rule(found, RIM_3).status == third
    assert by_rule(found, WC).status == fifth


def test_every_protection_is_in_the_table() -> None:
    from typing import get_args

    assert {row[0] for row in WORTH} == set(get_args(Backflow))


@pytest.mark.parametrize("protection", [row[0] for row in WORTH])
def test_a_gap_that_is_kept_needs_no_protection(protection: Backflow) -> None:
    found = checked(shower(600, fixture(1600, rim=140), protection=protection))
    assert {by_rule(found, rule).status for rule in (RIM_3, WC)} == {"clear"}


def test_a_ring_says_how_much_hose_may_hang_free() -> None:
    # a ring at the foot of the rail: 1100 - 40 - 25
    found = by_rule(checked(shower(1500, protection="retaining_ring")), RIM_3)
    assert "at most 1035 mm of hose and handset hang free" in found.message


def test_a_ring_at_a_low_rail_sits_too_low() -> None:
    job, length = shower(1500, protection="retaining_ring")
    # 300 - 40 - 25 is less than the handset of 240 takes
    found = by_rule(checked((job.moved("rail", 1000, 300), length)), RIM_3)
    assert "too low" in found.message


# gap by the inlet, as published: nominal 10: 20, 15: 30, 20: 40, 25: 50; twice the bore where that is more


@pytest.mark.parametrize(
    ("tube", "rule", "limit"),
    [
        ("copper-10", "water.auk3_gap_from_0", 20),  # bore 8.6
        ("copper-15", "water.auk3_gap_from_15", 30),  # bore 13.6
        ("copper-22", "water.auk3_gap_from_20", 40.4),  # bore 22 - 1.8
        ("copper-28", "water.auk3_gap_from_25", 52.4),  # bore 28 - 1.8
    ],
)
def test_gap_over_a_wc_by_the_pipe_that_feeds_the_outlet(tube: str, rule: str, limit: float) -> None:
    job, length = shower(1500, fixture(1600))
    job = job.but(pipes=(Pipe(id="branch", service="mixed", end="outlet.in", route=((500, 0),), tube=tube),))
    assert by_rule(checked((job, length)), rule).limit == pytest.approx(limit)


# spouts: the mouth is 25 below the axis


def spout(height: float, thread: str = "G1/2", **house: object) -> Finding:
    job = bare(Spout(id="spout", part="spout-own", x=1000, height=height)).but(
        house=House(**house)  # type: ignore[arg-type]
    )
    part = generic_parts().find("spout-170", SpoutPart)
    own = part.but(id="spout-own", thread=thread)
    return tuple(backflow(Plan(job, generic_parts().with_own([own]), standard_rules())))[-1]


@pytest.mark.parametrize(("thread", "gap"), [("G3/8", 20), ("G1/2", 20), ("G3/4", 25), ("G1", 70)])
def test_spout_exactly_at_the_least_gap_of_its_connection_passes(thread: str, gap: float) -> None:
    # 40 + gap + 25
    assert told(spout(65 + gap, thread)) == ("tight", gap)
    assert told(spout(64.9 + gap, thread)) == ("refer", gap - 0.1)


def test_spout_in_a_place_of_care_keeps_twice_its_inlet() -> None:
    assert told(spout(65 + 30, dwelling=False)) == ("tight", 30)
    assert told(spout(64.9 + 30, dwelling=False)) == ("refer", 29.9)


@pytest.mark.parametrize(
    ("protection", "status"),
    [
        ("double_check_supplies", "clear"),
        ("gravity_feed", "clear"),
        ("double_check_outlet", "clash"),  # is at the hose, not at the spout
        ("factory_ring", "clash"),
        ("none", "clash"),
    ],
)
def test_what_protects_a_spout_that_is_too_low(protection: Backflow, status: Status) -> None:
    assert spout(60, backflow=protection).status == status


def test_check_valves_do_not_protect_a_spout_in_a_place_of_care() -> None:
    assert spout(60, backflow="double_check_supplies", dwelling=False).status == "clash"


def test_spout_beside_the_enclosure_is_clear() -> None:
    job = bare(Spout(id="spout", part="spout-170", x=1000, height=60)).but(
        enclosure=Enclosure(left=1100, width=900, projection=900)
    )
    found = tuple(backflow(Plan(job, generic_parts(), standard_rules())))[-1]
    assert told(found) == ("clear", None)


# properties


@given(
    st.tuples(*[st.floats(-2000, 2000)] * 2, st.floats(0, 1500), st.floats(0, 1500)),
    st.floats(50, 2500),
    st.floats(0, 1),
    st.floats(0, 1),
)
def test_no_point_in_reach_over_a_vessel_lies_lower(
    box: tuple[float, float, float, float], radius: float, along_x: float, along_z: float
) -> None:
    x, z, wide, deep = box
    vessel = Vessel("", "", (x, z), (x + wide, z + deep), 0.0, -5000.0, 5)
    found = hang(Reach((0.0, 1000.0, 45.0), radius), vessel)
    level = math.dist((x + along_x * wide, z + along_z * deep), (0.0, 45.0))
    if level < radius:
        assert found.gap <= 1000 - math.sqrt(radius**2 - level**2) + 1e-6


@given(st.integers(300, 2000), st.integers(1, 500), st.integers(0, 2500), st.integers(100, 900))
def test_a_longer_hose_never_clears_a_finding(length: int, longer: int, x: int, rim: int) -> None:
    wc = fixture(x, rim=rim)
    short, long = (checked(shower(own, wc, protection="none")) for own in (length, length + longer))
    for before, after in zip(short, long, strict=True):
        assert before.rule == after.rule
        assert ORDER.index(after.status) >= ORDER.index(before.status)


@given(st.integers(300, 2000), st.integers(0, 2500), st.integers(0, 900), st.integers(-800, 800))
def test_mirrored_or_moved_it_says_the_same(length: int, x: int, z: int, dx: int) -> None:
    job, _ = shower(length, fixture(x, z, wide=350, deep=500))
    moved = along(job, dx).but(sanitary=tuple(f.but(x=f.x + dx) for f in job.sanitary))
    said = [(f.rule, f.status, f.measured, f.message) for f in checked((job, length))]
    for other in (mirrored_wall(job), moved):
        assert [(f.rule, f.status, f.measured, f.message) for f in checked((other, length))] == said
