"""A photograph as a value: the bytes of its file, and how it is turned to be seen upright.

The bytes stay as they are. A camera held upright writes its picture lying down and says by a number of Exif
(1 to 8; CIPA DC-008, tag 274, from memory) how it is to be turned; pens turn it as they draw it.
"""

import struct
from io import BytesIO
from typing import NamedTuple

from geometry.shape.outline import Bounds

MOST_PIXELS = 80_000_000
"""Four bytes each while it is read; most phones take 12 to 50 million."""
_JPEG, _PNG = b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n"
_ORIENTATION = 274
_TURNS = {
    1: (1, 0, 0, 1, 0, 0),
    2: (-1, 0, 0, 1, 1, 0),
    3: (-1, 0, 0, -1, 1, 1),
    4: (1, 0, 0, -1, 0, 1),
    5: (0, -1, -1, 0, 1, 1),
    6: (0, -1, 1, 0, 0, 1),
    7: (0, 1, 1, 0, 0, 0),
    8: (0, 1, -1, 0, 1, 0),
}
"""By the number of Exif, how a picture as stored in a square of 1, y up, is laid in the square upright."""


class Picture(NamedTuple):
    """A JPEG or PNG that can be read whole; made by `read_picture`."""

    data: bytes
    """Of the file."""
    width: float
    """In pixels, seen upright."""
    height: float
    orientation: int = 1

    @property
    def is_jpeg(self) -> bool:
        """Whether the file is a JPEG."""
        return self.data.startswith(_JPEG)

    def matrix(self, box: Bounds) -> tuple[float, float, float, float, float, float]:
        """Return a, b, c, d, e, f that lay the picture upright in a box.

        A point (u, v) of the picture as stored, in a square of 1 and y up, comes to
        (a u + c v + e, b u + d v + f).
        """
        left, low, right, top = box
        wide, high = right - left, top - low
        a, b, c, d, e, f = _TURNS[self.orientation]
        return a * wide, b * high, c * wide, d * high, left + e * wide, low + f * high


def read_picture(data: bytes) -> Picture:
    """Read a photograph, whole, so that no broken one gets further.

    Args:
        data: of a JPEG or PNG file.

    Raises:
        ValueError: it cannot be drawn; says why in a few words.
    """
    from PIL import Image

    width, height = _size(data)
    if not 0 < width * height <= MOST_PIXELS:
        most = f"at most {MOST_PIXELS // 1_000_000} million"
        raise ValueError(f"too large: {width} x {height} pixels, {most}")
    try:
        with Image.open(BytesIO(data), formats=("JPEG", "PNG")) as image:
            if image.size != (width, height):
                raise ValueError("two sizes")
            orientation = image.getexif().get(_ORIENTATION, 1)
            image.draft(None, (width // 8, height // 8))  # a JPEG is read at an eighth of its size: all of it
            image.load()
    except (OSError, SyntaxError, ValueError, EOFError, struct.error):
        raise ValueError("broken or cut short") from None
    if orientation not in _TURNS:
        orientation = 1
    if orientation >= 5:  # it is turned by a quarter
        width, height = height, width
    return Picture(data, width, height, orientation)


def _size(data: bytes) -> tuple[int, int]:
    """Return width and height as stored, in pixels; ValueError if the file does not say."""
    from reportlab.pdfbase.pdfdoc import PDFError
    from reportlab.pdfbase.pdfutils import readJPEGInfo

    try:
        if data.startswith(_JPEG):
            width, height, *_ = readJPEGInfo(BytesIO(data))  # type: ignore[misc]  # it never returns None
        elif data.startswith(_PNG):
            width, height = struct.unpack_from(">II", data, 16)
        else:
            raise ValueError("neither JPEG nor PNG")
    except (struct.error, IndexError, PDFError):
        raise ValueError("broken or cut short") from None
    return width, height
