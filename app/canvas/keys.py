"""What the keys do on the canvas, so that the keyboard alone is enough. Arrows nudge, Tab goes on."""

from typing import NamedTuple

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QKeyEvent

from app.canvas.gestures.gesture import Board
from app.canvas.gestures.move import movable, move_title
from app.canvas.options import Options
from geometry.edits.contents import removed
from geometry.edits.moves import moved_by
from geometry.edits.refs import Ref, choosable
from geometry.model import XY

translate = QCoreApplication.translate

ARROWS: dict[int, XY] = {
    Qt.Key.Key_Left: (-1.0, 0.0),
    Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, 1.0),
    Qt.Key.Key_Down: (0.0, -1.0),
}
"""Which way an arrow moves things on the wall."""


class Run(NamedTuple):
    """A run of nudges, which are one step of the history: of what, and its number."""

    refs: tuple[Ref, ...]
    number: int


class Keys:
    """Does what keys ask for."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self._run: Run | None = None
        self._runs = 0
        self._nudging = False

    def nudge(self, dx: float, dy: float) -> None:
        """Move what is chosen, in mm; nudges in a row are one step of the history."""
        document, refs = self.board.document, self.board.selection.refs
        able = movable(document.state.plan, refs)
        if not able:
            return
        if self._run is None or self._run.refs != able:
            self._runs += 1
            self._run = Run(able, self._runs)
        self._nudging = True
        try:
            document.edit(move_title(able), moved_by(document.state.plan, able, dx, dy), merge=self._run)
        finally:
            self._nudging = False

    def end_run(self) -> None:
        """Note that something else has happened: the next nudge is a step of its own."""
        if not self._nudging:
            self._run = None

    def remove(self) -> None:
        """Remove what is chosen."""
        document, selection = self.board.document, self.board.selection
        refs = selection.refs
        if not refs:
            return
        if len(refs) == 1:
            title = translate("Canvas", "Remove %1").replace("%1", refs[0].id)
        else:
            title = translate("Canvas", "Remove %1 things").replace("%1", str(len(refs)))
        job = removed(document.job, refs)
        selection.choose([])
        document.edit(title, job)

    def choose_next(self, step: int) -> bool:
        """Choose the next thing, or the one before; return False past the last: the keyboard goes on."""
        refs, chosen = choosable(self.board.document.job), self.board.selection.refs
        if not refs:
            return False
        if chosen and chosen[-1 if step > 0 else 0] in refs:
            place = refs.index(chosen[-1 if step > 0 else 0]) + step
        else:
            place = 0 if step > 0 else len(refs) - 1
        if not 0 <= place < len(refs):
            self.board.selection.choose([])
            return False
        self.board.selection.choose([refs[place]])
        return True

    def arrow(self, event: QKeyEvent, options: Options) -> bool:
        """Nudge for an arrow key; return whether it was one."""
        way = ARROWS.get(event.key())
        if way is None:
            return False
        held = event.modifiers()
        if held & Qt.KeyboardModifier.ShiftModifier:
            step = options.nudge_far
        elif held & Qt.KeyboardModifier.AltModifier:
            step = options.nudge_fine
        else:
            step = options.nudge
        self.nudge(way[0] * step, way[1] * step)
        return True
