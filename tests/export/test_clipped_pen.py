"""A drawing cut at a window: what is left of it is the part in the window."""

import math
from collections.abc import Sequence
from itertools import pairwise

import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from export.pen import XY
from export.recorder import Recorder, Stroke
from export.wrapped_pens import Clipped, OnLayers, Placed
from tests.export.strokes import lines_of, points, radii, values_of

WINDOW = (0.0, 0.0, 100.0, 60.0)
window = shapely.box(*WINDOW)
angles = st.integers(-360, 720).map(float)


class FillingRecorder(Recorder):
    """A recorder that can fill without an edge."""

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        self.strokes.append(Stroke("fill", layer, {"points": tuple(points)}))


def length_of(lines: list[shapely.LineString]) -> float:
    return math.fsum(line.length for line in lines)


# lines


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


# fills


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


# circles and arcs


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


# text and dimensions


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


# refusal


def test_a_window_without_size_is_refused() -> None:
    with pytest.raises(ValueError, match="width and height"):
        Clipped(Recorder(), 0, 0, 0, 10)
