"""The PDF as a document: pages, what a viewer is told, bookmarks, equal bytes."""

import io
import math

import pypdf
import pytest

from export.pdf import PdfDocument
from tests.export.pdf_pages import document, page_of
from tests.export.pdf_reader import POINT

# pages


def test_each_page_has_its_own_size() -> None:
    made = document()
    made.page(210, 297)
    made.page(420, 297)
    reader = pypdf.PdfReader(io.BytesIO(made.to_bytes()))
    sizes = [
        (float(page.mediabox.width) * POINT, float(page.mediabox.height) * POINT) for page in reader.pages
    ]
    assert sizes == [pytest.approx((210, 297), abs=0.001), pytest.approx((420, 297), abs=0.001)]


def test_a_document_without_pages_is_refused() -> None:
    with pytest.raises(ValueError, match="one page at least"):
        document().to_bytes()


@pytest.mark.parametrize("size", [(0, 297), (210, -1), (math.nan, 297), (210, math.inf)])
def test_paper_without_a_size_is_refused(size: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="page 'A1': paper must have a size above 0 mm"):
        document().page(*size, name="A1")


def test_a_finished_page_cannot_be_drawn_on() -> None:
    made, first = page_of()
    made.page(210, 297)
    with pytest.raises(ValueError, match="this page is finished"):
        first.line("wall", (0, 0), (1, 1))
    made.to_bytes()
    with pytest.raises(ValueError, match="page 'late': the document is complete"):
        made.page(210, 297, name="late")


# what a viewer is told


def test_a_viewer_is_asked_not_to_scale_and_to_show_the_title() -> None:
    made, _ = page_of()
    root = pypdf.PdfReader(io.BytesIO(made.to_bytes())).root_object
    preferences = root["/ViewerPreferences"].get_object()
    assert isinstance(preferences, pypdf.generic.DictionaryObject)
    assert str(preferences["/PrintScaling"]) == "/None"
    assert preferences["/DisplayDocTitle"] == pypdf.generic.BooleanObject(True)
    assert str(root["/Lang"]) == "en-GB"
    assert made.to_bytes().startswith(b"%PDF-1.7")  # PrintScaling came with 1.6, from memory


def test_title_author_and_subject_read_back_as_typed() -> None:
    made = PdfDocument()
    made.entitle("Łódź <b>&\n\u05d7\u05d3\u05e8", author="Ж (a)", subject="1:1 \\ %")
    made.page(210, 297)
    information = pypdf.PdfReader(io.BytesIO(made.to_bytes())).metadata
    assert information is not None
    assert information.title == "Łódź <b>& \u05d7\u05d3\u05e8"
    assert information.author == "Ж (a)"
    assert information.subject == "1:1 \\ %"


def test_bookmarks_lead_to_their_pages() -> None:
    made = document()
    for name in ("Calibration", "", "B2 Łódź (left)"):
        made.page(210, 297, name=name).line("wall", (0, 0), (1, 1))
    reader = pypdf.PdfReader(io.BytesIO(made.to_bytes()))
    leads = [
        (entry.title, reader.get_destination_page_number(entry))
        for entry in reader.outline
        if isinstance(entry, pypdf.generic.Destination)
    ]
    assert leads == [("Calibration", 0), ("B2 Łódź (left)", 2)]


# bytes


def test_equal_drawings_give_equal_bytes() -> None:
    def drawn(text: str) -> bytes:
        made, pen = page_of()
        pen.text("text", (10, 50), text, 5)
        pen.polyline("recess", [(10, 10), (50, 10), (50, 50)], closed=True)
        return made.to_bytes()

    first = drawn("\u05de\u05e7\u05dc\u05d7\u05ea 600")
    drawn("other letters in between")
    assert drawn("\u05de\u05e7\u05dc\u05d7\u05ea 600") == first


def test_asking_twice_gives_the_same_file() -> None:
    made, pen = page_of()
    pen.line("wall", (0, 0), (1, 1))
    assert made.to_bytes() == made.to_bytes()


def test_pages_are_compressed() -> None:
    made, pen = page_of()
    for i in range(1000):
        pen.line("tile", (0, i / 10), (200, i / 10))
    assert len(made.to_bytes()) < 20_000
