"""Photographs for tests: four plain quarters whose greys tell how a picture is turned."""

import io

from PIL import Image

GREYS = (20, 90, 160, 230)
"""Of the quarters as stored: row 0 column 0, row 0 last column, last row column 0, last row last column."""
SIDES = {
    1: ("top", "left"),
    2: ("top", "right"),
    3: ("bottom", "right"),
    4: ("bottom", "left"),
    5: ("left", "top"),
    6: ("right", "top"),
    7: ("right", "bottom"),
    8: ("left", "bottom"),
}
"""Orientation of Exif (CIPA DC-008, tag 274, from memory): the side seen of row 0, and that of column 0."""
_OPPOSITE = {"top": "bottom", "bottom": "top", "left": "right", "right": "left"}


def photograph(width: int, height: int, orientation: int = 1, kind: str = "JPEG") -> bytes:
    """Return a file of so many pixels as stored."""
    image = Image.new("L", (width, height))
    for number, grey in enumerate(GREYS):
        left, top = number % 2 * (width // 2), number // 2 * (height // 2)
        image.paste(grey, (left, top, left + width // 2, top + height // 2))
    exif = Image.Exif()
    exif[274] = orientation
    file = io.BytesIO()
    image.convert("RGB").save(file, kind, exif=exif)
    return file.getvalue()


def seen(orientation: int) -> tuple[int, int, int, int]:
    """Return the greys as they are seen upright: top left, top right, bottom left, bottom right."""
    row, column = SIDES[orientation]
    greys = {
        frozenset((a, b)): GREYS[2 * last_row + last_column]
        for last_row, a in enumerate((row, _OPPOSITE[row]))
        for last_column, b in enumerate((column, _OPPOSITE[column]))
    }
    corners = (("top", "left"), ("top", "right"), ("bottom", "left"), ("bottom", "right"))
    one, two, three, four = (greys[frozenset(corner)] for corner in corners)
    return one, two, three, four
