"""What stands round the marks on a full-size page: bars, names of neighbours, the job, lines to cut on.

Millimetres on paper, from the page's lower left corner. All of it keeps inside the printer's margin and
outside the window of the marks, but for the lines and crosses on which pages are joined.
"""

from collections.abc import Sequence
from typing import NamedTuple

from export.pen import XY, Pen
from export.sheets.pages import BAR, CROSS, ENDS, Cross, Layout, Page
from export.text import fitted, is_bold, text_width
from geometry.model import About
from geometry.shape.outline import Bounds
from geometry.units import number

SMALL = 2.5
"""Text at the edges, read in the hand: height of a capital letter, mm (ISO 3098 series, from memory)."""
NAME = 4.0
"""The page's name in each edge strip, mm."""
FAR_OUT = 0.03
"""A stretch farther than this from 1 is a wrong print setting, not a printer (common practice, no source)."""
_TICK = 1.8  # mm, half the end stroke of a bar
_APART = 4.0  # mm between two texts on one line


class Edges(NamedTuple):
    """What all pages of a set say the same of."""

    layout: Layout
    margin: float
    overlap: float
    about: About
    sheets: int
    cautions: tuple[str, ...]


def draw_edges(pen: Pen, edges: Edges, page: Page, sheet: int) -> None:
    """Draw everything round the marks of one page; `sheet` counts from 1, the map being the first."""
    layout = edges.layout
    window = window_on_paper(layout)
    draw_bars(pen, layout, edges.margin, edges.overlap)
    _draw_joins(pen, layout, page, edges.margin)
    draw_crosses(pen, edges, page)
    _Writer(pen, edges, page, window).write(sheet)


def draw_crosses(pen: Pen, edges: Edges, page: Page) -> None:
    """Draw the register crosses that a page shares with its neighbours."""
    for cross in page.crosses:
        _draw_cross(pen, edges.layout.on_paper(page, cross.at), cross, edges.overlap)


def window_on_paper(layout: Layout) -> Bounds:
    """Return where the marks are printed on each page."""
    (x, y), (width, height) = layout.origin, layout.size
    return x, y, x + width, y + height


def draw_bars(pen: Pen, layout: Layout, margin: float, overlap: float) -> None:
    """Draw a check bar across at the bottom and one up at the left, both longer by the stretch."""
    low, left = margin + 2.5, margin + 2.5
    start, end = margin + ENDS, margin + ENDS + BAR * layout.stretch[0]
    pen.line("check-bar", (start, low), (end, low))
    for x in (start, end):
        pen.line("check-bar", (x, low - _TICK), (x, low + _TICK))
    start = layout.origin[1]
    end = start + BAR * layout.stretch[1]
    pen.line("check-bar", (left, start), (left, end))
    for y in (start, end):
        pen.line("check-bar", (left - _TICK, y), (left + _TICK, y))
    beyond_x, beyond_y = _past_joins(layout, overlap)
    pen.text("text", (beyond_x, margin + 5.2), BAR_WORDS, SMALL)
    pen.text("text", (margin + 8.4, beyond_y), BAR_WORDS, SMALL, angle=90)


def _past_joins(layout: Layout, overlap: float) -> XY:
    """Return where words begin, so that the lines to cut on at the left and the bottom run through none."""
    return layout.origin[0] + overlap / 2 + 1.5, layout.origin[1] + overlap / 2 + 1.5


BAR_WORDS = f"{number(BAR)} mm: measure both"


def job_words(about: About) -> str:
    """Return what the job is called on every sheet: its title, number, date and place."""
    return " · ".join(part for part in (about.title, about.number, about.date, about.place) if part)


def stretch_words(stretch: XY) -> str:
    """Return what a page says of its stretch; nothing if there is none."""
    return "" if stretch == (1.0, 1.0) else f"stretched x {stretch[0]:g}, y {stretch[1]:g}"


def stretch_caution(stretch: XY) -> str:
    """Return a caution if the stretch is more than a printer gets wrong by itself, or nothing."""
    if all(abs(by - 1) <= FAR_OUT + 1e-9 for by in stretch):
        return ""
    return f"STRETCH OVER {number(FAR_OUT * 100)} %"


def _draw_joins(pen: Pen, layout: Layout, page: Page, margin: float) -> None:
    """Draw the border of the window, and the joins: cut to the margin at the left and the bottom."""
    x0, y0, x1, y1 = window_on_paper(layout)
    pen.polyline("rule", [(x0, y0), (x1, y0), (x1, y1), (x0, y1)], closed=True)
    (left, low), (right, high) = layout.on_paper(page, page.cell[:2]), layout.on_paper(page, page.cell[2:])
    far_x, far_y = layout.paper.width - margin, layout.paper.height - margin
    if page.left:
        pen.line("trim", (left, margin), (left, far_y))
    if page.below:
        pen.line("trim", (margin, low), (far_x, low))
    if page.right:
        pen.line("trim", (right, y0), (right, y1))
    if page.above:
        pen.line("trim", (x0, high), (x1, high))


def _draw_cross(pen: Pen, at: XY, cross: Cross, overlap: float) -> None:
    """Draw arms along the join and across it; a small square sets the cross apart from that of a hole."""
    (x, y), short = at, min(CROSS, max(overlap / 2, 1.0))
    wide, high = (short, CROSS) if cross.upright else (CROSS, short)
    pen.line("register", (x - wide, y), (x + wide, y))
    pen.line("register", (x, y - high), (x, y + high))
    r = min(2.0, short)
    pen.polyline("register", [(x - r, y), (x, y - r), (x + r, y), (x, y + r)], closed=True)


class _Writer(NamedTuple):
    """Writes the words of the four edges."""

    pen: Pen
    edges: Edges
    page: Page
    window: Bounds

    def write(self, sheet: int) -> None:
        page, (_, y0, x1, y1) = self.page, self.window
        edges, paper, margin = self.edges, self.edges.layout.paper, self.edges.margin
        left, low = _past_joins(edges.layout, edges.overlap)
        bar_words = text_width(BAR_WORDS, SMALL) + _APART
        over, under = "cut on the dashed line, lay over {0}", "{0} lies over this edge"
        self._edge((left, y1 + 1.6), x1 - left, 0, "↑", page.above, under)
        self._edge((x1 + 4.6, low), y1 - low, 90, "→", page.right, under)
        self._edge((left, y0 - 4.8), x1 - left, 0, "↓", page.below, over)
        self._edge((margin + 8.4, low + bar_words), y1 - low - bar_words, 90, "←", page.left, over)
        right = paper.width - margin
        self._right((right, margin + 5.2), right - left - bar_words, job_words(edges.about))
        of, stretch = (
            f"page {page.name}, sheet {sheet} of {edges.sheets}",
            stretch_words(edges.layout.stretch),
        )
        bar_end = margin + ENDS + BAR * edges.layout.stretch[0] + _APART
        self._right(
            (right, margin + 1.2),
            right - bar_end,
            *([f"{of}; {stretch}", stretch] if stretch else [of, page.name]),
        )

    def _edge(self, at: XY, room: float, angle: float, arrow: str, neighbour: str | None, how: str) -> None:
        """Write what joins at one edge from its beginning, and the page's name at its end."""
        name, along = self.page.name, room - text_width(self.page.name, NAME, bold=True)
        end = (at[0] + room, at[1]) if angle == 0 else (at[0], at[1] + room)
        self.pen.text("frame", end, name, NAME, align="right", angle=angle)
        wordings = [f"{arrow} no page", arrow]
        if neighbour:
            wordings = [
                f"{arrow} joins {neighbour}: {how.format(neighbour)}",
                f"{arrow} joins {neighbour}",
                neighbour,
            ]
        caution = ", ".join(self.edges.cautions) if angle == 0 else ""
        kept = text_width(caution, SMALL, bold=True) + _APART if caution else 0.0
        words = widest(wordings, SMALL, along - _APART - kept)
        self.pen.text("text", at, words, SMALL, angle=angle)
        if caution:
            left = along - 2 * _APART - text_width(words, SMALL)
            caution = widest([f"{caution}: see the map", caution], SMALL, left, layer="caution")
            self.pen.text("caution", (at[0] + along - _APART, at[1]), caution, SMALL, align="right")

    def _right(self, at: XY, room: float, *wordings: str) -> None:
        words = widest(wordings, SMALL, room) or fitted(wordings[0], SMALL, room)
        self.pen.text("text", at, words, SMALL, align="right")


def widest(wordings: Sequence[str], height: float, room: float, *, layer: str = "text") -> str:
    """Return the first wording that fits into the room, or nothing."""
    return next((words for words in wordings if text_width(words, height, bold=is_bold(layer)) <= room), "")
