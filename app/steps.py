"""The five steps of a job, as a column at the left edge: the order in which the work is done."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QButtonGroup, QToolButton, QVBoxLayout, QWidget

from app.look import LIGHT, Look
from app.tab_order import one_stop
from app.words import QT_TRANSLATE_NOOP

WIDTH = 96
"""Pixels of the column."""
_ICON = 32


class Step(NamedTuple):
    """One step: what it is called, what it is for, and which stage of the drawing it begins with."""

    id: str
    word: str
    purpose: str
    stage: str


STEPS: tuple[Step, ...] = (
    Step(
        "measure",
        QT_TRANSLATE_NOOP("Steps", "Measure"),
        QT_TRANSLATE_NOOP("Steps", "What is there: the wall, the tray, and what is in the wall"),
        "all",
    ),
    Step(
        "set_out",
        QT_TRANSLATE_NOOP("Steps", "Set out"),
        QT_TRANSLATE_NOOP("Steps", "Where everything goes, and what covers the wall"),
        "finished",
    ),
    Step(
        "pipe", QT_TRANSLATE_NOOP("Steps", "Pipe"), QT_TRANSLATE_NOOP("Steps", "How the pipes run"), "piped"
    ),
    Step(
        "check",
        QT_TRANSLATE_NOOP("Steps", "Check"),
        QT_TRANSLATE_NOOP("Steps", "What is wrong, by how much, and what cures it"),
        "all",
    ),
    Step(
        "mark",
        QT_TRANSLATE_NOOP("Steps", "Mark"),
        QT_TRANSLATE_NOOP("Steps", "The sheets to take to the wall"),
        "cut",
    ),
)


class StepColumn(QWidget):
    """A button a step; one is in force."""

    chosen = Signal(str)
    """The id of the step that was pressed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("steps")
        self.setAccessibleName(self.tr("Steps of the job"))
        self.setFixedWidth(WIDTH)
        self._group = QButtonGroup(self)
        self._buttons: dict[str, QToolButton] = {}
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 8, 6, 8)
        layout.setSpacing(6)
        for number, step in enumerate(STEPS, 1):
            layout.addWidget(self._button(number, step))
        layout.addStretch()
        one_stop(self._group)
        self._group.buttonClicked.connect(self._on_clicked)
        self.wear(LIGHT)

    def button(self, step: str) -> QToolButton:
        """Return the button of a step."""
        return self._buttons[step]

    def show_step(self, step: str) -> None:
        """Show which step is in force."""
        self._buttons[step].setChecked(True)

    def wear(self, look: Look) -> None:
        """Draw the pictures in the colours of a look."""
        for step, button in self._buttons.items():
            icon = QIcon()
            icon.addPixmap(_picture(step, look.words), QIcon.Mode.Normal, QIcon.State.Off)
            icon.addPixmap(_picture(step, look.on_chosen), QIcon.Mode.Normal, QIcon.State.On)
            button.setIcon(icon)

    def _button(self, number: int, step: Step) -> QToolButton:
        word = QCoreApplication.translate("Steps", step.word)
        button = QToolButton(self)
        button.setObjectName(step.id)
        button.setText(f"{number} {word}")
        button.setToolTip(QCoreApplication.translate("Steps", step.purpose))
        button.setAccessibleName(self.tr("Step %1: %2").replace("%1", str(number)).replace("%2", word))
        button.setAccessibleDescription(button.toolTip())
        button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextUnderIcon)
        button.setIconSize(QSize(_ICON, _ICON))
        button.setCheckable(True)
        button.setFixedSize(WIDTH - 12, 76)
        button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._group.addButton(button)
        self._buttons[step.id] = button
        return button

    def _on_clicked(self, button: QToolButton) -> None:
        self.chosen.emit(button.objectName())


def _picture(step: str, colour: str) -> QPixmap:
    """Draw the picture of a step on a square of 32; twice as fine, for sharp screens."""
    picture = QPixmap(_ICON * 2, _ICON * 2)
    picture.setDevicePixelRatio(2)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(colour), 2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
    _DRAWN[step](painter)
    painter.end()
    return picture


def _measure(painter: QPainter) -> None:
    """Draw a rule with its ticks."""
    painter.drawRect(QRectF(3, 10, 26, 12))
    for number, x in enumerate((8.2, 13.4, 18.6, 23.8)):
        painter.drawLine(QPointF(x, 10), QPointF(x, 16 if number % 2 else 14))


def _set_out(painter: QPainter) -> None:
    """Draw a centre line with a fitting on it."""
    painter.drawLine(QPointF(16, 2), QPointF(16, 30))
    painter.drawLine(QPointF(4, 17), QPointF(28, 17))
    painter.drawEllipse(QPointF(16, 17), 7, 7)


def _pipe(painter: QPainter) -> None:
    """Draw a bend between two sockets."""
    painter.drawPolyline([QPointF(11, 30), QPointF(11, 18), QPointF(15, 12), QPointF(30, 12)])
    painter.drawPolyline([QPointF(19, 30), QPointF(19, 21), QPointF(21, 20), QPointF(30, 20)])
    painter.drawLine(QPointF(8, 30), QPointF(22, 30))
    painter.drawLine(QPointF(30, 9), QPointF(30, 23))


def _check(painter: QPainter) -> None:
    """Draw a tick."""
    painter.drawRect(QRectF(4, 4, 24, 24))
    painter.drawPolyline([QPointF(9, 16), QPointF(14, 22), QPointF(24, 10)])


def _mark(painter: QPainter) -> None:
    """Draw a sheet with the cross that is marked through it."""
    painter.drawPolygon([QPointF(6, 3), QPointF(20, 3), QPointF(26, 9), QPointF(26, 29), QPointF(6, 29)])
    painter.drawLine(QPointF(16, 12), QPointF(16, 24))
    painter.drawLine(QPointF(10, 18), QPointF(22, 18))


_DRAWN: Mapping[str, Callable[[QPainter], None]] = {
    "measure": _measure,
    "set_out": _set_out,
    "pipe": _pipe,
    "check": _check,
    "mark": _mark,
}
