"""Looking about: the wall is dragged, or zoomed. The view is no part of the job and of its history."""

from app.canvas.gestures.gesture import Board, Gesture, Pointer
from app.canvas.view import View
from geometry.model import XY

PER_NOTCH = 1.2
"""One notch of a wheel makes the wall so many times as large; own choice."""
NOTCH = 120.0
"""Qt's eighths of a degree to a notch of a usual wheel."""


class Pan(Gesture):
    """Moves the wall with the hand."""

    def __init__(self, board: Board, start: Pointer) -> None:
        super().__init__(board)
        self._from, self._view = start.screen, board.view

    def move(self, pointer: Pointer) -> None:
        """Show what was under the hand where the hand is now."""
        by = pointer.screen[0] - self._from[0], pointer.screen[1] - self._from[1]
        self.board.look(self._view.panned(by))


def wheel_view(
    view: View, at: XY, angle: XY, pixels: XY, *, scrolls: bool, zooms: bool, sideways: bool = False
) -> View:
    """Return the view after a turn of a wheel or a sweep of two fingers.

    Args:
        view: the view before it.
        at: where the pointer is, in pixels.
        angle: eighths of a degree, across and down.
        pixels: pixels on the screen, if the device says them.
        scrolls: it is a trackpad, whose two fingers pan.
        zooms: Ctrl (Cmd) is held, which zooms on any device.
        sideways: Shift is held, which makes a wheel pan across.
    """
    dx, dy = pixels if any(pixels) else angle
    if scrolls and not zooms:
        return view.panned((dx, dy))
    if sideways and not zooms:
        return view.panned((dx + dy, 0.0))
    turn = angle[1] or angle[0] or dy or dx  # Alt makes some systems turn a wheel sideways
    return view.zoomed(at, PER_NOTCH ** (turn / NOTCH))
