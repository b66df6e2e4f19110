"""The pages of a sheet as they are seen: each is drawn again, at the size at which it is looked at."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QPainter, QTransform

from app.panels.paper_pen import PaperPen
from export.recorded import RecordedPage

MOST_PIXELS = 60_000_000
"""Of one page; a larger one is drawn coarser, so that it fits into the memory of a small laptop."""


def paint(painter: QPainter, page: RecordedPage, per_mm: float, finest: float = 0.0) -> None:
    """Paint a page with its upper left corner at the painter's origin.

    Args:
        painter: what it had been set to is restored.
        page: the page.
        per_mm: units of the painter to the millimetre.
        finest: width in those units below which no line is drawn.
    """
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    up = QTransform(per_mm, 0.0, 0.0, -per_mm, 0.0, page.height * per_mm)
    painter.setWorldTransform(up * painter.worldTransform())
    page.draw(PaperPen(painter, finest / per_mm))
    painter.restore()


def picture(page: RecordedPage, per_mm: float) -> QImage:
    """Return a page on white paper, at so many pixels to the mm or as many as fit into memory."""
    per_mm = min(per_mm, (MOST_PIXELS / (page.width * page.height)) ** 0.5)
    image = QImage(round(page.width * per_mm), round(page.height * per_mm), QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    paint(painter, page, per_mm, finest=1.0)
    painter.end()
    return image
