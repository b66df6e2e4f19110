"""Reshaping a pipe that is chosen: one corner or one leg of it is dragged."""

from PySide6.QtCore import QCoreApplication

from app.canvas.gestures.gesture import Board, Feedback, Gesture, Pointer, too_far
from app.canvas.marks import worst_of
from app.canvas.pick import Handle
from app.canvas.snapping import Anchor, Snapped, Target, snapped, whole
from app.canvas.targets import as_it_was, pipe_targets
from geometry.edits.routes import corner_moved, corners, leg_moved, legs
from geometry.model import XY, Job
from geometry.setting_out.lines import lines

translate = QCoreApplication.translate


class Reshape(Gesture):
    """Moves a corner freely, or a leg sideways so that its neighbours stay square to it."""

    def __init__(self, board: Board, handle: Handle, start: Pointer) -> None:
        super().__init__(board)
        self._plan = board.document.state.plan
        self._handle, self._start = handle, start.wall
        held = lines(self._plan.job.enclosure)
        self._datum = held.left, held.floor
        self._anchors = tuple(self._own_anchors())
        self._targets = (*as_it_was(self._anchors), *self._neighbours(), *pipe_targets(self._plan))

    def move(self, pointer: Pointer) -> None:
        """Show the pipe as it would run."""
        dx, dy = pointer.wall[0] - self._start[0], pointer.wall[1] - self._start[1]
        step = self._settled(dx, dy, pointer)
        try:
            self.board.document.preview(self._reshaped((step.dx, step.dy)))
        except ValueError:
            self.feedback = self.feedback._replace(hint=too_far())
            return
        worst = worst_of(self.board.document.state.findings, {self._handle.pipe})
        self.feedback = Feedback(guides=step.guides, near=pointer.wall, clearance=worst)

    def release(self, pointer: Pointer) -> None:
        """Keep the new course as one step."""
        title = translate("Canvas", "Reshape %1").replace("%1", self._handle.pipe)
        self.board.document.edit(title, self.board.document.job)
        self.is_done = True

    def cancel(self) -> None:
        """Put the pipe back."""
        self.board.document.cancel()
        self.is_done = True

    def _reshaped(self, by: XY) -> Job:
        handle = self._handle
        if handle.kind == "leg":
            return leg_moved(self._plan, handle.pipe, handle.number, by)
        x, y = corners(self._plan, handle.pipe)[handle.number]
        return corner_moved(self._plan, handle.pipe, handle.number, (x + by[0], y + by[1]))

    def _settled(self, dx: float, dy: float, pointer: Pointer) -> Snapped:
        if pointer.free:
            return Snapped(dx, dy)
        rest = whole(self._anchors, self._datum, dx, dy)
        targets = self._targets if self.board.snapping else ()
        return snapped(self._anchors, targets, dx, dy, self.board.view.mm(pointer.pull), rest)

    def _own_anchors(self) -> tuple[Anchor, ...]:
        """Return the lines that move: both of a corner, the one that a plumb or level leg lies on."""
        if self._handle.kind == "corner":
            x, y = corners(self._plan, self._handle.pipe)[self._handle.number]
            return Anchor("x", x), Anchor("y", y)
        (ax, ay), (bx, by) = legs(self._plan, self._handle.pipe)[self._handle.number]
        if ax == bx:
            return (Anchor("x", ax),)
        return (Anchor("y", ay),) if ay == by else ()

    def _neighbours(self) -> tuple[Target, ...]:
        """Return the lines on which a corner is plumb or level with the points next to it."""
        if self._handle.kind == "leg":
            return ()
        course = self._plan.courses[self._handle.pipe]
        place = self._handle.number + (1 if course.start else 0)
        found = []
        for index in (place - 1, place + 1):
            if 0 <= index < len(course.points):
                x, y = course.points[index]
                found += [Target("x", x, "plumb"), Target("y", y, "level")]
        return tuple(found)
