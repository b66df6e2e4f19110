"""The section, recorded and measured: depths are where the recess arithmetic has them, texts never touch."""

import pytest

from export.drawings.seats import seat, seats
from export.drawings.section import draw_section, section_bounds
from export.recorder import Recorder
from geometry.model import Finish, FinishArea, Layer
from geometry.plan import Plan
from tests.export.jobs import crowded, planned, sample, usual
from tests.export.measured import touching, words
from tests.samples import SAMPLES


def drawn(plan: Plan, name: str, scale: float = 2.0) -> Recorder:
    pen = Recorder()
    draw_section(plan, name, pen, scale)
    return pen


def texts(pen: Recorder) -> list[str]:
    return [text.text for text in words(pen)]


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("scale", [1.0, 2.0, 5.0, 10.0])
def test_no_two_texts_touch_and_all_lie_in_the_bounds(name: str, scale: float) -> None:
    plan = sample(name)
    for fitting in seats(plan):
        found = words(drawn(plan, fitting, scale))
        assert touching(found) == []
        left, low, right, top = section_bounds(plan, fitting, scale)
        for text in found:
            x0, y0, x1, y1 = text.bounds
            assert left - 1e-6 <= x0 <= x1 <= right + 1e-6
            assert low - 1e-6 <= y0 <= y1 <= top + 1.35 * 2.5 * scale
        assert min(text.height for text in found) == 2.5 * scale


def test_the_valve_of_the_usual_job_is_cut_by_the_hand_sum() -> None:
    # part: 60 to 85 from back to finished face; finish 1 + 4 (within 1) + 9 = 14, from 13 to 15:
    # 60 - 13 = 47 to 85 - 15 = 70, whole mm nearest the middle 58.5: 58; 58 + 14 = 72 to the finished face
    found = texts(drawn(usual(), "valve"))
    for text in ("least 47", "cut 58", "most 70", "back to finished face 72 (60 to 85)"):
        assert text in found
    # a chase buries 5 over a wrapped 15 mm pipe: 5 + 23 / 2 = 16.5, and 16.5 + 11.5 + 5 behind it is 33
    for text in ("0 bare face", "14 finished", "16.5 pipe", "33 chase"):
        assert text in found
    assert "dense block 140, 82 left" in found
    assert "recess 155 wide, 190 high" in found


def test_each_dimension_is_as_long_as_its_text_says() -> None:
    pen = drawn(usual(), "valve")
    rows = [stroke.values for stroke in pen.strokes if stroke.verb == "dimension"]
    lengths = sorted(round(abs(row["end"][0] - row["start"][0]), 6) for row in rows)
    assert lengths == [47, 58, 70, 72]


def test_the_recess_is_left_out_of_the_masonry() -> None:
    corners = [point for stroke in drawn(usual(), "valve").on("masonry") for point in stroke.values["points"]]
    # its back stands at the cut depth; box 140 high about 1030, with 25 to turn a nut over and under it
    assert (-58, 935) in corners
    assert (-58, 1125) in corners


def test_the_finish_stops_at_the_hole_and_its_layers_lie_on_each_other() -> None:
    pen = drawn(usual(), "valve")
    xs = sorted({x for stroke in pen.on("lining") for x, _ in stroke.values["points"]})
    assert xs == [0, 1, 5, 14]
    ys = {y for stroke in pen.on("lining") for _, y in stroke.values["points"]}
    # hole 120 about 1030
    assert {970, 1090} <= ys
    assert not [y for y in ys if 970 < y < 1090]


def test_plate_and_controls_stand_in_front_of_the_finished_face() -> None:
    pen = drawn(usual(), "valve")
    boxes = [stroke.values["points"] for stroke in pen.on("plate")]
    assert min(x for points in boxes for x, _ in points) == 14
    # temperature control 70 out of the face at 14
    assert max(x for points in boxes for x, _ in points) == 84
    assert "temperature control, 70 out" in texts(pen)


def test_hot_and_cold_behind_each_other_are_named_together() -> None:
    assert "hot, cold: centre 16.5 deep" in texts(drawn(usual(), "valve"))


def test_a_pipe_that_leaves_sideways_is_a_circle_of_its_tube() -> None:
    (circle,) = [s for s in drawn(usual(), "valve").on("pipe-mixed") if s.verb == "circle"]
    assert circle.values["centre"] == (-16.5, 1030)
    assert circle.values["radius"] == 7.5


def test_a_thick_leaf_is_broken_off_and_a_thin_one_shows_its_back() -> None:
    assert seat(sample("wet-room-thick-wall"), "valve").broken
    plan = usual()
    thin = planned(plan.job.but(wall=plan.job.wall.but(thickness=100.0)))
    assert not seat(thin, "valve").broken
    assert "100 back of wall" in texts(drawn(thin, "valve"))


def test_a_cut_through_the_leaf_leaves_two_pieces() -> None:
    plan = usual()
    pierced = planned(plan.job.but(wall=plan.job.wall.but(thickness=50.0)))
    pen = drawn(pierced, "valve")
    corners = [point for stroke in pen.on("masonry") for point in stroke.values["points"]]
    assert not [point for point in corners if 935 < point[1] < 1125]


def test_a_bare_wall_has_no_finish() -> None:
    plan = usual()
    bare = planned(plan.job.but(finish=Finish()))
    pen = drawn(bare, "valve")
    assert not pen.on("lining")
    # nothing covers it: cut 60 to 85
    assert "least 60" in texts(pen)
    assert "most 85" in texts(pen)


def test_a_finish_thicker_than_the_part_allows_still_draws() -> None:
    plan = usual()
    thick = Finish(areas=(FinishArea(id="wall", layers=(Layer(kind="board", thickness=120.0),)),))
    found = texts(drawn(planned(plan.job.but(finish=thick)), "valve"))
    assert "board 120" in found
    assert "120 finished" in found


def test_sections_are_of_what_sits_in_the_wall_valves_first() -> None:
    assert seats(usual()) == ("valve", "head", "outlet")
    # a head on a ceiling arm does not sit in the wall
    assert "head" not in seats(sample("wet-room-thick-wall"))
    assert len(seats(crowded(2, 3000))) == 2 * 4
