"""Printing at true size through the system's dialogue: pages lie in the paper's corner, never fitted."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication, QMarginsF, QRectF
from PySide6.QtGui import QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QMessageBox, QWidget

from app.panels.pages import Pages

DPI = 300
"""Pixels to the inch at which pages are handed to the printer."""
_SIZES = {
    "A0": QPageSize.PageSizeId.A0,
    "A1": QPageSize.PageSizeId.A1,
    "A2": QPageSize.PageSizeId.A2,
    "A3": QPageSize.PageSizeId.A3,
    "A4": QPageSize.PageSizeId.A4,
    "A5": QPageSize.PageSizeId.A5,
}


def warning(paper: str) -> str:
    """Return what must be set in the dialogue that follows, in words."""
    text = QCoreApplication.translate(
        "Printing",
        "In the next dialogue set the paper to %1 and the scale to 100 %, which some printers call “actual"
        " size”. Turn off “fit to page”, “shrink” and borderless printing.\n\nThen measure both 100 mm bars"
        " on the first page before anything is marked.",
    )
    return text.replace("%1", paper)


def ask_and_print(parent: QWidget, documents: Sequence[Pages], paper: str) -> bool:
    """Warn, let the user choose a printer, and print; return whether anything was printed."""
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Warning)
    box.setWindowTitle(QCoreApplication.translate("Printing", "Print at actual size"))
    box.setText(warning(paper))
    box.setStandardButtons(QMessageBox.StandardButton.Ok | QMessageBox.StandardButton.Cancel)
    box.setDefaultButton(QMessageBox.StandardButton.Ok)
    if box.exec() != QMessageBox.StandardButton.Ok:
        return False
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    total = sum(len(document) for document in documents)
    _set_page(printer, paper, documents[0].size(0))
    printer.setFromTo(1, total)
    dialog = QPrintDialog(printer, parent)
    dialog.setOption(QPrintDialog.PrintDialogOption.PrintPageRange)
    dialog.setMinMax(1, total)
    if dialog.exec() != QPrintDialog.DialogCode.Accepted:
        return False
    print_pages(printer, documents, paper)
    return True


def print_pages(printer: QPrinter, documents: Sequence[Pages], paper: str) -> None:
    """Print the pages of the documents one after the other, each at its true size from the paper's corner."""
    first, last = printer.fromPage(), printer.toPage()
    painter = QPainter()
    pages = [(document, number) for document in documents for number in range(len(document))]
    for place, (document, number) in enumerate(pages, 1):
        if (first and place < first) or (last and place > last):
            continue
        size = document.size(number)
        _set_page(printer, paper, size)
        if painter.isActive():
            printer.newPage()
        elif not painter.begin(printer):
            raise OSError(QCoreApplication.translate("Printing", "the printer does not answer"))
        painter.setRenderHint(QPainter.RenderHint.LosslessImageRendering)
        unit = printer.resolution() / 25.4
        painter.drawImage(
            QRectF(0, 0, size[0] * unit, size[1] * unit),
            document.picture(number, min(DPI, printer.resolution())),
        )
    painter.end()


def _set_page(printer: QPrinter, paper: str, size: tuple[float, float]) -> None:
    """Set paper and its turn, with the origin in the corner of the paper and not of what can be printed."""
    turned = size[0] > size[1]
    turn = QPageLayout.Orientation.Landscape if turned else QPageLayout.Orientation.Portrait
    printer.setFullPage(True)
    printer.setPageLayout(QPageLayout(QPageSize(_SIZES[paper]), turn, QMarginsF(0, 0, 0, 0)))
    printer.setFullPage(True)
