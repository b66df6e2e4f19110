"""The strokes of the PDF pen as three readers see them: true sizes, looks of the layers, refusals."""

import ctypes
import math

import pypdfium2
import pypdfium2.raw as raw
import pytest

from export.layers import DASHES, LAYERS, Layer
from export.wrapped_pens import Clipped
from tests.export.pdf_pages import page_of
from tests.export.pdf_reader import POINT, operations, plumbed, rendered

# true size


def test_a_hundred_millimetre_line_measures_a_hundred_in_each_direction() -> None:
    made, pen = page_of()
    pen.line("check-bar", (20, 30), (120, 30))
    pen.line("check-bar", (20, 30), (20, 130))
    across, up = plumbed(made.to_bytes()).lines
    assert (across["x1"] - across["x0"]) * POINT == pytest.approx(100, abs=0.005)
    assert across["x0"] * POINT == pytest.approx(20, abs=0.005)
    assert (up["y1"] - up["y0"]) * POINT == pytest.approx(100, abs=0.005)
    assert up["y0"] * POINT == pytest.approx(30, abs=0.005)


def test_a_second_reader_measures_the_same_hundred() -> None:
    made, pen = page_of()
    pen.line("check-bar", (20, 30), (120, 30))
    pdf = pypdfium2.PdfDocument(made.to_bytes())
    [line] = pdf[0].get_objects()
    ends = []
    for i in range(raw.FPDFPath_CountSegments(line)):
        x, y = ctypes.c_float(), ctypes.c_float()
        raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(line, i), x, y)
        ends.append(line.get_matrix().on_point(x.value, y.value))
    pdf.close()
    assert [(x * POINT, y * POINT) for x, y in ends] == [
        pytest.approx((20, 30), abs=0.005),
        pytest.approx((120, 30), abs=0.005),
    ]


def test_a_circle_has_its_radius_and_place() -> None:
    made, pen = page_of()
    pen.circle("head", (100, 150), 50)
    [circle] = plumbed(made.to_bytes()).curves
    box = [circle[side] * POINT for side in ("x0", "y0", "x1", "y1")]
    assert box == pytest.approx([50, 100, 150, 200], abs=0.005)


def test_an_arc_runs_counter_clockwise_from_start_to_end() -> None:
    made, pen = page_of()
    pen.arc("screen", (100, 150), 50, 270, 45)
    [arc] = plumbed(made.to_bytes()).curves
    points = [(x * POINT, 297 - y * POINT) for x, y in arc["pts"]]  # this reader counts from the top
    # From straight below, on the right-hand side, to 45 degrees: 50 * sin(45) = 35.3553
    assert points[0] == pytest.approx((100, 100), abs=0.005)
    assert points[-1] == pytest.approx((135.3553, 185.3553), abs=0.005)
    assert all(x > 135 for x, _ in points[1:])
    assert all(math.dist(point, (100, 150)) == pytest.approx(50, abs=0.005) for point in points)


def test_dimensions_come_out_as_lines_and_text() -> None:
    made, pen = page_of()
    pen.dimension("dimension", (20, 60), (100, 60), (0, 50), "x", "800", 2.5)
    pen.running("dimension", (20, 0), (120, 100), (150, 105), "y", "1000", 2.5)
    page = plumbed(made.to_bytes())
    assert "".join(char["text"] for char in page.chars) == "8001000"
    assert any(
        (line["x1"] - line["x0"]) * POINT == pytest.approx(80, abs=0.005)
        and line["y0"] * POINT == pytest.approx(50, abs=0.005)
        for line in page.lines
    )


# looks of the layers


def test_hot_pipes_are_dashed_in_millimetres_and_cold_ones_continuous() -> None:
    made, pen = page_of()
    pen.line("pipe-hot", (10, 10), (90, 10))
    pen.line("pipe-cold", (10, 20), (90, 20))
    dashes = [operands[0] for operands, operator in operations(made.to_bytes()) if operator == b"d"]
    assert [float(length) * POINT for length in dashes[0]] == pytest.approx([3, 1.5], abs=1e-4)
    assert list(dashes[1]) == []


@pytest.mark.parametrize("layer", LAYERS)
def test_each_layer_has_its_weight_and_colour(layer: str) -> None:
    made, pen = page_of()
    pen.line(layer, (10, 10), (90, 10))
    pen.line("text", (10, 20), (90, 20))
    pen.line(layer, (10, 30), (90, 30))
    look = LAYERS[layer]
    for line in plumbed(made.to_bytes()).lines[::2]:
        assert line["linewidth"] * POINT == pytest.approx(look.weight, abs=1e-3)
        assert tuple(line["stroking_color"]) == pytest.approx(look.colour, abs=1e-3)


def test_every_pattern_has_dashes() -> None:
    assert {look.pattern for look in LAYERS.values()} <= set(DASHES)
    assert all(len(lengths) % 2 == 0 for lengths in DASHES.values())


def test_closed_shapes_are_filled_and_open_ones_are_not() -> None:
    made, pen = page_of()
    pen.polyline("masonry", [(10, 10), (50, 10), (50, 50)], closed=True)
    pen.polyline("masonry", [(10, 60), (50, 60), (50, 90)])
    pen.polyline("wall", [(60, 10), (90, 10), (90, 50)], closed=True)
    pen.circle("masonry", (150, 50), 20)
    pen.fill("masonry", [(110, 110), (150, 110), (150, 150)])
    painted = [
        operator for _, operator in operations(made.to_bytes()) if operator in (b"S", b"s", b"B*", b"f*")
    ]
    assert painted == [b"B*", b"S", b"S", b"B*", b"f*"]


def test_a_sharp_corner_does_not_reach_past_its_point() -> None:
    made, pen = page_of(80, 40)
    pen.polyline("wall", [(10, 14), (60, 20), (10, 26)])
    dark = (rendered(made.to_bytes(), 10) < 128).nonzero()[1]
    assert dark.max() / 10 == pytest.approx(60 + LAYERS["wall"].weight / 2, abs=0.2)


def test_a_layer_that_is_not_printed_leaves_no_trace(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(LAYERS, "help", Layer((0, 0, 0), 0.25, fill=(1, 1, 1), plot=False))
    made, pen = page_of()
    pen.line("help", (10, 10), (90, 10))
    pen.circle("help", (50, 50), 10)
    pen.fill("help", [(10, 10), (20, 10), (20, 20)])
    pen.text("help", (10, 20), "hidden", 5)
    page = plumbed(made.to_bytes())
    assert page.objects == {}


# cuts


def test_a_cut_shape_has_no_edge_along_the_cut() -> None:
    made, pen = page_of(110, 60)
    Clipped(pen, 10, 10, 100, 50).polyline("masonry", [(50, 20), (150, 20), (150, 40), (50, 40)], closed=True)
    grey = rendered(made.to_bytes(), 10)
    fill, paper = grey[300, 750], grey[300, 300]
    assert fill < paper  # it is filled
    assert grey[300, 480:520].min() < 100  # its own edge is dark
    assert grey[300, 980:1000].min() == fill  # the cut is not
    assert grey[300, 1005:].min() == paper


def test_nothing_shows_outside_the_window_of_a_page() -> None:
    made, pen = page_of(110, 60)
    with pen.within(10, 10, 100, 50):
        pen.text("frame", (60, 20), "a long text that runs out of the window", 10)
        pen.line("wall", (10, 10), (100, 10))
    pen.line("wall", (105, 5), (105, 55))
    grey = rendered(made.to_bytes(), 10)
    assert grey[100:500, 100:1000].min() < 100
    assert grey[:, 1005:1040].min() == 255
    assert grey[505:, :1040].min() == 255
    assert grey[300, 1040:1060].min() < 100  # what is drawn afterwards is free again


# refusals


def test_a_coordinate_that_is_no_number_is_refused() -> None:
    _, pen = page_of()
    with pytest.raises(ValueError, match="layer 'wall': a coordinate is not a number"):
        pen.line("wall", (0, 0), (math.nan, 1))
    with pytest.raises(ValueError, match="layer 'text': a coordinate is not a number"):
        pen.text("text", (0, math.inf), "a", 5)


def test_a_single_point_is_no_line() -> None:
    _, pen = page_of()
    with pytest.raises(ValueError, match="layer 'wall': joined lines need two points or more, got 1"):
        pen.polyline("wall", [(0, 0)])
