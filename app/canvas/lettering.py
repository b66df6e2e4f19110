"""The lettering of the drawing on the screen: the font of the sheets, at sizes in pixels.

The same font file makes words as wide here as the sums in `export/text.py` say, which need no Qt.
"""

from functools import cache

from PySide6.QtGui import QFont, QFontDatabase

from export.text import CAPITAL, FONTS


@cache
def _family(bold: bool) -> tuple[str, ...]:
    number = QFontDatabase.addApplicationFont(str(FONTS[bold]))
    return tuple(QFontDatabase.applicationFontFamilies(number)) if number >= 0 else ()


@cache
def font(pixels: int, bold: bool = False) -> QFont:
    """Return the drawing's font, `pixels` from line to line of the font's own square.

    Without the font file, Qt's own choice of a plain font takes its place.
    """
    chosen = QFont(list(_family(bold)) or ["sans-serif"])
    chosen.setPixelSize(max(1, pixels))
    chosen.setBold(bold)
    return chosen


def font_for(capital: float, *, bold: bool = False) -> QFont:
    """Return the font whose capital letters are nearest to `capital` pixels high."""
    return font(round(capital / CAPITAL), bold)
