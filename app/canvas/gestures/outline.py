"""Outlining an area of the finish: a rectangle is dragged on the wall, and the build-up follows at once."""

from PySide6.QtCore import QCoreApplication

from app.canvas.gestures.gesture import Board, Feedback, Gesture, Pointer
from app.canvas.snapping import Anchor, Guide, snapped, whole
from app.canvas.targets import targets_of
from geometry.edits.finish import outlined
from geometry.model import XY, Region
from geometry.setting_out.lines import lines
from geometry.units import on_grid

translate = QCoreApplication.translate
LEAST = 10.0
"""Mm of the shorter side: less is a slip of the hand."""


class Outline(Gesture):
    """Drags a rectangle from corner to corner; its corners snap to edges and joints."""

    def __init__(self, board: Board, area: str) -> None:
        super().__init__(board)
        self._area = area
        self._first: XY | None = None
        self._plan = board.document.state.plan
        self._targets = tuple(target for target in targets_of(self._plan) if target.kind != "line")
        self._ask()

    def press(self, pointer: Pointer) -> None:
        """Begin at a corner."""
        self._first, _ = self._corner(pointer)

    def move(self, pointer: Pointer) -> None:
        """Show the area as it would be, or to what a first corner would snap."""
        corner, guides = self._corner(pointer)
        region = self._region(corner)
        if region is not None:
            self.board.document.preview(outlined(self.board.document.kept_job, self._area, region))
        band = (self._first, corner) if self._first else None
        self.feedback = Feedback(guides=guides, near=pointer.wall, band=band)
        if self._first is None:
            self._ask()

    def release(self, pointer: Pointer) -> None:
        """Keep the area as one step; a click outlines nothing."""
        region, document = self._region(self._corner(pointer)[0]), self.board.document
        if region is None:
            document.cancel()
            self._first = None
            self._ask()
            return
        title = translate("Canvas", "Outline %1").replace("%1", self._area)
        document.edit(title, outlined(document.kept_job, self._area, region))
        self.is_done = True

    def cancel(self) -> None:
        """Put the area back."""
        self.board.document.cancel()
        self.is_done = True

    def _ask(self) -> None:
        words = translate("Canvas", "Drag from one corner of %1 to the opposite one.").replace(
            "%1", self._area
        )
        self.feedback = self.feedback._replace(band=None, hint=words)

    def _corner(self, pointer: Pointer) -> tuple[XY, tuple[Guide, ...]]:
        """Return where a corner comes to lie: on the wall, on an edge that draws, or else on a whole mm."""
        wall = self._plan.job.wall
        x, y = min(max(pointer.wall[0], 0.0), wall.width), min(max(pointer.wall[1], 0.0), wall.height)
        if pointer.free:
            return (on_grid(x), on_grid(y)), ()
        anchors = (Anchor("x", x, "edge"), Anchor("y", y, "edge"))
        held = lines(self._plan.job.enclosure)
        rest = whole(anchors, (held.left, held.floor), 0.0, 0.0)
        targets = self._targets if self.board.snapping else ()
        step = snapped(anchors, targets, 0.0, 0.0, 2 * self.board.view.mm(pointer.pull), rest)
        placed = min(max(x + step.dx, 0.0), wall.width), min(max(y + step.dy, 0.0), wall.height)
        return (on_grid(placed[0]), on_grid(placed[1])), step.guides

    def _region(self, corner: XY) -> Region | None:
        if self._first is None:
            return None
        (x0, x1), (y0, y1) = sorted((self._first[0], corner[0])), sorted((self._first[1], corner[1]))
        if min(x1 - x0, y1 - y0) < LEAST:
            return None
        return Region(x=x0, y=y0, width=on_grid(x1 - x0), height=on_grid(y1 - y0))
