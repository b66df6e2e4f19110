"""Text and tables that flow through the free room of sheets, from one region into the next.

Millimetres on paper. A section is a heading with blocks under it; nothing is cut through, a heading
stays with what follows it, and a table's head is repeated where the table goes on.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from export.pen import Pen
from export.text import fitted, is_bold, wrapped
from geometry.shape.outline import Bounds

LINE = 1.75  # of the lettering, from one baseline to the next
HEADING = 3.5  # mm, ISO 3098 series, from memory
BODY = 2.5  # mm, ISO 3098 series, from memory
GAP = 4.0  # mm, before a heading
COLUMN = 165.0  # mm, least width of one of several columns
GUTTER = 10.0  # mm, between columns


class Block(NamedTuple):
    """A piece that is not cut through: its height, and how it is drawn from its top left corner."""

    height: float
    draw: Callable[[Pen, float, float], None]


class Section(NamedTuple):
    """A heading, the head of its table if it is one, and its blocks."""

    heading: str
    blocks: tuple[Block, ...]
    head: Block | None = None


class Laid(NamedTuple):
    """A block in its place: the number of its region, and its top left corner."""

    region: int
    x: float
    y: float
    block: Block


def flow(sections: Sequence[Section], regions: Iterable[Bounds]) -> list[Laid]:
    """Lay sections in regions, in order; a region is taken only if it is needed.

    A block higher than a whole region stands in one by itself and reaches below it.

    Args:
        sections: what to lay, all made for the width of the regions.
        regions: as many as it takes.
    """
    laid: list[Laid] = []
    remaining = enumerate(regions)
    region, (left, bottom, _, y) = next(remaining)
    fresh = True
    for section in sections:
        opening = [heading_block(section.heading), *([section.head] if section.head else [])]
        for index, block in enumerate(section.blocks):
            before = opening if index == 0 else []
            gap = GAP if index == 0 and not fresh else 0.0
            if y - gap - sum(b.height for b in (*before, block)) < bottom and not fresh:
                region, (left, bottom, _, y) = next(remaining)
                gap = 0.0
                before = opening if index == 0 else opening[1:]
            y -= gap
            for piece in (*before, block):
                laid.append(Laid(region, left, y, piece))
                y -= piece.height
            fresh = False
    return laid


def height_of(sections: Sequence[Section]) -> float:
    """Return how much height sections take up in one region."""
    heights = [
        heading_block(section.heading).height
        + (section.head.height if section.head else 0.0)
        + sum(block.height for block in section.blocks)
        for section in sections
    ]
    return sum(heights) + GAP * max(0, len(sections) - 1)


def columns(box: Bounds) -> tuple[Bounds, ...]:
    """Divide a wide box into columns that are comfortable to read, at least one."""
    left, low, right, top = box
    many = max(1, int((right - left + GUTTER) // (COLUMN + GUTTER)))
    width = (right - left - GUTTER * (many - 1)) / many
    return tuple(
        (left + i * (width + GUTTER), low, left + i * (width + GUTTER) + width, top) for i in range(many)
    )


def heading_block(text: str) -> Block:
    """Return a heading."""
    return _line("frame", text, HEADING, HEADING * 2.1)


def paragraph(text: str, width: float, layer: str = "text", height: float = BODY) -> tuple[Block, ...]:
    """Return a paragraph as a block for each line."""
    return tuple(
        _line(layer, line, height, height * LINE)
        for line in wrapped(text, height, width, bold=is_bold(layer))
    )


def entry(subject: str, text: str, width: float, aside: float = 28.0) -> Block:
    """Return a subject in bold with a text beside it, `aside` mm from the left."""
    lines = wrapped(text, BODY, width - aside)

    def draw(pen: Pen, x: float, y: float) -> None:
        pen.text("frame", (x, y - BODY * 1.35), fitted(subject, BODY, aside - 2.0, bold=True), BODY)
        for index, line in enumerate(lines):
            pen.text("text", (x + aside, y - BODY * 1.35 - index * BODY * LINE), line, BODY)

    return Block(max(1, len(lines)) * BODY * LINE + 0.8, draw)


def _line(layer: str, text: str, height: float, tall: float) -> Block:
    def draw(pen: Pen, x: float, y: float) -> None:
        if text:
            pen.text(layer, (x, y - height * 1.35), text, height)

    return Block(tall, draw)
