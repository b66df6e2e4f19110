"""A hose beside its valve: planted faults with their cures, and gaps worked from plain numbers."""

import math
import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.arrays import Floats
from geometry.checks.hose import hose
from geometry.hose.catenary import curve
from geometry.model import Job
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import Control, HosePart, Port, Slab
from geometry.plan import Plan
from geometry.rules import standard_rules
from tests.geometry.checks.hung import JOB, findings, flush, lengths, measured, with_hose, with_valve

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


# across the valve and near it


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


# what of the valve counts


def test_square_plate_is_measured_from_the_middle_of_its_edge() -> None:
    found = findings(JOB.with_fitting(JOB.fitting("valve").but(part="valve-two-square")))["hose.valve"]
    # half of 150 instead of 85
    assert found.measured == 190 - 75 - 7.5
    assert found.place == ((562.5, 1030), (455, 1030))


def test_control_that_stands_out_beyond_the_plate_is_named() -> None:
    lever = Control(name="lever", x=70, diameter=60, projection=60)
    found = findings(JOB, with_valve(controls=(lever,)))["hose.valve"]
    # 190 - 70 - 30 - 7.5
    assert found.measured == 82.5
    assert "82.5 mm clear of the lever control" in found.message


def test_parts_of_a_valve_behind_its_plate_do_not_count() -> None:
    # a box far wider than the plate
    wide = with_valve(
        box=Slab(wide=360, high=360), ports=(Port(name="out1", service="mixed", direction="up"),)
    )
    assert measured(JOB.but(pipes=()), wide)["hose.valve"] == 97.5


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
