"""Tables on sheets: rows of cells whose words wrap, with a thin rule under each row.

Millimetres on paper.
"""

from collections.abc import Sequence
from typing import NamedTuple

from export.pen import Pen
from export.sheets.flow import BODY, LINE, Block
from export.text import RISE, is_bold, wrapped

PAD = 0.9  # mm, above and below the words of a row
GUTTER = 2.5  # mm, between columns


class Words(NamedTuple):
    """One line of a cell."""

    layer: str
    text: str
    height: float = BODY


def cell(layer: str, text: str, width: float, height: float = BODY) -> list[Words]:
    """Return the lines of a cell: a text wrapped to a width."""
    return [Words(layer, line, height) for line in wrapped(text, height, width, bold=is_bold(layer))]


def row(cells: Sequence[Sequence[Words]], widths: Sequence[float]) -> Block:
    """Return one row with a thin rule under it."""
    tall = max(sum(line.height * LINE for line in lines) for lines in cells) + 2 * PAD
    end = sum(widths) + GUTTER * (len(widths) - 1)

    def draw(pen: Pen, x: float, y: float) -> None:
        left = x
        for lines, width in zip(cells, widths, strict=True):
            top = y - PAD
            for line in lines:
                pen.text(line.layer, (left, top - line.height * RISE), line.text, line.height)
                top -= line.height * LINE
            left += width + GUTTER
        pen.line("rule", (x, y - tall), (x + end, y - tall))

    return Block(tall, draw)
