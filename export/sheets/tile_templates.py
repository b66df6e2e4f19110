"""Drilling templates at full size: one for each tile with a hole, to be cut out and laid on the tile.

Millimetres on paper, from the page's lower left corner; the tile is seen from its face. A template reaches
to the edges of the tile nearest to its holes. Where paper is too small for that, it carries a line at a
round distance from the edge instead. All lengths are printed longer by the stretch.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from export.document import Document
from export.pen import XY, Pen
from export.sheets.options import SheetOptions
from export.sheets.page_edges import draw_bars, job_words, stretch_words
from export.sheets.pages import STRIPS, Layout
from export.sheets.paper import Paper, paper
from export.text import RISE, fitted, wrapped
from export.wrapped_pens import Clipped, Placed
from geometry.finding import Finding
from geometry.plan import Plan
from geometry.shape.outline import Bounds, circle
from geometry.tiling.drilling import Drilled, drilled
from geometry.tiling.pieces import Piece
from geometry.units import number

KIND = "Tile drilling templates"
ROOM = 12.0  # mm, of paper kept round a hole
GAP = 6.0  # mm, between templates
LEAST = 70.0  # mm, of width, so that the words under a template can be read
WORDS = 2.5  # mm, lettering, ISO 3098 series, from memory
LINE = 1.7  # of the lettering, from one baseline to the next
_ROUND = 50.0  # mm; a line on a template stands at a multiple of this from the edge of the tile


class Template(NamedTuple):
    """One template: its tile, the holes on it, which part of the wall it shows, the words under it."""

    piece: Piece
    holes: tuple[Drilled, ...]
    window: Bounds
    marks: tuple[tuple[str, float, str], ...]
    """Lines instead of edges: the axis, where on the wall, and what to write at it."""


class _Placed(NamedTuple):
    template: Template
    page: int
    at: XY
    """Where the lower left corner of its window lies on the paper."""
    words: tuple[str, ...]


def tile_templates_sheet(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document
) -> None:
    """Lay out the templates, several on a page.

    Args:
        plan: the job with its parts.
        findings: not used.
        options: paper, margin, stretch.
        document: takes the pages.

    Raises:
        ValueError: the paper is too small for a hole.
    """
    sheet = paper(options.paper)
    layout = _layout(sheet, options)
    laid = list(_laid(plan, layout))
    about = plan.job.about
    document.entitle(f"{about.title}: tile templates", author=about.creator, subject=about.number)
    pages = max((one.page for one in laid), default=0) + 1
    for index in range(pages):
        pen = document.page(sheet.width, sheet.height, name=f"{KIND}, sheet {index + 1}")
        draw_bars(pen, layout, options.margin, 0.0)
        top = sheet.height - options.margin
        room = sheet.width - 2 * options.margin
        head = f"{KIND}, full size, sheet {index + 1} / {pages}. Print at 100 %; cut out, lay on the tile."
        pen.text("frame", (options.margin, top - 3.5), fitted(head, WORDS, room, bold=True), WORDS)
        words = " · ".join(part for part in (job_words(about), stretch_words(layout.stretch)) if part)
        pen.text("text", (options.margin, top - 8.0), fitted(words, WORDS, room), WORDS)
        if not laid:
            pen.text("text", (layout.origin[0], top - 20.0), "No tile of this job has a hole.", WORDS)
        for one in laid:
            if one.page == index:
                _draw(pen, one, layout)


def _layout(sheet: Paper, options: SheetOptions) -> Layout:
    """Return where templates may lie: inside the margin, clear of the check bars and the two lines above."""
    origin = options.margin + STRIPS.left, options.margin + STRIPS.bottom
    size = sheet.width - options.margin - origin[0], sheet.height - options.margin - 12.0 - origin[1]
    return Layout(sheet, (options.stretch_x, options.stretch_y), origin, size, ())


def _laid(plan: Plan, layout: Layout) -> Iterator[_Placed]:
    """Lay templates in rows from the top, as many on a page as fit."""
    (left, low), (wide, high) = layout.origin, layout.size
    page, x, top, tall = 0, left, low + high, 0.0
    for template in templates(plan, layout):
        w, h = _on_paper(template.window, layout)
        words = tuple(_words(template, max(w, LEAST)))
        width, height = max(w, LEAST), h + (len(words) * LINE + 1) * WORDS
        if x > left and x + width > left + wide:
            x, top, tall = left, top - tall - GAP, 0.0
        if top - height < low and (x > left or top < low + high):
            page, x, top, tall = page + 1, left, low + high, 0.0
        yield _Placed(template, page, (x, top - h), words)
        x, tall = x + width + GAP, max(tall, height)


def templates(plan: Plan, layout: Layout) -> Iterator[Template]:
    """Go through the templates, tile by tile; holes that fit no paper together have one each.

    Raises:
        ValueError: the paper is too small for a hole.
    """
    by_tile: dict[str, tuple[Piece, list[Drilled]]] = {}
    for one in drilled(plan):
        for tile in one.tiles:
            by_tile.setdefault(tile.piece.name, (tile.piece, []))[1].append(one)
    for piece, holes in sorted(by_tile.values(), key=lambda one: (one[0].row, one[0].column, one[0].part)):
        together = _template(piece, holes, layout)
        if together:
            yield together
            continue
        for hole in holes:
            single = _template(piece, [hole], layout, anyhow=True)
            if single is None:
                raise ValueError(
                    f"{layout.paper.name} is too small for a template of {hole.hole.owner}: take a larger one"
                )
            yield single


def _template(
    piece: Piece, holes: Sequence[Drilled], layout: Layout, *, anyhow: bool = False
) -> Template | None:
    """Return a template that reaches to the nearest edges, or one with lines instead if need be."""
    boxes = [circle(one.hole.at, one.hole.diameter + 2 * ROOM).bounds for one in holes]
    need = [min(box[0] for box in boxes), min(box[1] for box in boxes)]
    need += [max(box[2] for box in boxes), max(box[3] for box in boxes)]
    for lined in ((), ("x",), ("y",), ("x", "y")) if anyhow else ((),):
        window, marks = list(need), []
        for axis, name in enumerate("xy"):
            first, last = piece.bounds[axis], piece.bounds[axis + 2]
            to_first, to_last = window[axis] - first, last - window[axis + 2]
            if name in lined and to_first >= _ROUND:
                at = first + to_first // _ROUND * _ROUND
                window[axis] = at - 2.0
                side = "left" if name == "x" else "lower"
                marks.append((name, at, f"{number(at - first)} from the {side} edge"))
            elif to_first <= to_last:
                window[axis] = min(window[axis], first - 2.0)
            else:
                window[axis + 2] = max(window[axis + 2], last + 2.0)
        box = (window[0], window[1], window[2], window[3])
        template = Template(piece, tuple(holes), box, tuple(marks))
        w, h = _on_paper(box, layout)
        words = (len(list(_words(template, max(w, LEAST)))) * LINE + 1) * WORDS
        if w <= layout.size[0] and h + words <= layout.size[1]:
            return template
    return None


def _on_paper(window: Bounds, layout: Layout) -> XY:
    return (window[2] - window[0]) * layout.stretch[0], (window[3] - window[1]) * layout.stretch[1]


def _words(template: Template, width: float) -> Iterator[str]:
    piece, (wide, high) = template.piece, template.piece.size
    yield from wrapped(f"Tile {piece.name}, {number(wide)} × {number(high)}", WORDS, width, bold=True)
    x0, y0, _, _ = piece.bounds
    for one in template.holes:
        across, up = one.hole.at[0] - x0, one.hole.at[1] - y0
        text = (
            f"{one.number} {one.hole.owner}: {number(one.hole.diameter)} wide, centre {number(across)} from "
            f"the left edge, {number(up)} above the lower edge"
        )
        yield from wrapped(text, WORDS, width)


def _draw(pen: Pen, one: _Placed, layout: Layout) -> None:
    """Draw a template where it was laid, its words under it."""
    template, (x, y), (sx, sy) = one.template, one.at, layout.stretch
    x0, y0, x1, y1 = template.window
    placed = Placed(pen, 1, x - x0 * sx, y - y0 * sy, stretch_x=sx, stretch_y=sy)
    placed.polyline("trim", [(x0, y0), (x1, y0), (x1, y1), (x0, y1)], closed=True)
    clipped = Clipped(placed, *template.window)
    for ring in template.piece.rings:
        clipped.polyline("tile-hole", ring, closed=True)
    for axis, at, text in template.marks:
        ends = ((at, y0), (at, y1)) if axis == "x" else ((x0, at), (x1, at))
        placed.line("datum", *ends)
        where = (at + 1.0, y0 + 4.0) if axis == "x" else (x0 + 4.0, at + 1.0)
        shown = fitted(text, WORDS, (y1 - y0 if axis == "x" else x1 - x0) - 6)
        spot = (where[0] + WORDS, where[1]) if axis == "x" else where
        placed.text("text", spot, shown, WORDS, angle=90.0 if axis == "x" else 0.0)
    for hole in template.holes:
        (a, b), r = hole.hole.at, hole.hole.diameter / 2
        placed.circle("tile-hole", (a, b), r)
        arm = r + 4.0
        placed.line("dimension", (a - arm, b), (a + arm, b))
        placed.line("dimension", (a, b - arm), (a, b + arm))
        placed.text("frame", (a + r * 0.8 + 1.5, b - r * 0.8 - 1.0 - WORDS), str(hole.number), WORDS)
    _draw_up(placed, template.window)
    top = y
    for index, line in enumerate(one.words):
        top = y - (index + 1) * LINE * WORDS + (LINE - RISE) * WORDS
        pen.text("frame" if index == 0 else "text", (x, top), line, WORDS)


def _draw_up(pen: Pen, window: Bounds) -> None:
    """Draw an arrow that points up the wall, in the upper right corner."""
    x, y = window[2] - 4.0, window[3] - 3.0
    pen.line("dimension", (x, y - 7.0), (x, y))
    pen.polyline("dimension", [(x - 1.5, y - 3.0), (x, y), (x + 1.5, y - 3.0)])
    pen.text("text", (x - 2.0, y - 7.0), "up", 1.8, align="right")
