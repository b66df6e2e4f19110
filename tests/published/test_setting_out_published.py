"""Setting out against what the trade says. There is no standard for it: common practice, no source."""

from geometry.setting_out.arrangement import suggested_job
from geometry.setting_out.lines import lines


def test_quarter_lines_of_a_760_tray_stand_at_190_and_570() -> None:
    # The quarter line is midway between the centre line and an edge (common practice, no source):
    # 760 / 2 = 380; (0 + 380) / 2 = 190; (380 + 760) / 2 = 570
    found = lines(suggested_job(760, 760, "left").enclosure)
    assert (found.quarter_left, found.centre, found.quarter_right) == (190, 380, 570)


def test_the_suggested_heights_are_those_that_the_trade_uses() -> None:
    # Above the finished tray floor (common practice, no source): valve 1000 to 1200, underside of the head
    # 2000 to 2200, foot of the rail 1000 to 1100
    job = suggested_job(760, 760, "left")
    floor = job.enclosure.floor
    assert 1000 <= job.fitting("valve").height - floor <= 1200
    assert 2000 <= job.fitting("head").height - 60 - floor <= 2200  # the head hangs 60 under its arm
    assert 1000 <= job.fitting("rail").height - floor <= 1100
