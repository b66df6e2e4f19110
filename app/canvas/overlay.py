"""What lies over the drawing, at sizes that do not change with the zoom: tags, names, marks, frames, guides.

Everything comes in pixels, y down, already placed; here it only gets its colours and strokes.
"""

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app.canvas.lettering import font_for
from app.canvas.marks import RADIUS, STACKED, Mark
from app.canvas.placing import Name, beside_place, centred_at, level_at
from app.canvas.qt_pen import colour, use_ink
from app.canvas.room import Room
from app.canvas.sizes import HANDLE, LARGE, SMALL
from app.canvas.tags import PAD, Tag
from app.canvas.theme import Ink, Theme
from export.pen import Axis
from export.text import text_width, wrapped
from geometry.finding import Status
from geometry.model import XY
from geometry.shape.outline import Bounds

SIGNS: dict[Status, str] = {"clash": "✗", "tight": "≈"}
"""In the marks of findings, as in the lists of them."""
PLATE = 0.86
"""How much of what lies behind words their plate hides."""
FRAME = 7.0
"""Between a thing and the frame that says that it is chosen, pixels."""
CORNER = 9.0
"""Length of the strokes at the corners of that frame, pixels."""


LINE = 21.0
"""From one line of the words of guides to the next, pixels."""


class PlacedGuide(NamedTuple):
    """A guide: its axis, where it lies on the screen, and what it is."""

    axis: Axis
    at: float
    words: str


def rect(box: Bounds) -> QRectF:
    """Return a box as Qt has it."""
    return QRectF(box[0], box[1], box[2] - box[0], box[3] - box[1])


def paint_plate(painter: QPainter, box: Bounds, fill: QColor, edge: QColor | None = None) -> None:
    """Paint the ground of words."""
    painter.setPen(QPen(edge, 1.0) if edge else Qt.PenStyle.NoPen)
    painter.setBrush(fill)
    painter.drawRoundedRect(rect(box).adjusted(0.5, 0.5, -0.5, -0.5), 4.0, 4.0)


def write(painter: QPainter, at: XY, words: str, height: float, ink: QColor) -> None:
    """Write words from `at`, left on the baseline."""
    painter.setFont(font_for(height))
    painter.setPen(ink)
    painter.drawText(QPointF(round(at[0]), round(at[1])), words)


def paint_tags(painter: QPainter, tags: Sequence[Tag], theme: Theme) -> None:
    """Paint the running dimensions with their leaders; those of things have a frame to be clicked."""
    plain, chosen = theme.ink("dimension").colour, theme.chosen
    for tag in tags:
        use_ink(painter, Ink(chosen, 1.5) if tag.chosen else theme.ink("leader"))
        painter.drawLine(QLineF(QPointF(*tag.leader[0]), QPointF(*tag.leader[1])))
    for tag in tags:
        if tag.chosen:
            paint_plate(painter, tag.box, colour(chosen))
        elif tag.refs:
            paint_plate(painter, tag.box, colour(theme.plate), colour(plain))
        else:
            paint_plate(painter, tag.box, colour(theme.room, PLATE))
        middle = (tag.box[1] + tag.box[3]) / 2
        ink = theme.on_chosen if tag.chosen else plain
        write(painter, (tag.box[0] + PAD, middle + SMALL / 2), tag.words, SMALL, colour(ink))


def paint_names(painter: QPainter, names: Iterable[Name], theme: Theme, told: Iterable[object]) -> None:
    """Paint letters and names; names of what is chosen or pointed at stand on a plate."""
    strong = set(told)
    for name in names:
        if name.led_to is not None:
            left, top, right, low = name.box
            x, y = name.led_to
            near = QPointF(min(max(x, left), right), min(max(y, top), low))
            use_ink(painter, theme.ink("leader"))
            painter.drawLine(QLineF(near, QPointF(x, y)))
        if name.ref is not None and name.ref in strong:
            paint_plate(painter, _grown(name.box, 3.0, 1.0), colour(theme.plate), colour(theme.chosen))
            ink = theme.chosen
        else:
            painter.fillRect(rect(name.box), colour(theme.plate, 0.6))
            ink = theme.ink(name.layer).colour
        write(painter, name.at, name.words, name.height, colour(ink))


def _grown(box: Bounds, by_x: float, by_y: float) -> Bounds:
    return box[0] - by_x, box[1] - by_y, box[2] + by_x, box[3] + by_y


def paint_marks(painter: QPainter, marks: Sequence[Mark], theme: Theme) -> None:
    """Paint the marks of findings: a full diamond for a clash, a hollow one for what is tight.

    Where there are several, one more shows behind it. Their number would be read as that of an outlet.
    """
    for mark in marks:
        ink = colour(theme.ink(mark.finding.status).colour)
        full = mark.finding.status == "clash"
        painter.setPen(QPen(colour(theme.wall) if full else ink, 1.5))
        painter.setBrush(ink if full else colour(theme.wall))
        x, y = mark.at
        for right in (STACKED, 0.0) if len(mark.findings) > 1 else (0.0,):
            around = ((0, -RADIUS - 1), (RADIUS + 1, 0), (0, RADIUS + 1), (-RADIUS - 1, 0))
            painter.drawPolygon(QPolygonF([QPointF(x + right + dx, y + dy) for dx, dy in around]))
        sign = SIGNS[mark.finding.status]
        placed = centred_at("text", sign, mark.at, SMALL)
        write(painter, placed.at, sign, SMALL, colour(theme.wall) if full else ink)


def paint_frame(painter: QPainter, box: Bounds, theme: Theme) -> None:
    """Paint the corners of a frame round what is chosen."""
    left, top, right, low = _grown(box, FRAME, FRAME)
    arm = min(CORNER, (right - left) / 3, (low - top) / 3)
    painter.setPen(QPen(colour(theme.chosen), 2.0))
    for x, inward in ((left, arm), (right, -arm)):
        for y, down in ((top, arm), (low, -arm)):
            painter.drawLine(QLineF(x, y, x + inward, y))
            painter.drawLine(QLineF(x, y, x, y + down))


def paint_handles(painter: QPainter, corners: Iterable[XY], held: XY | None, theme: Theme) -> None:
    """Paint the corners of a pipe that is chosen; the one that is held is larger and hollow."""
    for corner in corners:
        half = HANDLE + 2 if corner == held else HANDLE
        painter.setPen(QPen(colour(theme.chosen if corner == held else theme.plate), 2.0))
        painter.setBrush(colour(theme.plate if corner == held else theme.chosen))
        painter.drawRect(QRectF(corner[0] - half, corner[1] - half, 2 * half, 2 * half))


def paint_start(painter: QPainter, at: XY, theme: Theme) -> None:
    """Paint the corner at which the first tile starts: a handle, and a stroke along each of its edges."""
    painter.setPen(QPen(colour(theme.chosen), 2.0))
    x, y = at
    painter.drawLine(QLineF(x, y, x + 3 * HANDLE, y))
    painter.drawLine(QLineF(x, y, x, y - 3 * HANDLE))
    paint_handles(painter, (at,), None, theme)


def paint_measured(
    painter: QPainter, place: Sequence[XY], words: str, ink: str, theme: Theme, size: XY, room: Room
) -> None:
    """Paint a clearance where it was measured: a line with marked ends, and the words where there is room."""
    painter.setPen(QPen(colour(ink), 2.5))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    first, last = place[0], place[-1]
    if math.dist(first, last) < 2 * RADIUS:
        painter.drawEllipse(QPointF(*first), 2 * RADIUS, 2 * RADIUS)
    if len(place) > 1:
        painter.drawPolyline(QPolygonF([QPointF(*point) for point in place]))
        for end in (first, last):
            painter.drawEllipse(QPointF(*end), 3.0, 3.0)
    if words:
        xs, ys = [point[0] for point in place], [point[1] for point in place]
        drawn = _grown((min(xs), min(ys), max(xs), max(ys)), 2 * RADIUS, 2 * RADIUS)
        placed = beside_place(words, drawn, size, LARGE, room)
        paint_plate(painter, _grown(placed.box, PAD, 2.0), colour(theme.plate), colour(ink))
        write(painter, placed.at, words, LARGE, colour(ink))


def paint_guides(painter: QPainter, guides: Sequence[PlacedGuide], near: XY, size: XY, theme: Theme) -> None:
    """Paint guides from edge to edge of the screen, and their words one below the other near what moves."""
    use_ink(painter, Ink(theme.chosen, 1.0, "dashed"))
    for axis, at, _ in guides:
        ends = (at, 0.0, at, size[1]) if axis == "x" else (0.0, at, size[0], at)
        painter.drawLine(QLineF(*ends))
    words = [guide.words for guide in guides if guide.words]
    width = max((text_width(each, SMALL) for each in words), default=0.0)
    left = near[0] + 40.0 if near[0] + 40.0 + width + PAD < size[0] else near[0] - 40.0 - width
    top = min(max(near[1] - 60.0 - LINE * len(words), LINE), size[1] - LINE * len(words))
    for number, each in enumerate(words):
        placed = level_at("text", each, (max(left, PAD), top + LINE * number), SMALL)
        paint_plate(painter, _grown(placed.box, 3.0, 1.0), colour(theme.plate))
        write(painter, placed.at, each, SMALL, colour(theme.chosen))


def paint_band(painter: QPainter, start: XY, end: XY, theme: Theme) -> None:
    """Paint the band that is drawn round things."""
    use_ink(painter, Ink(theme.chosen, 1.0, "dashed"))
    painter.setBrush(colour(theme.chosen, 0.12))
    painter.drawRect(QRectF(QPointF(*start), QPointF(*end)).normalized())


def paint_draft(painter: QPainter, points: Sequence[XY], ink: Ink, theme: Theme) -> None:
    """Paint a pipe that is being drawn."""
    use_ink(painter, ink)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if len(points) > 1:
        painter.drawPolyline(QPolygonF([QPointF(*point) for point in points]))
    paint_handles(painter, points, points[-1] if points else None, theme)


def paint_hint(painter: QPainter, words: str, size: XY, theme: Theme) -> None:
    """Paint a sentence at the top of the drawing that says what to do next, in as many lines as it takes."""
    lines = wrapped(words, SMALL, max(size[0] - 60.0, 100.0))
    placed = [centred_at("text", line, (size[0] / 2, 24.0 + LINE * i), SMALL) for i, line in enumerate(lines)]
    boxes = [name.box for name in placed]
    around = min(b[0] for b in boxes), boxes[0][1], max(b[2] for b in boxes), boxes[-1][3]
    paint_plate(painter, _grown(around, 10.0, 5.0), colour(theme.chosen))
    for name in placed:
        write(painter, name.at, name.words, SMALL, colour(theme.on_chosen))
