"""The canvas: the drawing of the wall that people point at, drag and type into.

Qt's events are turned into plain pointers and keys here; what they do is in `hands.py`, `keys.py` and the
gestures. Edits go through the document.
"""

from pathlib import Path

from PySide6.QtCore import QEvent, QMimeData, QPointF, QRect, Qt, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragMoveEvent,
    QDropEvent,
    QFocusEvent,
    QInputDevice,
    QKeyEvent,
    QMouseEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from app.canvas.distances import moved_to
from app.canvas.fingers import Fingers
from app.canvas.gestures.gesture import Pointer, too_far
from app.canvas.gestures.look import wheel_view
from app.canvas.inline_edit import InlineEdit
from app.canvas.keys import Keys
from app.canvas.options import Options
from app.canvas.tags import Tag
from app.canvas.theme import LIGHT, Theme
from app.canvas.view import View
from app.canvas.wall_view import WallView
from app.document import Document, State
from app.photo import PICTURES
from app.selection import Selection
from geometry.model.pipes import PipeService
from geometry.model.record import FARTHEST

PART_MIME = "application/x-chasewright-part"
"""What is dragged from the list of parts: the id of one, in UTF-8."""
NONE_HELD = Qt.KeyboardModifier.NoModifier


class Canvas(WallView):
    """The wall, to be looked at and worked on."""

    dimension_clicked = Signal(object, str, QRect)
    """A tag of a thing was clicked: its Ref, the axis "x" or "y", and where the tag stands."""
    part_dropped = Signal(str, object)
    """A part from the list was dropped: its id, and the place on the wall in mm."""
    photo_dropped = Signal(object)
    """A file that may be a photograph of the wall was dropped: its Path."""

    def __init__(
        self,
        document: Document,
        selection: Selection,
        parent: QWidget | None = None,
        *,
        options: Options | None = None,
        theme: Theme = LIGHT,
    ) -> None:
        super().__init__(document, selection, parent, options=options, theme=theme)
        self.keys = Keys(self.board)
        self._fingers = Fingers(self)
        self._is_spaced = False
        self._edit = InlineEdit(self)
        self._edit.entered.connect(self._on_distance_entered)
        self._edit.refused.connect(self._tell)
        self._edit.left.connect(self._on_edit_left)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAcceptDrops(True)
        self.setAttribute(Qt.WidgetAttribute.WA_AcceptTouchEvents)

    def draw_pipe(self, service: PipeService, start: str | None = None) -> None:
        """Begin to draw a pipe, from a port or from where the first click is."""
        self.hands.draw_pipe(service, start)
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self.refresh()

    def outline(self, area: str) -> None:
        """Begin to outline an area of the finish."""
        self.hands.outline(area)
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self.refresh()

    def nudge(self, dx: float, dy: float) -> None:
        """Move what is chosen, in mm; nudges in a row are one step of the history."""
        self.keys.nudge(dx, dy)

    def _show_view(self, view: View) -> None:
        if view != self.view:
            self._edit.leave()
        super()._show_view(view)

    def _on_document_changed(self, state: State) -> None:
        if not self.hands.is_acting:  # somebody else has changed the job under the hands
            self.hands.cancel()
            self.keys.end_run()
            self._edit.leave()
        super()._on_document_changed(state)

    def _on_selection_changed(self) -> None:
        self.keys.end_run()
        self.hands.corner = None
        if self._hint:  # it was about what was chosen before
            self._tell("")
        super()._on_selection_changed()

    # typing a distance

    def open_distance(self, tag: Tag) -> None:
        """Let the user type another distance over a tag."""
        left, top, right, low = tag.box
        box = QRect(round(left), round(top), round(right - left), round(low - top))
        self._edit.open_over(tag, self.options.unit)
        self.dimension_clicked.emit(tag.refs[0], tag.axis, box)

    def _on_distance_entered(self, tag: Tag, distance: float) -> None:
        try:
            title, job = moved_to(self.document.state.plan, tag, distance, self.selection.refs)
            self.document.edit(title, job)
        except ValueError:
            self._tell(too_far())
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _on_edit_left(self) -> None:
        self._tell("")
        if self._edit.hasFocus():
            self.setFocus(Qt.FocusReason.OtherFocusReason)

    # events of Qt

    def point(self, at: QPointF, held: Qt.KeyboardModifier = NONE_HELD, *, touch: bool = False) -> Pointer:
        """Return a place in pixels as a pointer, no farther off than anything on a wall may lie."""
        screen = at.x(), at.y()
        x, y = self.view.to_wall(screen)
        return Pointer(
            screen,
            (min(max(x, -FARTHEST), FARTHEST), min(max(y, -FARTHEST), FARTHEST)),
            free=bool(held & Qt.KeyboardModifier.ControlModifier),
            straight=bool(held & Qt.KeyboardModifier.ShiftModifier),
            touch=touch,
        )

    def event(self, event: QEvent) -> bool:
        """Take fingers, and Tab before Qt moves the keyboard on."""
        if self._fingers.hear(event):
            return True
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            step = {Qt.Key.Key_Tab: 1, Qt.Key.Key_Backtab: -1}.get(Qt.Key(event.key()))
            if step and self.hands.gesture is None and self.keys.choose_next(step):
                return True
        return super().event(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin with the main button, pan with the middle one or with Space held."""
        pointer = self.point(event.position(), event.modifiers())
        if event.button() == Qt.MouseButton.MiddleButton or self._is_spaced:
            self.hands.press_to_pan(pointer)
        elif event.button() == Qt.MouseButton.LeftButton:
            self.press(pointer)
        elif event.button() == Qt.MouseButton.RightButton:
            self.hands.cancel()
        self.refresh()

    def press(self, pointer: Pointer) -> None:
        """Take a press: on a tag, or on the wall and what is on it."""
        self._tell("")
        free = self.hands.gesture is None
        tag = self.laid.tag_at(pointer.screen, pointer.tolerance) if free else None
        if tag is not None:
            self.open_distance(tag)
            return
        mark = self.laid.mark_at(pointer.screen, pointer.tolerance) if free else None
        self.hands.press(pointer, mark.after(self.selection.finding) if mark else None)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Go on with the gesture, or show what the pointer rests on."""
        if self.hands.move(self.point(event.position(), event.modifiers())):
            self.refresh()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """End the gesture."""
        self.hands.release(self.point(event.position(), event.modifiers()))
        self.refresh()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Add a corner to a pipe."""
        self.hands.double_click(self.point(event.position(), event.modifiers()))
        self.refresh()

    def leaveEvent(self, event: QEvent) -> None:
        """Show nothing as pointed at."""
        if self.hands.leave():
            self.update()
        super().leaveEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom with a wheel, pan with two fingers."""
        held, device = event.modifiers(), event.device()
        angle, pixels = event.angleDelta(), event.pixelDelta()
        scrolls = event.phase() != Qt.ScrollPhase.NoScrollPhase
        scrolls = scrolls or device.type() == QInputDevice.DeviceType.TouchPad
        view = wheel_view(
            self.view,
            (event.position().x(), event.position().y()),
            (float(angle.x()), float(angle.y())),
            (float(pixels.x()), float(pixels.y())),
            scrolls=scrolls,
            zooms=bool(held & Qt.KeyboardModifier.ControlModifier),
            sideways=bool(held & Qt.KeyboardModifier.ShiftModifier),
        )
        self.look(view)
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Nudge, remove, zoom, end or give up."""
        taken = self._take_gesture_key(event) if self.hands.gesture else self._take_plain_key(event)
        if taken or self._take_key(event):
            self.refresh()
        else:
            super().keyPressEvent(event)

    def _take_gesture_key(self, event: QKeyEvent) -> bool:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            return self.hands.accept()
        return event.key() == Qt.Key.Key_Backspace and self.hands.take_back()

    def _take_plain_key(self, event: QKeyEvent) -> bool:
        if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            if not self.hands.remove_corner():
                self.keys.remove()
            return True
        return self.keys.arrow(event, self.options)

    def _take_key(self, event: QKeyEvent) -> bool:
        """Take a key that works at any time; return whether it was one."""
        key = event.key()
        if key == Qt.Key.Key_Space:
            self._is_spaced = True
        elif key == Qt.Key.Key_Escape:
            self._escape()
        elif event.modifiers() & ~(Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier):
            return False
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self.zoom_in()
        elif key == Qt.Key.Key_Minus:
            self.zoom_out()
        elif key == Qt.Key.Key_0:
            self.fit()
        else:
            return False
        return True

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Note that Space is held no more."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._is_spaced = False
        else:
            super().keyReleaseEvent(event)

    def _escape(self) -> None:
        """Give up what was begun; or else look at nothing; or else choose nothing."""
        if self.hands.cancel():
            return
        if self.selection.finding is not None:
            self.selection.look_at(None)
        else:
            self.selection.choose([])

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Forget what was held."""
        self._is_spaced = False
        self.keys.end_run()
        self.update()
        super().focusOutEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show that the keyboard is here."""
        self.update()
        super().focusInEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take parts from the list and photographs; what else is dropped is for others."""
        if event.mimeData().hasFormat(PART_MIME) or photograph_in(event.mimeData()):
            event.acceptProposedAction()

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        """Take both anywhere."""
        if event.mimeData().hasFormat(PART_MIME) or photograph_in(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Say which part was dropped where, or which photograph."""
        photograph = photograph_in(event.mimeData())
        if event.mimeData().hasFormat(PART_MIME):
            part = bytes(event.mimeData().data(PART_MIME).data()).decode("utf-8", "replace")
            at = event.position()
            event.acceptProposedAction()
            self.part_dropped.emit(part, self.view.to_wall((at.x(), at.y())))
        elif photograph is not None:
            event.acceptProposedAction()
            self.photo_dropped.emit(photograph)


def photograph_in(data: QMimeData) -> Path | None:
    """Return the photograph that is dragged, if it is one file with the name of one."""
    paths = [Path(url.toLocalFile()) for url in data.urls() if url.isLocalFile()]
    return paths[0] if len(paths) == 1 and paths[0].suffix.lower() in PICTURES else None
