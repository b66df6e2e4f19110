"""What a viewer of the DXF shows: the sheet with its window, and the extents of the model."""

import pytest
from ezdxf.document import Drawing

from export.dxf import DxfDocument
from tests.export.dxf_reader import found, read

# the sheet


def test_sheet_has_a_locked_window_at_the_scale_of_the_drawing(drawing: Drawing) -> None:
    assert drawing.layout_names_in_taborder() == ["Model", "SHEET"]
    main, window = found(drawing.layout("SHEET"), "VIEWPORT")
    assert (main.dxf.id, main.dxf.status) == (1, 1)
    assert window.dxf.status == 2
    assert window.get_scale() == pytest.approx(1 / 10)
    assert window.dxf.flags & 16384  # locked, DXF reference
    assert (window.dxf.center, window.dxf.width, window.dxf.height) == ((150, 235, 0), 270, 350)
    assert window.dxf.view_center_point.vec2 == (400, 1150)
    assert window.dxf.view_height == 3500  # 350 mm at 1:10
    assert drawing.layers.get(window.dxf.layer).dxf.plot == 0


def test_sheet_has_the_size_of_its_paper(drawing: Drawing) -> None:
    sheet = drawing.layout("SHEET")
    assert (sheet.dxf.paper_width, sheet.dxf.paper_height) == (297, 420)
    assert (sheet.dxf.limmin, sheet.dxf.limmax) == ((0, 0), (297, 420))
    assert (sheet.dxf.extmin, sheet.dxf.extmax) == ((0, 0, 0), (297, 420, 0))
    assert drawing.header["$PEXTMAX"] == (297, 420, 0)
    assert len(found(sheet, "LWPOLYLINE")) == 1


def test_sheet_is_named_as_asked_and_laid_out_once() -> None:
    document = DxfDocument(10)
    document.model.line("wall", (0, 0), (900, 0))
    document.sheet((420, 297), ((10, 10), (410, 287)), (450, 0), name="Elevation 1/2")
    with pytest.raises(ValueError, match="sheet already"):
        document.sheet((420, 297), ((10, 10), (410, 287)), (450, 0))
    assert "ELEVATION 1-2" in read(document.to_bytes()).layouts.names()


def test_window_without_a_size_is_refused() -> None:
    with pytest.raises(ValueError, match="must have a size, got 0 x 277 mm"):
        DxfDocument(10).sheet((420, 297), ((10, 10), (10, 287)), (450, 0))


# extents


def test_extents_take_in_all_that_was_drawn() -> None:
    document = DxfDocument(10)
    document.model.polyline("wall", [(0, 0), (900, 0), (900, 2400)])
    document.model.circle("head", (450, 2500), 100)
    document.model.arc("screen", (0, 0), 700, 45, 270)  # from the upper right by the left to below
    drawing = read(document.to_bytes())
    assert tuple(drawing.header["$EXTMIN"]) == pytest.approx((-700, -700, 0))
    assert tuple(drawing.header["$EXTMAX"]) == pytest.approx((900, 2600, 0))
    (view,) = drawing.viewports.get_config("*Active")
    assert tuple(view.dxf.center)[:2] == pytest.approx((100, 950))  # half way
    assert view.dxf.height >= 3300


def test_extents_take_in_a_part_where_it_is_placed() -> None:
    document = DxfDocument(10)
    document.insert(document.block("head", lambda pen: pen.circle("head", (0, 50), 100)), (450, 2000), "head")
    drawing = read(document.to_bytes())
    assert tuple(drawing.header["$EXTMIN"]) == pytest.approx((350, 1950, 0))
    assert tuple(drawing.header["$EXTMAX"]) == pytest.approx((550, 2150, 0))


def test_extents_take_in_text_and_numbers() -> None:
    document = DxfDocument(10)
    document.model.text("text", (0, 0), "ten letters", 25, align="right")
    document.model.running("dimension", (0, 0), (100, 0), (100, 300), "x", "100", 25)
    drawing = read(document.to_bytes())
    assert drawing.header["$EXTMIN"][0] < -150  # eleven characters of 25 mm are wider than that
    assert drawing.header["$EXTMAX"][1] >= 375  # three digits of 25 mm stand beyond the tag
