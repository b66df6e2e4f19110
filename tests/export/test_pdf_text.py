"""Text in the PDF as readers see it: as typed, as high and where asked for, in fonts that the file brings."""

import io

import pypdf
import pypdfium2
import pytest

from tests.export.pdf_pages import page_of
from tests.export.pdf_reader import POINT, plumbed, rendered

TYPED = [
    "<b>bold</b>",
    "R&D <3mm> & more",
    "<img src='file:///etc/hostname'>",
    "%%c 20 %%d",
    r"one\Ptwo {\fArial;x}",
    "(unbalanced) ) ( \\",
    "Łukasz Żółć, Gęśla",
    "Ωμέγα Жанна ½ × ≤ ⌀22",
    "  blanks   kept",
]


# size and place


def test_a_capital_letter_is_as_high_as_asked() -> None:
    made, pen = page_of(60, 40)
    pen.text("text", (10, 10), "H", 20)
    dark = (rendered(made.to_bytes(), 10) < 128).nonzero()[0]
    assert (dark.max() - dark.min() + 1) / 10 == pytest.approx(20, abs=0.2)
    assert (400 - 1 - dark.max()) / 10 == pytest.approx(10, abs=0.2)  # it stands on its baseline


def test_text_ends_at_its_anchor_or_is_centred_on_it() -> None:
    made, pen = page_of()
    pen.text("text", (100, 50), "600 mm", 5, align="right")
    pen.text("text", (100, 80), "600 mm", 5, align="centre")
    pen.text("text", (100, 110), "600 mm", 5, align="right", angle=90)
    chars = plumbed(made.to_bytes()).chars
    right, centred, upright = chars[:6], chars[6:12], chars[12:]
    assert max(c["x1"] for c in right) * POINT == pytest.approx(100, abs=0.05)
    middle = (min(c["x0"] for c in centred) + max(c["x1"] for c in centred)) / 2
    assert middle * POINT == pytest.approx(100, abs=0.05)
    assert max(c["y1"] for c in upright) * POINT == pytest.approx(110, abs=0.05)
    # Turned counter-clockwise and not mirrored: across becomes up, up becomes left.
    assert all(c["matrix"][:4] == pytest.approx((0, 1, -1, 0)) for c in upright)


# as typed


@pytest.mark.parametrize("typed", TYPED)
def test_text_reads_back_as_typed(typed: str) -> None:
    made, pen = page_of()
    pen.text("text", (10, 50), typed, 3.5)
    pdf = pypdfium2.PdfDocument(made.to_bytes())
    textpage = pdf[0].get_textpage()
    read = textpage.get_text_range()
    pdf.close()
    assert " ".join(read.split()) == " ".join(typed.split())
    assert "".join(char["text"] for char in plumbed(made.to_bytes()).chars) == typed


def test_the_first_hebrew_letter_stands_rightmost() -> None:
    made, pen = page_of()
    pen.text("text", (10, 50), "\u05de\u05e7\u05dc\u05d7\u05ea", 5)
    placed = {char["text"]: char["x0"] for char in plumbed(made.to_bytes()).chars}
    assert max(placed, key=lambda letter: placed[letter]) == "\u05de"
    assert min(placed, key=lambda letter: placed[letter]) == "\u05ea"


def test_arabic_letters_are_joined_and_run_from_the_right() -> None:
    made, pen = page_of()
    pen.text("text", (10, 50), "\u0628\u064a\u062a", 5)
    chars = sorted(plumbed(made.to_bytes()).chars, key=lambda char: -char["x0"])
    # Unicode chart FE70: beh initial FE91, yeh medial FEF4, teh final FE96
    assert [char["text"] for char in chars] == ["\ufe91", "\ufef4", "\ufe96"]


# fonts


def test_cautions_are_bold() -> None:
    made, pen = page_of()
    pen.text("caution", (10, 50), "Cable", 5)
    pen.text("text", (10, 40), "Cable", 5)
    fonts = [char["fontname"] for char in plumbed(made.to_bytes()).chars]
    assert all("Bold" in name for name in fonts[:5])
    assert all("Bold" not in name for name in fonts[5:])


def test_every_font_is_embedded() -> None:
    made, pen = page_of()
    pen.text("text", (10, 50), "plain", 5)
    pen.text("caution", (10, 40), "bold", 5)
    made.page(210, 297).line("wall", (0, 0), (1, 1))
    for page in pypdf.PdfReader(io.BytesIO(made.to_bytes())).pages:
        resources = page["/Resources"].get_object()
        assert isinstance(resources, pypdf.generic.DictionaryObject)
        for font in resources.get("/Font", {}).values():
            assert "/FontFile2" in font.get_object()["/FontDescriptor"].get_object()


def test_text_after_a_fill_has_its_own_colour() -> None:
    made, pen = page_of()
    pen.text("text", (10, 10), "a", 5)
    pen.circle("masonry", (50, 50), 20)
    pen.text("text", (10, 20), "b", 5)
    first, second = plumbed(made.to_bytes()).chars
    assert first["non_stroking_color"] == second["non_stroking_color"]
