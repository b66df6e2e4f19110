"""The strokes of the DXF pen as a receiver reads them: places, layers with their looks, refusals."""

import pytest
from ezdxf.document import Drawing

from export.dxf import DxfDocument, DxfPen
from export.dxf_layout import nearest_weight
from export.dxf_text import table_name
from export.layers import LAYERS
from export.pen import Pen
from tests.export.dxf_reader import found

# strokes


def test_the_pen_is_a_pen() -> None:
    pen: Pen = DxfDocument(10).model
    assert isinstance(pen, DxfPen)


def test_lines_circles_and_arcs_are_read_back_as_drawn(drawing: Drawing) -> None:
    model = drawing.modelspace()
    (line,) = found(model, "LINE")
    assert (line.dxf.start, line.dxf.end, line.dxf.layer) == ((0, 1000, 0), (900, 1000, 0), "DATUM")
    wall, pipe = found(model, "LWPOLYLINE")
    assert list(wall.vertices()) == [(0, 0), (900, 0), (900, 2400), (0, 2400)]
    assert (wall.closed, pipe.closed) == (True, False)
    (circle,) = found(model, "CIRCLE")
    assert (circle.dxf.center, circle.dxf.radius) == ((375, 1100, 0), 80)
    (arc,) = found(model, "ARC")
    assert (arc.dxf.radius, arc.dxf.start_angle, arc.dxf.end_angle) == (700, 0, 90)


# layers


def test_every_layer_is_listed_under_a_name_of_its_own(drawing: Drawing) -> None:
    names = [layer.dxf.name for layer in drawing.layers]
    assert {"PIPE-HOT", "PIPE-COLD", "HOSE-SWEEP", "CHECK-BAR"} <= set(names)
    assert len({table_name(layer) for layer in LAYERS}) == len(LAYERS)
    assert {table_name(layer) for layer in LAYERS} <= set(names)


def test_hot_pipe_is_dashed_red_and_wide(drawing: Drawing) -> None:
    layer = drawing.layers.get("PIPE-HOT")
    assert layer.rgb == (184, 51, 0)  # 0.72 x 255 = 183.6, 0.20 x 255 = 51, 0
    assert layer.dxf.lineweight == 70  # hundredths of a millimetre
    assert layer.dxf.linetype == "CHASEWRIGHT-DASHED"
    assert layer.dxf.plot == 1
    assert layer.description == "pipe hot: dashed, 0.7 mm"


def test_ink_is_the_colour_that_turns_white_on_a_dark_screen(drawing: Drawing) -> None:
    layer = drawing.layers.get("WALL")
    assert layer.dxf.color == 7
    assert layer.rgb is None


@pytest.mark.parametrize(("weight", "hundredths"), [(0.13, 13), (0.7, 70), (0.24, 25), (0.0, 0), (9.0, 211)])
def test_line_weight_is_the_nearest_legal_one(weight: float, hundredths: int) -> None:
    assert nearest_weight(weight) == hundredths


def test_dashes_fit_the_scale_in_the_model_and_on_the_sheet(drawing: Drawing) -> None:
    dashed = drawing.linetypes.get("CHASEWRIGHT-DASHED")
    assert dashed.simplified_line_pattern() == (40, 20)  # 4 mm and 2 mm on paper at 1:10
    assert drawing.header["$PSLTSCALE"] == 0
    (on_sheet,) = found(drawing.layout("SHEET"), "LINE")
    assert on_sheet.dxf.ltscale == pytest.approx(0.1)
    (on_wall,) = found(drawing.modelspace(), "LINE")
    assert on_wall.dxf.ltscale == 1


def test_unknown_layer_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="no layer 'gold'"):
        DxfDocument(10).model.line("gold", (0, 0), (1, 0))


# refusals


@pytest.mark.parametrize("scale", [0, -10, float("nan"), float("inf")])
def test_scale_must_be_above_zero(scale: float) -> None:
    with pytest.raises(ValueError, match="scale"):
        DxfDocument(scale)


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_point_that_is_no_number_is_refused(bad: float) -> None:
    with pytest.raises(ValueError, match="cannot have a point at x"):
        DxfDocument(10).model.line("wall", (0, 0), (bad, 0))


@pytest.mark.parametrize("radius", [0, -1, float("nan")])
def test_radius_must_be_above_zero(radius: float) -> None:
    pen = DxfDocument(10).model
    with pytest.raises(ValueError, match="radius must be above 0"):
        pen.circle("head", (0, 0), radius)
    with pytest.raises(ValueError, match="radius must be above 0"):
        pen.arc("head", (0, 0), radius, 0, 90)


def test_polyline_of_one_point_is_refused() -> None:
    with pytest.raises(ValueError, match="needs two points, got 1"):
        DxfDocument(10).model.polyline("wall", [(0, 0)])
