"""Dragging things: they snap, the job is checked at every step, and the release is one step of history."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication

from app.canvas.gestures.gesture import Board, Feedback, Gesture, Pointer, too_far
from app.canvas.marks import worst_of
from app.canvas.snapping import Snapped, snapped, whole
from app.canvas.targets import anchors_of, as_it_was, targets_of
from geometry.edits.moves import moved_by
from geometry.edits.refs import TILES, Ref, things
from geometry.model import Hose, Pipe
from geometry.plan import Plan
from geometry.setting_out.lines import lines

translate = QCoreApplication.translate


def movable(plan: Plan, refs: Sequence[Ref]) -> tuple[Ref, ...]:
    """Return those of the things that have a place of their own: no hose, no pipe from port to port."""
    everything = things(plan.job)
    return tuple(
        ref
        for ref in refs
        if (ref == TILES and plan.job.finish.tiling)
        or (
            (thing := everything.get(ref)) is not None
            and not isinstance(thing, Hose)
            and not (isinstance(thing, Pipe) and not thing.route)
        )
    )


def move_title(refs: Sequence[Ref]) -> str:
    """Return what a move of things is called in the history."""
    if len(refs) == 1:
        return translate("Canvas", "Move %1").replace("%1", refs[0].id)
    return translate("Canvas", "Move %1 things").replace("%1", str(len(refs)))


class Move(Gesture):
    """Moves one or several things with the pointer."""

    def __init__(self, board: Board, refs: Sequence[Ref], start: Pointer) -> None:
        super().__init__(board)
        self._plan = board.document.state.plan
        self._refs = movable(self._plan, refs)
        self._start = start.wall
        self._anchors = anchors_of(self._plan, self._refs)
        self._targets = (*as_it_was(self._anchors), *targets_of(self._plan, self._refs))
        held = lines(self._plan.job.enclosure)
        self._datum = held.left, held.floor
        self._parts = {ref.id for ref in self._refs}

    def move(self, pointer: Pointer) -> None:
        """Show the job with the things where the pointer has taken them."""
        step = self._settled(pointer)
        try:
            self.board.document.preview(moved_by(self._plan, self._refs, step.dx, step.dy))
        except ValueError:
            self.feedback = self.feedback._replace(hint=too_far())
            return
        worst = worst_of(self.board.document.state.findings, self._parts, tiles=TILES in self._refs)
        self.feedback = Feedback(guides=step.guides, near=pointer.wall, clearance=worst)

    def _settled(self, pointer: Pointer) -> Snapped:
        """Return where things come to lie: on a line that draws, or else on a whole mm."""
        dx, dy = pointer.wall[0] - self._start[0], pointer.wall[1] - self._start[1]
        anchors = self._anchors
        if pointer.straight:
            axis = "x" if abs(dx) >= abs(dy) else "y"
            dx, dy = (dx, 0.0) if axis == "x" else (0.0, dy)
            anchors = tuple(anchor for anchor in anchors if anchor.axis == axis)
        if pointer.free:
            return Snapped(dx, dy)
        rest = whole(anchors, self._datum, dx, dy)
        targets = self._targets if self.board.snapping else ()
        return snapped(anchors, targets, dx, dy, self.board.view.mm(pointer.pull), rest)

    def release(self, pointer: Pointer) -> None:
        """Keep the move as one step."""
        document = self.board.document
        if self._refs:
            document.edit(move_title(self._refs), document.job)
        self.is_done = True

    def cancel(self) -> None:
        """Put everything back."""
        self.board.document.cancel()
        self.is_done = True
