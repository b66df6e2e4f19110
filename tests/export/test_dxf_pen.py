"""The DXF file as a receiver reads it: units, layers, dimensions, text, blocks, sheet, and bytes."""

import io
import subprocess
import sys
from pathlib import Path
from typing import Any, Literal

import ezdxf
import pytest
from ezdxf import recover
from ezdxf.document import Drawing
from ezdxf.tools.text import plain_mtext, plain_text
from hypothesis import given, settings
from hypothesis import strategies as st

from export.dxf import DxfDocument, DxfPen
from export.dxf_layout import nearest_weight
from export.dxf_text import dimension_text, line_of_text, table_name
from export.layers import LAYERS
from export.pen import Pen

NASTY = [
    "<b>bold</b> & <img src='x'>",
    "%%c",
    "100%%%d 50%",
    "%%037 %%u",
    "^I",
    "caret at the end ^",
    "^^",
    r"\P {\fArial;x} \~ \\",
    r"\U+0041",
    r"\M+10041",
    r"\\U+05D0 ^J %%p",
    "מקלחת 1100 מ״מ",
    "Łazienka, żółć",
    "Ελληνικά Ω ≤ ⌀22",
    "<> []",
    "  two blanks before and behind  ",
]
MAKE_UP = ["%", "^", "\\", "{", "}", "U+0041", "M+1", "<", ">", "I", "c", "d", " ", "א", "ł"]
READABLE = st.characters(exclude_categories=["Cc", "Cs", "Zl", "Zp"])
LINES = (
    st.text(READABLE, min_size=1, max_size=30) | st.lists(st.sampled_from(MAKE_UP), min_size=1).map("".join)
).filter(lambda text: bool(text.strip()))
COORDINATES = st.integers(-50000, 50000).map(lambda tenths: tenths / 10)
POINTS = st.tuples(COORDINATES, COORDINATES)
AXES: st.SearchStrategy[Literal["x", "y"]] = st.sampled_from(["x", "y"])


def read(data: bytes, way: str = "read") -> Drawing:
    """Read a file back and hold it to the promise that it has no fault."""
    if way == "recover":
        drawing, audit = recover.read(io.BytesIO(data))
    else:
        drawing = ezdxf.read(io.StringIO(data.decode("utf-8")))  # type: ignore[attr-defined]
        audit = drawing.audit()
    assert not audit.errors
    assert not audit.fixes
    return drawing


def found(space: Any, kind: str) -> list[Any]:
    """Return the entities of one kind in a space, in the order of the file."""
    return list(space.query(kind))


def a_drawing(scale: float = 10) -> DxfDocument:
    """Return a wall 900 by 2400 mm with something of everything on it, and a sheet."""
    document = DxfDocument(scale)
    pen = document.model
    pen.polyline("wall", [(0, 0), (900, 0), (900, 2400), (0, 2400)], closed=True)
    pen.line("datum", (0, 1000), (900, 1000))
    pen.polyline("pipe-hot", [(300, 0), (300, 1100)])
    pen.circle("plate", (375, 1100), 80)
    pen.arc("screen", (0, 0), 700, 0, 90)
    pen.text("text", (20, 2430), "H and C at 1100", 35)
    pen.dimension("dimension", (0, 0), (375, 0), (0, -150), "x", "375 c/l", 25)
    pen.running("dimension", (0, 0), (375, 1100), (1000, 1100), "y", "1100", 25)
    name = document.block("Valve", lambda part: part.circle("body", (0, 0), 60))
    document.insert(name, (375, 1100), "body", {"part": "thermostatic valve"})
    sheet = document.sheet((297, 420), ((15, 60), (285, 410)), (400, 1150))
    sheet.polyline("frame", [(20, 10), (287, 10), (287, 410), (20, 410)], closed=True)
    sheet.line("datum", (20, 40), (250, 40))
    return document


@pytest.fixture(scope="module")
def drawing() -> Drawing:
    return read(a_drawing().to_bytes())


def test_the_pen_is_a_pen() -> None:
    pen: Pen = DxfDocument(10).model
    assert isinstance(pen, DxfPen)


def test_a_file_on_disk_has_no_fault(tmp_path: Path) -> None:
    path = tmp_path / "wall_mm.dxf"
    path.write_bytes(a_drawing().to_bytes())
    audit = ezdxf.readfile(path).audit()  # type: ignore[attr-defined]
    assert not audit.errors
    assert not audit.fixes


def test_everything_is_in_millimetres(drawing: Drawing) -> None:
    assert drawing.dxfversion == "AC1024"  # R2010
    assert drawing.header["$INSUNITS"] == 4
    assert drawing.header["$MEASUREMENT"] == 1
    assert drawing.modelspace().units == 4
    assert drawing.layout("SHEET").units == 4
    assert drawing.blocks.get("VALVE").units == 4


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


def test_dimension_style_holds_all_and_nothing_is_overridden(drawing: Drawing) -> None:
    style = drawing.dimstyles.get("CHASEWRIGHT").dxf
    assert (style.dimlfac, style.dimscale, style.dimtxt) == (1, 10, 2.5)
    assert (style.dimdec, style.dimzin, style.dimdsep, style.dimtad) == (1, 8, ord("."), 1)
    assert style.dimtxsty == "CHASEWRIGHT"
    assert drawing.header["$DIMSTYLE"] == "CHASEWRIGHT"
    assert drawing.header["$DIMLFAC"] == 1
    for dimension in found(drawing.modelspace(), "DIMENSION"):
        assert dimension.dxf.dimstyle == "CHASEWRIGHT"
        assert not dimension.get_acad_dstyle(drawing.dimstyles.get("CHASEWRIGHT"))


def test_number_of_another_height_gets_a_style_of_its_own() -> None:
    document = DxfDocument(10)
    document.model.dimension("dimension", (0, 0), (600, 0), (0, -150), "x", "600", 35)
    (dimension,) = found(read(document.to_bytes()).modelspace(), "DIMENSION")
    assert dimension.dxf.dimstyle == "CHASEWRIGHT-14"  # 35 / 2.5
    (number,) = drawn_text(dimension)
    assert number.dxf.char_height == pytest.approx(35)


def drawn_text(dimension: Any) -> list[Any]:
    return [entity for entity in dimension.get_geometry_block() if entity.dxftype() == "MTEXT"]


def test_half_millimetre_is_written_with_a_point() -> None:
    document = DxfDocument(20)
    document.model.dimension("dimension", (0, 0), (600.5, 0), (0, -300), "x", "600.5", 50)
    (dimension,) = found(read(document.to_bytes()).modelspace(), "DIMENSION")
    (number,) = drawn_text(dimension)
    assert (number.plain_text(), number.dxf.char_height) == ("600.5", 50)  # 2.5 mm at 1:20


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(POINTS, POINTS, POINTS, AXES), min_size=1, max_size=8))
def test_linear_dimension_measures_what_was_drawn(
    drawn: list[tuple[Any, Any, Any, Literal["x", "y"]]],
) -> None:
    document = DxfDocument(10)
    for start, end, base, axis in drawn:
        document.model.dimension("dimension", start, end, base, axis, "text", 25)
    dimensions = found(read(document.to_bytes()).modelspace(), "DIMENSION")
    assert len(dimensions) == len(drawn)
    for dimension, (start, end, base, axis) in zip(dimensions, drawn, strict=True):
        along = "xy".index(axis)
        distance = abs(end[along] - start[along])
        assert dimension.get_measurement() == pytest.approx(distance, abs=0.01)
        assert dimension.dxf.actual_measurement == pytest.approx(distance, abs=0.01)
        assert dimension.dxf.defpoint[1 - along] == pytest.approx(base[1 - along], abs=0.01)
        assert dimension.get_geometry_block() is not None


@settings(max_examples=25, deadline=None)
@given(st.lists(st.tuples(POINTS, POINTS, POINTS, AXES), min_size=1, max_size=8))
def test_running_dimension_measures_from_its_datum(
    drawn: list[tuple[Any, Any, Any, Literal["x", "y"]]],
) -> None:
    document = DxfDocument(10)
    for origin, feature, tag, axis in drawn:
        document.model.running("dimension", origin, feature, tag, axis, "text", 25)
    dimensions = found(read(document.to_bytes()).modelspace(), "DIMENSION")
    assert len(dimensions) == len(drawn)
    for dimension, (origin, feature, tag, axis) in zip(dimensions, drawn, strict=True):
        along = "xy".index(axis)
        assert dimension.dimtype == 6  # ordinate, DXF reference
        assert bool(dimension.dxf.dimtype & 64) == (axis == "x")  # 64: measured along x, DXF reference
        measured = dimension.get_measurement()[along]
        assert abs(measured) == pytest.approx(abs(feature[along] - origin[along]), abs=0.01)
        assert dimension.dxf.defpoint3.isclose((*tag, 0), abs_tol=0.01)
        assert dimension.get_geometry_block() is not None


@pytest.mark.parametrize(
    ("text", "kept", "shown"),
    [
        ("1100", "<>", "1100"),
        ("1100.0", "<>", "1100"),
        ("1100 c/l", "<> c/l", "1100 c/l"),
        ("1100 FFL {50%%}", r"<> FFL \{50%{}%\}", "1100 FFL {50%%}"),
        ("1100, check", "<>, check", "1100, check"),
        ("c/l 1100", "c/l 1100", "c/l 1100"),
        ("1100.5", "1100.5", "1100.5"),
        ("11000", "11000", "11000"),
        ("<> [] 7", "<{}> [{}] 7", "<> [] 7"),
        (r"\U+0041 ^I", r"\\{}U+0041 ^ I", r"\U+0041 ^I"),
        ("two\nlines", "two lines", "two lines"),
    ],
)
def test_dimension_shows_its_text_and_keeps_its_measure_where_it_can(
    text: str, kept: str, shown: str
) -> None:
    document = DxfDocument(10)
    document.model.dimension("dimension", (0, 0), (0, 1100), (-150, 0), "y", text, 25)
    document.model.running("dimension", (0, 0), (400, 1100), (1000, 1100), "y", text, 25)
    for way in ("read", "recover"):
        dimensions = found(read(document.to_bytes(), way).modelspace(), "DIMENSION")
        assert [dimension.dxf.text for dimension in dimensions] == [kept, kept]
        assert [number.plain_text() for entity in dimensions for number in drawn_text(entity)] == [shown] * 2


def test_dimension_without_text_shows_none() -> None:
    assert dimension_text("", 600) == " "  # a blank hides the number, DXF reference


@settings(max_examples=200, deadline=None)
@given(LINES)
def test_dimension_text_is_shown_as_typed(text: str) -> None:
    shown = dimension_text(text, -1)  # no text is the number -1
    assert "<>" not in shown
    assert plain_mtext(shown) == text


@pytest.mark.parametrize("way", ["read", "recover"])
def test_every_reader_finds_nasty_text_as_typed(way: str) -> None:
    document = DxfDocument(10)
    for row, text in enumerate(NASTY):
        document.model.text("text", (0, 40 * row), text, 25)
    shown = [plain_text(entity.dxf.text) for entity in read(document.to_bytes(), way).modelspace()]
    assert shown == NASTY


@settings(max_examples=25, deadline=None)
@given(st.lists(LINES, min_size=1, max_size=20), st.sampled_from(["read", "recover"]))
def test_any_line_of_text_is_found_as_typed(texts: list[str], way: str) -> None:
    document = DxfDocument(10)
    for text in texts:
        document.model.text("text", (0, 0), text, 25)
    shown = [plain_text(entity.dxf.text) for entity in read(document.to_bytes(), way).modelspace()]
    assert shown == texts


def test_line_ends_and_tabulators_in_text_become_blanks() -> None:
    assert line_of_text("one\ntwo\tthree\x1ffour\u2028five") == "one two three four five"


def test_half_a_character_does_not_stop_the_writer() -> None:
    assert line_of_text("bad \ud800 half") == "bad \ufffd half"


def test_text_stands_where_it_was_put() -> None:
    document = DxfDocument(10)
    for align in ("left", "centre", "right"):
        document.model.text("text", (100, 200), "600", 25, align=align, angle=90)
    left, centre, right = found(read(document.to_bytes()).modelspace(), "TEXT")
    assert (left.dxf.halign, centre.dxf.halign, right.dxf.halign) == (0, 1, 2)  # DXF reference, group 72
    assert left.dxf.insert == (100, 200, 0)
    assert centre.dxf.align_point == right.dxf.align_point == (100, 200, 0)
    assert {(e.dxf.valign, e.dxf.height, e.dxf.rotation) for e in (left, centre, right)} == {(0, 25, 90)}
    assert left.dxf.style == "CHASEWRIGHT"


def test_text_without_letters_is_not_written() -> None:
    document = DxfDocument(10)
    document.model.line("wall", (0, 0), (1, 0))
    document.model.text("text", (0, 0), " \n ", 25)
    assert not found(read(document.to_bytes()).modelspace(), "TEXT")


def test_part_is_a_block_placed_on_the_wall_with_its_data(drawing: Drawing) -> None:
    (reference,) = found(drawing.modelspace(), "INSERT")
    assert (reference.dxf.name, reference.dxf.insert) == ("VALVE", (375, 1100, 0))
    assert reference.get_attrib_text("PART") == "thermostatic valve"
    assert reference.get_attrib("PART").is_invisible
    block = drawing.blocks.get("VALVE")
    assert block.get_attdef("PART") is not None
    assert [entity.dxf.layer for entity in found(block, "CIRCLE")] == ["BODY"]


def test_block_names_are_legal_and_never_taken_twice() -> None:
    document = DxfDocument(10)

    def draw(pen: Pen) -> None:
        pen.circle("head", (0, 0), 100)

    names = [document.block(name, draw) for name in ("Head: 200/8*", "head- 200|8", "מקלח", "_oblique")]
    assert names == ["HEAD- 200-8", "HEAD- 200-8-2", "מקלח", "OBLIQUE"]
    for name in names:
        document.insert(name, (0, 0), "head")
    blocks = {block.name for block in read(document.to_bytes()).blocks}
    assert set(names) <= blocks


def test_unknown_block_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="no block 'bidet'"):
        DxfDocument(10).insert("bidet", (0, 0), "body")


def test_name_of_nothing_but_illegal_characters_is_refused() -> None:
    with pytest.raises(ValueError, match="no letter"):
        table_name("*/?")


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


def test_same_drawing_gives_the_same_bytes() -> None:
    document = a_drawing()
    first = document.to_bytes()
    assert document.to_bytes() == first
    assert a_drawing().to_bytes() == first
    assert a_drawing(20).to_bytes() != first


def test_writing_leaves_the_library_as_it_was() -> None:
    before = ezdxf.options.write_fixed_meta_data_for_testing  # type: ignore[attr-defined]
    a_drawing().to_bytes()
    assert ezdxf.options.write_fixed_meta_data_for_testing == before  # type: ignore[attr-defined]
    assert before is False


def test_file_with_a_fault_is_not_written() -> None:
    document = a_drawing()
    model = document._document.modelspace()
    model.add_linear_dim((0, -150), (0, 0), (600, 0))  # never drawn: readers drop it
    with pytest.raises(RuntimeError, match=r"1 fault: .*DIMENSION"):
        document.to_bytes()


def test_empty_drawing_is_not_written() -> None:
    with pytest.raises(ValueError, match="nothing has been drawn"):
        DxfDocument(10).to_bytes()


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


def test_library_is_not_loaded_before_a_drawing_is_begun() -> None:
    code = "import export.dxf, sys; sys.exit('ezdxf' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
