"""What every gesture is: an object that is started, hears the pointer and keys, and is finished or cancelled.

A gesture shows what it would do through `document.preview` and through its feedback; it keeps one step of
history when it is finished, and leaves no trace when it is cancelled.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NamedTuple

from PySide6.QtCore import QCoreApplication

from app.canvas.sizes import PULL, TOLERANCE, TOUCH
from app.canvas.snapping import Guide
from app.canvas.stages import Stage
from app.canvas.view import View
from app.document import Document
from app.selection import Selection
from geometry.finding import Finding
from geometry.model import XY

translate = QCoreApplication.translate


def too_far() -> str:
    """Say that a place is farther off than the model takes: the only way in which a move is refused."""
    return translate("Canvas", "Nothing on a wall may lie farther off than 20 m.")


class Pointer(NamedTuple):
    """Where the pointer is, in pixels and on the wall in mm, and what is held with it."""

    screen: XY
    wall: XY
    free: bool = False
    """Ctrl (Cmd on a Mac) is held: nothing snaps."""
    straight: bool = False
    """Shift is held: along one axis, or adding to what is chosen."""
    touch: bool = False
    """It is a finger."""

    @property
    def tolerance(self) -> float:
        """How far off it may be from what is meant, in pixels."""
        return TOUCH if self.touch else TOLERANCE

    @property
    def pull(self) -> float:
        """How far a line draws what moves, in pixels."""
        return PULL * 2 if self.touch else PULL


class Feedback(NamedTuple):
    """What is painted while a gesture lasts."""

    guides: tuple[Guide, ...] = ()
    near: XY | None = None
    """Where the words of guides stand, in mm."""
    clearance: Finding | None = None
    """The clearance that offends most."""
    band: tuple[XY, XY] | None = None
    """Two corners of a band, in mm."""
    draft: tuple[XY, ...] = ()
    """The points of a pipe that is being drawn, in mm."""
    service: str = ""
    """What runs in it."""
    hint: str = ""
    """One sentence that says what to do next."""


@dataclass
class Board:
    """What a gesture works on: the document, what is chosen, and what of it is seen how."""

    document: Document
    selection: Selection
    look: Callable[[View], None]
    """Shows another view."""
    view: View = field(default_factory=View)
    size: XY = (1.0, 1.0)
    stage: Stage = "all"
    snapping: bool = True


class Gesture:
    """A gesture that does nothing."""

    def __init__(self, board: Board) -> None:
        self.board = board
        self.feedback = Feedback()
        self.is_done = False

    def press(self, pointer: Pointer) -> None:
        """Hear that the pointer was pressed again, of a gesture of several clicks."""

    def move(self, pointer: Pointer) -> None:
        """Hear that the pointer moved."""

    def release(self, pointer: Pointer) -> None:
        """Hear that the pointer was released: most gestures are finished by it."""
        self.is_done = True

    def accept(self) -> None:
        """Hear Enter."""

    def take_back(self) -> None:
        """Hear Backspace."""

    def cancel(self) -> None:
        """Leave no trace."""
        self.is_done = True
