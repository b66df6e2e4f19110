"""A recorder keeps every stroke, gives it back, and knows how far a drawing reaches."""

import pytest

from export.pen import Pen
from export.recorder import Recorder


def every_verb(pen: Pen) -> None:
    pen.line("wall", (0, 0), (900, 0))
    pen.polyline("tray", [(0, 0), (760, 0), (760, 150)], closed=True)
    pen.circle("head", (380, 2100), 100)
    pen.arc("screen", (760, 0), 600, 90, 180)
    pen.text("text", (10, 20), "valve", 25, align="right", angle=90)
    pen.dimension("dimension", (0, 0), (380, 0), (0, -100), "x", "380", 25)
    pen.running("dimension", (0, 0), (380, 1100), (950, 1120), "y", "1100", 25)


def test_a_replayed_drawing_is_the_same_drawing() -> None:
    first, second = Recorder(), Recorder()
    every_verb(first)
    first.replay(second)
    assert len(first.strokes) == 7
    assert second.strokes == first.strokes


def test_strokes_come_back_by_layer_in_the_order_drawn() -> None:
    pen = Recorder()
    every_verb(pen)
    assert [stroke.verb for stroke in pen.on("dimension", "wall")] == ["line", "dimension", "running"]


def test_later_changes_of_the_points_do_not_change_what_was_drawn() -> None:
    pen = Recorder()
    points = [(0.0, 0.0), (1.0, 0.0)]
    pen.polyline("wall", points)
    points.append((9.0, 9.0))
    assert pen.bounds() == (0, 0, 1, 0)


def test_bounds_reach_round_circles_and_out_to_dimension_lines() -> None:
    pen = Recorder()
    every_verb(pen)
    # left: the arc about (760, 0) of radius 600 reaches x 160, the wall x 0; below: the arc y -600;
    # right: the arc's full circle reaches 1360; top: the head's rim at 2100 + 100.
    assert pen.bounds() == (0, -600, 1360, 2200)


def test_bounds_count_the_ends_of_dimensions_and_leaders() -> None:
    pen = Recorder()
    pen.dimension("dimension", (0, 0), (380, 0), (0, -100), "x", "380", 25)
    pen.running("dimension", (0, 0), (380, 1100), (950, 1120), "y", "1100", 25)
    assert pen.bounds() == (0, -100, 950, 1120)


def test_an_empty_drawing_has_no_bounds() -> None:
    with pytest.raises(ValueError, match="nothing has been drawn"):
        Recorder().bounds()
