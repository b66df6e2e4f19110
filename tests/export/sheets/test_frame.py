"""Frame and title block: where ISO 5457 and ISO 7200 put them, and every word inside its field."""

import pytest

from export.recorder import Recorder
from export.sheets.frame import LOCAL_CODES, Sheet, draw_frame, frame_box, inside, title_box
from export.sheets.paper import SIZES, Paper, paper
from geometry.model import About
from tests.export.jobs import AWKWARD
from tests.export.measured import pieces, touching, words

ALL = [paper(name, landscape=way) for name in SIZES for way in (False, True)]
FULL = About(
    title="Shower wall",
    owner="Owner",
    number="CW-1",
    date="2026-10-05",
    creator="Creator",
    approved_by="Approver",
    revision="C",
    place="Bathroom, north wall",
)


def drawn(sheet: Paper, about: About = FULL) -> Recorder:
    pen = Recorder()
    draw_frame(pen, Sheet(sheet, about, "Elevation", "1:20", 2, 3))
    return pen


@pytest.mark.parametrize("sheet", ALL)
def test_the_border_is_20_mm_at_the_left_and_10_mm_elsewhere(sheet: Paper) -> None:
    # ISO 5457, from memory
    assert frame_box(sheet) == (20, 10, sheet.width - 10, sheet.height - 10)
    frame = drawn(sheet).on("frame")[0].values["points"]
    assert (frame[0], frame[2]) == ((20, 10), (sheet.width - 10, sheet.height - 10))


@pytest.mark.parametrize("sheet", ALL)
def test_the_title_block_is_at_the_lower_right_and_at_most_180_mm_wide(sheet: Paper) -> None:
    left, low, right, top = title_box(sheet)
    assert (right, low) == (sheet.width - 10, 10)
    assert right - left == min(180, sheet.width - 30)
    assert top < sheet.height / 2


@pytest.mark.parametrize("sheet", ALL)
@pytest.mark.parametrize("about", [FULL, AWKWARD, About()])
def test_words_neither_touch_nor_leave_the_title_block(sheet: Paper, about: About) -> None:
    left, low, right, top = title_box(sheet)
    found = words(drawn(sheet, about))
    assert touching(found) == []
    for text in found:
        x0, y0, x1, y1 = text.bounds
        assert left <= x0 <= x1 <= right
        assert low <= y0 <= y1 <= top
        assert text.height >= 1.8


@pytest.mark.parametrize("sheet", ALL)
def test_no_word_crosses_a_rule(sheet: Paper) -> None:
    pen = drawn(sheet, AWKWARD)
    for text in words(pen):
        x0, y0, x1, y1 = text.bounds
        for (ax, ay), (bx, by) in pieces(pen, "rule", "frame"):
            level = ay == by and y0 < ay < y1 and max(x0, min(ax, bx)) < min(x1, max(ax, bx))
            upright = ax == bx and x0 < ax < x1 and max(y0, min(ay, by)) < min(y1, max(ay, by))
            assert not level
            assert not upright


def test_every_field_of_iso_7200_is_there() -> None:
    # mandatory: legal owner, identification number, date of issue, sheet number, title, approval person,
    # creator, document type; of the optional ones revision, number of sheets, paper size
    written = [text.text for text in words(drawn(paper("A4")))]
    for value in ("Owner", "CW-1", "2026-10-05", "2 / 3", "Shower wall", "Approver", "Creator", "Elevation"):
        assert value in written
    for value in ("C", "Bathroom, north wall", "1:20", "A4", "mm", LOCAL_CODES):
        assert value in written


def test_what_is_too_long_ends_in_an_ellipsis_and_an_empty_field_stays_blank() -> None:
    written = [text.text for text in words(drawn(paper("A4"), AWKWARD))]
    assert any(text.startswith("XXX") and text.endswith("…") for text in written)
    captions = [text.text for text in words(drawn(paper("A4"), About(title="")))]
    assert "Legal owner" in captions
    assert "" not in captions


def test_what_a_user_typed_is_shown_as_typed() -> None:
    written = [text.text for text in words(drawn(paper("A3"), AWKWARD))]
    assert r"Łazienka <b>bold</b> & %%c \P" in written
    assert "Ż & Co <i>" in written
    assert "מקלחת" in written


@pytest.mark.parametrize("sheet", ALL)
def test_the_free_room_lies_inside_the_frame_and_above_the_title_block(sheet: Paper) -> None:
    left, low, right, top = inside(sheet)
    frame = frame_box(sheet)
    assert frame[0] < left < right < frame[2]
    assert title_box(sheet)[3] < low < top < frame[3]
