"""Running dimension chains: numbers count from the tray's edge and floor, and tags never touch."""

import re

import pytest

from export.drawings.chains import Chain, chain, chain_across, chain_upward, draw_chain
from export.recorder import Recorder
from tests.export.jobs import crowded, sample, usual
from tests.export.measured import touching, words
from tests.samples import SAMPLES


def texts(held: Chain) -> list[str]:
    return [tag.text for tag in held.tags]


def strokes(held: Chain) -> Recorder:
    pen = Recorder()
    draw_chain(pen, held)
    return pen


def test_a_760_tray_has_its_lines_at_190_380_and_570() -> None:
    # common practice: centre at half, quarter lines midway between centre and edge
    assert texts(chain_across(usual(), 20, 32)) == [
        "0 tray edge",
        "190 quarter line",
        "380 centre line",
        "570 quarter line",
        "760 tray edge",
    ]


def test_heights_count_from_the_tray_floor() -> None:
    # valve and outlet 1000 over the floor, rail foot 1090 with fixings 25 and 675 over it,
    # head 2100 to its underside and 60 up to its arm
    assert texts(chain_upward(usual(), 20, 40)) == [
        "0 tray floor",
        "1000 outlet, valve",
        "1115 rail low fixing",
        "1765 rail high fixing",
        "2160 head",
    ]


def test_without_room_for_names_the_numbers_stand_alone() -> None:
    assert texts(chain_upward(usual(), 20, 0)) == ["0", "1000", "1115", "1765", "2160"]


def test_distances_at_a_bath_count_from_the_bath() -> None:
    plan = sample("bath-stud-wall")
    assert texts(chain_across(plan, 20, 40))[0] == "0 bath edge"
    assert texts(chain_upward(plan, 20, 40))[0] == "0 bath floor"


@pytest.mark.parametrize("name", SAMPLES)
def test_each_number_is_the_distance_that_its_dimension_measures(name: str) -> None:
    plan = sample(name)
    for held in (chain_across(plan, 20, 32), chain_upward(plan, 20, 40)):
        axis = "xy".index(held.axis)
        runs = [stroke.values for stroke in strokes(held).strokes if stroke.verb == "running"]
        assert runs
        for values in runs:
            number = re.match(r"-?[0-9.]+", values["text"])
            assert number
            assert float(number[0]) == pytest.approx(
                values["feature"][axis] - values["origin"][axis], abs=0.051
            )


@pytest.mark.parametrize(("bays", "width"), [(1, 1200), (6, 3600), (12, 6000)])
@pytest.mark.parametrize("scale", [5, 20, 100])
def test_tags_never_touch_and_stand_clear_of_the_wall(bays: int, width: float, scale: float) -> None:
    plan = crowded(bays, width)
    across, upward = chain_across(plan, scale, 32), chain_upward(plan, scale, 40)
    found = words(strokes(across)) + words(strokes(upward))
    assert touching(found) == []
    assert all(box.bounds[3] < 0 or box.bounds[2] < 0 for box in found)
    assert all(box.height / scale >= 1.8 for box in found)


def test_the_boxes_of_a_chain_hold_what_is_written() -> None:
    for held in (chain_across(usual(), 20, 32), chain_upward(usual(), 20, 40)):
        for box, text in zip(held.boxes, words(strokes(held)), strict=True):
            assert text.bounds == pytest.approx(box)


def test_a_tag_beside_its_neighbour_keeps_its_leader_to_what_it_measures() -> None:
    held = chain("x", (0, 0), [(0, 0), (10, 0)], ["0", "10"], 0, 1)
    (first, second) = held.tags
    assert (first.edge, second.edge) == ((0, 0), (10, 0))
    # 2.15 heights of 2.5 mm is less than 10 mm: both stay
    assert (first.at[0], second.at[0]) == (0, 10)
    held = chain("x", (0, 0), [(0, 0), (1, 0)], ["0", "1"], 0, 1)
    # 2.5 * (1.35 + 0.35 + 0.45) = 5.375 apart about their middle 0.5
    assert [tag.at[0] for tag in held.tags] == pytest.approx([0.5 - 5.375 / 2, 0.5 + 5.375 / 2])
    assert [tag.edge[0] for tag in held.tags] == [0, 1]
