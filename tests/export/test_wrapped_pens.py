"""A drawing placed at a scale is the same drawing, and one on some layers is those layers."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from export.pen import XY
from export.recorder import Recorder
from export.wrapped_pens import OnLayers, Placed
from tests.export.strokes import radii, values_of

# Placed


def test_a_drawing_at_one_to_ten_is_a_tenth_as_large_and_moved() -> None:
    pen = Recorder()
    placed = Placed(pen, 0.1, 20, 30)
    placed.line("wall", (0, 0), (900, 2400))
    placed.circle("head", (380, 2100), 100)
    placed.text("text", (100, 200), "valve", 25, align="right", angle=90)
    placed.dimension("dimension", (0, 0), (380, 0), (0, -100), "x", "380", 25)
    placed.running("dimension", (0, 0), (380, 1100), (950, 1120), "y", "1100", 25)
    line, circle, text, dimension, running = (stroke.values for stroke in pen.strokes)
    assert line == {"start": (20, 30), "end": (110, 270)}
    assert circle == {"centre": (58, 240), "radius": 10}
    assert text == {"at": (30, 50), "text": "valve", "height": 2.5, "align": "right", "angle": 90}
    assert dimension["end"] == (58, 30)
    assert dimension["base"] == (20, 20)
    assert dimension["text"] == "380"
    assert dimension["height"] == 2.5
    assert running["tag"] == (115, 142)
    assert running["height"] == 2.5


def test_placing_in_two_steps_is_placing_in_one() -> None:
    once, twice = Recorder(), Recorder()
    Placed(once, 0.5, 40, 20).line("wall", (8, 4), (16, 32))
    # 0.25 * (2 * 8 + 80) + 20 = 44, and 0.5 * 8 + 40 = 44
    Placed(Placed(twice, 0.25, 20, 10), 2, 80, 40).line("wall", (8, 4), (16, 32))
    assert once.strokes == twice.strokes


def test_stretch_moves_points_and_leaves_the_height_of_text() -> None:
    pen = Recorder()
    placed = Placed(pen, 1, 10, 0, stretch_x=1.002, stretch_y=0.995)
    placed.line("wall", (0, 0), (1000, 1000))
    placed.text("text", (1000, 0), "valve", 5)
    assert pen.strokes[0].values["end"] == pytest.approx((1012, 995))
    assert pen.strokes[1].values["height"] == 5


def test_equal_stretch_keeps_a_circle_a_circle() -> None:
    pen = Recorder()
    Placed(pen, 1, 0, 0, stretch_x=1.01, stretch_y=1.01).circle("head", (0, 0), 100)
    assert values_of(pen, "circle") == [{"centre": (0, 0), "radius": pytest.approx(101)}]


@given(radii, st.sampled_from([(1.01, 0.99), (0.995, 1.0), (1.0, 3.0)]), st.sampled_from([0.1, 1.0, 2.0]))
def test_an_unevenly_stretched_circle_strays_less_than_a_hundredth(
    radius: float, stretch: XY, scale: float
) -> None:
    pen = Recorder()
    Placed(pen, scale, 0, 0, stretch_x=stretch[0], stretch_y=stretch[1]).circle("head", (0, 0), radius)
    [drawn] = values_of(pen, "polyline")
    assert drawn["closed"]
    ring = [*drawn["points"], drawn["points"][0]]
    a, b = radius * scale * stretch[0], radius * scale * stretch[1]
    assert all((x / a) ** 2 + (y / b) ** 2 == pytest.approx(1) for x, y in ring)
    for (x0, y0), (x1, y1) in pairwise(ring):
        middle = ((x0 + x1) / 2, (y0 + y1) / 2)
        on_curve = math.hypot(middle[0] / a, middle[1] / b)
        assert math.hypot(*middle) * (1 / on_curve - 1) < 0.0101


def test_an_unevenly_stretched_arc_runs_counter_clockwise_from_start_to_end() -> None:
    pen = Recorder()
    Placed(pen, 1, 0, 0, stretch_x=1.1).arc("screen", (0, 0), 100, 350, 90)
    [drawn] = values_of(pen, "polyline")
    assert not drawn["closed"]
    x, y = 110 * math.cos(math.radians(350)), 100 * math.sin(math.radians(350))
    assert drawn["points"][0] == pytest.approx((x, y))
    assert drawn["points"][-1] == pytest.approx((0, 100))
    assert max(x for x, _ in drawn["points"]) == pytest.approx(110, abs=0.01)


def test_a_scale_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="above 0"):
        Placed(Recorder(), 0, 0, 0)
    with pytest.raises(ValueError, match="above 0"):
        Placed(Recorder(), 1, 0, 0, stretch_y=-1)
    with pytest.raises(ValueError, match="above 0"):
        Placed(Recorder(), math.nan, 0, 0)


# OnLayers


def test_only_the_named_layers_are_drawn() -> None:
    pen = Recorder()
    only = OnLayers(pen, {"wall", "dimension"})
    for layer in ("wall", "tile", "dimension"):
        only.line(layer, (0, 0), (1, 0))
        only.polyline(layer, [(0, 0), (1, 0)])
        only.circle(layer, (0, 0), 1)
        only.arc(layer, (0, 0), 1, 0, 90)
        only.text(layer, (0, 0), "a", 2.5)
        only.dimension(layer, (0, 0), (1, 0), (0, 1), "x", "1", 2.5)
        only.running(layer, (0, 0), (1, 0), (1, 1), "x", "1", 2.5)
    assert len(pen.on("wall")) == len(pen.on("dimension")) == 7
    assert pen.on("tile") == []
