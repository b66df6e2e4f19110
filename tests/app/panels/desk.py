"""What the tests of panels work with, and how they type, press and choose as a person does."""

from typing import Any, NamedTuple

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QTableWidget, QWidget

from app.document import Document
from app.fields import Field
from app.panels.choice_fields import ChoiceField
from app.selection import Selection
from app.settings import Preferences
from geometry.model import Job

LEFT = Qt.MouseButton.LeftButton


class Desk(NamedTuple):
    """An open job with its selection and settings."""

    document: Document
    selection: Selection
    preferences: Preferences

    @property
    def job(self) -> Job:
        """The job as shown."""
        return self.document.job

    @property
    def undo_text(self) -> str:
        """What "Undo" would take back."""
        return self.document.history.undo_text()


def line_of(field: Field) -> QLineEdit:
    assert isinstance(field.editor, QLineEdit)
    return field.editor


def key(widget: QWidget, which: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """Press one key."""
    QTest.keyClick(widget, which, held)


def keys(widget: QWidget, text: str) -> None:
    """Type a text."""
    QTest.keyClicks(widget, text)


def type_into(field: Field, text: str, *, enter: bool = True) -> None:
    """Go to a field, replace what stands there, and press Enter."""
    line = line_of(field)
    line.setFocus(Qt.FocusReason.TabFocusReason)
    line.selectAll()
    if text:
        keys(line, text)
    else:
        key(line, Qt.Key.Key_Delete)
    if enter:
        key(line, Qt.Key.Key_Return)


def choose(field: Field, value: Any) -> None:
    """Choose a value of a choice by the keyboard."""
    assert isinstance(field, ChoiceField)
    index = field.values.index(value)
    box = field.box
    box.setFocus(Qt.FocusReason.TabFocusReason)
    while box.currentIndex() != index:
        before = box.currentIndex()
        key(box, Qt.Key.Key_Down if index > before else Qt.Key.Key_Up)
        assert box.currentIndex() != before, f"{field.label} does not go to {value!r}: {field.problem}"


def press(widget: QWidget, at: QPoint | None = None) -> None:
    """Press a button with the mouse, in its middle or elsewhere."""
    assert widget.isEnabled(), "a button that cannot be pressed"
    QTest.mouseClick(widget, LEFT, Qt.KeyboardModifier.NoModifier, at or widget.rect().center())


def tick(field: Field) -> None:
    """Press the box of a tick."""
    press(field.editor, QPoint(12, field.editor.height() // 2))


def set_cell(table: QTableWidget, row: int, column: int, text: str) -> None:
    """Leave a cell with another text in it, as its editor does."""
    item = table.item(row, column)
    assert item is not None
    item.setText(text)
