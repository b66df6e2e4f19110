"""What stands out in front of the wall. The wall is bare, so z counts from the finished face too.

Sizes in the sums: head 200 across and 10 thick, 60 below its arm of 24, 350 out; rail 22 across with its
axis 55 out; handset 110 wide, 55 to 210 out, 60 below and 130 above its slider, which goes from 80 to 620
above the rail's foot; outlet's nozzle 24 across, 45 out, 12 above and 30 below its centre.
"""

import math

import pytest

from geometry.checks.front import front
from geometry.model import Door, Enclosure, Head, HoseOutlet, Rail, Screen, Spout, Valve, Wall
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import HeadPart, RailPart
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.walls import bare, found, only, plan_of, told


def head(x: float, height: float, reach: float | None = None, name: str = "head") -> Head:
    return Head(id=name, part="head-wall-200", x=x, height=height, reach=reach)


def ceiling_head(height: float) -> Head:
    return Head(id="head", part="head-ceiling-250", x=1000, height=height)


def rail(x: float, height: float = 1100, name: str = "rail") -> Rail:
    return Rail(id=name, part="rail-700", x=x, height=height)


def outlet(x: float, height: float) -> HoseOutlet:
    return HoseOutlet(id="outlet", part="outlet-round", x=x, height=height)


def valve(x: float, height: float) -> Valve:
    return Valve(id="valve", part="valve-one-round", x=x, height=height)


# head and rail


def test_a_head_exactly_at_the_minimum_from_the_rail_passes() -> None:
    # Disc and rail are level. In plan their axes lie 128.8 along the wall and 151.6 - 55 = 96.6 out from it
    # apart: 161 (3-4-5). Less 100 and 11 that is 50.
    job = bare(head(1128.8, 1800, reach=151.6), rail(1000))
    assert told(only(front, "front.head_rail", job)) == ("tight", 50)


def test_a_head_a_tenth_nearer_to_the_rail_clashes() -> None:
    finding = only(front, "front.head_rail", bare(head(1128.7, 1800, reach=151.6), rail(1000)))
    assert told(finding) == ("clash", 49.9)
    assert finding.parts == ("head", "rail")
    assert finding.message == "Head is 49.9 mm from the rail; 50 mm is wanted."


def test_the_arm_of_a_head_counts_as_well_as_its_disc() -> None:
    # arm and rail stand 60 apart along the wall: 60 - 12 - 11; the disc is farther away
    finding = only(front, "front.head_rail", bare(head(1060, 1800), rail(1000)))
    assert told(finding) == ("clash", 37)
    assert finding.message == "Arm of head is 37 mm from the rail; 50 mm is wanted."
    assert finding.place == ((1048, 1788 + 6), (1011, 1788 + 6))  # both there from 1788 to the rail's top


def test_a_head_in_the_rail_says_how_deep() -> None:
    # The disc lies across the rail, 101 deep in plan. The shorter way out is up: from its underside at
    # 1740 to the rail's top at 1800.
    finding = only(front, "front.head_rail", bare(head(1010, 1800, reach=55), rail(1000)))
    assert told(finding) == ("clash", -60)
    assert finding.message == "Head and rail overlap by 60 mm; 50 mm between them is wanted."


def test_a_head_above_a_rail_is_measured_upright() -> None:
    # underside at 1910 - 60 = 1850, rail's top at 1800
    job = bare(head(1000, 1910, reach=55), rail(1000))
    assert told(only(front, "front.head_rail", job)) == ("tight", 50)


def test_a_head_far_from_the_rail_is_clear_and_still_listed_with_its_gap() -> None:
    # level, 1000 along the wall and 295 out from it, less 111
    finding = only(front, "front.head_rail", bare(head(2000, 1800), rail(1000)))
    assert told(finding) == ("clear", round(math.hypot(1000, 295) - 111, 1))
    assert finding.message.startswith("Nearest: head is ")


def test_without_a_rail_the_list_says_that_there_was_nothing_to_compare() -> None:
    finding = only(front, "front.head_rail", bare(head(1000, 2000)))
    assert told(finding) == ("clear", None)
    assert finding.message == "Head to rail: there is nothing to compare in this job."


def test_each_rail_that_is_too_near_has_a_finding_of_its_own() -> None:
    job = bare(head(1060, 1800), rail(1000), rail(1110, name="other"), rail(3000, name="far"))
    findings = found(front, "front.head_rail", job)
    # 60 and 50 along the wall, each less 12 and 11; the nearer one first
    assert [(f.parts, f.measured) for f in findings] == [(("head", "other"), 27), (("head", "rail"), 37)]


# head and handset


def test_a_head_over_a_handset_says_at_which_slider_heights_they_are_too_near() -> None:
    # In plan the disc stands 350 - 155 - 55 - 100 = 40 clear of the handset. Underside at 1920 - 60 = 1860,
    # the handset's top at most 1100 + 620 + 130 = 1850: 40 and 10 make 41.2. 50 takes 30 upright (3-4-5),
    # so it fails from slider 1860 - 30 - 130 = 1700 above the floor to the top, 1720; less 30 for the tray.
    finding = only(front, "front.head_handset", bare(head(1000, 1920), rail(1000)))
    assert told(finding) == ("clash", 41.2)
    assert finding.message == (
        "Head is 41.2 mm from the handset of rail; 50 mm is wanted. "
        "They are nearer than 50 mm with the slider between 1670 and 1690 mm above the tray floor."
    )


def test_a_head_exactly_at_the_minimum_from_the_handset_passes() -> None:
    # underside at 1880: 30 over the handset's top, 40 beside it
    assert told(only(front, "front.head_handset", bare(head(1000, 1940), rail(1000)))) == ("tight", 50)


def test_a_head_a_tenth_lower_over_the_handset_clashes() -> None:
    finding = only(front, "front.head_handset", bare(head(1000, 1939.9), rail(1000)))
    assert told(finding) == ("clash", 49.9)
    assert "with the slider at 1690 mm above the tray floor" in finding.message


def test_a_head_beside_the_travel_says_the_stretch_between_both_ends() -> None:
    # Disc in the handset's way from 1540 to 1550, arm and drop from 1550 to 1612; the disc itself is nearer
    # than 50 from slider 1540 - 30 - 130 = 1380 to 1550 + 30 + 60 = 1640 above the floor. The level arm is
    # right over the handset: from 1588 - 50 - 130 = 1408 to 1612 + 50 + 60 = 1722, past the top at 1720.
    finding = only(front, "front.head_handset", bare(head(1000, 1600), rail(1000)))
    assert finding.status == "clash"
    assert "with the slider between 1350 and 1690 mm above the tray floor" in finding.message


def test_of_two_stretches_one_within_the_other_the_longer_is_said() -> None:
    # Drop 20: disc from 1580 to 1590, its range 1580 - 50 - 130 = 1400 to 1590 + 50 + 60 = 1700. The arm,
    # 116 - 12 - 55 = 49 beside the handset, is too near only from 1448 to 1682. Less 30 for the tray.
    part = generic_parts().find("head-wall-200", HeadPart).but(drop=20)
    plan = plan_of(bare(head(1116, 1600, reach=200), rail(1000)), generic_parts().with_own((part,)))
    (finding,) = [finding for finding in front(plan) if finding.rule == "front.head_handset"]
    assert "with the slider between 1370 and 1670 mm above the tray floor" in finding.message


def test_a_short_slide_that_fails_throughout_is_said_so() -> None:
    part = generic_parts().find("rail-700", RailPart).but(slide_low=400, slide_high=410)
    plan = plan_of(bare(head(1000, 1600), rail(1000)), generic_parts().with_own((part,)))
    (finding,) = [finding for finding in front(plan) if finding.rule == "front.head_handset"]
    assert finding.message.endswith("They are nearer than 50 mm at every slider height.")


def test_slider_heights_over_a_bath_count_from_its_floor() -> None:
    bath = Enclosure(kind="bath", left=0, width=4000, projection=900, floor=150, rim=560)
    finding = only(front, "front.head_handset", bare(head(1000, 1920), rail(1000), enclosure=bath))
    # 1700 and 1720 above the wall's floor
    assert "between 1550 and 1570 mm above the bath floor" in finding.message


# ceiling


def test_an_arm_exactly_at_the_minimum_from_the_ceiling_passes() -> None:
    # 2400 - 2368 - 12
    assert told(only(front, "front.head_ceiling", bare(head(1000, 2368)))) == ("tight", 20)


def test_an_arm_a_tenth_higher_clashes_with_the_ceiling() -> None:
    finding = only(front, "front.head_ceiling", bare(head(1000, 2368.1)))
    assert told(finding) == ("clash", 19.9)
    assert finding.message == "Arm of head is 19.9 mm from the ceiling; 20 mm is wanted."


def test_an_arm_through_the_ceiling_says_by_how_much() -> None:
    # 2395 + 12 - 2400
    finding = only(front, "front.head_ceiling", bare(head(1000, 2395)))
    assert told(finding) == ("clash", -7)
    assert finding.message == "Arm of head reaches 7 mm past the ceiling; 20 mm short of it is wanted."


@pytest.mark.parametrize(
    ("height", "status", "away"),
    [
        (2400, "clear", 0),
        (2399, "clear", 1),
        (2401, "clear", 1),
        (2398.9, "clash", 1.1),
        (2300, "clash", 100),
    ],
)
def test_a_ceiling_arm_starts_at_the_ceiling_within_a_millimetre(
    height: float, status: str, away: float
) -> None:
    finding = only(front, "front.head_ceiling", bare(ceiling_head(height)))
    assert told(finding) == (status, away)


# other parts


def test_a_nozzle_exactly_at_the_minimum_under_the_rail_passes() -> None:
    # nozzle's top at 1068 + 12, rail's foot at 1100
    assert told(only(front, "front.parts", bare(rail(1000), outlet(1000, 1068)))) == ("tight", 20)
    assert told(only(front, "front.parts", bare(rail(1000), outlet(1000, 1068.1)))) == ("clash", 19.9)


def test_the_handset_over_its_own_outlet_is_measured_like_any_other() -> None:
    # the nozzle's end is 60 along the wall and 110 - 45 = 65 out from the handset's axis: less 55 and 12
    finding = only(front, "front.parts", bare(rail(1000), outlet(1060, 1400)))
    assert told(finding) == ("tight", round(math.hypot(60, 65) - 67, 1))
    assert finding.message == "Nozzle of outlet is 21.5 mm from the handset of rail; 20 mm is wanted."


def test_a_rail_does_not_clash_with_its_own_brackets_and_handset() -> None:
    assert told(only(front, "front.parts", bare(rail(1000)))) == ("clear", None)


@pytest.mark.parametrize(("apart", "told_"), [(220, ("tight", 20)), (219.9, ("clash", 19.9))])
def test_two_heads_are_measured_between_their_discs(apart: float, told_: tuple[str, float]) -> None:
    job = bare(head(1000, 2100), head(1000 + apart, 2100, name="other"))
    assert told(only(front, "front.parts", job)) == told_


def test_a_rail_is_measured_to_a_control_that_stands_out() -> None:
    # Control 60 across and 70 out, its corner in plan at (1030, 70). The handset's round of 55 is centred at
    # (1060, 110): 30-40-50, less 55. The rail itself stands 60 - 30 - 11 = 19 off.
    finding = only(front, "front.parts", bare(rail(1060), valve(1000, 1500)))
    assert told(finding) == ("clash", -5)
    assert finding.message == (
        "Handset of rail and temperature control of valve overlap by 5 mm; 20 mm between them is wanted."
    )


def test_a_handset_is_measured_to_a_spout() -> None:
    # spout 45 across and 170 out, so both are level with each other out from the wall: 200 - 55 - 22.5
    job = bare(rail(1000), Spout(id="spout", part="spout-170", x=1200, height=1500))
    assert told(only(front, "front.parts", job)) == ("clear", 122.5)


def test_head_and_handset_are_not_told_a_second_time_as_other_parts() -> None:
    # What is left is the flange of the head: 1920 - 30, over the handset's top at 1850, from 8 to 55 out.
    finding = only(front, "front.parts", bare(head(1000, 1920), rail(1000)))
    assert told(finding) == ("clear", round(math.hypot(40, 47), 1))


def test_plates_are_left_to_the_checks_of_the_face() -> None:
    job = bare(valve(1000, 1000), valve(1100, 1000).but(id="other"))
    assert told(only(front, "front.parts", job)) == ("clear", None)


# screens, doors, corners


def pane(x: float, top: float = 1950) -> Screen:
    return Screen(id="pane", start=(x, 0), end=(x, 900), top=top)


def test_a_handset_exactly_at_the_minimum_from_a_screen_passes() -> None:
    # half of the pane's 8: 1079 - 4 - 55 - 1000
    assert told(only(front, "front.screen", bare(rail(1000), screens=[pane(1079)]))) == ("tight", 20)


def test_a_handset_a_tenth_nearer_to_a_screen_clashes() -> None:
    finding = only(front, "front.screen", bare(rail(1000), screens=[pane(1078.9)]))
    assert told(finding) == ("clash", 19.9)
    assert finding.parts == ("rail", "pane")
    assert finding.message == "Handset of rail is 19.9 mm from the screen pane; 20 mm is wanted."


def test_a_plate_behind_a_screen_that_ends_on_the_wall_counts() -> None:
    # plate 160 across: 1100 - 4 - 1000 - 80
    finding = only(front, "front.screen", bare(valve(1000, 1200), screens=[pane(1100)]))
    assert told(finding) == ("clash", 16)
    assert finding.message == "Plate of valve is 16 mm from the screen pane; 20 mm is wanted."


def test_a_head_above_the_screen_is_measured_over_its_top() -> None:
    # underside 2030 - 60, pane up to 1950
    job = bare(head(1000, 2030), screens=[pane(1000)])
    assert told(only(front, "front.screen", job)) == ("tight", 20)
    assert told(only(front, "front.screen", bare(head(1000, 2029.9), screens=[pane(1000)]))) == (
        "clash",
        19.9,
    )


def test_a_door_that_swings_in_over_a_control_is_measured_to_what_it_sweeps() -> None:
    # Hinge 800 out, door 700 wide, half of its 8 mm: it comes within 800 - 704 = 96 of the wall at the x of
    # the hinge, where the control stands 70 out: 26. The sweep is drawn at most 0.2 % too wide: 1.4.
    door = Door(id="door", hinge=(1000, 800), width=700, angle_from=0, angle_to=-90)
    measured = only(front, "front.screen", bare(valve(1000, 1200), doors=[door])).measured
    assert measured is not None
    assert 24.5 <= measured <= 26


def test_a_door_that_swings_past_a_control_is_not_taken_for_the_box_about_its_sweep() -> None:
    # The same door, and a control 600 along: the sweep's edge is at 800 - sqrt(704^2 - 570^2) = 387 out over
    # the control's near side, its box would be at 96 out, 26 from the control.
    door = Door(id="door", hinge=(1000, 800), width=700, angle_from=0, angle_to=-90)
    finding = only(front, "front.screen", bare(valve(1600, 1200), doors=[door]))
    assert finding.status == "clear"
    assert finding.measured is not None
    assert finding.measured > 200


def corner_wall() -> Wall:
    return Wall(width=4000, height=2400, thickness=140, left="corner", right="free_end")


def test_a_handset_is_measured_to_the_wall_at_a_corner() -> None:
    # 75 - 55
    assert told(only(front, "front.screen", bare(rail(75), wall=corner_wall()))) == ("tight", 20)
    finding = only(front, "front.screen", bare(rail(74.9), wall=corner_wall()))
    assert told(finding) == ("clash", 19.9)
    assert finding.message == "Handset of rail is 19.9 mm from the wall at the left corner; 20 mm is wanted."


def test_beside_a_free_end_there_is_nothing_to_run_into() -> None:
    assert told(only(front, "front.screen", bare(rail(3990), wall=corner_wall()))) == ("clear", 3935)


# a whole job


def test_the_suggested_arrangement_is_clear_in_front() -> None:
    findings = list(front(plan_of(suggested_job(760, 760, "left"))))
    assert {finding.rule for finding in findings} == {
        "front.head_rail", "front.head_handset", "front.head_ceiling", "front.parts", "front.screen",
    }  # fmt: skip
    assert {finding.status for finding in findings} == {"clear"}


def test_every_rule_is_reported_on_an_empty_wall() -> None:
    findings = list(front(plan_of(bare())))
    assert {(finding.status, finding.measured) for finding in findings} == {("clear", None)}
    assert len(findings) == 5
