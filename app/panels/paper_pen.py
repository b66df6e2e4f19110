"""A pen that paints a page of paper on a `QPainter`, in the sheets' own looks and at any size.

Strokes come in mm, y up, from the lower left corner of the page, and are as thick as they are on paper.
Letters are the outlines of the sheets' own font, set one after the other as in the PDF, so that every word
is as long and stands where it does there.
"""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cache, lru_cache

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFont,
    QImage,
    QImageReader,
    QPainter,
    QPainterPath,
    QPen,
    QPolygonF,
    QRawFont,
    QTransform,
)

from export.layers import DASHES, LAYERS, RGB
from export.pen import XY, Align
from export.picture import Picture
from export.plain_dimensions import PlainDimensions
from export.text import CAPITAL, FONTS, is_bold, text_width, visual
from geometry.shape.outline import Bounds, rectangle

_SIZE = 2048.0
"""Pixels of the font whose outlines are taken: the units of its square, so that nothing is rounded."""
_FINEST = 2400
"""Pixels of the longer side of a picture, at most: 300 to the inch over 200 mm."""


class PaperPen(PlainDimensions):
    """Paints on one page.

    Args:
        painter: its coordinates are mm of the page, y up.
        finest: width in mm below which no line is drawn: a pixel of a screen, 0 for a printer.
    """

    def __init__(self, painter: QPainter, finest: float = 0.0) -> None:
        self._painter = painter
        self._finest = finest
        self._pens: dict[str, QPen] = {}

    def line(self, layer: str, start: XY, end: XY) -> None:
        """Draw one straight line."""
        self.polyline(layer, (start, end))

    def polyline(self, layer: str, points: Sequence[XY], *, closed: bool = False) -> None:
        """Draw joined lines; a closed one is filled if its layer has a fill."""
        if self._take(layer, filled=closed):
            shape = QPolygonF([QPointF(*point) for point in points])
            if closed:
                self._painter.drawPolygon(shape)
            else:
                self._painter.drawPolyline(shape)

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        """Fill the closed shape through these points, without its edge, if its layer has a fill."""
        if LAYERS[layer].fill and self._take(layer, filled=True):
            self._painter.setPen(Qt.PenStyle.NoPen)
            self._painter.drawPolygon(QPolygonF([QPointF(*point) for point in points]))

    def circle(self, layer: str, centre: XY, radius: float) -> None:
        """Draw a circle, filled if its layer has a fill."""
        if self._take(layer, filled=True):
            self._painter.drawEllipse(QPointF(*centre), radius, radius)

    def arc(self, layer: str, centre: XY, radius: float, start: float, end: float) -> None:
        """Draw an arc counter-clockwise."""
        if self._take(layer, filled=False):
            box = QRectF(centre[0] - radius, centre[1] - radius, 2 * radius, 2 * radius)
            path = QPainterPath()
            path.arcMoveTo(box, -start)  # Qt's angles run the other way about when y runs up
            path.arcTo(box, -start, -((end - start) % 360 or 360.0))
            self._painter.drawPath(path)

    def text(
        self, layer: str, at: XY, text: str, height: float, *, align: Align = "left", angle: float = 0.0
    ) -> None:
        """Write one line of text."""
        if not LAYERS[layer].plot:
            return
        bold = is_bold(layer)
        share = {"left": 0.0, "centre": 0.5, "right": 1.0}[align]
        unit = height / CAPITAL / _SIZE
        painter = self._painter
        painter.save()
        painter.translate(*at)
        painter.rotate(angle)
        painter.translate(-share * text_width(text, height, bold=bold), 0.0)
        painter.scale(unit, -unit)
        brush = QBrush(_colour(LAYERS[layer].colour))
        for letter in visual(text, bold=bold):
            outline, advance = _letter(letter, bold)
            painter.fillPath(outline, brush)
            painter.translate(advance, 0.0)
        painter.restore()

    @contextmanager
    def within(self, x0: float, y0: float, x1: float, y1: float) -> Iterator[None]:
        """Hide whatever is drawn outside a window of the page."""
        self._painter.save()
        self._painter.setClipRect(QRectF(x0, y0, x1 - x0, y1 - y0), Qt.ClipOperation.IntersectClip)
        yield
        self._painter.restore()

    def picture(self, layer: str, picture: Picture, box: Bounds) -> None:
        """Lay a picture upright in a box, with the line of its layer for an edge."""
        if not LAYERS[layer].plot:
            return
        painter = self._painter
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.setTransform(QTransform(*picture.matrix(box)), combine=True)
        painter.scale(1.0, -1.0)  # the rows of an image run down
        painter.drawImage(QRectF(0.0, -1.0, 1.0, 1.0), _image(picture.data))
        painter.restore()
        self.polyline(layer, rectangle(*box).points, closed=True)

    def _take(self, layer: str, *, filled: bool) -> bool:
        """Have the painter draw as a layer looks; return whether the layer is drawn at all."""
        look = LAYERS[layer]
        if look.plot:
            self._painter.setPen(self._pen(layer))
            fill = look.fill if filled else None
            self._painter.setBrush(QBrush(_colour(fill)) if fill else Qt.BrushStyle.NoBrush)
        return look.plot

    def _pen(self, layer: str) -> QPen:
        if layer not in self._pens:
            look = LAYERS[layer]
            width = max(look.weight, self._finest)
            pen = QPen(_colour(look.colour), width)
            pen.setCapStyle(Qt.PenCapStyle.FlatCap)
            pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
            if DASHES[look.pattern]:
                pen.setDashPattern([length / width for length in DASHES[look.pattern]])
            self._pens[layer] = pen
        return self._pens[layer]


def _colour(colour: RGB) -> QColor:
    return QColor.fromRgbF(*colour)


@lru_cache(maxsize=2)  # as many as a page has
def _image(data: bytes) -> QImage:
    """Return a picture as stored, not turned, and no finer than can be seen on paper."""
    buffer = QBuffer()
    buffer.setData(QByteArray(data))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    reader.setAutoTransform(False)
    if max(reader.size().toTuple()) > _FINEST:
        reader.setScaledSize(
            reader.size().scaled(QSize(_FINEST, _FINEST), Qt.AspectRatioMode.KeepAspectRatio)
        )
    return reader.read()


@cache
def _letter(letter: str, bold: bool) -> tuple[QPainterPath, float]:
    """Return the outline of a letter, y down, and how far it moves the pen, in units of the font."""
    font = _font(bold)
    outline = font.pathForGlyph(font.glyphIndexesForString(letter)[0])
    outline.setFillRule(Qt.FillRule.WindingFill)
    return outline, text_width(letter, _SIZE * CAPITAL, bold=bold)


@cache
def _font(bold: bool) -> QRawFont:
    """Read a font.

    Raises:
        OSError: the file is not there or is no font.
    """
    font = QRawFont(str(FONTS[bold]), _SIZE, QFont.HintingPreference.PreferNoHinting)
    if not font.isValid():
        raise OSError(f"{FONTS[bold]}: cannot be read as a font")
    return font
