"""The scene: the drawing of a state at a stage, kept as pieces, so that an edit redraws only what it touched.

It knows nothing of mouse and keys. Words and marks depend on the zoom and are laid out by others.
"""

from collections.abc import Hashable, Iterable

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QPainter

from app.canvas.drawings import Piece, face_pieces, setting_pieces, work_pieces
from app.canvas.qt_pen import QtPen
from app.canvas.stages import Stage, shows
from app.canvas.theme import Theme
from app.canvas.view import View
from geometry.plan import Plan

LEAST_JOINT = 5.0
"""Pixels between two joints; closer ones would make the wall grey and are left out."""


class Scene:
    """The pieces of a drawing."""

    def __init__(self) -> None:
        self._kept: dict[Hashable, tuple[Hashable, QtPen]] = {}
        self._setting: tuple[QtPen, ...] = ()
        self._work: tuple[QtPen, ...] = ()
        self._face: tuple[QtPen, ...] = ()
        self._pitch = 0.0
        self._wall = (0.0, 0.0)

    @property
    def setting(self) -> tuple[Hashable, ...]:
        """What the picture of the wall before the work depends on; while it stays, a copy of it will do."""
        return (*self._setting, *self._face, self._wall)

    def show(self, plan: Plan, stage: Stage, *, moving: bool = False) -> None:
        """Take up a plan; `moving` says that more of them will follow at once."""
        used: dict[Hashable, tuple[Hashable, QtPen]] = {}
        self._setting = self._pens(setting_pieces(plan, stage), used)
        self._work = self._pens(work_pieces(plan, stage, moving=moving), used)
        self._face = self._pens(face_pieces(plan), used) if shows(stage, "tiles") else ()
        tiling = plan.job.finish.tiling
        self._pitch = min(tiling.wide, tiling.high) + tiling.joint if tiling else LEAST_JOINT
        self._wall = plan.job.wall.width, plan.job.wall.height
        self._kept = used

    def _pens(
        self, pieces: Iterable[Piece], used: dict[Hashable, tuple[Hashable, QtPen]]
    ) -> tuple[QtPen, ...]:
        return tuple(self._pen(piece, used) for piece in pieces)

    def _pen(self, piece: Piece, used: dict[Hashable, tuple[Hashable, QtPen]]) -> QtPen:
        kept = self._kept.get(piece.key)
        if kept is None or kept[0] != piece.depends:
            pen = QtPen()
            piece.draw(pen)
            kept = piece.depends, pen
        used[piece.key] = kept
        return kept[1]

    def paint_ground(self, painter: QPainter, view: View, theme: Theme) -> None:
        """Paint the bare face of the wall."""
        (left, top), (right, low) = view.to_screen((0.0, self._wall[1])), view.to_screen((self._wall[0], 0.0))
        painter.fillRect(QRectF(left, top, right - left, low - top), QColor(theme.wall))

    def paint_setting(self, painter: QPainter, view: View, theme: Theme, *, filled: bool = True) -> None:
        """Paint the wall as it was before the work: tiles, services, tray, lines.

        Args:
            painter: paints in pixels.
            view: where the wall is seen.
            theme: the look.
            filled: cut tiles are shaded; not so where they would hide what lies behind.
        """
        if self._pitch * view.scale >= LEAST_JOINT:
            for pen in self._face:
                pen.paint(painter, view, theme, None if filled else theme.ink("tile-whole"))
        for pen in self._setting:
            pen.paint(painter, view, theme)

    def paint_work(self, painter: QPainter, view: View, theme: Theme) -> None:
        """Paint what is cut, laid and fitted."""
        for pen in self._work:
            pen.paint(painter, view, theme)
