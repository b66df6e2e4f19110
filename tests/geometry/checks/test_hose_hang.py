"""How a hose hangs under its outlet: turned, on the floor, or too short, by hand sums on two upright legs."""

import pytest

from geometry.parts.catalogue import generic_parts
from geometry.parts.records import HosePart
from tests.geometry.checks.hung import FLUSH, JOB, RULES, findings, flush, measured, with_hose

# two upright legs


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


def test_hose_exactly_at_its_least_bend_passes() -> None:
    parts = generic_parts().with_own([*FLUSH, HosePart(id="stiff", name="", length=1500, least_bend=400)])
    found = findings(with_hose(JOB, "stiff"), parts)["hose.bend"]
    assert (found.measured, found.limit) == (400, 400)
    assert found.status == "tight"
    assert "kinks" not in found.message


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
