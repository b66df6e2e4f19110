"""Fields that are not one line: a choice among several values, a tick, words on several lines."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QPointF, Signal
from PySide6.QtGui import QFocusEvent, QPainter, QPaintEvent, QPalette, QPen, QWheelEvent
from PySide6.QtWidgets import QCheckBox, QComboBox, QPlainTextEdit, QWidget

from app.fields import Field
from app.look import TARGET


class _Page(QPlainTextEdit):
    left = Signal()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Say that the keyboard has left."""
        super().focusOutEvent(event)
        self.left.emit()


class NotesField(Field):
    """Words on several lines; entered by leaving them."""

    def __init__(self, label: str, *, parent: QWidget | None = None) -> None:
        self._page = _Page()
        super().__init__(label, self._page, parent)
        self._page.setTabChangesFocus(True)
        self._page.setFixedHeight(2 * TARGET + 16)
        self._page.left.connect(self._on_left)

    def _is_typing(self) -> bool:
        return self._page.document().isModified()

    def _show(self) -> None:
        if self._page.toPlainText() != (self._value or ""):
            self._page.setPlainText(self._value or "")
        self._page.document().setModified(False)

    def _on_left(self) -> None:
        if not self._is_typing():
            return
        self.refuse("")
        self._page.document().setModified(False)
        text = self._page.toPlainText().strip()
        if text != self._value:
            self.entered.emit(text)
        if self.problem:
            self._page.document().setModified(True)
        else:
            self._show()


class ChoiceBox(QComboBox):
    """Choices that a passing wheel does not change, with an arrow that says that there are more."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Let the panel scroll: a wheel that passes over must not change anything."""
        event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the arrow, which a style sheet leaves out."""
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        role = QPalette.ColorRole.PlaceholderText
        painter.setPen(QPen(self.palette().color(role), 1.8))
        x, y = self.width() - 18.0, self.height() / 2 - 2.0
        painter.drawPolyline([QPointF(x - 5, y), QPointF(x, y + 5), QPointF(x + 5, y)])
        painter.end()


class ChoiceField(Field):
    """One of several values, each with its words."""

    def __init__(
        self, label: str, choices: Sequence[tuple[Any, str]] = (), *, parent: QWidget | None = None
    ) -> None:
        self.box = ChoiceBox()
        self.box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.box.setMinimumContentsLength(6)
        super().__init__(label, self.box, parent)
        self._choices: tuple[tuple[Any, str], ...] = ()
        self.set_choices(choices)
        self.box.activated.connect(self._on_activated)

    def set_choices(self, choices: Sequence[tuple[Any, str]]) -> None:
        """Offer other values."""
        offered = tuple(choices)
        if offered == self._choices:
            return
        self._choices = offered
        self.box.clear()
        self.box.addItems([words for _, words in offered])
        self._show()

    @property
    def values(self) -> tuple[Any, ...]:
        """The values that are offered."""
        return tuple(value for value, _ in self._choices)

    def set_unknown(self, words: str) -> None:
        """Say what is shown for a value that is none of the choices."""
        self.box.setPlaceholderText(words)

    def _show(self) -> None:
        values = self.values
        index = values.index(self._value) if self._value in values else -1
        if self.box.currentIndex() != index:
            self.box.setCurrentIndex(index)

    def _on_activated(self, index: int) -> None:
        value = self._choices[index][0]
        self.refuse("")
        if value != self._value:
            self.entered.emit(value)
        self._show()  # what holds: the listener has shown it, or has refused


class TickField(Field):
    """Yes or no."""

    def __init__(self, label: str, *, parent: QWidget | None = None) -> None:
        self.box = QCheckBox(label)
        super().__init__(label, self.box, parent)
        self.box.clicked.connect(self._on_clicked)

    def _show(self) -> None:
        self.box.setChecked(bool(self._value))

    def _on_clicked(self, checked: bool) -> None:
        self.refuse("")
        self.entered.emit(checked)
        self._show()
