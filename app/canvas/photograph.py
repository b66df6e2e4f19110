"""The photograph of the bare wall behind the drawing: laid flat once, and painted at its strength."""

from collections.abc import Hashable

from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPainter

from app.canvas.view import View
from app.photo import Photo, flattened
from geometry.model import Wall
from geometry.photo import perspective


class Photograph:
    """Lays photographs flat over a wall, and keeps the last one."""

    def __init__(self) -> None:
        self._made_of: Hashable = None
        self._image: QImage | None = None
        self._flat = QImage()

    def paint(self, painter: QPainter, view: View, wall: Wall, photo: Photo) -> None:
        """Paint what a photograph shows of a wall, in its place."""
        (left, top), (right, low) = view.to_screen((0.0, wall.height)), view.to_screen((wall.width, 0.0))
        painter.save()
        painter.setOpacity(photo.backdrop.strength)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawImage(QRectF(left, top, right - left, low - top), self._laid_flat(wall, photo))
        painter.restore()

    def _laid_flat(self, wall: Wall, photo: Photo) -> QImage:
        held = photo.backdrop
        made_of = held.picture, held.wall, wall.width, wall.height
        if photo.image is not self._image or made_of != self._made_of:
            seen = perspective(held.picture, held.wall)
            self._flat = flattened(photo.image, seen, (0.0, 0.0, wall.width, wall.height))
            self._image, self._made_of = photo.image, made_of
        return self._flat
