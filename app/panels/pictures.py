"""The elevation as a picture for other programs: SVG, or as pixels; on white paper, in the sheets' looks."""

from PySide6.QtCore import QByteArray, QMimeData, QRectF, Qt
from PySide6.QtGui import QImage, QPainter

from export.drawings.elevation import draw_elevation, margins
from export.svg import SvgPen
from export.wrapped_pens import Placed
from geometry.finding import Finding
from geometry.plan import Plan

SCALE = 20
"""1:N of a picture unless another scale was chosen: letters and wall are of a size with each other."""
MARGIN = 5.0
"""Round the drawing, in mm."""
DPI = 200.0
"""Pixels to the inch; enough to be read when it is printed."""


def elevation_svg(plan: Plan, findings: tuple[Finding, ...], scale: int | None = None) -> bytes:
    """Return the elevation with its chains and labels as SVG.

    Args:
        plan: the job with its parts.
        findings: those with a place are numbered on the drawing.
        scale: 20 for 1:20.
    """
    scale = scale or SCALE
    x0, y0, x1, y1 = (side / scale for side in margins(plan, scale).bounds)
    about = plan.job.about
    pen = SvgPen(
        x1 - x0 + 2 * MARGIN,
        y1 - y0 + 2 * MARGIN,
        title=about.title or "Elevation",
        description=f"Elevation 1:{scale}, in mm.",
    )
    draw_elevation(plan, findings, Placed(pen, 1 / scale, MARGIN - x0, MARGIN - y0), scale, pieces=True)
    return pen.to_bytes()


def as_pixels(svg: bytes, dpi: float = DPI) -> QImage:
    """Return a picture of ours as pixels on white."""
    from PySide6.QtSvg import QSvgRenderer

    renderer = QSvgRenderer(QByteArray(svg))
    box = renderer.viewBoxF()
    per_mm = dpi / 25.4
    image = QImage(round(box.width() * per_mm), round(box.height() * per_mm), QImage.Format.Format_RGB32)
    image.setDotsPerMeterX(round(per_mm * 1000))
    image.setDotsPerMeterY(round(per_mm * 1000))
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    renderer.render(painter, QRectF(0, 0, image.width(), image.height()))
    painter.end()
    return image


def svg_data(svg: bytes) -> QMimeData:
    """Return a drawing as the clipboard carries it: as SVG, and as the text of the file."""
    data = QMimeData()
    data.setData("image/svg+xml", QByteArray(svg))
    data.setText(svg.decode())
    return data
