"""Lists to tick off and to fill in by hand: tables with set columns and boxes, lines to write on.

Millimetres on paper. What does not fit its column goes on in the next line of the same row.
"""

from collections.abc import Sequence
from typing import NamedTuple

from export.pen import Align, Pen
from export.sheets.flow import BODY, LINE, Block, Section
from export.sheets.table import GUTTER, PAD
from export.text import RISE, is_bold, wrapped
from geometry.shape.outline import rectangle

TICK = 3.6  # mm, side of a box to tick


class Column(NamedTuple):
    """A column: its heading, its width in mm (0 takes what the others leave), how it is set."""

    heading: str
    width: float
    align: Align = "left"
    layer: str = "text"


def table(heading: str, columns: Sequence[Column], rows: Sequence[Sequence[str]], width: float) -> Section:
    """Return a table as a section. A cell of a column without heading is a box to tick if it is empty."""
    widths = _widths(columns, width)
    head = _row([column.heading for column in columns], columns, widths, "rule")
    body = tuple(_row(row, columns, widths, None) for row in rows)
    return Section(heading, body, head)


def _widths(columns: Sequence[Column], width: float) -> list[float]:
    fixed = sum(column.width for column in columns) + GUTTER * (len(columns) - 1)
    return [column.width or width - fixed for column in columns]


def _row(
    cells: Sequence[str], columns: Sequence[Column], widths: Sequence[float], layer: str | None
) -> Block:
    layers = [layer or column.layer for column in columns]
    lines = [
        wrapped(cell, BODY, width, bold=is_bold(on)) if cell else []
        for cell, width, on in zip(cells, widths, layers, strict=True)
    ]
    tall = max(1, *(len(cell) for cell in lines)) * LINE * BODY + 2 * PAD
    end = sum(widths) + GUTTER * (len(widths) - 1)

    def draw(pen: Pen, x: float, y: float) -> None:
        left = x
        for cell, column, on, width in zip(lines, columns, layers, widths, strict=True):
            if not column.heading and not cell and layer is None:
                low = y - tall / 2 - TICK / 2
                pen.polyline("frame", rectangle(left, low, left + TICK, low + TICK).points, closed=True)
            edge = {"left": left, "centre": left + width / 2, "right": left + width}[column.align]
            for index, line in enumerate(cell):
                at = (edge, y - PAD - BODY * RISE - index * BODY * LINE)
                pen.text(on, at, line, BODY, align=column.align)
            left += width + GUTTER
        pen.line("rule", (x, y - tall), (x + end, y - tall))

    return Block(tall, draw)


def together(blocks: Sequence[Block]) -> Block:
    """Return blocks under each other as one, which is not cut through."""

    def draw(pen: Pen, x: float, y: float) -> None:
        for block in blocks:
            block.draw(pen, x, y)
            y -= block.height

    return Block(sum(block.height for block in blocks), draw)


def blank_lines(captions: Sequence[str], width: float, tall: float = 9.0) -> tuple[Block, ...]:
    """Return lines to write on by hand, each with its caption in front."""
    return tuple(_blank(caption, width, tall) for caption in captions)


def _blank(caption: str, width: float, tall: float) -> Block:
    def draw(pen: Pen, x: float, y: float) -> None:
        base = y - tall + 1.5
        pen.text("text", (x, base), caption, BODY)
        pen.line("rule", (x + width * 0.4, base - 0.5), (x + width, base - 0.5))

    return Block(tall, draw)
