"""PDF files as readers see them that did not write them."""

import io
from typing import Any

import pdfplumber
import pypdf
import pypdfium2

POINT = 25.4 / 72  # mm in a point of PDF, 1/72 inch


def plumbed(data: bytes, number: int = 0) -> pdfplumber.page.Page:
    """Return a page with its letters, lines and curves, in points."""
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        page = pdf.pages[number]
        page.chars  # noqa: B018  # read while the file is open
        return page


def operations(data: bytes, number: int = 0) -> list[tuple[list[Any], bytes]]:
    """Return the drawing operations of a page, in order."""
    reader = pypdf.PdfReader(io.BytesIO(data))
    content = reader.pages[number].get_contents()
    assert content is not None
    return pypdf.generic.ContentStream(content, reader).operations


def rendered(data: bytes, pixels_per_mm: float) -> Any:
    """Return the first page as an array of grey values, top row first."""
    pdf = pypdfium2.PdfDocument(data)
    try:
        return pdf[0].render(scale=pixels_per_mm * POINT, grayscale=True).to_numpy().squeeze()
    finally:
        pdf.close()
