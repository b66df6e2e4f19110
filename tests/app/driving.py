"""Hands and eyes for tests of the window: real events, and widgets found by their name."""

from pathlib import Path
from typing import TypeVar

import pytest
from PySide6.QtCore import QPoint, QPointF, QRect, Qt
from PySide6.QtGui import QKeySequence, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit, QWidget

from app import questions

W = TypeVar("W", bound=QWidget)
LEFT = Qt.MouseButton.LeftButton
NO_BUTTON = Qt.MouseButton.NoButton
NO_KEYS = Qt.KeyboardModifier.NoModifier


def child(parent: QWidget, kind: type[W], name: str = "") -> W:
    """Return the widget of a kind and a name inside another."""
    found = parent.findChild(kind, name) if name else parent.findChild(kind)
    assert found is not None, f"no {kind.__name__} {name}"
    return found


def press(parent: QWidget, name: str) -> None:
    """Click a button."""
    button = child(parent, QAbstractButton, name)
    QTest.mouseClick(button, LEFT, NO_KEYS, button.rect().center())


def write(edit: QLineEdit, text: str) -> None:
    """Type a text in place of what stands in a line."""
    edit.selectAll()
    QTest.keyClicks(edit, text)


def keys(widget: QWidget, shortcut: str) -> None:
    """Press a shortcut, written as in the menus."""
    QTest.keySequence(widget, QKeySequence(shortcut))


def click(widget: QWidget, x: float, y: float) -> None:
    """Click a place of a widget."""
    QTest.mouseClick(widget, LEFT, NO_KEYS, QPoint(round(x), round(y)))


def mouse(
    widget: QWidget, kind: QMouseEvent.Type, place: QPointF, button: Qt.MouseButton = NO_BUTTON
) -> None:
    """Press, move or release the left button at a place of a widget."""
    held = NO_BUTTON if kind == QMouseEvent.Type.MouseButtonRelease else LEFT
    event = QMouseEvent(kind, place, QPointF(widget.mapToGlobal(place)), button, held, NO_KEYS)
    QApplication.sendEvent(widget, event)


def cut_words(widget: QWidget) -> list[str]:
    """Return the buttons below a widget whose words do not fit into them."""
    cut = []
    for button in widget.findChildren(QAbstractButton):
        if button.isVisible() and button.text():
            words: QRect = button.fontMetrics().boundingRect(button.text().replace("&", ""))
            if words.width() > button.width():
                cut.append(button.text())
    return cut


class Answers:
    """What the user answers, and what was said."""

    def __init__(self, patch: pytest.MonkeyPatch) -> None:
        self.unsaved, self.over, self.look_only = "cancel", "cancel", False
        self.file: Path | None = None
        self.told: list[str] = []
        self.asked: list[str] = []
        patch.setattr(questions, "tell", lambda _, sentence: self.told.append(sentence))
        patch.setattr(questions, "ask_unsaved", self._unsaved)
        patch.setattr(questions, "ask_over", self._over)
        patch.setattr(questions, "ask_look_only", lambda *_: self.look_only)
        patch.setattr(questions, "ask_file_to_open", lambda *_: self.file)
        patch.setattr(questions, "ask_file_to_save", self._save)

    def _unsaved(self, _parent: QWidget, name: str) -> str:
        self.asked.append(name)
        return self.unsaved

    def _over(self, _parent: QWidget, sentence: str) -> str:
        self.asked.append(sentence)
        return self.over

    def _save(self, _parent: QWidget, suggestion: str) -> Path | None:
        self.asked.append(suggestion)
        return self.file
