"""Fingers on a touch screen and gestures of a trackpad: one finger points, two zoom and pan.

A second finger ends what the first one had begun, without a trace. Pinches are worked out from the fingers
themselves: Qt's own pinch gesture hears every move of touch twice (seen with 6.11) and zooms twice.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple, Protocol

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QEventPoint, QNativeGestureEvent, QTouchEvent

from app.canvas.gestures.gesture import Pointer
from app.canvas.hands import Hands
from app.canvas.view import View
from geometry.model import XY


class Pinch(NamedTuple):
    """Two fingers: the middle between them, and how far they are apart, in pixels."""

    middle: XY
    apart: float


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

    def press(self, pointer: Pointer) -> None:
        """Take a press."""

    def refresh(self) -> None:
        """Paint again soon."""


class Fingers:
    """Hears touch events, and what a trackpad says by itself."""

    def __init__(self, canvas: Touched) -> None:
        self._canvas = canvas
        self._several = False
        self._pinch: Pinch | None = None

    def hear(self, event: QEvent) -> bool:
        """Take an event if it is one of fingers; return whether it was."""
        if isinstance(event, QTouchEvent):
            self._touch(event)
        elif isinstance(event, QNativeGestureEvent):
            return self._native(event)
        else:
            return False
        event.accept()
        return True

    def _touch(self, event: QTouchEvent) -> None:
        canvas, kind, points = self._canvas, event.type(), event.points()
        if kind == QEvent.Type.TouchCancel:
            canvas.hands.cancel()
            self._several, self._pinch = False, None
        elif len(points) > 1 or self._several:
            self._two(points)
            self._several = kind != QEvent.Type.TouchEnd
        elif points:
            pointer = canvas.point(points[0].position(), event.modifiers(), touch=True)
            if kind == QEvent.Type.TouchBegin:
                canvas.press(pointer)
            elif kind == QEvent.Type.TouchEnd:
                canvas.hands.release(pointer)
            else:
                canvas.hands.move(pointer)
        canvas.refresh()

    def _two(self, points: Sequence[QEventPoint]) -> None:
        """Zoom and pan so that the wall sticks to both fingers."""
        canvas, before = self._canvas, self._pinch
        self._pinch = _pinch(points)
        if before is None:
            canvas.hands.cancel()
        elif self._pinch is not None:
            by = self._pinch.middle[0] - before.middle[0], self._pinch.middle[1] - before.middle[1]
            canvas.look(canvas.view.panned(by).zoomed(self._pinch.middle, self._pinch.apart / before.apart))

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


def _pinch(points: Sequence[QEventPoint]) -> Pinch | None:
    """Return the first two fingers that are still down, or None."""
    down = [point for point in points if point.state() != QEventPoint.State.Released]
    if len(down) < 2:
        return None
    a, b = ((point.position().x(), point.position().y()) for point in down[:2])
    return Pinch(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), max(math.dist(a, b), 1.0))
