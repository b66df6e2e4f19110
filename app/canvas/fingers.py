"""Fingers on a touch screen and gestures of a trackpad: one finger points, two zoom and pan.

A second finger ends what the first one had begun, without a trace.
"""

import sys
from typing import Protocol

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QNativeGestureEvent, QTouchEvent
from PySide6.QtWidgets import QGestureEvent, QPinchGesture

from app.canvas.gestures.gesture import Pointer
from app.canvas.hands import Hands
from app.canvas.view import View
from geometry.model import XY

PINCHES = sys.platform != "darwin"
"""Whether Qt is asked to find pinches: a Mac says them itself, and both together would zoom twice."""


class Touched(Protocol):
    """What fingers need of the canvas."""

    hands: Hands

    @property
    def view(self) -> View:
        """The view now."""

    def look(self, view: View) -> None:
        """Show another view."""

    def fit(self) -> None:
        """Show the whole wall."""

    def point(self, at: QPointF, held: Qt.KeyboardModifier = ..., *, touch: bool = False) -> Pointer:
        """Return a place in pixels as a pointer."""

    def mapFromGlobal(self, at: QPoint, /) -> QPoint:  # noqa: N802 - a method of Qt's
        """Return a place of the screen as one of the canvas."""

    def update(self) -> None:
        """Paint again soon."""


class Fingers:
    """Hears touch events, pinches, and what a trackpad says by itself."""

    def __init__(self, canvas: Touched) -> None:
        self._canvas = canvas
        self._several = False
        self._last: Pointer | None = None

    def hear(self, event: QEvent) -> bool:
        """Take an event if it is one of fingers; return whether it was."""
        if isinstance(event, QTouchEvent):
            self._touch(event)
        elif isinstance(event, QNativeGestureEvent):
            return self._native(event)
        elif isinstance(event, QGestureEvent):
            return self._gesture(event)
        else:
            return False
        event.accept()
        return True

    def _touch(self, event: QTouchEvent) -> None:
        canvas, kind = self._canvas, event.type()
        if kind == QEvent.Type.TouchCancel:
            canvas.hands.cancel()
        elif len(event.points()) > 1 or self._several:
            if not self._several:
                canvas.hands.cancel()
            self._several = kind != QEvent.Type.TouchEnd
        elif event.points():
            pointer = canvas.point(event.points()[0].position(), event.modifiers(), touch=True)
            if kind == QEvent.Type.TouchBegin:
                canvas.hands.press(pointer)
            elif kind == QEvent.Type.TouchEnd:
                canvas.hands.release(pointer)
            else:
                canvas.hands.move(pointer)
        canvas.update()

    def _native(self, event: QNativeGestureEvent) -> bool:
        canvas, at = self._canvas, (event.position().x(), event.position().y())
        kind = event.gestureType()
        if kind == Qt.NativeGestureType.ZoomNativeGesture:
            canvas.look(canvas.view.zoomed(at, 1.0 + max(event.value(), -0.9)))
        elif kind == Qt.NativeGestureType.SmartZoomNativeGesture:
            canvas.fit()
        elif kind == Qt.NativeGestureType.PanNativeGesture:
            canvas.look(canvas.view.panned((event.delta().x(), event.delta().y())))
        else:
            return False
        event.accept()
        return True

    def _gesture(self, event: QGestureEvent) -> bool:
        pinch = event.gesture(Qt.GestureType.PinchGesture)
        if not isinstance(pinch, QPinchGesture):
            return False
        canvas = self._canvas
        canvas.hands.cancel()
        now, before = self._place(pinch.centerPoint()), self._place(pinch.lastCenterPoint())
        if pinch.state() == Qt.GestureState.GestureStarted:
            before = now
        view = canvas.view.panned((now[0] - before[0], now[1] - before[1]))
        canvas.look(view.zoomed(now, pinch.scaleFactor() or 1.0))
        event.accept()
        return True

    def _place(self, at: QPointF) -> XY:
        """Return a place of the screen as one of the canvas, to the fraction of a pixel."""
        origin = self._canvas.mapFromGlobal(QPoint(0, 0))
        return at.x() + origin.x(), at.y() + origin.y()
