"""A picture on which four points are marked, with the pointer or with the keys."""

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QImage, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.panels.sentence import bold
from geometry.model import XY

ROOM = QSize(560, 460)
REACH = 14.0
"""A press nearer than this to a mark takes hold of it, pixels of the screen."""
LENS, LARGER = 150.0, 4.0
"""Side of the part that is shown larger, pixels of the screen; and how much larger than on the screen."""
MARK, HELD, EDGE = QColor("#ffd23f"), QColor("#00e5d0"), QColor("#101418")
"""Bright lines with dark ones under them stand out from any photograph."""
_ARROWS = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, -1.0),
    Qt.Key.Key_Down: (0.0, 1.0),
}


class PictureMarks(QWidget):
    """Shows a picture with four numbered marks; one of them is held, and shown larger beside it."""

    moved = Signal()
    """A mark lies elsewhere."""
    taken = Signal(int)
    """Another mark is held: its number, from 0."""

    def __init__(self, image: QImage, marks: tuple[XY, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._image, self.marks = image, list(marks)
        """Pixels of the picture, x right and y down."""
        self.held = 0
        """The number of the mark that keys move."""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(ROOM)
        self.setAccessibleName(self.tr("Photograph with four marks"))
        self._describe()

    def take(self, number: int) -> None:
        """Hold another mark."""
        if number != self.held:
            self.held = number
            self._describe()
            self.update()
            self.taken.emit(number)

    def place(self, at: XY) -> None:
        """Put the held mark on a point of the picture."""
        wide, high = self._image.width(), self._image.height()
        self.marks[self.held] = min(max(at[0], 0.0), wide), min(max(at[1], 0.0), high)
        self._describe()
        self.update()
        self.moved.emit()

    def seen_at(self, at: XY) -> QPointF:
        """Return where on the widget a point of the picture is seen."""
        scale, left, top = self._fit()
        return QPointF(left + at[0] * scale, top + at[1] * scale)

    def _fit(self) -> tuple[float, float, float]:
        wide, high = self._image.width(), self._image.height()
        scale = min(self.width() / wide, self.height() / high)
        return scale, (self.width() - wide * scale) / 2, (self.height() - high * scale) / 2

    def _under(self, at: QPointF) -> XY:
        scale, left, top = self._fit()
        return (at.x() - left) / scale, (at.y() - top) / scale

    def _describe(self) -> None:
        x, y = self.marks[self.held]
        words = self.tr("Mark %1 at %2, %3 pixels. Keys 1 to 4 take a mark, arrows move it.")
        for number, value in enumerate((self.held + 1, round(x), round(y)), 1):
            words = words.replace(f"%{number}", str(value))
        self.setAccessibleDescription(words)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the mark that lies there, or bring the held one there."""
        at = event.position()
        lengths = [QLineF(at, self.seen_at(mark)).length() for mark in self.marks]
        nearest = lengths.index(min(lengths))
        if lengths[nearest] <= REACH:
            self.take(nearest)
        else:
            self.place(self._under(at))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the held mark."""
        if event.buttons() & Qt.MouseButton.LeftButton:
            self.place(self._under(event.position()))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take a mark by its number, or move the held one by a pixel, or ten with Shift."""
        way = _ARROWS.get(Qt.Key(event.key()))
        if way is not None:
            step = 10.0 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1.0
            x, y = self.marks[self.held]
            self.place((x + way[0] * step, y + way[1] * step))
        elif event.text() in ("1", "2", "3", "4"):
            self.take(int(event.text()) - 1)
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the picture, the marks, and the surroundings of the held one larger."""
        painter = QPainter(self)
        painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.SmoothPixmapTransform)
        scale, left, top = self._fit()
        whole = QRectF(left, top, self._image.width() * scale, self._image.height() * scale)
        painter.drawImage(whole, self._image)
        for ink, width in ((EDGE, 4.0), (MARK, 1.5)):
            painter.setPen(QPen(ink, width))
            for one, other in zip(self.marks, (*self.marks[1:], self.marks[0]), strict=True):
                painter.drawLine(self.seen_at(one), self.seen_at(other))
        self._paint_lens(painter)
        for number in range(4):
            self._paint_mark(painter, number)
        if self.hasFocus():
            painter.setPen(QPen(HELD, 2.0))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        painter.end()

    def _paint_mark(self, painter: QPainter, number: int) -> None:
        at = self.seen_at(self.marks[number])
        ink = HELD if number == self.held else MARK
        for colour, width in ((EDGE, 4.0), (ink, 2.0)):
            painter.setPen(QPen(colour, width))
            painter.drawEllipse(at, 9.0, 9.0)
            painter.drawPoint(at)
        plate = QRectF(at.x() + 10.0, at.y() - 30.0, 20.0, 22.0)
        painter.fillRect(plate, ink)
        painter.setFont(bold(self.font()))
        painter.setPen(EDGE)
        painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, str(number + 1))

    def _paint_lens(self, painter: QPainter) -> None:
        """Paint what lies round the held mark larger, in the corner that is farthest from it."""
        x, y = self.marks[self.held]
        at = self.seen_at((x, y))
        left = 0.0 if at.x() > self.width() / 2 else self.width() - LENS
        top = 0.0 if at.y() > self.height() / 2 else self.height() - LENS
        lens, side = QRectF(left, top, LENS, LENS), LENS / (self._fit()[0] * LARGER)
        painter.fillRect(lens, EDGE)
        painter.drawImage(lens, self._image, QRectF(x - side / 2, y - side / 2, side, side))
        painter.setPen(QPen(HELD, 2.0))
        painter.drawRect(lens.adjusted(1, 1, -1, -1))
        painter.setPen(QPen(HELD, 1.0))
        painter.drawLine(QLineF(left, top + LENS / 2, left + LENS, top + LENS / 2))
        painter.drawLine(QLineF(left + LENS / 2, top, left + LENS / 2, top + LENS))
