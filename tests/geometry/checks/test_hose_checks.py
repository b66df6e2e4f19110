"""The hose checks on the suggested arrangement, by hand sums, and how far the handset reaches."""

import pytest

from geometry.hose.reach import farthest_corner, reach
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import RailPart
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.hung import JOB, RULES, findings

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


def test_slack_is_that_of_the_farthest_slider_in_three_dimensions() -> None:
    # outlet on the left quarter line: 380 along; nut 30 + 1090 + 620 - 40 = 1700, nozzle 1000: 700 up;
    # 95 - 45 = 50 out. 380² + 700² + 50² = 636900, its root 798.06; 1500 - 798.06 = 701.94
    found = findings(JOB.moved("outlet", 190, 1030))["hose.length"]
    assert found.measured == 701.9
    assert found.message.endswith("at its farthest, with the slider 1710 mm above the tray floor.")
    assert found.place == ((190, 1000), (570, 1700))


def test_slide_of_a_longer_rail_is_followed_to_its_top() -> None:
    rail = generic_parts().find("rail-900", RailPart)
    job = JOB.with_fitting(JOB.fitting("rail").but(part="rail-900"))
    # 820 instead of 620 up: 1910 above the tray floor
    assert rail.slide_high == 820
    assert "1910 mm above the tray floor" in findings(job)["hose.length"].message


def test_bath_is_called_a_bath() -> None:
    found = findings(JOB.but(enclosure=JOB.enclosure.but(kind="bath")))
    assert found["hose.reach"].message.endswith("the far corner of the bath.")
    assert "above the bath floor" in found["hose.length"].message


def test_job_without_a_hose_gives_nothing() -> None:
    assert findings(JOB.but(hoses=())) == {}


# reach


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
