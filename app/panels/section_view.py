"""The upright section through one fitting, drawn live with the strokes of the sheet."""

from PySide6.QtCore import QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.canvas.qt_pen import QtPen
from app.canvas.theme import THEMES
from app.canvas.view import Margin, View
from app.panels.sentence import look_now
from export.drawings.labels import LETTERING
from export.drawings.section import draw_section, section_bounds
from geometry.plan import Plan

CAPITAL = 8.0
"""Height of a capital letter in pixels: a font of 11 pixels, own choice by looking."""
SCALES = (1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0)
"""1:N at which the drawing is laid out: the larger N, the larger the words against the wall."""
MARGIN = Margin(6.0, 6.0, 6.0, 6.0)


class SectionView(QWidget):
    """Draws the section as large as it goes, with words that can be read."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._plan: Plan | None = None
        self._name = ""
        self._pen: QtPen | None = None
        self._view = View()
        self.setMinimumHeight(200)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to draw."""
        return self._pen is None or self._pen.is_empty

    def show_section(self, plan: Plan, name: str) -> None:
        """Show the section through a fitting; an empty name draws nothing."""
        self._plan, self._name = plan, name
        self._lay_out()
        self.update()

    def sizeHint(self) -> QSize:
        """Ask for room in which all words can be read."""
        return QSize(380, 420)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay the drawing out anew."""
        super().resizeEvent(event)
        self._lay_out()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the drawing."""
        theme = THEMES[look_now().name]
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(theme.wall))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self._pen is not None:
            self._pen.paint(painter, self._view, theme)
        painter.end()

    def _lay_out(self) -> None:
        self._pen = None
        if self._plan is None or not self._name:
            return
        scale, self._view = self._fitted(self._plan)
        self._pen = QtPen()
        draw_section(self._plan, self._name, self._pen, scale)

    def _fitted(self, plan: Plan) -> tuple[float, View]:
        """Return the first scale at which words are high enough, or that at which they are highest."""
        size = float(self.width()), float(self.height())
        found: list[tuple[float, float, View]] = []
        for scale in SCALES:
            view = View.fitted(section_bounds(plan, self._name, scale), size, MARGIN)
            found.append((LETTERING * scale * view.scale, scale, view))
            if found[-1][0] >= CAPITAL:
                break
        _, scale, view = max(found, key=lambda each: each[0])
        return scale, view
