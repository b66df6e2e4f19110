"""A small field over a dimension: the distance is typed there, in any unit, and the part moves to it."""

from PySide6.QtCore import QRect, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from app.canvas.lettering import font
from app.canvas.tags import Tag
from geometry.units import Display, length, shown

WIDTH = 110
HEIGHT = 40
"""Pixels: what a finger can hit."""


class InlineEdit(QLineEdit):
    """The field. It knows the tag that it stands over and nothing of what follows."""

    entered = Signal(object, float)
    """The Tag, and the distance typed in mm."""
    refused = Signal(str)
    """What was typed is no length: one sentence."""
    left = Signal()
    """It was closed without an entry."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._over = parent
        self.setObjectName("distance")
        self.setAccessibleName(self.tr("Distance"))
        self.setFont(font(15))
        self._tag: Tag | None = None
        self._unit: Display = "mm"
        self.hide()

    def open_over(self, tag: Tag, unit: Display) -> None:
        """Show the field over a tag with its distance, ready to be typed over."""
        self._tag, self._unit = tag, unit
        what = (
            self.tr("from the edge of tray or bath")
            if tag.axis == "x"
            else self.tr("above the floor of tray or bath")
        )
        names = ", ".join(ref.id for ref in tag.refs)
        self.setAccessibleDescription(f"{names}: {what}")
        parent = self._over.rect()
        middle = (tag.box[0] + tag.box[2]) / 2, (tag.box[1] + tag.box[3]) / 2
        place = QRect(round(middle[0] - WIDTH / 2), round(middle[1] - HEIGHT / 2), WIDTH, HEIGHT)
        place.moveLeft(max(0, min(place.left(), parent.width() - WIDTH)))
        place.moveTop(max(0, min(place.top(), parent.height() - HEIGHT)))
        self.setGeometry(place)
        self.setText(shown(tag.distance, unit))
        self.selectAll()
        self.show()
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> None:
        """Close the field without an entry."""
        if self._tag is not None:
            self._tag = None
            self.hide()
            self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take Enter as the entry, and Escape as none."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._enter()
        elif event.key() == Qt.Key.Key_Escape:
            self.leave()
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Close when something else takes the keyboard, unless that is the field's own menu."""
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.leave()

    def _enter(self) -> None:
        tag = self._tag
        if tag is None:
            return
        try:
            distance = length(self.text(), self._unit)
        except ValueError as problem:
            self.refused.emit(self._sentence(str(problem)))
            self.selectAll()
            return
        self._tag = None
        self.hide()
        self.entered.emit(tag, distance)

    @staticmethod
    def _sentence(problem: str) -> str:
        return f"{problem[:1].upper()}{problem[1:]}."
