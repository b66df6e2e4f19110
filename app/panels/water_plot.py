"""The plot of flow against supply pressure, with the strokes of the sheet."""

from collections.abc import Sequence

from PySide6.QtCore import QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.canvas.qt_pen import QtPen
from app.canvas.theme import THEMES
from app.canvas.view import View
from app.panels.sentence import look_now
from export.drawings.supply_plot import draw_supply_plot
from geometry.supply.sweep import Sweep

SCALE = 3.2
"""Pixels a mm of the plot: its lettering of 2.5 mm is then 8 pixels high, as in the section."""
HEIGHT = 260
"""Pixels."""


class SupplyPlot(QWidget):
    """Draws the plot into all the room it has."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._sweeps: tuple[Sweep, ...] = ()
        self._pen: QtPen | None = None
        self.setFixedHeight(HEIGHT)
        self.setMinimumWidth(240)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to draw."""
        return self._pen is None or self._pen.is_empty

    def show_sweeps(self, sweeps: Sequence[Sweep]) -> None:
        """Show the lines of these outlets; with none, nothing."""
        wanted = tuple(sweeps)
        if wanted != self._sweeps:
            self._sweeps = wanted
            self._lay_out()
            self.update()

    def sizeHint(self) -> QSize:
        """Ask for the width of a panel."""
        return QSize(360, HEIGHT)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay the plot out anew."""
        super().resizeEvent(event)
        self._lay_out()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the plot; faded while it is disabled, which is while it is being worked out anew."""
        theme = THEMES[look_now().name]
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(theme.wall))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._pen is not None:
            painter.setOpacity(1.0 if self.isEnabled() else 0.4)
            self._pen.paint(painter, View(SCALE, 0.0, float(self.height())), theme)
        painter.end()

    def _lay_out(self) -> None:
        self._pen = None
        if self._sweeps:
            self._pen = QtPen()
            draw_supply_plot(self._sweeps, self._pen, self.width() / SCALE, self.height() / SCALE)
