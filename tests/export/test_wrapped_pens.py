"""A drawing moved, scaled or cut is the same drawing; dimensions can be taken apart into lines and text."""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

import pytest
import shapely
import shapely.affinity
from hypothesis import assume, given
from hypothesis import strategies as st

from export.pen import XY, Axis
from export.plain_dimensions import draw_dimension, draw_running
from export.recorder import Recorder, Stroke
from export.text import text_box
from export.wrapped_pens import Clipped, OnLayers, Placed

WINDOW = (0.0, 0.0, 100.0, 60.0)
window = shapely.box(*WINDOW)

# Tenths of a millimetre, as positions in a job are, inside and outside the window and on its border.
coordinates = st.integers(-1500, 2500).map(lambda tenths: tenths / 10)
points = st.tuples(coordinates, coordinates)
radii = st.integers(1, 1500).map(lambda tenths: tenths / 10)
angles = st.integers(-360, 720).map(float)


class FillingRecorder(Recorder):
    """A recorder that can fill without an edge."""

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        self.strokes.append(Stroke("fill", layer, {"points": tuple(points)}))


def values_of(pen: Recorder, *verbs: str) -> list[dict[str, Any]]:
    return [stroke.values for stroke in pen.strokes if stroke.verb in verbs]


def lines_of(pen: Recorder) -> list[shapely.LineString]:
    """Return every straight line that was drawn, as shapely lines."""
    lines = [shapely.LineString([v["start"], v["end"]]) for v in values_of(pen, "line")]
    for v in values_of(pen, "polyline"):
        ring = [*v["points"], v["points"][0]] if v["closed"] else v["points"]
        lines.append(shapely.LineString(ring))
    return lines


def length_of(lines: list[shapely.LineString]) -> float:
    return math.fsum(line.length for line in lines)


def box_of(text: dict[str, Any]) -> shapely.Geometry:
    """Return what a recorded text covers, less a hair on each side, as a polygon."""
    left, bottom, right, top = text_box(text["text"], text["height"], text["align"])
    box = shapely.affinity.rotate(shapely.box(left, bottom, right, top), text["angle"], origin=(0, 0))
    return shapely.affinity.translate(box, *text["at"]).buffer(-0.01 * text["height"])


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


# Clipped: lines


@given(points, points)
def test_the_piece_of_a_line_is_the_part_in_the_window(start: XY, end: XY) -> None:
    pen = Recorder()
    Clipped(pen, *WINDOW).line("wall", start, end)
    whole = shapely.LineString([start, end])
    assert length_of(lines_of(pen)) == pytest.approx(whole.intersection(window).length, abs=1e-6)
    for piece in lines_of(pen):
        assert window.covers(piece)
        assert piece.hausdorff_distance(shapely.intersection(whole, window)) < 1e-6


def test_a_line_within_passes_unchanged() -> None:
    pen = Recorder()
    Clipped(pen, *WINDOW).line("wall", (0.1, 0.2), (99.9, 59.8))
    assert values_of(pen, "line") == [{"start": (0.1, 0.2), "end": (99.9, 59.8)}]


def test_a_line_that_only_touches_a_corner_vanishes() -> None:
    pen = Recorder()
    Clipped(pen, *WINDOW).line("wall", (-10, 10), (10, -10))
    assert pen.strokes == []


def test_a_line_drawn_along_the_border_stays() -> None:
    pen = Recorder()
    Clipped(pen, *WINDOW).line("wall", (-10, 60), (50, 60))
    assert values_of(pen, "line") == [{"start": (0, 60), "end": (50, 60)}]


@given(st.lists(points, min_size=2, max_size=7), st.booleans())
def test_the_pieces_of_joined_lines_are_the_parts_in_the_window(corners: list[XY], closed: bool) -> None:
    pen = Recorder()
    Clipped(pen, *WINDOW).polyline("tray", corners, closed=closed)
    ring = [*corners, corners[0]] if closed else corners
    sides = [shapely.LineString(side) for side in pairwise(ring)]
    expected = sum(side.intersection(window).length for side in sides)
    assert length_of(lines_of(pen)) == pytest.approx(expected, abs=1e-5)
    assert all(window.buffer(1e-9).covers(piece) for piece in lines_of(pen))
    assert all(shapely.MultiLineString(sides).buffer(1e-6).covers(piece) for piece in lines_of(pen))


def test_joined_lines_that_stay_inside_stay_joined() -> None:
    pen = Recorder()
    Clipped(pen, *WINDOW).polyline("pipe-hot", [(-10, 10), (50, 10), (50, 50), (150, 50)])
    assert values_of(pen, "polyline") == [
        {"points": ((0, 10), (50, 10), (50, 50), (100, 50)), "closed": False}
    ]


def test_a_closed_shape_cut_at_one_side_stays_one_run() -> None:
    pen = Recorder()
    # The first corner lies inside; the run must pass through it.
    Clipped(pen, *WINDOW).polyline("tray", [(50, 10), (150, 10), (150, 50), (50, 50)], closed=True)
    assert values_of(pen, "polyline") == [
        {"points": ((100, 50), (50, 50), (50, 10), (100, 10)), "closed": False}
    ]


# Clipped: fills


def test_no_edge_is_drawn_along_the_cut() -> None:
    pen = FillingRecorder()
    Clipped(pen, *WINDOW).polyline("recess", [(50, 10), (150, 10), (150, 50), (50, 50)], closed=True)
    [fill] = values_of(pen, "fill")
    assert shapely.Polygon(fill["points"]).equals(shapely.box(50, 10, 100, 50))
    assert length_of(lines_of(pen)) == 50 + 40 + 50
    assert pen.strokes[0].verb == "fill"  # the edge is painted over it


def test_a_window_within_a_filled_shape_is_filled_whole_without_edges() -> None:
    pen = FillingRecorder()
    Clipped(pen, *WINDOW).polyline("recess", [(-10, -10), (150, -10), (150, 90), (-10, 90)], closed=True)
    [fill] = [stroke.values for stroke in pen.strokes]
    assert shapely.Polygon(fill["points"]).equals(window)


def test_a_pen_that_cannot_fill_alone_draws_the_edges_only() -> None:
    pen = Recorder()
    Clipped(Placed(pen, 1, 0, 0), *WINDOW).polyline("recess", [(50, 10), (150, 10), (150, 50)], closed=True)
    assert [stroke.verb for stroke in pen.strokes] == ["polyline"]
    assert not pen.strokes[0].values["closed"]


def test_a_fill_passes_through_every_wrapped_pen() -> None:
    pen = FillingRecorder()
    nested = Clipped(OnLayers(Placed(pen, 0.5, 0, 0), {"recess"}), *WINDOW)
    nested.polyline("recess", [(50, 10), (150, 10), (150, 50), (50, 50)], closed=True)
    nested.polyline("chase", [(50, 10), (150, 10), (150, 50), (50, 50)], closed=True)
    [fill] = values_of(pen, "fill")
    assert shapely.Polygon(fill["points"]).equals(shapely.box(25, 5, 50, 25))


@given(st.lists(points, min_size=3, max_size=6))
def test_the_filled_part_is_the_part_in_the_window(corners: list[XY]) -> None:
    shape = shapely.Polygon(corners).convex_hull
    assume(isinstance(shape, shapely.Polygon))
    assert isinstance(shape, shapely.Polygon)
    pen = FillingRecorder()
    Clipped(pen, *WINDOW).polyline("masonry", [(x, y) for x, y in shape.exterior.coords[:-1]], closed=True)
    filled = values_of(pen, "fill") + [v for v in values_of(pen, "polyline") if v["closed"]]
    area = sum(shapely.Polygon(v["points"]).area for v in filled if len(v["points"]) > 2)
    assert area == pytest.approx(shape.intersection(window).area, abs=1e-5)


# Clipped: circles and arcs


def arc_points(centre: XY, radius: float, start: float, end: float, count: int = 200) -> list[XY]:
    sweep = (end - start) % 360 or 360
    turns = [math.radians(start + sweep * i / count) for i in range(count + 1)]
    return [(centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in turns]


def share_inside(centre: XY, radius: float, start: float, end: float, count: int = 3600) -> float:
    """Return the degrees of an arc in the window, counted at the middles of small steps."""
    sweep = (end - start) % 360 or 360
    turns = [math.radians(start + sweep * (i + 0.5) / count) for i in range(count)]
    inside = sum(
        0 <= centre[0] + radius * math.cos(t) <= 100 and 0 <= centre[1] + radius * math.sin(t) <= 60
        for t in turns
    )
    return sweep * inside / count


@given(points, radii)
def test_the_arcs_of_a_circle_are_the_parts_in_the_window(centre: XY, radius: float) -> None:
    pen = Recorder()
    Clipped(pen, *WINDOW).circle("head", centre, radius)
    arcs = values_of(pen, "arc")
    drawn = 360 * len(values_of(pen, "circle")) + sum((a["end"] - a["start"]) % 360 or 360 for a in arcs)
    # Each end of an arc is off by a step of 0.1 degrees at most, and there are 8 at most.
    assert drawn == pytest.approx(share_inside(centre, radius, 0, 360), abs=0.81)
    slack = shapely.buffer(window, 1e-6)
    assert all(slack.covers(shapely.LineString(arc_points(**arc))) for arc in arcs)


@given(points, radii, angles, angles)
def test_the_pieces_of_an_arc_are_its_parts_in_the_window(
    centre: XY, radius: float, start: float, end: float
) -> None:
    pen = Recorder()
    Clipped(pen, *WINDOW).arc("screen", centre, radius, start, end)
    arcs = values_of(pen, "arc")
    drawn = sum((a["end"] - a["start"]) % 360 or 360 for a in arcs)
    assert drawn == pytest.approx(share_inside(centre, radius, start, end), abs=0.81)
    sweep = (end - start) % 360 or 360
    for arc in arcs:
        after = (arc["start"] - start + 1e-7) % 360
        # A full turn may begin anywhere; a shorter arc must hold its pieces.
        assert sweep == 360 or after + (arc["end"] - arc["start"]) <= sweep + 1e-6


def test_a_circle_centred_on_the_border_is_half_drawn() -> None:
    pen = Recorder()
    Clipped(pen, *WINDOW).circle("head", (50, 0), 20)
    [arc] = values_of(pen, "arc")
    assert (arc["start"] % 360, arc["end"] % 360) == pytest.approx((0, 180))


def test_a_circle_within_stays_a_circle_and_one_outside_vanishes() -> None:
    pen = Recorder()
    clipped = Clipped(pen, *WINDOW)
    clipped.circle("head", (50, 30), 30)
    clipped.circle("head", (150, 30), 49.9)
    clipped.circle("head", (50, 30), 100)
    assert [stroke.verb for stroke in pen.strokes] == ["circle"]


def test_a_circle_that_only_touches_a_corner_vanishes() -> None:
    pen = Recorder()
    Clipped(pen, *WINDOW).circle("head", (103, 64), 5)  # 3, 4, 5: through the corner (100, 60)
    Clipped(pen, *WINDOW).circle("head", (105, 72), 13)  # 5, 12, 13
    Clipped(pen, *WINDOW).circle("head", (-8, -15), 17)  # 8, 15, 17
    assert pen.strokes == []


def test_a_window_within_a_filled_circle_is_filled() -> None:
    pen = FillingRecorder()
    Clipped(pen, *WINDOW).circle("masonry", (50, 30), 100)
    [fill] = [stroke.values for stroke in pen.strokes]
    assert shapely.Polygon(fill["points"]).area == pytest.approx(6000)


# Clipped: text and dimensions


def test_text_shows_whole_where_any_of_it_lies_in_the_window() -> None:
    pen = Recorder()
    clipped = Clipped(pen, *WINDOW)
    clipped.text("text", (95, 30), "starts inside", 5)
    clipped.text("text", (-5, 30), "ends inside", 5)
    clipped.text("text", (-5, 40), "outside", 5, align="right")
    clipped.text("text", (120, 40), "upright outside", 5, angle=90)
    clipped.text("text", (50, -10), "upright", 5, angle=90)
    assert [text["text"] for text in values_of(pen, "text")] == ["starts inside", "ends inside", "upright"]


def test_a_dimension_is_cut_like_any_line() -> None:
    pen = Recorder()
    clipped = Clipped(pen, *WINDOW)
    clipped.dimension("dimension", (50, 10), (350, 10), (0, 40), "x", "300", 5)
    clipped.running("dimension", (0, 0), (50, 20), (150, 20), "y", "20", 5)
    assert {stroke.verb for stroke in pen.strokes} == {"line", "polyline"}  # the text of both is outside
    assert all(window.covers(line) for line in lines_of(pen))
    assert any(line.equals(shapely.LineString([(50, 40), (100, 40)])) for line in lines_of(pen))


def test_a_window_without_size_is_refused() -> None:
    with pytest.raises(ValueError, match="width and height"):
        Clipped(Recorder(), 0, 0, 0, 10)


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


# Dimensions taken apart


axes = st.sampled_from(["x", "y"])
labels = st.sampled_from(["5", "40 mm", "1100.5 (gj)", "a rather long label"])


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
