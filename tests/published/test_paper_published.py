"""Paper sizes against ISO 216:2007 (main ISO-A series).

Status: the table from memory, verify against the standard; the rules of the series are arithmetic:
an A0 sheet has 1 m2, the sides are as 1 to the root of 2, and each size is the one before halved
across its longer side, rounded down to whole millimetres.
"""

import io
import math

import pypdf
import pytest

from export.pdf import PdfDocument
from export.sheets.paper import SIZES, paper

# ISO 216:2007, main series, trimmed sizes in mm; from memory, high confidence.
A_SERIES = {
    "A0": (841, 1189),
    "A1": (594, 841),
    "A2": (420, 594),
    "A3": (297, 420),
    "A4": (210, 297),
    "A5": (148, 210),
}
# The sizes that viewers of PDF report, in points of 1/72 inch: 210 x 72 / 25.4 = 595.276 and so on.
POINTS = {"A3": (841.890, 1190.551), "A4": (595.276, 841.890)}


def test_trimmed_sizes_are_those_of_iso_216() -> None:
    assert SIZES == A_SERIES


@pytest.mark.parametrize(
    ("larger", "smaller"), [("A0", "A1"), ("A1", "A2"), ("A2", "A3"), ("A3", "A4"), ("A4", "A5")]
)
def test_each_size_is_half_of_the_one_before(larger: str, smaller: str) -> None:
    width, height = SIZES[larger]
    assert SIZES[smaller] == (height // 2, width)


def test_a0_has_a_square_metre() -> None:
    # 841 x 1189 = 999949 mm2: the sides are 2^(-1/4) and 2^(1/4) m, rounded to whole mm.
    width, height = SIZES["A0"]
    assert (width, height) == (round(1000 * 2**-0.25), round(1000 * 2**0.25))


@pytest.mark.parametrize("name", sorted(SIZES))
def test_the_sides_are_as_one_to_the_root_of_two(name: str) -> None:
    width, height = SIZES[name]
    # Within the millimetre to which each side is rounded.
    assert height == pytest.approx(width * math.sqrt(2), abs=1.0 + math.sqrt(2))


@pytest.mark.parametrize("name", sorted(POINTS))
def test_a_pdf_page_has_the_points_that_its_size_comes_to(name: str) -> None:
    document = PdfDocument()
    for landscape in (False, True):
        document.page(*paper(name, landscape=landscape)[1:])
    upright, turned = pypdf.PdfReader(io.BytesIO(document.to_bytes())).pages
    assert (upright.mediabox.width, upright.mediabox.height) == pytest.approx(POINTS[name], abs=0.001)
    assert (turned.mediabox.width, turned.mediabox.height) == pytest.approx(POINTS[name][::-1], abs=0.001)
