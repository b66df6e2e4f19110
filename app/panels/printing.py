"""Printing at true size through the system's dialogue: pages lie in the paper's corner, never fitted."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication, QMarginsF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QMessageBox, QWidget

from app.panels.pages import paint
from export.recorded import RecordedPage

_SIZES = {
    "A0": QPageSize.PageSizeId.A0,
    "A1": QPageSize.PageSizeId.A1,
    "A2": QPageSize.PageSizeId.A2,
    "A3": QPageSize.PageSizeId.A3,
    "A4": QPageSize.PageSizeId.A4,
    "A5": QPageSize.PageSizeId.A5,
}


def has_bars(pages: Sequence[RecordedPage]) -> bool:
    """Return whether any page has check bars to measure."""
    return any(page.on("check-bar") for page in pages)


def warning(paper: str, *, bars: bool) -> str:
    """Return what must be set in the dialogue that follows, and measured after it, in words."""
    text = QCoreApplication.translate(
        "Printing",
        "In the next dialogue set the paper to %1 and the scale to 100\u00a0%, which some printers call"
        " “actual size”. Turn off “fit to page”, “shrink” and borderless printing.",
    )
    measure = QCoreApplication.translate(
        "Printing",
        "Then measure both 100\u00a0mm bars on the first page that has them before anything is marked.",
    )
    return text.replace("%1", paper) + (f"\n\n{measure}" if bars else "")


def ask_and_print(parent: QWidget, pages: Sequence[RecordedPage], paper: str) -> bool:
    """Warn, let the user choose a printer, and print; return whether anything was printed."""
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Warning)
    box.setWindowTitle(QCoreApplication.translate("Printing", "Print at actual size"))
    box.setText(warning(paper, bars=has_bars(pages)))
    box.setStandardButtons(QMessageBox.StandardButton.Ok | QMessageBox.StandardButton.Cancel)
    box.setDefaultButton(QMessageBox.StandardButton.Ok)
    if box.exec() != QMessageBox.StandardButton.Ok:
        return False
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    _set_page(printer, paper, pages[0])
    printer.setFromTo(1, len(pages))
    dialog = QPrintDialog(printer, parent)
    dialog.setOption(QPrintDialog.PrintDialogOption.PrintPageRange)
    dialog.setMinMax(1, len(pages))
    if dialog.exec() != QPrintDialog.DialogCode.Accepted:
        return False
    print_pages(printer, pages, paper)
    return True


def print_pages(printer: QPrinter, pages: Sequence[RecordedPage], paper: str) -> None:
    """Print pages one after the other, each at its true size from the paper's upper left corner.

    The printer gets strokes and outlines, never pixels, so that it draws each as finely as it can.

    Raises:
        OSError: the printer does not take them.
    """
    first, last = printer.fromPage(), printer.toPage()
    painter = QPainter()
    for place, page in enumerate(pages, 1):
        if (first and place < first) or (last and place > last):
            continue
        _set_page(printer, paper, page)
        if painter.isActive():
            printer.newPage()
        elif not painter.begin(printer):
            raise OSError(QCoreApplication.translate("Printing", "the printer does not answer"))
        paint(painter, page, printer.resolution() / 25.4)
    painter.end()


def _set_page(printer: QPrinter, paper: str, page: RecordedPage) -> None:
    """Set paper and its turn, with the origin in the corner of the paper and not of what can be printed."""
    turned = page.width > page.height
    turn = QPageLayout.Orientation.Landscape if turned else QPageLayout.Orientation.Portrait
    printer.setFullPage(True)
    printer.setPageLayout(QPageLayout(QPageSize(_SIZES[paper]), turn, QMarginsF(0, 0, 0, 0)))
    printer.setFullPage(True)
