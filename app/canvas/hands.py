"""What the pointer does on the canvas: which gesture a press begins, and what a click chooses.

A press waits: if the pointer moves, a gesture begins, and if it does not, it was a click. Nothing here knows
Qt's events; the canvas hands over plain pointers.
"""

import math
from collections.abc import Callable
from functools import wraps
from typing import Any, NamedTuple, TypeVar

from PySide6.QtCore import QCoreApplication

from app.canvas.gestures.band import Band
from app.canvas.gestures.draw_pipe import DrawPipe
from app.canvas.gestures.gesture import Board, Feedback, Gesture, Pointer
from app.canvas.gestures.look import Pan
from app.canvas.gestures.move import Move, movable
from app.canvas.gestures.outline import Outline
from app.canvas.gestures.reshape import Reshape
from app.canvas.pick import Handle, handles_at, things_at
from app.canvas.sizes import THRESHOLD
from app.canvas.stages import shows
from geometry.edits.refs import Ref
from geometry.edits.routes import corner_added, corner_removed
from geometry.finding import Finding
from geometry.model.pipes import PipeService

translate = QCoreApplication.translate


class Pressed(NamedTuple):
    """A press that may become a gesture: where, and what was there."""

    pointer: Pointer
    refs: tuple[Ref, ...]
    handle: Handle | None
    mark: Finding | None
    """The finding whose mark lies there: a click looks at it, a drag moves what is under it."""


F = TypeVar("F", bound=Callable[..., Any])


def _acts(method: F) -> F:
    """Note while a method runs that what happens to the document is its doing."""

    @wraps(method)
    def act(self: "Hands", *given: Any) -> Any:
        before, self.is_acting = self.is_acting, True
        try:
            return method(self, *given)
        finally:
            self.is_acting = before

    return act  # type: ignore[return-value]


class Hands:
    """Holds the gesture that lasts."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self.gesture: Gesture | None = None
        self.pointed: Ref | None = None
        """What the pointer rests on."""
        self.corner: Handle | None = None
        """The corner of a pipe that was clicked last: Delete takes it away."""
        self.is_acting = False
        """Whether what happens to the document now is done here."""
        self._pressed: Pressed | None = None

    @property
    def feedback(self) -> Feedback:
        """What is painted for the gesture."""
        return self.gesture.feedback if self.gesture else Feedback()

    @property
    def is_busy(self) -> bool:
        """Whether a gesture lasts, or a press waits to become one."""
        return self.gesture is not None or self._pressed is not None

    # pointer

    @_acts
    def press(self, pointer: Pointer, mark: Finding | None = None) -> None:
        """Take a press of the main button, or of a finger; `mark` is the finding marked there."""
        if self.gesture is not None:
            self.gesture.press(pointer)
            self._end_if_done()
            return
        refs = self._under(pointer)
        self._pressed = Pressed(pointer, refs, self._handle(pointer, refs), mark)

    @_acts
    def press_to_pan(self, pointer: Pointer) -> None:
        """Take a press that drags the wall, whatever lies under it."""
        self.cancel()
        self.gesture = Pan(self.board, pointer)

    @_acts
    def move(self, pointer: Pointer) -> bool:
        """Take a move; return whether anything on the screen has to change."""
        if self.gesture is None and self._pressed is not None:
            threshold = THRESHOLD if not pointer.touch else THRESHOLD * 2
            if math.dist(pointer.screen, self._pressed.pointer.screen) < threshold:
                return False
            self.gesture = self._begun(self._pressed)
            self._pressed = None
        if self.gesture is not None:
            self.gesture.move(pointer)
            return True
        return self._point_at(pointer)

    @_acts
    def release(self, pointer: Pointer) -> None:
        """Take a release: the end of a gesture, or a click."""
        pressed, self._pressed = self._pressed, None
        if self.gesture is not None:
            self.gesture.release(pointer)
            self._end_if_done()
        elif pressed is not None:
            self._click(pressed)

    @_acts
    def double_click(self, pointer: Pointer) -> None:
        """Take a double click: on a leg of a pipe it adds a corner."""
        if self.gesture is not None:
            self.gesture.press(pointer)
            self._end_if_done()
            return
        pipe = next((ref for ref in self._under(pointer) if ref.kind == "pipe"), None)
        if pipe is None:
            return
        board, plan = self.board, self.board.document.state.plan
        handles = handles_at(plan, pipe.id, pointer.wall, board.view.mm(pointer.tolerance))
        leg = next((handle for handle in handles if handle.kind == "leg"), None)
        if leg is None or (handles and handles[0].kind == "corner"):
            return
        board.document.edit(
            f"Add a corner to {pipe.id}", corner_added(plan, pipe.id, leg.number, pointer.wall)
        )
        board.selection.choose([pipe])

    def leave(self) -> bool:
        """Take that the pointer has left; return whether anything on the screen has to change."""
        changed, self.pointed = self.pointed is not None, None
        return changed

    # gestures

    @_acts
    def draw_pipe(self, service: PipeService, start: str | None) -> None:
        """Begin to draw a pipe."""
        self.cancel()
        self.gesture = DrawPipe(self.board, service, start)

    @_acts
    def outline(self, area: str) -> None:
        """Begin to outline an area of the finish."""
        self.cancel()
        self.gesture = Outline(self.board, area)

    @_acts
    def cancel(self) -> bool:
        """Give up what was begun; return whether there was anything."""
        was_busy, self._pressed = self.is_busy, None
        if self.gesture is not None:
            gesture, self.gesture = self.gesture, None
            gesture.cancel()
        return was_busy

    @_acts
    def accept(self) -> bool:
        """Hand Enter to the gesture; return whether there is one."""
        if self.gesture is None:
            return False
        self.gesture.accept()
        self._end_if_done()
        return True

    @_acts
    def take_back(self) -> bool:
        """Hand Backspace to the gesture; return whether there is one."""
        if self.gesture is None:
            return False
        self.gesture.take_back()
        return True

    @_acts
    def remove_corner(self) -> bool:
        """Take away the corner that was clicked last; return whether there was one."""
        corner, self.corner = self.corner, None
        if corner is None:
            return False
        document = self.board.document
        try:
            job = corner_removed(document.state.plan, corner.pipe, corner.number)
        except (ValueError, IndexError, KeyError):
            return False
        document.edit(translate("Canvas", "Take a corner from %1").replace("%1", corner.pipe), job)
        return True

    def _end_if_done(self) -> None:
        if self.gesture is not None and self.gesture.is_done:
            self.gesture = None

    def _begun(self, pressed: Pressed) -> Gesture:
        board, pointer = self.board, pressed.pointer
        if pressed.handle is not None:
            return Reshape(board, pressed.handle, pointer)
        chosen = board.selection.refs
        if not pressed.refs:
            return Pan(board, pointer) if pointer.touch else Band(board, pointer)
        if not any(ref in chosen for ref in pressed.refs):
            board.selection.choose([*chosen, pressed.refs[0]] if pointer.straight else [pressed.refs[0]])
        refs = board.selection.refs
        if not movable(board.document.state.plan, refs):
            return Pan(board, pointer) if pointer.touch else Gesture(board)
        return Move(board, refs, pointer)

    def _click(self, pressed: Pressed) -> None:
        selection, pointer = self.board.selection, pressed.pointer
        self.corner = pressed.handle if pressed.handle and pressed.handle.kind == "corner" else None
        if self.corner is not None:
            return
        if pressed.mark is not None:
            selection.look_at(pressed.mark)
        elif not pressed.refs:
            if not pointer.straight and not pointer.free:
                selection.choose([])
        elif pointer.straight or pointer.free:
            selection.toggle(pressed.refs[0])
        else:
            selection.choose([self._next_of(pressed)])

    def _next_of(self, pressed: Pressed) -> Ref:
        """Return what a click chooses: what is on top, or beneath the one that is chosen already."""
        board, chosen = self.board, self.board.selection.refs
        hit = things_at(board.document.state.plan, board.stage, pressed.pointer.wall, board.view.mm(1.0))
        if len(chosen) == 1 and chosen[0] in hit:
            return hit[(hit.index(chosen[0]) + 1) % len(hit)]
        return pressed.refs[0]

    def _under(self, pointer: Pointer) -> tuple[Ref, ...]:
        board = self.board
        return things_at(
            board.document.state.plan, board.stage, pointer.wall, board.view.mm(pointer.tolerance)
        )

    def _handle(self, pointer: Pointer, under: tuple[Ref, ...]) -> Handle | None:
        """Return the handle under the pointer, of a pipe that is the only thing chosen.

        A corner may lie under other things; a leg is taken only where the pipe itself is on top.
        """
        board, chosen = self.board, self.board.selection.refs
        plan = board.document.state.plan
        if len(chosen) != 1 or chosen[0].kind != "pipe" or chosen[0].id not in plan.courses:
            return None
        if not shows(board.stage, "cuts"):
            return None
        found = handles_at(plan, chosen[0].id, pointer.wall, board.view.mm(pointer.tolerance))
        if not found or (found[0].kind == "leg" and under[:1] != chosen):
            return None
        return found[0]

    def _point_at(self, pointer: Pointer) -> bool:
        under = self._under(pointer)
        before, self.pointed = self.pointed, under[0] if under else None
        return before != self.pointed
