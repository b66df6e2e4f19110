"""What a sheet is laid out on: a document of pages, each with a pen, whatever becomes of them.

Millimetres of paper, from the lower left corner of each page, at true size. `PdfDocument` writes the pages
to a file; `RecordedDocument` keeps them, to be looked at or printed.
"""

from collections.abc import Sequence
from contextlib import AbstractContextManager
from typing import Protocol

from export.pen import XY, Pen
from export.picture import Picture
from geometry.shape.outline import Bounds


class PagePen(Pen, Protocol):
    """Draws on one page of paper; it fills without an edge, cuts off and shows pictures, too."""

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        """Fill the closed shape through these points, without its edge, if its layer has a fill."""

    def within(self, x0: float, y0: float, x1: float, y1: float) -> AbstractContextManager[None]:
        """Hide whatever is drawn outside a window of the page, letters and line thickness included."""

    def picture(self, layer: str, picture: Picture, box: Bounds) -> None:
        """Lay a picture upright in a box, with the line of its layer for an edge."""


class Document(Protocol):
    """Gathers pages of any size."""

    def entitle(self, title: str, *, author: str = "", subject: str = "") -> None:
        """Say what the document is, of whom, and about what."""

    def page(self, width: float, height: float, *, name: str = "") -> PagePen:
        """Begin a page of this size in mm and return its pen; the page before it is finished."""
