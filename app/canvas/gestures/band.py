"""The band: what lies wholly within it is chosen."""

from app.canvas.gestures.gesture import Board, Feedback, Gesture, Pointer
from app.canvas.pick import things_within


class Band(Gesture):
    """Draws a band from where it began, and chooses what lies in it."""

    def __init__(self, board: Board, start: Pointer) -> None:
        super().__init__(board)
        self._start = start.wall
        self._before = board.selection.refs if start.straight or start.free else ()

    def move(self, pointer: Pointer) -> None:
        """Choose what lies in the band by now."""
        held = things_within(self.board.document.state.plan, self.board.stage, self._start, pointer.wall)
        self.board.selection.choose((*self._before, *held))
        self.feedback = Feedback(band=(self._start, pointer.wall))

    def cancel(self) -> None:
        """Choose again what was chosen before."""
        self.board.selection.choose(self._before)
        self.is_done = True
