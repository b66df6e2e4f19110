"""A canvas on a job, and a hand that works on it in millimetres through real events."""

from collections.abc import Callable
from typing import Protocol

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.canvas.canvas import Canvas
from app.canvas.view import View
from app.document import Document
from app.selection import Selection
from geometry.edits.refs import Ref
from geometry.model import XY, Job
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


class Hand:
    """Points, drags and clicks on a canvas at places of the wall."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas = canvas
        self.document, self.selection = canvas.document, canvas.selection

    def place(self, at: XY) -> QPoint:
        """Return the pixel at which a point of the wall is seen."""
        x, y = self.canvas.view.to_screen(at)
        return QPoint(round(x), round(y))

    def press(self, at: XY, held: Qt.KeyboardModifier = NONE, button: Qt.MouseButton = LEFT) -> None:
        QTest.mousePress(self.canvas, button, held, self.place(at))

    def move(self, at: XY, held: Qt.KeyboardModifier = NONE) -> None:
        """Move with the button held, and keys: QTest.mouseMove cannot hold any."""
        place = self.place(at).toPointF()
        there = self.canvas.mapToGlobal(place)
        move = QMouseEvent(QEvent.Type.MouseMove, place, there, Qt.MouseButton.NoButton, LEFT, held)
        QApplication.sendEvent(self.canvas, move)

    def release(self, at: XY, held: Qt.KeyboardModifier = NONE, button: Qt.MouseButton = LEFT) -> None:
        QTest.mouseRelease(self.canvas, button, held, self.place(at))

    def click(self, at: XY, held: Qt.KeyboardModifier = NONE) -> None:
        self.press(at, held)
        self.release(at, held)

    def double_click(self, at: XY) -> None:
        QTest.mouseDClick(self.canvas, LEFT, NONE, self.place(at))

    def drag(self, start: XY, *way: XY) -> None:
        """Press, go over some points, and release at the last."""
        self.press(start)
        for at in way:
            self.move(at)
        self.release(way[-1])

    def key(self, key: Qt.Key, held: Qt.KeyboardModifier = NONE) -> None:
        QTest.keyClick(self.canvas, key, held)

    def choose(self, kind: str, *names: str) -> None:
        self.selection.choose([Ref(kind, name) for name in names])  # type: ignore[arg-type]

    def chosen(self) -> tuple[Ref, ...]:
        return self.selection.refs

    def place_of(self, fitting: str) -> XY:
        """Return where a fitting is, in mm."""
        return self.document.job.fitting(fitting).at

    @property
    def titles(self) -> list[str]:
        """Return the titles of the history, the oldest first."""
        history = self.document.history
        return [history.text(index) for index in range(history.count())]


class Make(Protocol):
    """Makes a hand on a canvas that shows a job at 1 pixel a mm unless it is fitted in."""

    def __call__(self, job: Job | None = ..., *, fitted: bool = ...) -> Hand: ...


@pytest.fixture
def make(qtbot: QtBot) -> Callable[..., Hand]:
    """Return what makes a hand; the tray's floor is at the bottom and the view 1200 x 1000 pixels."""

    def made(job: Job | None = None, *, fitted: bool = False) -> Hand:
        document = Document(job or suggested_job(760, 760, "left"), generic_parts(), standard_rules())
        canvas = Canvas(document, Selection(document), None)
        document.setParent(canvas)
        qtbot.addWidget(canvas)
        canvas.resize(1200, 1000)
        with qtbot.waitExposed(canvas):
            canvas.show()
        canvas.setFocus()
        if not fitted:  # x 0 at pixel 200, y 700 at pixel 900: one mm is one pixel
            canvas.look(View(1.0, 200.0, 1600.0))
        return Hand(canvas)

    return made


@pytest.fixture
def hand(make: Make) -> Hand:
    """A hand on the suggested job, of which y 600 to 1600 is seen."""
    return make()
