"""Dimensions in DXF: what they measure, the text they show, and one style that holds all."""

from typing import Any, Literal

import pytest
from ezdxf.document import Drawing
from hypothesis import given, settings
from hypothesis import strategies as st

from export.dxf import DxfDocument
from export.dxf_text import dimension_text
from tests.export.dxf_reader import drawn_text, found, read

COORDINATES = st.integers(-50000, 50000).map(lambda tenths: tenths / 10)
POINTS = st.tuples(COORDINATES, COORDINATES)
AXES: st.SearchStrategy[Literal["x", "y"]] = st.sampled_from(["x", "y"])


# style


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


# measure


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


# text


def test_half_millimetre_is_written_with_a_point() -> None:
    document = DxfDocument(20)
    document.model.dimension("dimension", (0, 0), (600.5, 0), (0, -300), "x", "600.5", 50)
    (dimension,) = found(read(document.to_bytes()).modelspace(), "DIMENSION")
    (number,) = drawn_text(dimension)
    assert (number.plain_text(), number.dxf.char_height) == ("600.5", 50)  # 2.5 mm at 1:20


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
