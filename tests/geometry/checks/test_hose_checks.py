"""The hose checks on whole jobs: hand sums, planted faults with their cures, and what holds for every job."""

import math
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.arrays import Floats
from geometry.checks.hose import hose
from geometry.finding import Finding
from geometry.hose.catenary import curve
from geometry.hose.reach import farthest_corner, reach
from geometry.model import Job
from geometry.parts.catalogue import Catalogue, generic_parts
from geometry.parts.records import Control, Disc, HosePart, OutletPart, Port, RailPart, Slab, ValvePart
from geometry.plan import Plan
from geometry.rules import Rulebook, standard_rules
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")
RULES = {"hose.valve", "hose.length", "hose.bend", "hose.floor", "hose.reach"}

# parts whose nozzle and nut stand out equally far, so that a hose under its rail hangs in two upright legs
FLUSH = (
    OutletPart(id="outlet-round", name="", depth_least=40, depth_most=60, nozzle_y=-30, nozzle_out=95),
    HosePart(id="limp", name="", length=1500, least_bend=0.001),
)


def findings(job: Job, parts: Catalogue | None = None, rules: Rulebook | None = None) -> dict[str, Finding]:
    plan = Plan(job, parts or generic_parts(), rules or standard_rules())
    return {finding.rule: finding for finding in hose(plan)}


def measured(job: Job, parts: Catalogue | None = None) -> dict[str, float | None]:
    return {rule: finding.measured for rule, finding in findings(job, parts).items()}


def with_hose(job: Job, part: str) -> Job:
    return job.but(hoses=tuple(held.but(part=part) for held in job.hoses))


def with_valve(**changes: object) -> Catalogue:
    valve = generic_parts().find("valve-two-round", ValvePart)
    return generic_parts().with_own([valve.but(**changes)])


def stricter(value: float) -> Rulebook:
    """Return the rules with another clearance of the hose to the valve."""
    return Rulebook(
        {
            limit.rule: limit.but(value=value) if limit.rule == "hose.valve" else limit
            for limit in standard_rules()
        }
    )


# the suggested arrangement


def test_suggested_arrangement_is_clear_by_every_rule() -> None:
    found = findings(JOB)
    assert set(found) == RULES
    assert {finding.status for finding in found.values()} == {"clear"}


def test_rail_on_the_quarter_line_keeps_the_hose_off_the_valve() -> None:
    found = findings(JOB)["hose.valve"]
    # 570 - 380 between the lines, 85 for the plate and 7.5 for the hose
    assert found.measured == 190 - 85 - 7.5
    assert found.limit == 20
    assert found.parts == ("hose", "valve")
    assert found.place == ((562.5, 1030), (465, 1030))
    assert found.message.startswith(
        "Hose hangs at least 97.5 mm clear of the plate at every slider height, its loop of 45 mm radius"
    )


def test_square_plate_is_measured_from_the_middle_of_its_edge() -> None:
    found = findings(JOB.with_fitting(JOB.fitting("valve").but(part="valve-two-square")))["hose.valve"]
    # half of 150 instead of 85
    assert found.measured == 190 - 75 - 7.5
    assert found.place == ((562.5, 1030), (455, 1030))


def test_slack_is_that_of_the_farthest_slider_in_three_dimensions() -> None:
    # outlet on the left quarter line: 380 along; nut 30 + 1090 + 620 - 40 = 1700, nozzle 1000: 700 up;
    # 95 - 45 = 50 out. 380² + 700² + 50² = 636900, its root 798.06; 1500 - 798.06 = 701.94
    found = findings(JOB.moved("outlet", 190, 1030))["hose.length"]
    assert found.measured == 701.9
    assert found.message.endswith("at its farthest, with the slider 1710 mm above the tray floor.")
    assert found.place == ((190, 1000), (570, 1700))


def test_reach_is_hose_and_handset_against_the_far_corner_at_the_outlets_height() -> None:
    found = findings(JOB)["hose.reach"]
    # 1500 + 240. The far corner is 570 to the left; nozzle 14 + 45 out, so 760 - 59 = 701 into the room:
    # 570² + 701² = 816301, its root 903.5
    assert found.measured == pytest.approx(1740 - 903.5, abs=0.05)
    assert found.message == (
        "Handset in the hand reaches 1740 mm from its outlet, 836.5 mm beyond the far corner of the tray."
    )
    assert found.place == ((570, 1000), (0, 1000))


def test_reach_is_a_ball_about_the_nozzle() -> None:
    held = reach(Plan(JOB, generic_parts(), standard_rules()).hoses[0])
    assert held.centre == (570, 1000, 59)
    assert held.radius == 1740
    corner, distance = farthest_corner(held, JOB.enclosure)
    assert corner == (0, 760)
    assert distance == pytest.approx(903.5, abs=0.05)


def test_handset_that_does_not_reach_the_far_corner_is_a_clash() -> None:
    wide = suggested_job(2000, 2000, "left")
    # outlet at 1500, nozzle 59 out: 1500² + 1941² = 6017481, its root 2453.1; 1740 - 2453.1
    found = findings(wide)["hose.reach"]
    assert (found.status, found.measured) == ("clash", -713.1)
    assert "713.1 mm short of the far corner" in found.message


# two upright legs


def flush() -> Catalogue:
    return generic_parts().with_own(FLUSH)


def test_upright_legs_turn_half_the_slack_below_the_outlet() -> None:
    found = findings(with_hose(JOB, "limp"), flush())
    # highest slider: nut 1700, 700 over the nozzle: (1500 - 700) / 2 = 400 below it
    assert found["hose.bend"].measured == 400
    # lowest slider: nut 1160, 160 over the nozzle: (1500 - 160) / 2 = 670 below 1000; half the hose and the
    # tray floor come off: 1000 - 670 - 7.5 - 30
    assert found["hose.floor"].measured == 292.5
    assert found["hose.floor"].message.startswith(
        "With the slider 1170 mm above the tray floor the hose hangs down to 292.5 mm above it"
    )


def test_outlet_above_the_nut_works_as_well() -> None:
    found = findings(with_hose(JOB.moved("outlet", 570, 1930), "limp"), flush())
    # nozzle 1900, 200 over the highest nut at 1700: (1500 - 200) / 2 = 650 below that, so 850 below the
    # nozzle; lowest nut 1160, 740 below: (1500 - 740) / 2 = 380 below that, at 780
    assert found["hose.bend"].measured == 850
    assert found["hose.floor"].measured == 780 - 7.5 - 30
    # farthest is the lowest slider now
    assert found["hose.length"].measured == 1500 - 740
    assert "with the slider 1170 mm above the tray floor" in found["hose.length"].message


def test_hose_that_must_turn_too_sharply_under_its_outlet_kinks() -> None:
    parts = generic_parts().with_own([*FLUSH, HosePart(id="stiff", name="", length=1500, least_bend=60)])
    # nozzle at 270: the nut at 1700 is 1430 over it, (1500 - 1430) / 2 = 35 to turn in; 60 are had where
    # the nut is 1500 - 120 = 1380 over it, at 1650: slider 40 higher, less the floor at 30: 1660
    found = findings(with_hose(JOB.moved("outlet", 570, 300), "stiff"), parts)["hose.bend"]
    assert (found.status, found.measured, found.limit) == ("clash", 35, 60)
    assert found.message == (
        "Hose kinks at its outlet: it has 35 mm under it to turn in and needs 60 mm, "
        "with the slider between 1660 and 1710 mm above the tray floor."
    )
    nozzle, low = found.place
    assert nozzle == (570, 270)
    assert low == pytest.approx((570, 235), abs=0.01)


def test_hose_that_lies_on_the_tray_floor_is_named_with_the_slider_heights() -> None:
    # nozzle at 570; lowest nut 1160 is 590 over it: (1500 - 590) / 2 = 455 below it, at 115, less 7.5 and 30
    job = with_hose(JOB.moved("outlet", 570, 600), "limp")
    assert measured(job, flush())["hose.floor"] == 77.5
    # nozzle at 430: 730 over it: 385 below, at 45; 45 - 37.5 = 7.5. It is 25 where the hose hangs 17.5
    # higher, the nut then 35 higher: slider 1170 + 35
    found = findings(with_hose(JOB.moved("outlet", 570, 460), "limp"), flush())["hose.floor"]
    assert (found.status, found.measured) == ("clash", 7.5)
    assert "hangs down to 7.5 mm above the tray floor, less than 25 mm above it" in found.message
    assert "with the slider between 1170 and 1205 mm above the tray floor" in found.message
    # nozzle at 330: 830 over it: 335 below, at -5
    found = findings(with_hose(JOB.moved("outlet", 570, 360), "limp"), flush())["hose.floor"]
    assert (found.status, found.measured) == ("clash", -42.5)
    assert found.message.startswith("Hose lies on the tray floor")


def test_hose_exactly_at_its_least_bend_passes() -> None:
    parts = generic_parts().with_own([*FLUSH, HosePart(id="stiff", name="", length=1500, least_bend=400)])
    found = findings(with_hose(JOB, "stiff"), parts)["hose.bend"]
    assert (found.measured, found.limit) == (400, 400)
    assert found.status == "tight"
    assert "kinks" not in found.message


# too short


def test_hose_too_short_for_the_highest_slider_says_how_long_it_would_want_to_be() -> None:
    # outlet at 190 and 30 above the floor: nozzle at 0; 380² + 1700² + 50² = 3036900, its root 1742.67:
    # 1500 - 1742.67 = -242.67; with 25 to spare it wants 1767.67
    found = findings(JOB.moved("outlet", 190, 30))
    length = found["hose.length"]
    assert (length.status, length.measured) == ("clash", -242.7)
    assert length.message == (
        "Hose is 242.7 mm too short with the slider 1710 mm above the tray floor: "
        "it wants to be 1768 mm long or more."
    )
    # judged on the rest
    assert {found[rule].status for rule in ("hose.valve", "hose.bend", "hose.floor")} <= {"clash", "clear"}
    assert "where it is long enough" in found["hose.floor"].message


def test_hose_with_too_little_to_spare_says_how_long_it_would_want_to_be() -> None:
    parts = generic_parts().with_own([*FLUSH, HosePart(id="short", name="", length=712.5)])
    # 700 straight up: 12.5 to spare
    found = findings(with_hose(JOB, "short"), parts)["hose.length"]
    assert (found.status, found.measured) == ("clash", 12.5)
    assert "has only 12.5 mm to spare" in found.message
    assert found.message.endswith("it wants to be 725 mm long or more.")


def test_hose_exactly_as_long_as_it_must_be_is_no_clash() -> None:
    parts = generic_parts().with_own([*FLUSH, HosePart(id="short", name="", length=725)])
    found = findings(with_hose(JOB, "short"), parts)["hose.length"]
    assert (found.status, found.measured) == ("tight", 25)


def test_hose_too_short_everywhere_is_unchecked_and_says_why() -> None:
    found = findings(JOB.moved("outlet", -2000, 1030))
    assert set(found) == RULES
    assert found["hose.length"].status == "clash"
    for rule in ("hose.valve", "hose.bend", "hose.floor"):
        assert found[rule].status == "unchecked"
        assert found[rule].measured is None
        assert found[rule].message.startswith("Hose is too short at every slider height")
    assert found["hose.valve"].parts == ("hose", "valve")
    assert found["hose.bend"].limit == 45


# across the valve

ACROSS = with_hose(JOB.moved("outlet", 190, 1480), "hose-1250")
"""The planted fault: the outlet high on the other side of the valve, so that the hose hangs across it."""
NEAR = with_hose(JOB.moved("outlet", 190, 1030), "hose-1250")
"""The outlet level with the valve on its other side: a short hose comes too near as the slider goes up."""


def gaps_by_hand(job: Job, length: float, above_floor: float) -> Floats:
    """Return how far points close together on the hose are from the round plate, from plain numbers."""
    outlet, valve = job.fitting("outlet"), job.fitting("valve")
    nozzle_y, nut_y = outlet.height - 30, 30 + above_floor - 40
    span = math.hypot(570 - outlet.x, 95 - 45)
    s, y = curve(span, nut_y - nozzle_y, length, 20001).T
    x = outlet.x + s * (570 - outlet.x) / span
    return np.asarray(np.hypot(x - valve.x, nozzle_y + y - valve.height) - 85 - 7.5)


def heights(message: str) -> list[float]:
    """Return the slider heights that a message names, in pairs."""
    pairs = re.findall(r"between (\d+) and (\d+)", message)
    return [float(height) for pair in pairs for height in pair]


def test_hose_across_the_valve_is_a_clash_with_its_slider_heights() -> None:
    found = findings(ACROSS)["hose.valve"]
    assert found.status == "clash"
    assert found.measured is not None
    assert found.measured < 0
    assert found.message.startswith("Hose hangs across the valve, 76.1 mm over the edge of its plate; ")
    low, high = heights(found.message)
    assert found.message.endswith(
        f"nearer than 20 mm with the slider between {low:.0f} and {high:.0f} mm above the tray floor."
    )
    # the slide is 30 + 1090 + 80 to 620 high, less the floor
    assert 1170 < low < high <= 1710
    assert np.min(gaps_by_hand(ACROSS, 1250, low - 1)) > 20 > np.min(gaps_by_hand(ACROSS, 1250, low + 1))
    deepest = min(np.min(gaps_by_hand(ACROSS, 1250, height)) for height in np.arange(low, high + 1))
    assert found.measured == pytest.approx(deepest, abs=0.1)


def test_hose_near_the_valve_fails_only_from_the_height_named() -> None:
    found = findings(NEAR)["hose.valve"]
    low, high = heights(found.message)
    assert high == 1710
    assert np.min(gaps_by_hand(NEAR, 1250, low - 1)) > 20 > np.min(gaps_by_hand(NEAR, 1250, low + 1))
    assert found.status == "clash"
    assert found.measured == pytest.approx(np.min(gaps_by_hand(NEAR, 1250, 1710)), abs=0.06)
    assert found.message.startswith("Hose hangs too near the valve: ")


@pytest.mark.parametrize("fault", [ACROSS, NEAR])
def test_moving_the_outlet_back_under_its_rail_cures_it(fault: Job) -> None:
    found = findings(fault.moved("outlet", 570, 1030))["hose.valve"]
    assert (found.status, found.measured) == ("clear", 97.5)


def test_the_two_points_of_the_place_are_as_far_apart_as_was_measured() -> None:
    for job in (JOB, NEAR, with_hose(NEAR, "hose-1500")):
        found = findings(job)["hose.valve"]
        assert found.measured == pytest.approx(math.dist(*found.place), abs=0.06)


def test_control_that_stands_out_beyond_the_plate_is_named() -> None:
    lever = Control(name="lever", x=70, diameter=60, projection=60)
    found = findings(JOB, with_valve(controls=(lever,)))["hose.valve"]
    # 190 - 70 - 30 - 7.5
    assert found.measured == 82.5
    assert "82.5 mm clear of the lever control" in found.message


def test_loop_of_a_stiff_hose_counts_against_the_valve() -> None:
    parts = flush().with_own([HosePart(id="stiff", name="", length=1500, least_bend=60)])
    # valve level with the loop of the highest slider: lowest 400 below 1000, the loop's middle 60 over that
    job = with_hose(JOB.moved("valve", 380, 660), "stiff")
    found = findings(job, parts)["hose.valve"]
    # 190 - 85 - 60 - 7.5
    assert found.measured == 37.5
    assert [x for x, _ in found.place] == pytest.approx([502.5, 465])
    assert [y for _, y in found.place] == pytest.approx([660, 660], abs=0.1)


def test_every_valve_and_every_hose_is_judged_by_itself() -> None:
    second = JOB.fitting("valve").but(id="bath valve", x=100)
    job = JOB.with_fitting(second).but(pipes=())
    job = job.but(hoses=(*job.hoses, job.hoses[0].but(id="spare", part="hose-1750")))
    found = list(hose(Plan(job, generic_parts(), standard_rules())))
    assert [finding.parts for finding in found if finding.rule == "hose.valve"] == [
        ("hose", "valve"),
        ("hose", "bath valve"),
        ("spare", "valve"),
        ("spare", "bath valve"),
    ]
    assert len(found) == 2 * (2 + 4)


def test_job_without_a_hose_gives_nothing() -> None:
    assert findings(JOB.but(hoses=())) == {}


def test_bath_is_called_a_bath() -> None:
    found = findings(JOB.but(enclosure=JOB.enclosure.but(kind="bath")))
    assert found["hose.reach"].message.endswith("the far corner of the bath.")
    assert "above the bath floor" in found["hose.length"].message


# what holds for every job

places = st.tuples(st.floats(0, 760), st.floats(400, 1900))
lengths = st.sampled_from(["hose-1250", "hose-1500", "hose-1750"])


def moved_all(job: Job, dx: float) -> Job:
    """Return the job with all that a hose has to do with moved along the wall."""
    fittings = tuple(fitting.but(x=fitting.x + dx) for fitting in job.fittings)
    return job.but(fittings=fittings, enclosure=job.enclosure.but(left=job.enclosure.left + dx), pipes=())


def mirrored(job: Job) -> Job:
    """Return the job as its mirror image in a 760 wall."""
    return job.but(fittings=tuple(fitting.but(x=760 - fitting.x) for fitting in job.fittings), pipes=())


@given(places, lengths, st.floats(-300, 2000))
def test_moving_the_whole_job_along_the_wall_changes_nothing(
    place: tuple[float, float], length: str, dx: float
) -> None:
    job = with_hose(JOB.moved("outlet", *place), length)
    before, after = findings(job), findings(moved_all(job, round(dx, 1)))
    assert set(before) == set(after)
    for rule, finding in before.items():
        assert after[rule].measured == pytest.approx(finding.measured, abs=0.1001)
        assert after[rule].status == finding.status


@given(places, lengths)
def test_mirror_image_measures_the_same(place: tuple[float, float], length: str) -> None:
    job = with_hose(JOB.moved("outlet", *place), length)
    # round plates and controls on the middle line are their own mirror image
    for rule, value in measured(job).items():
        assert measured(mirrored(job))[rule] == pytest.approx(value, abs=0.1001)


@given(places, lengths, st.floats(0, 150), st.floats(0, 100))
def test_longer_clearance_never_clears_a_hose(
    place: tuple[float, float], length: str, value: float, more: float
) -> None:
    job = with_hose(JOB.moved("outlet", *place), length)
    loose, strict = (findings(job, rules=stricter(limit))["hose.valve"] for limit in (value, value + more))
    assert loose.measured == pytest.approx(strict.measured, abs=0.1001)
    if loose.status == "clash":
        assert strict.status == "clash"
    if strict.status == "clear":
        assert loose.status == "clear"


@given(places, lengths, st.floats(60, 300), st.floats(0, 200), st.booleans())
def test_wider_plate_is_never_farther_from_the_hose(
    place: tuple[float, float], length: str, wide: float, more: float, square: bool
) -> None:
    job = with_hose(JOB.moved("outlet", *place), length)

    def gap(width: float) -> float:
        plate = Slab(wide=width, high=170, corner=8) if square else Disc(diameter=width)
        found = measured(job, with_valve(plate=plate, controls=()))["hose.valve"]
        assert found is not None
        return found

    assert gap(wide + more) <= gap(wide) + 0.1001


@given(st.floats(0, 760), st.floats(650, 1900), lengths)
def test_slider_heights_named_lie_at_the_limit_within_a_millimetre(x: float, y: float, length: str) -> None:
    job = with_hose(JOB.moved("outlet", x, y), length)
    message = findings(job)["hose.valve"].message
    for height in heights(message):
        # a loop is judged elsewhere, and an end of the slide need not be at the limit
        if "loop" in message or height in (1170, 1710):
            continue
        one, other = (np.min(gaps_by_hand(job, float(length[5:]), height + off)) for off in (-1, 1))
        assert min(one, other) <= 20.02
        assert max(one, other) >= 19.98


def test_parts_of_a_valve_behind_its_plate_do_not_count() -> None:
    # a box far wider than the plate
    wide = with_valve(
        box=Slab(wide=360, high=360), ports=(Port(name="out1", service="mixed", direction="up"),)
    )
    assert measured(JOB.but(pipes=()), wide)["hose.valve"] == 97.5


def test_slide_of_a_longer_rail_is_followed_to_its_top() -> None:
    rail = generic_parts().find("rail-900", RailPart)
    job = JOB.with_fitting(JOB.fitting("rail").but(part="rail-900"))
    # 820 instead of 620 up: 1910 above the tray floor
    assert rail.slide_high == 820
    assert "1910 mm above the tray floor" in findings(job)["hose.length"].message
