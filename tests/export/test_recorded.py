"""A recorded page draws again on another page all that was drawn on it, in order, windows included."""

import pytest

from export.recorded import RecordedDocument, RecordedPage

TRIANGLE = [(0.0, 0.0), (10.0, 0.0), (0.0, 10.0)]


def drawn() -> RecordedPage:
    page = RecordedDocument().page(210, 297, name="A1")
    page.line("wall", (0, 0), (1, 1))
    with page.within(5, 5, 20, 30):
        page.fill("chase", TRIANGLE)
        page.circle("drill", (5, 5), 2)
    page.text("text", (1, 2), "between", 3)
    with page.within(1, 1, 2, 2):
        page.dimension("dimension", (0, 0), (5, 0), (0, 3), "x", "5", 2)
    return page


def test_a_page_drawn_again_is_the_same() -> None:
    page, again = drawn(), RecordedPage(210, 297, "A1")
    page.draw(again)
    assert [stroke.verb for stroke in again.strokes] == ["line", "fill", "circle", "text", "dimension"]
    assert again.strokes == page.strokes
    assert again.windows == page.windows
    assert [(w.first, w.after, w.bounds) for w in again.windows] == [
        (1, 3, (5, 5, 20, 30)),
        (4, 5, (1, 1, 2, 2)),
    ]


def test_a_window_in_a_window_is_refused() -> None:
    page = RecordedPage(210, 297)
    outer, inner = page.within(0, 0, 9, 9), page.within(1, 1, 2, 2)
    with pytest.raises(ValueError, match="no windows in it"), outer, inner:
        page.line("wall", (0, 0), (1, 1))


def test_a_document_keeps_its_title_and_its_pages_in_order() -> None:
    document = RecordedDocument()
    document.entitle("Marking", author="A", subject="B")
    document.page(210, 297, name="first")
    document.page(420, 297, name="second")
    assert document.title == "Marking"
    assert [(page.name, page.width) for page in document.pages] == [("first", 210), ("second", 420)]
