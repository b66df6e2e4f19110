"""A page drawn again looks as the same page of the PDF does, and is printed at its size, as strokes."""

from pathlib import Path
from typing import Any

import numpy as np
import pdfplumber
import pypdfium2
import pytest
from PySide6.QtGui import QImage
from PySide6.QtPrintSupport import QPrinter

from app.panels.pages import MOST_PIXELS, picture
from app.panels.printing import print_pages
from export.document import Document, PagePen
from export.pack import PAGES
from export.pdf import PdfDocument
from export.recorded import RecordedDocument
from export.sheets.full_size import full_size_sheet
from export.sheets.options import SheetOptions
from tests.export.jobs import sample, usual
from tests.export.measured import as_pdf, laid_out
from tests.samples import FAULTY

pytestmark = pytest.mark.usefixtures("qapp")
DPI = 100
INCH = 25.4
Grey = np.ndarray[Any, np.dtype[np.float64]]


def replayed(document: RecordedDocument, number: int, dpi: int = DPI) -> Grey:
    """Return a page as it is seen in the window: ink from 0 to 1, top row first."""
    image = picture(document.pages[number], dpi / INCH).convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(bytes(image.constBits()), np.uint8).reshape(image.height(), image.bytesPerLine())
    return 1.0 - rows[:, : image.width()] / 255.0


def rendered(data: bytes, number: int, dpi: int = DPI) -> Grey:
    """Return a page of a PDF likewise, by another program."""
    pdf = pypdfium2.PdfDocument(data)
    grey = pdf[number].render(scale=dpi / 72, grayscale=True).to_numpy().squeeze()
    pdf.close()
    return 1.0 - np.asarray(grey, dtype=float) / 255.0


def in_cells(ink: Grey, size: int) -> Grey:
    """Return how much of each square of so many pixels is inked."""
    down, across = (side // size for side in ink.shape)
    cut = ink[: down * size, : across * size]
    return np.asarray(cut.reshape(down, size, across, size).mean(axis=(1, 3)))


def assert_alike(one: Grey, other: Grey, size: int, most: float) -> None:
    """Sizes are within a pixel, and no cell differs by more than `most` of its area."""
    assert np.abs(np.subtract(one.shape, other.shape)).max() <= 1
    down, across = np.minimum(one.shape, other.shape)
    first, second = (in_cells(ink[:down, :across], size) for ink in (one, other))
    assert np.abs(first - second).max() <= most
    assert np.abs(first - second).mean() <= 0.12 * second.mean()  # edges of strokes fall between pixels


@pytest.mark.parametrize("name", PAGES)
def test_each_sheet_looks_as_its_pdf_does(name: str) -> None:
    plan = sample(FAULTY)
    document, data = laid_out(PAGES[name], plan), as_pdf(PAGES[name], plan)
    assert len(pypdfium2.PdfDocument(data)) == len(document.pages)
    for number in range(min(2, len(document.pages))):
        # A pixel's width of two strokes through a cell of 20 x 20 pixels: 2 x 20 of 400 = 0.1.
        assert_alike(replayed(document, number), rendered(data, number), 20, 0.1)


def write(pen: PagePen) -> None:
    pen.text("text", (10, 85), "Plain gj (½ × ≤ ⌀22) fi AV To", 3)
    pen.text("frame", (60, 75), "Bold in the middle", 4, align="centre")
    pen.text("text", (110, 65), "to the right", 3, align="right")
    pen.text("text", (10, 55), "Room 7 מקלחת (right) 12 mm", 3)
    pen.text("text", (10, 47), "حمام 4", 4)
    pen.text("text", (100, 20), "upright", 3, angle=90)
    pen.text("caution", (30, 10), "aslant", 5, angle=30, align="centre")
    pen.text("text", (60, 30), "down", 3, angle=-90, align="right")
    with pen.within(70, 5, 90, 25):
        pen.fill("chase", [(60, 0), (80, 0), (80, 40)])
        pen.text("text", (75, 10), "cut off here", 4)
        pen.circle("drill", (85, 22), 8)
    pen.polyline("tile-cut", [(40, 35), (55, 35), (55, 45)], closed=True)
    pen.arc("wall", (110, 50), 8, 30, 300)
    pen.line("pipe-hot", (5, 2), (115, 2))
    pen.line("pipe-mixed", (5, 4), (65, 4))


def in_both() -> tuple[Grey, Grey]:
    drawn, file = RecordedDocument(), PdfDocument()
    documents: tuple[Document, ...] = (drawn, file)
    for document in documents:
        write(document.page(120, 90))
    return replayed(drawn, 0, 200), rendered(file.to_bytes(), 0, 200)


def test_words_of_any_script_and_angle_lie_where_they_lie_in_the_pdf() -> None:
    # 16 pixels of 200 dpi are 2 mm; one pixel of a stroke through such a cell is 16 of 256 = 0.06
    assert_alike(*in_both(), size=16, most=0.12)


def test_a_word_that_is_a_millimetre_off_is_noticed() -> None:
    seen, there = in_both()
    with pytest.raises(AssertionError):
        assert_alike(np.roll(seen, 8, axis=1), there, size=16, most=0.12)


def ends(ink: Grey, dpi: int) -> list[float]:
    """Return where the end strokes of the bar across lie, in pixels: a row 1.2 mm above it meets no more."""
    row = ink[-round(13.7 / INCH * dpi), : round(120 / INCH * dpi)]
    dark = np.flatnonzero(row > 0.4)
    return [float(stroke.mean()) for stroke in np.split(dark, np.flatnonzero(np.diff(dark) > 1) + 1)]


def test_a_check_bar_ends_at_the_same_pixels_as_in_the_pdf() -> None:
    plan = sample("alcove-760")
    seen = ends(replayed(laid_out(full_size_sheet, plan), 1, 300), 300)
    # 100 mm / 25.4 x 300 = 1181.1 pixels
    assert seen[1] - seen[0] == pytest.approx(1181.1, abs=1.0)
    assert seen == pytest.approx(ends(rendered(as_pdf(full_size_sheet, plan), 1, 300), 300), abs=1.0)


def printer_to(file: Path, resolution: int, pages: tuple[int, int]) -> QPrinter:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(file))
    printer.setResolution(resolution)
    printer.setFromTo(*pages)
    return printer


@pytest.mark.parametrize("resolution", [300, 1200])
def test_printed_bars_are_100_mm_and_strokes(resolution: int, tmp_path: Path) -> None:
    document = laid_out(full_size_sheet, usual())
    print_pages(printer_to(tmp_path / "printed.pdf", resolution, (2, 3)), document.pages, "A4")
    with pdfplumber.open(tmp_path / "printed.pdf") as pdf:
        assert len(pdf.pages) == 2
        for page, drawn in zip(pdf.pages, document.pages[1:], strict=False):
            assert page.images == []
            # the system's writer rounds the paper to whole points, 0.35 mm
            size = float(page.width) / 72 * INCH, float(page.height) / 72 * INCH
            assert size == pytest.approx((drawn.width, drawn.height), abs=0.36)
            (across,) = (line for line in page.lines if abs(line["width"] / 72 * INCH - 100) < 1)
            (upright,) = (line for line in page.lines if abs(line["height"] / 72 * INCH - 100) < 1)
            assert across["width"] / 72 * INCH == pytest.approx(100, abs=0.05)
            assert upright["height"] / 72 * INCH == pytest.approx(100, abs=0.05)
            # a margin of 10: the bar across lies 2 mm within it, and 2.5 mm above it
            assert across["x0"] / 72 * INCH == pytest.approx(12, abs=0.05)
            assert across["top"] / 72 * INCH == pytest.approx(drawn.height - 12.5, abs=0.05)


def test_only_the_pages_that_were_asked_for_are_printed(tmp_path: Path) -> None:
    document = laid_out(full_size_sheet, usual())
    print_pages(printer_to(tmp_path / "printed.pdf", 100, (2, 3)), document.pages, "A4")
    assert len(pypdfium2.PdfDocument(tmp_path / "printed.pdf")) == 2


def test_a_page_too_large_for_memory_is_drawn_coarser() -> None:
    document = RecordedDocument()
    document.page(841, 1189)
    image = picture(document.pages[0], 600 / INCH)  # 19 866 x 28 087 pixels were asked for
    assert image.width() * image.height() == pytest.approx(MOST_PIXELS, rel=0.001)


def test_pages_have_the_paper_they_were_asked_for() -> None:
    (page, *_) = laid_out(PAGES["elevation"], usual(), (), SheetOptions(paper="A3")).pages
    assert sorted((page.width, page.height)) == [297, 420]
