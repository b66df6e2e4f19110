"""The PDF as three readers see it: true sizes, text as typed, looks of the layers, equal bytes."""

import ctypes
import io
import math
from typing import Any

import pdfplumber
import pypdf
import pypdfium2
import pypdfium2.raw as raw
import pytest

from export.layers import DASHES, LAYERS, Layer
from export.pdf import PdfDocument, PdfPen
from export.wrapped_pens import Clipped

POINT = 25.4 / 72  # mm in a point of PDF, 1/72 inch

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


def document(*, title: str = "Marking sheet") -> PdfDocument:
    made = PdfDocument()
    made.entitle(title)
    return made


def page_of(width: float = 210, height: float = 297) -> tuple[PdfDocument, PdfPen]:
    made = document()
    return made, made.page(width, height, name="A1")


def plumbed(data: bytes, number: int = 0) -> pdfplumber.page.Page:
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


# True size


def test_a_hundred_millimetre_line_measures_a_hundred_in_each_direction() -> None:
    made, pen = page_of()
    pen.line("check-bar", (20, 30), (120, 30))
    pen.line("check-bar", (20, 30), (20, 130))
    across, up = plumbed(made.to_bytes()).lines
    assert (across["x1"] - across["x0"]) * POINT == pytest.approx(100, abs=0.005)
    assert across["x0"] * POINT == pytest.approx(20, abs=0.005)
    assert (up["y1"] - up["y0"]) * POINT == pytest.approx(100, abs=0.005)
    assert up["y0"] * POINT == pytest.approx(30, abs=0.005)


def test_a_second_reader_measures_the_same_hundred() -> None:
    made, pen = page_of()
    pen.line("check-bar", (20, 30), (120, 30))
    pdf = pypdfium2.PdfDocument(made.to_bytes())
    [line] = pdf[0].get_objects()
    ends = []
    for i in range(raw.FPDFPath_CountSegments(line)):
        x, y = ctypes.c_float(), ctypes.c_float()
        raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(line, i), x, y)
        ends.append(line.get_matrix().on_point(x.value, y.value))
    pdf.close()
    assert [(x * POINT, y * POINT) for x, y in ends] == [
        pytest.approx((20, 30), abs=0.005),
        pytest.approx((120, 30), abs=0.005),
    ]


def test_each_page_has_its_own_size() -> None:
    made = document()
    made.page(210, 297)
    made.page(420, 297)
    reader = pypdf.PdfReader(io.BytesIO(made.to_bytes()))
    sizes = [
        (float(page.mediabox.width) * POINT, float(page.mediabox.height) * POINT) for page in reader.pages
    ]
    assert sizes == [pytest.approx((210, 297), abs=0.001), pytest.approx((420, 297), abs=0.001)]


def test_a_circle_has_its_radius_and_place() -> None:
    made, pen = page_of()
    pen.circle("head", (100, 150), 50)
    [circle] = plumbed(made.to_bytes()).curves
    box = [circle[side] * POINT for side in ("x0", "y0", "x1", "y1")]
    assert box == pytest.approx([50, 100, 150, 200], abs=0.005)


def test_an_arc_runs_counter_clockwise_from_start_to_end() -> None:
    made, pen = page_of()
    pen.arc("screen", (100, 150), 50, 270, 45)
    [arc] = plumbed(made.to_bytes()).curves
    points = [(x * POINT, 297 - y * POINT) for x, y in arc["pts"]]  # this reader counts from the top
    # From straight below, on the right-hand side, to 45 degrees: 50 * sin(45) = 35.3553
    assert points[0] == pytest.approx((100, 100), abs=0.005)
    assert points[-1] == pytest.approx((135.3553, 185.3553), abs=0.005)
    assert all(x > 135 for x, _ in points[1:])
    assert all(math.dist(point, (100, 150)) == pytest.approx(50, abs=0.005) for point in points)


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


# Text as typed


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


# Looks of the layers


def test_hot_pipes_are_dashed_in_millimetres_and_cold_ones_continuous() -> None:
    made, pen = page_of()
    pen.line("pipe-hot", (10, 10), (90, 10))
    pen.line("pipe-cold", (10, 20), (90, 20))
    dashes = [operands[0] for operands, operator in operations(made.to_bytes()) if operator == b"d"]
    assert [float(length) * POINT for length in dashes[0]] == pytest.approx([3, 1.5], abs=1e-4)
    assert list(dashes[1]) == []


@pytest.mark.parametrize("layer", LAYERS)
def test_each_layer_has_its_weight_and_colour(layer: str) -> None:
    made, pen = page_of()
    pen.line(layer, (10, 10), (90, 10))
    pen.line("text", (10, 20), (90, 20))
    pen.line(layer, (10, 30), (90, 30))
    look = LAYERS[layer]
    for line in plumbed(made.to_bytes()).lines[::2]:
        assert line["linewidth"] * POINT == pytest.approx(look.weight, abs=1e-3)
        assert tuple(line["stroking_color"]) == pytest.approx(look.colour, abs=1e-3)


def test_every_pattern_has_dashes() -> None:
    assert {look.pattern for look in LAYERS.values()} <= set(DASHES)
    assert all(len(lengths) % 2 == 0 for lengths in DASHES.values())


def test_closed_shapes_are_filled_and_open_ones_are_not() -> None:
    made, pen = page_of()
    pen.polyline("masonry", [(10, 10), (50, 10), (50, 50)], closed=True)
    pen.polyline("masonry", [(10, 60), (50, 60), (50, 90)])
    pen.polyline("wall", [(60, 10), (90, 10), (90, 50)], closed=True)
    pen.circle("masonry", (150, 50), 20)
    pen.fill("masonry", [(110, 110), (150, 110), (150, 150)])
    painted = [
        operator for _, operator in operations(made.to_bytes()) if operator in (b"S", b"s", b"B*", b"f*")
    ]
    assert painted == [b"B*", b"S", b"S", b"B*", b"f*"]


def test_a_sharp_corner_does_not_reach_past_its_point() -> None:
    made, pen = page_of(80, 40)
    pen.polyline("wall", [(10, 14), (60, 20), (10, 26)])
    dark = (rendered(made.to_bytes(), 10) < 128).nonzero()[1]
    assert dark.max() / 10 == pytest.approx(60 + LAYERS["wall"].weight / 2, abs=0.2)


def test_text_after_a_fill_has_its_own_colour() -> None:
    made, pen = page_of()
    pen.text("text", (10, 10), "a", 5)
    pen.circle("masonry", (50, 50), 20)
    pen.text("text", (10, 20), "b", 5)
    first, second = plumbed(made.to_bytes()).chars
    assert first["non_stroking_color"] == second["non_stroking_color"]


def test_a_layer_that_is_not_printed_leaves_no_trace(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(LAYERS, "help", Layer((0, 0, 0), 0.25, fill=(1, 1, 1), plot=False))
    made, pen = page_of()
    pen.line("help", (10, 10), (90, 10))
    pen.circle("help", (50, 50), 10)
    pen.fill("help", [(10, 10), (20, 10), (20, 20)])
    pen.text("help", (10, 20), "hidden", 5)
    page = plumbed(made.to_bytes())
    assert page.objects == {}


def test_a_cut_shape_has_no_edge_along_the_cut() -> None:
    made, pen = page_of(110, 60)
    Clipped(pen, 10, 10, 100, 50).polyline("masonry", [(50, 20), (150, 20), (150, 40), (50, 40)], closed=True)
    grey = rendered(made.to_bytes(), 10)
    fill, paper = grey[300, 750], grey[300, 300]
    assert fill < paper  # it is filled
    assert grey[300, 480:520].min() < 100  # its own edge is dark
    assert grey[300, 980:1000].min() == fill  # the cut is not
    assert grey[300, 1005:].min() == paper


def test_nothing_shows_outside_the_window_of_a_page() -> None:
    made, pen = page_of(110, 60)
    with pen.within(10, 10, 100, 50):
        pen.text("frame", (60, 20), "a long text that runs out of the window", 10)
        pen.line("wall", (10, 10), (100, 10))
    pen.line("wall", (105, 5), (105, 55))
    grey = rendered(made.to_bytes(), 10)
    assert grey[100:500, 100:1000].min() < 100
    assert grey[:, 1005:1040].min() == 255
    assert grey[505:, :1040].min() == 255
    assert grey[300, 1040:1060].min() < 100  # what is drawn afterwards is free again


# Dimensions


def test_dimensions_come_out_as_lines_and_text() -> None:
    made, pen = page_of()
    pen.dimension("dimension", (20, 60), (100, 60), (0, 50), "x", "800", 2.5)
    pen.running("dimension", (20, 0), (120, 100), (150, 105), "y", "1000", 2.5)
    page = plumbed(made.to_bytes())
    assert "".join(char["text"] for char in page.chars) == "8001000"
    assert any(
        (line["x1"] - line["x0"]) * POINT == pytest.approx(80, abs=0.005)
        and line["y0"] * POINT == pytest.approx(50, abs=0.005)
        for line in page.lines
    )


# The document


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


# Errors


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


def test_a_coordinate_that_is_no_number_is_refused() -> None:
    _, pen = page_of()
    with pytest.raises(ValueError, match="layer 'wall': a coordinate is not a number"):
        pen.line("wall", (0, 0), (math.nan, 1))
    with pytest.raises(ValueError, match="layer 'text': a coordinate is not a number"):
        pen.text("text", (0, math.inf), "a", 5)


def test_a_single_point_is_no_line() -> None:
    _, pen = page_of()
    with pytest.raises(ValueError, match="layer 'wall': joined lines need two points or more, got 1"):
        pen.polyline("wall", [(0, 0)])
