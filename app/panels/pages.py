"""The pages of a sheet as pictures, read from the very bytes that are written to its file."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from PySide6.QtGui import QImage

POINTS = 72.0
"""Points of a PDF to the inch."""
MOST_PIXELS = 60_000_000
"""Of one page; a larger one is drawn coarser, so that it fits into the memory of a small laptop."""
_READER = threading.Lock()
"""What reads the pages is not made for two threads at once."""


class Pages:
    """The pages of one PDF."""

    def __init__(self, data: bytes) -> None:
        self._data = data
        with self._opened() as document:
            self.sizes: tuple[tuple[float, float], ...] = tuple(
                document.get_page_size(number) for number in range(len(document))
            )
            """Width and height of each page, in points."""

    def __len__(self) -> int:
        return len(self.sizes)

    def size(self, number: int) -> tuple[float, float]:
        """Return width and height of a page in mm."""
        width, height = self.sizes[number]
        return width * 25.4 / POINTS, height * 25.4 / POINTS

    def picture(self, number: int, dpi: float) -> QImage:
        """Return a page on white paper, at so many pixels to the inch or as many as fit into memory."""
        width, height = (side / POINTS for side in self.sizes[number])
        dpi = min(dpi, (MOST_PIXELS / (width * height)) ** 0.5)
        with self._opened() as document:
            page = document[number]
            bitmap = page.render(scale=dpi / POINTS, prefer_bgrx=True, force_bitmap_format=_bgrx())
            buffer = bytes(bitmap.buffer)
            found = QImage(buffer, bitmap.width, bitmap.height, bitmap.stride, QImage.Format.Format_RGB32)
            kept = found.copy()  # its own memory, since the buffer goes
            bitmap.close()
            page.close()
        kept.setDotsPerMeterX(round(dpi / 0.0254))
        kept.setDotsPerMeterY(round(dpi / 0.0254))
        return kept

    @contextmanager
    def _opened(self) -> Iterator[Any]:
        import pypdfium2

        with _READER:
            document = pypdfium2.PdfDocument(self._data)
            try:
                yield document
            finally:
                document.close()


def _bgrx() -> int:
    import pypdfium2.raw

    return int(pypdfium2.raw.FPDFBitmap_BGRx)


def is_pdf(data: bytes) -> bool:
    """Return whether a file has pages."""
    return data.startswith(b"%PDF-")
