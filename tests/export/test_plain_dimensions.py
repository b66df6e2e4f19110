"""Dimensions taken apart into lines and text, which stand clear of each other and read as on any drawing."""

from typing import Any

import pytest
import shapely
import shapely.affinity
from hypothesis import given
from hypothesis import strategies as st

from export.pen import XY, Axis
from export.plain_dimensions import draw_dimension, draw_running
from export.recorder import Recorder
from export.text import text_box
from tests.export.strokes import lines_of, points, values_of

axes = st.sampled_from(["x", "y"])
labels = st.sampled_from(["5", "40 mm", "1100.5 (gj)", "a rather long label"])


def box_of(text: dict[str, Any]) -> shapely.Geometry:
    """Return what a recorded text covers, less a hair on each side, as a polygon."""
    left, bottom, right, top = text_box(text["text"], text["height"], text["align"])
    box = shapely.affinity.rotate(shapely.box(left, bottom, right, top), text["angle"], origin=(0, 0))
    return shapely.affinity.translate(box, *text["at"]).buffer(-0.01 * text["height"])


# no line through its text


@given(points, points, points, axes, labels)
def test_no_line_of_a_dimension_runs_through_its_text(
    start: XY, end: XY, base: XY, axis: Axis, text: str
) -> None:
    pen = Recorder()
    draw_dimension(pen, "dimension", start, end, base, axis, text, 2.5)
    [written] = values_of(pen, "text")
    box = box_of(written)
    assert all(not line.intersects(box) for line in lines_of(pen))


@given(points, points, axes, labels)
def test_no_leader_runs_through_its_text(feature: XY, tag: XY, axis: Axis, text: str) -> None:
    pen = Recorder()
    draw_running(pen, "dimension", feature, tag, axis, text, 2.5)
    [written] = values_of(pen, "text")
    box = box_of(written)
    assert all(not line.intersects(box) for line in lines_of(pen))


# dimensions


def test_a_dimension_across_reads_from_the_bottom_above_its_line() -> None:
    pen = Recorder()
    draw_dimension(pen, "dimension", (380, 0), (0, 5), (200, -40), "x", "380", 10)
    [text] = values_of(pen, "text")
    assert text["angle"] == 0
    assert text["align"] == "centre"
    assert text["at"] == (190, pytest.approx(-40 + 5))
    assert any(line.equals(shapely.LineString([(0, -40), (380, -40)])) for line in lines_of(pen))


def test_a_dimension_upward_reads_from_the_right_to_the_left_of_its_line() -> None:
    pen = Recorder()
    draw_dimension(pen, "dimension", (0, 0), (5, 1100), (-40, 0), "y", "1100", 10)
    [text] = values_of(pen, "text")
    assert text["angle"] == 90
    assert text["at"] == (pytest.approx(-40 - 5), 550)
    assert any(line.equals(shapely.LineString([(-40, 0), (-40, 1100)])) for line in lines_of(pen))


def test_the_extension_lines_start_a_little_off_what_is_measured() -> None:
    pen = Recorder()
    draw_dimension(pen, "dimension", (0, 0), (380, 0), (0, -40), "x", "380", 10)
    assert min(line.distance(shapely.Point(0, 0)) for line in lines_of(pen)) == pytest.approx(6)


def test_the_text_of_a_short_dimension_moves_away_from_what_is_measured() -> None:
    below, above = Recorder(), Recorder()
    draw_dimension(below, "dimension", (0, 0), (20, 0), (0, -40), "x", "20 mm", 10)
    draw_dimension(above, "dimension", (0, 0), (20, 0), (0, 40), "x", "20 mm", 10)
    assert values_of(below, "text")[0]["at"][1] + 10 < -40
    assert values_of(above, "text")[0]["at"][1] > 40 + 6


# running ones


def test_a_height_is_written_level_beside_a_tag_on_either_side() -> None:
    pen = Recorder()
    draw_running(pen, "dimension", (380, 1100), (950, 1100), "y", "1100", 10)
    draw_running(pen, "dimension", (380, 1100), (-50, 1100), "y", "1100", 10)
    right, left = values_of(pen, "text")
    assert (right["at"], right["align"], right["angle"]) == ((955, 1095), "left", 0)
    assert (left["at"], left["align"], left["angle"]) == ((-55, 1095), "right", 0)


def test_a_distance_across_is_written_upright_and_read_from_the_right() -> None:
    pen = Recorder()
    draw_running(pen, "dimension", (380, 1100), (380, 2500), "x", "380", 10)
    draw_running(pen, "dimension", (380, 1100), (380, -50), "x", "380", 10)
    above, below = values_of(pen, "text")
    # Turned by 90 degrees the capitals rise to the left, so the baseline is half a height to the right.
    assert (above["at"], above["align"], above["angle"]) == ((385, 2505), "left", 90)
    assert (below["at"], below["align"], below["angle"]) == ((385, -55), "right", 90)


def test_a_leader_leaves_its_feature_straight_and_bends_to_a_displaced_tag() -> None:
    pen = Recorder()
    draw_running(pen, "dimension", (380, 1100), (950, 1120), "y", "1100", 10)
    [leader] = values_of(pen, "polyline")
    # 6 mm off the feature, straight until 20 mm before the tag, then 20 mm up at 45 degrees
    assert leader["points"] == ((386, 1100), (930, 1100), (950, 1120))


@given(st.lists(st.tuples(st.integers(0, 400), st.integers(0, 400)), min_size=2, max_size=6), axes)
def test_leaders_to_tags_in_the_order_of_the_features_do_not_cross(
    levels: list[tuple[int, int]], axis: Axis
) -> None:
    features = sorted({level for level, _ in levels})
    tags = sorted({level for _, level in levels})
    pen = Recorder()
    for feature, tag in zip(features, tags, strict=False):
        # The row of tags is far enough away for every bend: 500 is more than 400 and the gap.
        ends = ((0.0, float(feature)), (500.0, float(tag)))
        start, end = ends if axis == "y" else ((ends[0][1], ends[0][0]), (ends[1][1], ends[1][0]))
        draw_running(pen, "dimension", start, end, axis, "600", 2.5)
    leaders = lines_of(pen)
    for i, leader in enumerate(leaders):
        assert all(not leader.intersects(other) for other in leaders[i + 1 :])
