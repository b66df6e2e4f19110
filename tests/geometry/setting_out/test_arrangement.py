"""The arrangement that the trade's rule suggests. All of it is common practice, no source."""

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.jobfile import read_job, write_job
from geometry.model.enclosure import Entry
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import HeadPart, ValvePart
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import HEAD_DROP, INLETS, suggested_job

PARTS = generic_parts()


def test_a_square_tray_of_760_entered_from_the_left() -> None:
    job = suggested_job(760, 760, "left")
    places = {fitting.id: fitting.at for fitting in job.fittings}
    # centre line 380, right quarter line 570; heights above the tray floor, which lies 30 up
    assert places == {
        "valve": (380, 1030),
        "head": (380, 2190),
        "outlet": (570, 1030),
        "rail": (570, 1120),
    }
    assert (job.wall.width, job.wall.height) == (760, 2400)
    assert (job.enclosure.left, job.enclosure.width, job.enclosure.projection) == (0, 760, 760)
    assert job.enclosure.entry == "left"


@pytest.mark.parametrize(
    ("entry", "rail", "side"), [("left", 570, "right"), ("right", 190, "left"), ("front", 570, "right")]
)
def test_the_rail_stands_on_the_quarter_line_away_from_the_entry(
    entry: Entry, rail: float, side: str
) -> None:
    job = suggested_job(760, 760, entry)
    valve = job.fitting("valve")
    assert (job.fitting("rail").x, job.fitting("outlet").x) == (rail, rail)
    assert (valve.x, job.fitting("head").x) == (380, 380)
    assert getattr(valve, "side") == side  # noqa: B009  (only a valve has one)


@pytest.mark.parametrize(
    ("width", "centre", "quarter"), [(800, 400, 600), (900, 450, 675), (1200, 600, 900), (1700, 850, 1275)]
)
def test_trays_of_other_sizes(width: float, centre: float, quarter: float) -> None:
    job = suggested_job(width, 800, "left")
    assert (job.fitting("valve").x, job.fitting("rail").x) == (centre, quarter)


def test_a_wider_wall_keeps_the_tray_in_its_left_corner() -> None:
    job = suggested_job(760, 760, "left", wall_width=1500, wall_height=2550)
    assert (job.wall.width, job.wall.height) == (1500, 2550)
    assert job.fitting("valve").x == 380


def test_hot_and_cold_come_up_plumb_under_their_inlets_and_hot_is_on_the_left() -> None:
    job = suggested_job(760, 760, "left")
    courses = Plan(job, PARTS, standard_rules()).courses
    assert courses["hot"].points == ((335, 0), (335, 960))  # 380 - 45; inlets 70 below 1030
    assert courses["cold"].points == ((425, 0), (425, 960))
    assert courses["riser"].points == ((380, 1100), (380, 2190))
    assert courses["branch"].points == ((445, 1030), (570, 1030))  # outlet port 65 to the right


def test_the_sizes_that_are_taken_from_the_suggested_parts_are_theirs() -> None:
    valve, head = PARTS.find("valve-two-round", ValvePart), PARTS.find("head-wall-200", HeadPart)
    assert [port.x for port in valve.ports if port.service != "mixed"] == [-INLETS, INLETS]
    assert head.drop == HEAD_DROP


@given(st.integers(4000, 20_000), st.sampled_from(get_args(Entry)))
def test_any_tray_gives_a_job_that_can_be_planned_written_and_read(tenths: int, entry: Entry) -> None:
    job = suggested_job(tenths / 10, 760, entry)
    Plan(job, PARTS, standard_rules())
    assert read_job(write_job(job)) == job


def test_a_tray_wider_than_its_wall_is_refused_with_both_sizes() -> None:
    with pytest.raises(ValueError, match=r"^the tray is wider than the wall: 900 mm on 760 mm$"):
        suggested_job(900, 760, "left", wall_width=760)


@pytest.mark.parametrize("size", [0.0, -760.0, 20_001.0, float("nan"), float("inf")])
def test_a_tray_of_no_size_is_refused(size: float) -> None:
    with pytest.raises(ValueError, match=r"^\.width: must be above 0 and at most 20000 mm, got "):
        suggested_job(size, 760, "left")
    with pytest.raises(ValueError, match=r"^\.projection: must be above 0 and at most 20000 mm, got "):
        suggested_job(760, size, "left")


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ((76, 760), r"^width of the tray: must be from 400 to 3000 mm, got 76 mm$"),
        ((760, 7600), r"^projection of the tray: must be from 400 to 3000 mm, got 7600 mm$"),
    ],
)
def test_a_tray_in_the_wrong_unit_is_refused(sizes: tuple[float, float], said: str) -> None:
    with pytest.raises(ValueError, match=said):
        suggested_job(*sizes, "left")


def test_a_wall_height_in_the_wrong_unit_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^height of the wall: must be from 1000 to 6000 mm, got 240 mm$"):
        suggested_job(760, 760, "left", wall_height=240)
