"""The plot of flow against supply pressure is painted in the colours of the look, as large as its room."""

from collections.abc import Callable

import pytest
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QApplication, QWidget

from app.canvas.theme import THEMES
from app.look import DARK, LIGHT, palette
from app.panels.water_plot import HEIGHT, SupplyPlot
from geometry.supply.sweep import Sweep

Show = Callable[[QWidget], None]
HEAD = Sweep("head", tuple((bar / 4, 2.0 * bar / 4) for bar in range(25)), (3.0, 6.0), 8.0, 4.0)
"""2 l/min a bar up to 6 bar; 8 l/min from 4 bar on."""
DRY = Sweep("spout", tuple((bar / 4, 0.0) for bar in range(25)), (3.0, 0.0), 8.0, None)


@pytest.fixture
def plot(shown: Show) -> SupplyPlot:
    made = SupplyPlot()
    shown(made)
    return made


def picture(plot: SupplyPlot) -> QImage:
    return plot.grab().toImage()


def colours(image: QImage) -> set[str]:
    return {image.pixelColor(x, y).name() for x in range(image.width()) for y in range(image.height())}


def test_with_no_line_the_plot_is_bare(plot: SupplyPlot) -> None:
    assert plot.is_empty
    assert colours(picture(plot)) == {QColor(THEMES["light"].wall).name()}


def test_a_line_is_drawn_and_another_is_another_picture(plot: SupplyPlot) -> None:
    plot.show_sweeps([HEAD])
    assert not plot.is_empty
    one = picture(plot)
    assert len(colours(one)) > 2
    plot.show_sweeps([HEAD, DRY])
    assert picture(plot) != one
    plot.show_sweeps([])
    assert plot.is_empty


def test_an_outlet_that_gives_nothing_at_any_pressure_is_drawn_as_well(plot: SupplyPlot) -> None:
    plot.show_sweeps([DRY])
    assert len(colours(picture(plot))) > 2


def test_the_plot_fills_whatever_width_it_has_and_keeps_its_height(plot: SupplyPlot) -> None:
    plot.show_sweeps([HEAD])
    bare = QColor(THEMES["light"].wall).name()
    for wide in (300, 600):
        plot.resize(wide, HEIGHT)
        image = picture(plot)
        right = max(
            x
            for x in range(image.width())
            for y in range(image.height())
            if image.pixelColor(x, y).name() != bare
        )
        # 4 mm are kept free at the right, 3.2 pixels each, and a number of one digit stands over the edge
        assert wide - 16 <= right < wide
        assert image.height() == HEIGHT


def test_the_plot_follows_the_look_and_is_pale_while_it_is_out_of_date(
    plot: SupplyPlot, qapp: QApplication
) -> None:
    plot.show_sweeps([HEAD])
    light = picture(plot)
    plot.setEnabled(False)
    assert picture(plot) != light
    plot.setEnabled(True)
    before = qapp.palette()
    qapp.setPalette(palette(DARK))
    try:
        dark = picture(plot)
    finally:
        qapp.setPalette(before if before.window().color().isValid() else palette(LIGHT))
    assert dark.pixelColor(1, HEIGHT // 2).name() == QColor(THEMES["dark"].wall).name()
