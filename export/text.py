"""Text as it will stand on paper: its order, its width, and what has to give when it is too long.

Heights are those of a capital letter, widths are in the same millimetres. The letters are those of
the font in `export/fonts`, read directly so that a drawing can place its labels without loading any
writer. Nothing here draws, and nothing here knows a file format.
"""

import struct
import unicodedata
from bisect import bisect_right
from functools import lru_cache
from operator import itemgetter
from pathlib import Path
from typing import Any, NamedTuple

from export.pen import Align

FONTS = {
    False: Path(__file__).parent / "fonts" / "DejaVuSans.ttf",
    True: Path(__file__).parent / "fonts" / "DejaVuSans-Bold.ttf",
}
"""The font file for plain text and for bold text."""

CAPITAL = 1493 / 2048
"""Height of a capital letter over the size of the font: the top of H in both files, 1493 of 2048 units."""

BOLD_LAYERS = frozenset({"caution", "frame"})
"""Layers whose text is bold: what must not be overlooked, and the headings of a sheet."""

SINK = 0.35
"""How far tails and brackets reach below the baseline, as a share of the capital height (g: 426 of 1493)."""

RISE = 1.35
"""How far accents on capitals reach above the baseline, as a share of the capital height."""

_UNKNOWN = "?"
_ELLIPSIS = "…"
_ARABIC = range(0x0600, 0x0780)  # Arabic, Syriac and Arabic Supplement blocks of Unicode
_ISOLATES = "\u2066\u2067\u2068\u2069"


def is_bold(layer: str) -> bool:
    """Return whether text on this layer is bold."""
    return layer in BOLD_LAYERS


def clean(text: str) -> str:
    """Return the text on one line: control characters become spaces, accents join their letters."""
    if text.isprintable() and unicodedata.is_normalized("NFC", text):
        return text
    spaced = "".join(" " if unicodedata.category(c) in ("Cc", "Zl", "Zp") else c for c in text)
    # Half of a character pair, as in a file name that could not be decoded, becomes "?".
    return unicodedata.normalize("NFC", spaced).encode(errors="replace").decode()


def missing(text: str, *, bold: bool = False) -> str:
    """Return the characters, each once, that the font lacks and that appear as "?" on paper."""
    lacking = (c for c in clean(text) if c != _UNKNOWN and _substitute(c, bold) == _UNKNOWN)
    return "".join(dict.fromkeys(lacking))


@lru_cache(maxsize=2048)
def visual(text: str, *, bold: bool = False) -> str:
    """Return the text in the order in which its letters are drawn, from left to right.

    Hebrew and Arabic are put in order by the Unicode bidirectional algorithm, and Arabic letters
    take their joined forms. A character that the font lacks becomes "?".
    """
    shown = clean(text)
    if shown.isascii():
        return shown
    if any(unicodedata.bidirectional(c) in ("R", "AL") for c in shown):
        shown = _reordered(shown, bold)
    else:
        shown = _drawable(shown, bold)
    return "".join(c for c in shown if unicodedata.category(c) != "Cf")  # marks that are not drawn


def text_width(text: str, height: float, *, bold: bool = False) -> float:
    """Return how wide the text is, in mm, when its capitals are `height` mm high."""
    return height / CAPITAL * _units(text, bold)


@lru_cache(maxsize=8192)
def _units(text: str, bold: bool) -> float:
    """Return how wide the text is, in ems of the font."""
    return sum(map(_ADVANCES[bold].__getitem__, visual(text, bold=bold)))


def text_box(
    text: str, height: float, align: Align = "left", *, bold: bool = False
) -> tuple[float, float, float, float]:
    """Return x min, y min, x max, y max of level text, counted from its anchor on the baseline, in mm."""
    width = text_width(text, height, bold=bold)
    left = {"left": 0.0, "centre": -width / 2, "right": -width}[align]
    return left, -SINK * height, left + width, RISE * height


def fitted(text: str, height: float, width: float, *, bold: bool = False) -> str:
    """Return the text, shortened with an ellipsis if it is wider than `width` mm; "" if nothing fits."""
    whole = clean(text)
    if text_width(whole, height, bold=bold) <= width:
        return whole

    def shortened(letters: int) -> str:
        return whole[:letters].rstrip() + _ELLIPSIS

    fitting = bisect_right(
        range(len(whole)), width, key=lambda letters: text_width(shortened(letters), height, bold=bold)
    )
    return shortened(fitting - 1) if fitting else ""


def wrapped(text: str, height: float, width: float, *, bold: bool = False) -> list[str]:
    """Break the text at spaces into lines no wider than `width` mm.

    A line break in the text stays one. A word wider than the line is broken within; a single letter
    wider than the line still gets a line to itself, so that nothing is lost.
    """
    lines = []
    gap = text_width(" ", height, bold=bold)
    for paragraph in text.splitlines():
        line, filled = "", 0.0  # a line and how wide it is so far: words keep their width beside others
        for word in clean(paragraph).split():
            wide = text_width(word, height, bold=bold)
            if line and filled + gap + wide <= width:
                line, filled = f"{line} {word}", filled + gap + wide
                continue
            if line:
                lines.append(line)
            *whole, line = _pieces(word, height, width, bold) if wide > width else [word]
            lines.extend(whole)
            filled = text_width(line, height, bold=bold)
        lines.append(line)
    return lines


def _pieces(word: str, height: float, width: float, bold: bool) -> list[str]:
    """Cut one word into pieces that each fit the width, of one letter at least."""
    pieces = [""]
    for letter in word:
        longer = pieces[-1] + letter
        if pieces[-1] and text_width(longer, height, bold=bold) > width:
            pieces.append(letter)
        else:
            pieces[-1] = longer
    return pieces


def _reordered(text: str, bold: bool) -> str:
    # The one of the package that also mirrors brackets.
    from bidi.algorithm import get_display

    if any(ord(c) in _ARABIC for c in text):
        text = _reshaper().reshape(text)
    # It stops at isolating marks, which come with text pasted from a telephone.
    text = "".join(c for c in _drawable(text, bold) if c not in _ISOLATES)
    return str(get_display(text))  # the first strong letter sets the direction, as in a text field


def _drawable(text: str, bold: bool) -> str:
    return "".join(_substitute(c, bold) for c in text)


def _substitute(character: str, bold: bool) -> str:
    """Return the character, or its plain equivalent ("mm" for the one-character form), or "?"."""
    if _glyph(character, bold) or unicodedata.category(character) == "Cf":
        return character
    plain = unicodedata.normalize("NFKC", character)
    return plain if all(_glyph(c, bold) for c in plain) else _UNKNOWN


@lru_cache(maxsize=1)
def _reshaper() -> Any:
    """Return what gives Arabic letters the form that fits their place in the word."""
    from arabic_reshaper import ArabicReshaper

    # The font has no single glyph for this word; its letters join as any others do.
    return ArabicReshaper(configuration={"ARABIC LIGATURE ALLAH": False})


def _glyph(character: str, bold: bool) -> int:
    """Return the number of a character's glyph; 0 if the font lacks it."""
    groups, code = _metrics(bold).groups, ord(character)
    first, last, glyph = groups[bisect_right(groups, code, key=itemgetter(0)) - 1]
    return glyph + code - first if first <= code <= last else 0


class _Advances(dict[str, float]):
    """How far each character moves the pen, as a share of the font's size; looked up when asked for."""

    def __init__(self, bold: bool) -> None:
        super().__init__()
        self._bold = bold

    def __missing__(self, character: str) -> float:
        """Look up a character that was not asked for before."""
        font, glyph = _metrics(self._bold), _glyph(character, self._bold)
        # glyphs past the last width share it
        self[character] = font.widths[min(glyph, len(font.widths) - 1)] / font.em if glyph else 0.0
        return self[character]


_ADVANCES = {bold: _Advances(bold) for bold in FONTS}


class _Metrics(NamedTuple):
    """What a font says of its letters."""

    em: int
    """Units of the font to its size."""
    widths: tuple[int, ...]
    """How far each glyph moves the pen, in units."""
    groups: list[tuple[int, ...]]
    """Runs of characters in order: the first code, the last code, the number of the first one's glyph."""


@lru_cache(maxsize=2)
def _metrics(bold: bool) -> _Metrics:
    """Read the font's own tables."""
    data = FONTS[bold].read_bytes()
    count = struct.unpack_from(">H", data, 4)[0]
    records = (struct.unpack_from(">4s4xII", data, 12 + 16 * i) for i in range(count))
    tables = {tag: data[offset : offset + length] for tag, offset, length in records}
    em = struct.unpack_from(">H", tables[b"head"], 18)[0]
    metrics = struct.unpack_from(">H", tables[b"hhea"], 34)[0]
    return _Metrics(em, struct.unpack_from(">" + "H2x" * metrics, tables[b"hmtx"]), _groups(tables[b"cmap"]))


def _groups(cmap: bytes) -> list[tuple[int, ...]]:
    """Return the runs of characters from the font's table of all Unicode (format 12)."""
    for i in range(struct.unpack_from(">H", cmap, 2)[0]):
        platform, encoding, start = struct.unpack_from(">HHI", cmap, 4 + 8 * i)
        if (platform, encoding) == (3, 10):
            groups = struct.unpack_from(">I", cmap, start + 12)[0]
            return list(struct.iter_unpack(">III", cmap[start + 16 : start + 16 + 12 * groups]))
    raise ValueError("the font has no table of all Unicode")
