"""Drawing a pipe: one click a point, plumb or level with the one before, until a port or Enter ends it."""

from PySide6.QtCore import QCoreApplication

from app.canvas.gestures.gesture import Board, Feedback, Gesture, Pointer
from app.canvas.pick import port_at
from app.canvas.snapping import Anchor, snapped, whole
from app.canvas.targets import pipe_targets
from geometry.edits.routes import pipe_drawn
from geometry.model import XY
from geometry.model.pipes import PipeService
from geometry.setting_out.lines import lines

translate = QCoreApplication.translate


class DrawPipe(Gesture):
    """Draws one pipe; it stays until the pipe is ended or given up."""

    def __init__(self, board: Board, service: PipeService, start: str | None = None) -> None:
        super().__init__(board)
        self._service: PipeService = service
        self._start = start
        self._points: list[XY] = []
        self._told = ""
        plan = board.document.state.plan
        self._plan = plan
        self._targets = pipe_targets(plan)
        held = lines(plan.job.enclosure)
        self._datum = held.left, held.floor
        self._next: XY | None = None
        self._show()

    def press(self, pointer: Pointer) -> None:
        """Add a point; on a port, begin or end there."""
        self.move(pointer)
        port = self._port(pointer)
        if port is not None and port != self._start:
            if self._begins:
                self._start = port
                self._show()
            else:
                self._end(port)
            return
        if self._next is not None and self._next != self._last:
            self._points.append(self._next)
        self._show()

    def move(self, pointer: Pointer) -> None:
        """Show the leg that a click would add."""
        port = self._port(pointer)
        self._next = self._plan.ports[port].at if port else self._placed(pointer)
        self._show()

    def release(self, pointer: Pointer) -> None:
        """Go on: a pipe is drawn click by click."""

    def accept(self) -> None:
        """End the pipe here: at a feed, if it began at a port."""
        self._end(None)

    def take_back(self) -> None:
        """Take back the last point, or the port where it began."""
        if self._points:
            self._points.pop()
        else:
            self._start = None
        self._show()

    @property
    def _begins(self) -> bool:
        return self._start is None and not self._points

    @property
    def _last(self) -> XY | None:
        if self._points:
            return self._points[-1]
        return self._plan.ports[self._start].at if self._start else None

    def _port(self, pointer: Pointer) -> str | None:
        return port_at(self._plan, pointer.wall, self.board.view.mm(pointer.tolerance * 1.5))

    def _placed(self, pointer: Pointer) -> XY:
        """Return where a point comes to lie: plumb or level with the last one unless Shift is held."""
        x, y = pointer.wall
        anchors = [Anchor("x", x), Anchor("y", y)]
        if not pointer.free:
            rest = whole(anchors, self._datum, 0.0, 0.0)
            targets = self._targets if self.board.snapping else ()
            step = snapped(anchors, targets, 0.0, 0.0, self.board.view.mm(pointer.pull), rest)
            x, y = x + step.dx, y + step.dy
        last = self._last
        if last is None or pointer.straight:
            return x, y
        level = abs(pointer.wall[0] - last[0]) >= abs(pointer.wall[1] - last[1])
        return (x, last[1]) if level else (last[0], y)

    def _end(self, port: str | None) -> None:
        try:
            job, ref = pipe_drawn(self._plan.job, self._service, self._start, self._points, port)
            self.board.document.edit(translate("Canvas", "Draw %1").replace("%1", ref.id), job)
        except ValueError as problem:
            self._told = f"{str(problem)[:1].upper()}{str(problem)[1:]}."
            self._show()
            return
        self.is_done = True
        self.board.selection.choose([ref])

    def _show(self) -> None:
        points = [self._plan.ports[self._start].at] if self._start else []
        points += self._points
        if self._next is not None and (not points or self._next != points[-1]):
            points.append(self._next)
        self.feedback = Feedback(draft=tuple(points), service=self._service, hint=self._told or self._hint())
        self._told = ""

    def _hint(self) -> str:
        if self._begins:
            begin = translate(
                "Canvas", "Click where the %1 pipe begins: a port, or its supply. Esc gives it up."
            )
            return begin.replace("%1", self._service)
        if self._start is None or self._service == "mixed":
            return translate("Canvas", "Click the next point, or the port where it ends. Esc gives it up.")
        return translate(
            "Canvas", "Click the next point or the port where it ends. Enter: its supply is here."
        )
