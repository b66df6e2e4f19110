"""The pen that paints with Qt: where its strokes land, how they look, and which way up its words are."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage, QPainter

from app.canvas.lettering import font_for
from app.canvas.qt_pen import QtPen
from app.canvas.theme import DARK, LIGHT, Ink, Theme
from app.canvas.view import View
from export.layers import LAYERS
from export.pen import Pen
from export.recorder import Recorder
from export.wrapped_pens import Clipped
from geometry.model import XY

VIEW = View(2.0, 20.0, 180.0)
"""2 pixels a mm on a picture of 200 x 200, the origin at (20, 180)."""


def painted(pen: QtPen, theme: Theme = LIGHT, view: View = VIEW, ink: Ink | None = None) -> QImage:
    image = QImage(200, 200, QImage.Format.Format_RGB32)
    image.fill(QColor("#ffffff"))
    painter = QPainter(image)
    pen.paint(painter, view, theme, ink)
    painter.end()
    return image


def marked(image: QImage) -> list[tuple[int, int]]:
    """Return the pixels that are not white."""
    white = QColor("#ffffff").rgb()
    return [(x, y) for y in range(image.height()) for x in range(image.width()) if image.pixel(x, y) != white]


def is_marked(image: QImage, at: XY, near: int = 1) -> bool:
    """Return whether a stroke passes by a place of the wall."""
    x, y = VIEW.to_screen(at)
    white = QColor("#ffffff").rgb()
    return any(
        image.pixel(round(x) + dx, round(y) + dy) != white
        for dx in range(-near, near + 1)
        for dy in range(-near, near + 1)
    )


@pytest.fixture
def pen(qapp: object) -> QtPen:
    return QtPen()


def test_it_is_a_pen(pen: QtPen) -> None:
    taken: Pen = pen
    assert taken is pen


def test_y_runs_up(pen: QtPen) -> None:
    pen.line("text", (0.0, 0.0), (0.0, 50.0))
    columns, rows = zip(*marked(painted(pen)), strict=True)
    assert set(columns) <= {19, 20, 21}
    assert (min(rows), max(rows)) == (pytest.approx(80, abs=1), pytest.approx(180, abs=1))  # 180 - 2 * 50


def test_an_arc_goes_counter_clockwise_from_its_start(pen: QtPen) -> None:
    pen.arc("text", (40.0, 40.0), 20.0, 0.0, 90.0)
    image = painted(pen)
    # from the right over the upper right to the top, not through the left or below
    assert is_marked(image, (60.0, 40.0))
    assert is_marked(image, (40.0 + 20 * 0.7071, 40.0 + 20 * 0.7071))
    assert is_marked(image, (40.0, 60.0))
    assert not is_marked(image, (20.0, 40.0))
    assert not is_marked(image, (40.0 + 20 * 0.7071, 40.0 - 20 * 0.7071))


def test_an_arc_past_zero_degrees_goes_the_short_way(pen: QtPen) -> None:
    pen.arc("text", (40.0, 40.0), 20.0, 300.0, 60.0)
    image = painted(pen)
    assert is_marked(image, (60.0, 40.0))
    assert not is_marked(image, (20.0, 40.0))


def test_a_whole_circle_is_closed(pen: QtPen) -> None:
    pen.circle("text", (40.0, 40.0), 20.0)
    image = painted(pen)
    assert all(is_marked(image, at) for at in ((60.0, 40.0), (40.0, 60.0), (20.0, 40.0), (40.0, 20.0)))
    assert not is_marked(image, (40.0, 40.0))


@pytest.mark.parametrize("scale", [0.5, 2.0])
def test_a_line_is_as_wide_whatever_the_zoom(pen: QtPen, scale: float) -> None:
    pen.line("wall", (0.0, 10.0), (40.0, 10.0))
    rows = {y for x, y in marked(painted(pen, view=View(scale, 20.0, 100.0))) if x == 25}
    assert len(rows) == LIGHT.ink("wall").width


def test_hot_is_dashed_and_cold_is_not(pen: QtPen) -> None:
    pen.line("pipe-hot", (0.0, 60.0), (80.0, 60.0))
    pen.line("pipe-cold", (0.0, 20.0), (80.0, 20.0))
    image = painted(pen)
    rows = {at: round(VIEW.to_screen((0.0, at))[1]) for at in (60.0, 20.0)}
    white = QColor("#ffffff").rgb()
    gaps = {at: sum(image.pixel(x, row) == white for x in range(22, 178)) for at, row in rows.items()}
    # 4 of every 11 pixels are left out, give or take the ends
    assert gaps[60.0] == pytest.approx(156 * 4 / 11, rel=0.15)
    assert gaps[20.0] == 0


def test_closed_shapes_take_their_layers_fill(pen: QtPen) -> None:
    pen.polyline("recess", [(10.0, 10.0), (60.0, 10.0), (60.0, 60.0), (10.0, 60.0)], closed=True)
    x, y = VIEW.to_screen((35.0, 35.0))
    assert painted(pen).pixelColor(round(x), round(y)).name() == LIGHT.ink("recess").fill
    assert painted(pen, DARK).pixelColor(round(x), round(y)).name() == DARK.ink("recess").fill


def test_one_ink_for_all_strokes_fills_nothing(pen: QtPen) -> None:
    pen.polyline("recess", [(10.0, 10.0), (60.0, 10.0), (60.0, 60.0), (10.0, 60.0)], closed=True)
    image = painted(pen, ink=Ink("#ff0000", 3.0))
    x, y = VIEW.to_screen((35.0, 35.0))
    assert image.pixelColor(round(x), round(y)).name() == "#ffffff"
    x, y = VIEW.to_screen((35.0, 10.0))
    assert image.pixelColor(round(x), round(y)).name() == "#ff0000"


def test_a_shape_that_is_cut_off_is_filled_to_the_cut_without_an_edge_there(pen: QtPen) -> None:
    clipped = Clipped(pen, 0.0, 0.0, 40.0, 80.0)
    clipped.polyline("recess", [(10.0, 10.0), (60.0, 10.0), (60.0, 60.0), (10.0, 60.0)], closed=True)
    image = painted(pen)
    row = round(VIEW.to_screen((0.0, 35.0))[1])
    assert image.pixelColor(round(VIEW.to_screen((39.0, 0.0))[0]), row).name() == LIGHT.ink("recess").fill
    assert image.pixelColor(round(VIEW.to_screen((42.0, 0.0))[0]), row).name() == "#ffffff"


def test_words_stand_on_their_line_the_right_way_up(pen: QtPen) -> None:
    pen.text("text", (10.0, 20.0), "L", 20.0)
    places = marked(painted(pen))
    columns, rows = zip(*places, strict=True)
    base = 180 - 2 * 20
    # a capital 40 pixels high stands on the baseline, its foot wider than its top
    assert (min(rows), max(rows)) == (pytest.approx(base - 40, abs=2), pytest.approx(base - 1, abs=2))
    assert min(columns) >= 40
    widths = [sum(y == row for _, y in places) for row in (max(rows) - 2, min(rows) + 2)]
    assert widths[0] > 2 * widths[1]


def test_words_that_are_turned_read_from_the_right(pen: QtPen) -> None:
    pen.text("text", (60.0, 20.0), "LLLL", 10.0, angle=90.0)
    columns, rows = zip(*marked(painted(pen)), strict=True)
    # they climb from the anchor at pixel (140, 140), with their heads to the left
    assert max(columns) <= 142
    assert min(columns) == pytest.approx(120, abs=2)
    assert max(rows) <= 142
    assert max(rows) - min(rows) > 40


@pytest.mark.parametrize(("align", "left"), [("left", 100), ("centre", 65), ("right", 30)])
def test_words_are_aligned_to_their_anchor(pen: QtPen, align: str, left: int) -> None:
    # eight capital Hs, each 1540 of 2048 units of the font wide, 10 px high: 82.5 px; the capital is 1493
    pen.text("text", (40.0, 40.0), "HHHHHHHH", 5.0, align=align)  # type: ignore[arg-type]
    columns, _ = zip(*marked(painted(pen)), strict=True)
    width = 8 * 1540 / 1493 * 10
    expected = 100 - {"left": 0.0, "centre": width / 2, "right": width}[align]
    assert min(columns) == pytest.approx(expected, abs=4)


def test_words_are_written_in_the_font_of_the_sheets(qapp: object) -> None:
    font = font_for(9.0)
    assert font.family() == "DejaVu Sans"
    assert font.pixelSize() == 12  # 9 px capitals, 1493 of 2048 units high: 12.3


def test_every_layer_and_every_verb_can_be_painted_in_both_themes(pen: QtPen) -> None:
    recorder = Recorder()
    for layer in LAYERS:
        recorder.line(layer, (0.0, 0.0), (10.0, 10.0))
        recorder.polyline(layer, [(0.0, 0.0), (10.0, 10.0), (0.0, 10.0)], closed=True)
        recorder.circle(layer, (20.0, 20.0), 5.0)
        recorder.arc(layer, (20.0, 20.0), 5.0, 10.0, 80.0)
        recorder.text(layer, (20.0, 20.0), "380", 5.0)
        recorder.dimension(layer, (0.0, 0.0), (30.0, 0.0), (0.0, 10.0), "x", "30", 4.0)
        recorder.running(layer, (0.0, 0.0), (30.0, 0.0), (30.0, -10.0), "x", "30", 4.0)
    recorder.replay(pen)
    for theme in (LIGHT, DARK):
        assert marked(painted(pen, theme))


def test_the_painter_is_left_as_it_was(pen: QtPen) -> None:
    pen.line("pipe-hot", (0.0, 60.0), (80.0, 60.0))
    pen.text("text", (0.0, 0.0), "380", 5.0)
    image = QImage(100, 100, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    painter.translate(5.0, 7.0)
    before = painter.worldTransform(), painter.pen()
    pen.paint(painter, VIEW, LIGHT)
    assert (painter.worldTransform(), painter.pen()) == before
    painter.end()


def test_on_a_sharp_screen_a_line_is_as_wide_in_pixels_and_made_of_more_dots(pen: QtPen) -> None:
    pen.line("text", (0.0, 20.0), (60.0, 20.0))
    image = QImage(400, 400, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(2.0)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    pen.paint(painter, VIEW, LIGHT)
    painter.end()
    columns, rows = zip(*marked(image), strict=True)
    assert max(columns) - min(columns) == pytest.approx(240, abs=2)  # 60 mm, 2 px a mm, 2 dots a px
    assert len(set(rows)) == 2  # one pixel, two dots
