"""Findings on the drawing: numbered as the table lists them, marked where they were measured."""

import pytest

from export.drawings.balloons import draw_numbers, draw_places, numbered
from export.drawings.spots import Spots
from export.recorder import Recorder
from geometry.finding import Finding, Status
from tests.export.measured import touching, words


def finding(status: Status, *place: tuple[float, float]) -> Finding:
    return Finding(rule="face.plates", status=status, parts=(), message=status, place=place)


MIXED = (
    finding("tight", (100, 100)),
    finding("clear", (50, 50)),
    finding("clash", (300, 300), (400, 300)),
    finding("refer"),
    finding("clash", (300, 500)),
)


def test_clashes_come_first_and_what_is_clear_has_no_number() -> None:
    assert [one.status for one in numbered(MIXED)] == ["clash", "clash", "refer", "tight"]


def test_a_place_of_two_points_is_a_line_with_a_ring_at_each_end() -> None:
    pen = Recorder()
    draw_places(MIXED, pen, 1.0)
    assert [stroke.verb for stroke in pen.on("clash")] == ["polyline", "circle", "circle", "circle"]
    assert pen.on("clash")[0].values["points"] == ((300, 300), (400, 300))
    assert [stroke.verb for stroke in pen.on("tight")] == ["circle"]


def test_points_too_near_for_two_rings_get_one_between() -> None:
    pen = Recorder()
    draw_places((finding("clash", (300, 300), (301, 300)),), pen, 1.0)
    (ring,) = pen.strokes
    assert ring.values["centre"] == (300.5, 300)


def test_a_finding_without_a_place_keeps_its_number_but_is_not_marked() -> None:
    pen = Recorder()
    draw_numbers(MIXED, Spots(Recorder(), (0, 0, 600, 600)), pen, 1.0)
    assert [text.text for text in words(pen)] == ["1", "2", "4"]


@pytest.mark.parametrize("many", [5, 40, 120])
def test_numbers_of_findings_in_a_crowd_never_touch_and_stay_inside(many: int) -> None:
    pen = Recorder()
    crowd = tuple(finding("clash", (250 + 31 * (i % 4), 200 + 31 * (i // 4))) for i in range(many))
    draw_numbers(crowd, Spots(Recorder(), (0, 0, 600, 1400)), pen, 10.0)
    found = words(pen)
    assert touching(found) == []
    assert len(found) >= 5
    assert all(text.bounds[0] >= 0 and text.bounds[2] <= 600 for text in found)


def test_findings_at_one_spot_share_a_frame_in_the_colour_of_the_worst() -> None:
    pen = Recorder()
    # 3 mm on paper is 30 mm at 1:10: 29 mm is the same spot, 31 mm is another
    near = finding("tight", (329, 300)), finding("clash", (300, 300)), finding("tight", (331, 300))
    draw_numbers(near, Spots(Recorder(), (0, 0, 600, 600)), pen, 10.0)
    texts = [stroke for stroke in pen.strokes if stroke.verb == "text"]
    assert [(text.layer, text.values["text"]) for text in texts] == [("clash", "1, 2"), ("tight", "3")]


def test_a_frame_holds_nine_numbers_in_rows_of_three_and_counts_the_rest() -> None:
    pen = Recorder()
    heap = tuple(finding("clash", (300, 300)) for _ in range(20))
    draw_numbers(heap, Spots(Recorder(), (0, 0, 600, 600)), pen, 1.0)
    assert [text.text for text in words(pen)] == ["1, 2, 3,", "4, 5, 6,", "7, 8, +12"]


@pytest.mark.parametrize(
    ("apart", "rows"),
    [(16, ["1, 2, 3"]), (8, ["1,", "2,", "3"])],  # the frames are about 11 and 5 mm wide, that of two 9 mm
)
def test_a_frame_is_narrower_where_a_wide_one_would_lie_on_lines(apart: int, rows: list[str]) -> None:
    drawn, pen = Recorder(), Recorder()
    for x in range(apart, 600, apart):
        drawn.line("pipe-hot", (x, 0), (x, 600))
    heap = tuple(finding("clash", (300, 300)) for _ in range(3))
    draw_numbers(heap, Spots(drawn, (0, 0, 600, 600)), pen, 1.0)
    assert [text.text for text in words(pen)] == rows


def test_a_number_far_from_its_place_is_tied_to_it() -> None:
    pen = Recorder()
    crowd = tuple(finding("clash", (300 + 31 * (i % 4), 300 + 31 * (i // 4))) for i in range(16))
    draw_numbers(crowd, Spots(Recorder(), (0, 0, 600, 600)), pen, 10.0)
    leaders = pen.on("leader")
    assert leaders
    places = {one.place[0] for one in crowd}
    assert all(stroke.values["end"] in places for stroke in leaders)
