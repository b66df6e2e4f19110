"""The elevation, recorded and measured: everything is drawn where the model has it, and texts never touch."""

import math

import pytest

from export.drawings.elevation import draw_elevation, margins
from export.drawings.fittings import draw_fitting
from export.pen import Pen
from export.recorder import Recorder
from export.wrapped_pens import Placed
from geometry.finding import Finding
from geometry.plan import Plan
from tests.export.jobs import crowded, planned, sample, usual
from tests.export.measured import touching, words
from tests.samples import SAMPLES

CLASH = Finding(
    rule="face.plates", status="clash", parts=("valve",), message="too near", place=((380, 1030), (450, 1030))
)


def drawn(plan: Plan, scale: float = 20.0, findings: tuple[Finding, ...] = (), **choices: object) -> Recorder:
    pen = Recorder()
    draw_elevation(plan, findings, pen, scale, **choices)  # type: ignore[arg-type]
    return pen


def text_on(pen: Recorder, *layers: str) -> list[str]:
    return [stroke.values["text"] for stroke in pen.on(*layers) if stroke.verb == "text"]


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("scale", [10.0, 20.0, 50.0])
def test_no_two_texts_touch_on_any_sample(name: str, scale: float) -> None:
    plan = sample(name)
    assert touching(words(drawn(plan, scale, (CLASH,) * 6))) == []


@pytest.mark.parametrize(("bays", "width"), [(6, 3600), (12, 6000)])
@pytest.mark.parametrize("scale", [20.0, 50.0, 100.0])
def test_no_two_texts_touch_on_a_crowded_wall(bays: int, width: float, scale: float) -> None:
    found = words(drawn(crowded(bays, width), scale, (CLASH,) * 30))
    assert touching(found) == []
    assert min(text.height for text in found) / scale >= 1.8


@pytest.mark.parametrize("name", SAMPLES)
def test_everything_that_is_written_lies_in_the_bounds(name: str) -> None:
    plan = sample(name)
    left, low, right, top = margins(plan, 20.0).bounds
    for text in words(drawn(plan, 20.0, (CLASH,))):
        x0, y0, x1, y1 = text.bounds
        assert left - 1e-6 <= x0
        assert low - 1e-6 <= y0
        assert x1 <= right + 1e-6
        assert y1 <= top + 1e-6


def test_every_fitting_hose_and_pipe_has_its_label() -> None:
    plan = crowded(6, 3600)
    job = plan.job
    written = text_on(drawn(plan), "text")
    for name in [record.id for record in (*job.fittings, *job.hoses, *job.pipes, *job.services)]:
        assert [text for text in written if text.startswith(name)], name


def test_hot_is_h_cold_is_c_and_mixed_has_the_number_of_its_outlet() -> None:
    pen = drawn(usual())
    assert text_on(pen, "pipe-hot") == ["H"]
    assert text_on(pen, "pipe-cold") == ["C"]
    assert sorted(text_on(pen, "pipe-mixed")) == ["1", "2"]


def test_each_long_leg_of_a_pipe_has_its_letter() -> None:
    # the hot pipe of this sample goes up, across and up again
    assert text_on(drawn(sample("planted-faults"), 10.0), "pipe-hot") == ["H", "H", "H"]


def test_the_valve_is_a_true_circle_at_its_place() -> None:
    plate = next(
        stroke
        for stroke in drawn(usual()).on("plate")
        if stroke.verb == "circle" and stroke.values["radius"] == 85
    )
    # tray floor 30 and 1000 above it; centre line of a 760 tray
    assert plate.values["centre"] == (380, 1030)


def test_the_wall_the_tray_and_its_lines_are_where_they_are() -> None:
    pen = drawn(usual())
    assert ((0, 0), (760, 0), (760, 2400), (0, 2400)) in [
        stroke.values.get("points") for stroke in pen.on("wall")
    ]
    assert [stroke.values["start"][0] for stroke in pen.on("quarter-line")] == [190, 570]
    assert [stroke.values["start"][0] for stroke in pen.on("centre-line")] == [380]
    (floor,) = pen.on("datum")
    assert floor.values["start"] == (0, 30)
    assert floor.values["end"] == (760, 30)


def test_pipes_run_from_port_to_port() -> None:
    (riser, branch) = [stroke for stroke in drawn(usual()).on("pipe-mixed") if stroke.verb == "polyline"]
    # from the valve's upper port 70 over its centre to the head's arm; from its right port to the outlet
    assert riser.values["points"] == ((380, 1100), (380, 2190))
    assert branch.values["points"] == ((445, 1030), (570, 1030))


def test_the_hose_hangs_from_the_nozzle_to_the_slider() -> None:
    (hose,) = drawn(usual()).on("hose")
    # nozzle 30 under the outlet's centre; rail foot 1120, slider at 80 + 540 * 2 / 3 = 440, nut 40 under it
    assert hose.values["points"][0] == pytest.approx((570, 1000))
    assert hose.values["points"][-1] == pytest.approx((570, 1520))


def test_without_parts_only_the_fittings_are_missing() -> None:
    with_parts, without = drawn(usual()), drawn(usual(), parts=False)
    assert with_parts.on("plate", "head", "rail")
    assert not without.on("plate", "head", "rail", "handset", "drill")
    assert without.on("chase", "recess") == with_parts.on("chase", "recess")
    assert [s for s in without.strokes if s.verb == "running"] == [
        s for s in with_parts.strokes if s.verb == "running"
    ]


def test_first_fix_shows_what_is_cut_and_second_fix_what_is_fitted() -> None:
    first, second = drawn(usual(), stage="first_fix"), drawn(usual(), stage="second_fix")
    assert first.on("chase")
    assert first.on("drill")
    assert not first.on("plate", "hose", "hose-sweep", "spray", "handset")
    assert second.on("plate")
    assert second.on("hose")
    assert not second.on("chase", "recess", "pipe-hot")


def test_the_reference_line_is_1000_mm_and_below_everything() -> None:
    assert not drawn(usual()).on("check-bar")
    pen = drawn(usual(), reference=True)
    line = pen.on("check-bar")[0].values
    assert math.dist(line["start"], line["end"]) == 1000
    assert line["start"][1] < margins(usual(), 20.0).bounds[1]
    assert "1000 mm. 1 unit = 1 mm." in text_on(pen, "text")


def test_a_fitting_drawn_about_its_own_origin_is_the_same_for_two_of_a_kind() -> None:
    plan = crowded(2, 3000)

    def alone(name: str) -> Recorder:
        pen = Recorder()
        x, y = plan.job.fitting(name).at
        moved: Pen = Placed(pen, 1.0, -x, -y)
        draw_fitting(plan, moved, name)
        return pen

    first, second = alone("spout-0"), alone("spout-1")
    assert [stroke.verb for stroke in first.strokes] == [stroke.verb for stroke in second.strokes]
    assert first.bounds() == pytest.approx(second.bounds())


def test_a_hose_that_is_too_short_is_not_drawn_and_nothing_else_is_missing() -> None:
    plan = usual()
    job = plan.job.moved("rail", 570.0, 1690.0).moved("outlet", 570.0, 100.0)
    pen = drawn(planned(job.but(hoses=(job.hoses[0].but(part="hose-1250"),))))
    assert not pen.on("hose")
    assert pen.on("rail")


def test_a_clash_is_marked_and_numbered() -> None:
    pen = drawn(usual(), 20.0, (CLASH,))
    assert [stroke.verb for stroke in pen.on("clash")].count("circle") == 2
    assert text_on(pen, "clash") == ["1"]


def test_equal_jobs_give_equal_drawings() -> None:
    assert drawn(usual(), 20.0, (CLASH,)).strokes == drawn(usual(), 20.0, (CLASH,)).strokes
