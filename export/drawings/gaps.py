"""Where a wall has no face: an opening or a niche, in mm on the wall."""

from export.pen import Pen
from geometry.model import Niche, Opening
from geometry.shape.outline import bounds_of, rectangle


def draw_gap(gap: Opening | Niche, pen: Pen) -> None:
    """Draw an opening or a niche with both its diagonals."""
    x0, y0, x1, y1 = bounds_of(gap)
    pen.polyline("opening", rectangle(x0, y0, x1, y1).points, closed=True)
    pen.line("leader", (x0, y0), (x1, y1))
    pen.line("leader", (x0, y1), (x1, y0))
