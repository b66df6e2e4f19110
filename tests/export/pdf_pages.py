"""Documents and pages of PDF to draw on."""

from export.pdf import PdfDocument, PdfPen


def document(*, title: str = "Marking sheet") -> PdfDocument:
    """Return a document that has no page yet."""
    made = PdfDocument()
    made.entitle(title)
    return made


def page_of(width: float = 210, height: float = 297) -> tuple[PdfDocument, PdfPen]:
    """Return a document and its first page, in mm."""
    made = document()
    return made, made.page(width, height, name="A1")
