"""A pen that keeps its strokes as Qt paths, to be painted as often as is wanted, at any zoom.

Strokes come in mm, y up. Lines are as wide on the screen as the theme says, whatever the zoom; words are
as high as their height in mm looks, so that what should keep its size is drawn anew when the zoom changes.
"""

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QTransform

from app.canvas.lettering import font_for
from app.canvas.theme import DASHES, Ink, Theme
from app.canvas.view import View
from export.layers import LAYERS
from export.pen import XY, Align
from export.plain_dimensions import PlainDimensions
from export.text import is_bold, text_width


class Words(NamedTuple):
    """One line of text, in mm."""

    layer: str
    at: XY
    text: str
    height: float
    align: Align
    angle: float


class Path(NamedTuple):
    """Strokes that follow one another on one layer, or one shape that takes the layer's fill."""

    layer: str
    path: QPainterPath
    filled: bool
    edged: bool = True


class QtPen(PlainDimensions):
    """Gathers strokes, and paints them."""

    def __init__(self) -> None:
        self._drawn: list[Path | Words] = []

    def line(self, layer: str, start: XY, end: XY) -> None:
        """Draw one straight line."""
        path = self._path(layer)
        path.moveTo(*start)
        path.lineTo(*end)

    def polyline(self, layer: str, points: Sequence[XY], *, closed: bool = False) -> None:
        """Draw joined lines; a closed one is filled if its layer has a fill."""
        path = self._path(layer, filled=closed and LAYERS[layer].fill is not None)
        path.moveTo(*points[0])
        for point in points[1:]:
            path.lineTo(*point)
        if closed:
            path.closeSubpath()

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        """Fill a closed shape without drawing its edge, if its layer has a fill."""
        if LAYERS[layer].fill is not None:
            path = QPainterPath(QPointF(*points[0]))
            for point in points[1:]:
                path.lineTo(*point)
            path.closeSubpath()
            self._drawn.append(Path(layer, path, filled=True, edged=False))

    def circle(self, layer: str, centre: XY, radius: float) -> None:
        """Draw a circle, filled if its layer has a fill."""
        path = self._path(layer, filled=LAYERS[layer].fill is not None)
        path.addEllipse(QPointF(*centre), radius, radius)

    def arc(self, layer: str, centre: XY, radius: float, start: float, end: float) -> None:
        """Draw an arc counter-clockwise."""
        path = self._path(layer)
        box = QRectF(centre[0] - radius, centre[1] - radius, 2 * radius, 2 * radius)
        path.arcMoveTo(box, -start)  # Qt's angles run the other way about when y runs up
        path.arcTo(box, -start, -((end - start) % 360 or 360.0))

    def text(
        self, layer: str, at: XY, text: str, height: float, *, align: Align = "left", angle: float = 0.0
    ) -> None:
        """Write one line of text."""
        self._drawn.append(Words(layer, at, text, height, align, angle))

    def paint(self, painter: QPainter, view: View, theme: Theme, ink: Ink | None = None) -> None:
        """Paint everything that was drawn, in order.

        Args:
            painter: paints in pixels, y down; what it had been set to is restored.
            view: where the drawing is seen.
            theme: how its layers look.
            ink: if given, all strokes look like this instead, and nothing is filled.
        """
        painter.save()
        ratio = painter.device().devicePixelRatioF()
        upright = painter.worldTransform()
        onto = QTransform(view.scale, 0.0, 0.0, -view.scale, view.x, view.y) * upright
        painter.setWorldTransform(onto)
        for drawn in self._drawn:
            if isinstance(drawn, Path):
                look = ink or theme.ink(drawn.layer)
                painter.setPen(pen_of(look, ratio) if drawn.edged else Qt.PenStyle.NoPen)
                painter.setBrush(brush_of(look.fill if drawn.filled else None))
                painter.drawPath(drawn.path)
            else:
                painter.setWorldTransform(upright)
                _write(painter, view, theme, drawn)
                painter.setWorldTransform(onto)
        painter.restore()

    @property
    def is_empty(self) -> bool:
        """Whether nothing was drawn."""
        return not self._drawn

    def _path(self, layer: str, *, filled: bool = False) -> QPainterPath:
        """Return the path that strokes of this kind go on; shapes with a fill have one each."""
        last = self._drawn[-1] if self._drawn else None
        if not filled and isinstance(last, Path) and last.layer == layer and not last.filled:
            return last.path
        path = QPainterPath()
        self._drawn.append(Path(layer, path, filled))
        return path


def _write(painter: QPainter, view: View, theme: Theme, words: Words) -> None:
    bold = is_bold(words.layer)
    capital = words.height * view.scale
    width = text_width(words.text, capital, bold=bold)
    left = {"left": 0.0, "centre": -width / 2, "right": -width}[words.align]
    painter.setFont(font_for(capital, bold=bold))
    painter.setPen(colour(theme.ink(words.layer).colour))
    x, y = view.to_screen(words.at)
    if words.angle:
        painter.save()
        painter.translate(x, y)
        painter.rotate(-words.angle)
        painter.drawText(QPointF(left, 0.0), words.text)
        painter.restore()
    else:
        painter.drawText(QPointF(round(x + left), round(y)), words.text)


@lru_cache(maxsize=256)
def colour(name: str, opacity: float = 1.0) -> QColor:
    """Return a colour from its hexadecimal name."""
    found = QColor(name)
    found.setAlphaF(opacity)
    return found


@lru_cache(maxsize=256)
def pen_of(ink: Ink, ratio: float = 1.0) -> QPen:
    """Return the pen for an ink: as wide on the screen whatever the zoom.

    Args:
        ink: the look.
        ratio: dots of the screen to a pixel; Qt counts the width of such a pen in dots.
    """
    pen = QPen(colour(ink.colour), ink.width * ratio)
    pen.setCosmetic(True)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    dashes = DASHES[ink.pattern]
    if dashes:
        pen.setDashPattern([dash / ink.width for dash in dashes])
    return pen


def use_ink(painter: QPainter, ink: Ink) -> None:
    """Let a painter draw strokes that look so."""
    painter.setPen(pen_of(ink, painter.device().devicePixelRatioF()))


@lru_cache(maxsize=256)
def brush_of(fill: str | None) -> QBrush:
    """Return the brush for a fill, or the one that fills nothing."""
    return QBrush(Qt.BrushStyle.NoBrush) if fill is None else QBrush(colour(fill))
