"""A photograph is read whole or refused in a few words, and stands upright in a PDF, byte for byte."""

import io

import numpy as np
import pypdf
import pypdfium2
import pytest
from PIL import Image

from export.pdf import PdfDocument
from export.picture import Picture, read_picture
from tests.export.photographs import SIDES, photograph, seen


def as_pdf(*pictures: Picture) -> bytes:
    """Return a page of 100 x 80 mm for each picture, which lies 10 from its left and 20 from its bottom."""
    made = PdfDocument()
    for picture in pictures:
        pen = made.page(100, 80)
        pen.picture("rule", picture, (10, 20, 10 + picture.width / 10, 20 + picture.height / 10))
    return made.to_bytes()


def test_a_picture_turned_by_a_quarter_is_as_wide_as_it_is_stored_high() -> None:
    assert read_picture(photograph(64, 48, 1))[1:] == (64, 48, 1)
    assert read_picture(photograph(64, 48, 6))[1:] == (48, 64, 6)
    assert read_picture(photograph(64, 48, 3, "PNG"))[1:] == (64, 48, 3)
    assert read_picture(photograph(64, 48, 9))[1:] == (64, 48, 1)  # there is no such number


@pytest.mark.parametrize("kind", ["JPEG", "PNG"])
@pytest.mark.parametrize("orientation", SIDES)
def test_a_picture_stands_upright(orientation: int, kind: str) -> None:
    data = as_pdf(read_picture(photograph(600, 400, orientation, kind)))
    wide, high = (60, 40) if orientation <= 4 else (40, 60)
    grey = pypdfium2.PdfDocument(data)[0].render(scale=72 / 25.4, grayscale=True).to_numpy().squeeze()
    # 72 / 25.4 pixels a point are 8.03 a mm; the middles of the four quarters, in mm from the top left
    per_mm = grey.shape[1] / 100
    found = [
        grey[round((80 - 20 - high * down) * per_mm), round((10 + wide * across) * per_mm)]
        for down in (0.75, 0.25)
        for across in (0.25, 0.75)
    ]
    assert np.abs(np.subtract(found, seen(orientation), dtype=float)).max() <= 3


def test_a_jpeg_goes_in_byte_for_byte_and_once() -> None:
    data = photograph(600, 400, 6)
    made = as_pdf(read_picture(data), read_picture(data))
    assert made.count(data) == 1
    assert made == as_pdf(read_picture(data), read_picture(data))
    assert [len(page.images) for page in pypdf.PdfReader(io.BytesIO(made)).pages] == [1, 1]


def test_what_is_clear_in_a_png_stays_clear() -> None:
    file = io.BytesIO()
    Image.new("RGBA", (100, 100), (0, 0, 0, 0)).save(file, "PNG")
    shown = pypdfium2.PdfDocument(as_pdf(read_picture(file.getvalue())))[0].render(grayscale=True)
    # the middle of 10 x 10 mm at (10, 20), from the top left and in points: (15, 80 - 25)
    assert shown.to_numpy().squeeze()[round(55 * 72 / 25.4), round(15 * 72 / 25.4)] == 255


@pytest.mark.parametrize(
    ("data", "problem"),
    [
        (b"", "neither JPEG nor PNG"),
        (b"GIF89a" + bytes(40), "neither JPEG nor PNG"),
        (b"\xff\xd8\xff", "broken or cut short"),
        (b"\xff\xd8\xff" + bytes(500), "broken or cut short"),
        (b"\x89PNG\r\n\x1a\n", "broken or cut short"),
        (photograph(600, 400)[:1500], "broken or cut short"),
        (photograph(600, 400, kind="PNG")[:200], "broken or cut short"),
    ],
)
def test_what_cannot_be_drawn_is_refused(data: bytes, problem: str) -> None:
    with pytest.raises(ValueError, match=f"^{problem}$"):
        read_picture(data)


def test_a_picture_that_would_fill_the_memory_is_refused_unread() -> None:
    data = bytearray(photograph(64, 48, kind="PNG"))
    data[16:24] = (50_000).to_bytes(4, "big") * 2  # the width and height that the file says it has
    with pytest.raises(ValueError, match=r"^too large: 50000 x 50000 pixels, at most 80 million$"):
        read_picture(bytes(data))
