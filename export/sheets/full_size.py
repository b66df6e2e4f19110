"""The full-size marking pages: a map of the pages first, then the pages that are taped to the wall.

Millimetres on paper, from the page's lower left corner. All lengths are printed longer by the stretch,
those of the check bars too: once the printer has made good what it prints short, a bar measures 100 mm
and so does 100 mm of the wall. What is marked and where pages join is decided elsewhere.
"""

from collections.abc import Iterator

from export.document import Document, PagePen
from export.drawings.marks import DatumLine, line_note, marked
from export.drawings.note_places import Along, Beside, Note
from export.drawings.notes import PlacedNote, place
from export.pen import XY, Axis, Pen
from export.recorder import Recorder
from export.sheets.full_size_map import draw_map
from export.sheets.options import SheetOptions
from export.sheets.page_edges import SMALL, Edges, draw_crosses, draw_edges, stretch_caution, window_on_paper
from export.sheets.page_marks import Marks
from export.sheets.pages import Layout, Page, split
from export.sheets.paper import paper
from export.wrapped_pens import Clipped, Placed
from geometry.finding import Finding
from geometry.plan import Plan
from geometry.setting_out.holes import holes
from geometry.setting_out.lines import lines
from geometry.shape.outline import Bounds
from geometry.units import on_grid

PALE = "tile"
"""The layer whose grey the page's name has behind the marks."""
BIG = 18.0
"""Height of that name, mm, smaller where there is no room: read off the floor (chosen, no source)."""
_INSIDE = 12.0  # mm; a datum line nearer than this to a page's border does not serve the page
_ARROW = (3.0, 9.0)  # mm; half the width and the length of a plumb line's arrow head


def full_size_sheet(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document
) -> None:
    """Lay out the full-size marking pages.

    Args:
        plan: The job with its parts.
        findings: Of its checks; clashes are named on the map, and every page points there.
        options: Paper, margin, overlap, stretch.
        document: Takes the pages.

    Raises:
        ValueError: the paper is too small, or too many pages would be needed.
    """
    layout = split(
        marked(plan),
        paper(options.paper),
        margin=options.margin,
        overlap=options.overlap,
        stretch=(options.stretch_x, options.stretch_y),
        centres=[hole.at for hole in holes(plan)],
    )
    about = plan.job.about
    document.entitle(f"{about.title}: full-size marking", author=about.creator, subject=about.number)
    edges = Edges(
        layout, options.margin, options.overlap, about, len(layout.pages) + 1, _cautions(findings, layout)
    )
    size = (layout.paper.width, layout.paper.height)
    marks = Marks(plan, edges)
    draw_map(document.page(*size, name="Map of the pages"), marks, findings)
    for sheet, page in enumerate(layout.pages, 2):
        pen = document.page(*size, name=page.name)
        _draw_marks(pen, marks, page)
        draw_edges(pen, edges, page, sheet)


def _cautions(findings: tuple[Finding, ...], layout: Layout) -> tuple[str, ...]:
    """Return what every page warns of."""
    clashes = sum(finding.status == "clash" for finding in findings)
    clash = "" if not clashes else f"{clashes} CLASH{'ES' * (clashes > 1)}"
    return tuple(words for words in (clash, stretch_caution(layout.stretch)) if words)


def _draw_marks(pen: PagePen, marks: Marks, page: Page) -> None:
    """Draw what is seen of the marks in the window of a page, its own datum lines, and the notes."""
    layout = marks.edges.layout
    cell = (*layout.on_paper(page, page.cell[:2]), *layout.on_paper(page, page.cell[2:]))
    own = [*_own_line(marks, page, "x"), *_own_line(marks, page, "y")]
    here = [line for line in (*marks.datum, *own) if _crosses(line, page)]
    strokes, words = marks.strokes_in(page.window), marks.notes_in(page.cell)
    sought = [
        *_register_notes(layout, page),
        *(_on_paper(note, layout, page) for note in words if isinstance(note, Beside)),
        *(_on_paper(_line_note(marks.plan, line, page), layout, page) for line in here),
        *(_on_paper(note, layout, page) for note in words if isinstance(note, Along)),
    ]

    def draw(on: Pen) -> None:
        (x, y), (sx, sy), (x0, y0, _, _) = layout.origin, layout.stretch, page.window
        placed = Placed(on, 1, x - x0 * sx, y - y0 * sy, stretch_x=sx, stretch_y=sy)
        clipped = Clipped(placed, *page.window)
        strokes.replay(clipped)
        for line in own:
            clipped.line("datum", *line.ends)
        for line in here:
            if line.axis == "x":
                _draw_arrow(on, layout.on_paper(page, (line.at, min(line.high, page.cell[3]))))

    drawn = Recorder()
    draw(drawn)
    draw_crosses(drawn, marks.edges, page)
    placed = place(sought, cell, drawn)
    for note in placed:
        drawn.polyline("text", note.box, closed=True)
    name = _place_name(page.name, cell, drawn)
    with pen.within(*window_on_paper(layout)):
        if name and name.crossed:
            name.draw(pen)  # underneath, where it hides nothing
        draw(pen)
        for note in (*placed, *([name] if name and not name.crossed else [])):
            note.draw(pen)


def _place_name(name: str, cell: Bounds, drawn: Recorder) -> PlacedNote | None:
    """Find a place for the page's name near the upper left corner, as large as there is room for."""
    found = place([Beside((cell[0], cell[3]), ((name,),), BIG, PALE)], cell, drawn)
    return found[0]._replace(leader=None) if found else None


def _register_notes(layout: Layout, page: Page) -> Iterator[Beside]:
    for cross in page.crosses:
        yield Beside(layout.on_paper(page, cross.at), ((cross.label,),), SMALL, clear=1.0)


def _on_paper(note: Note, layout: Layout, page: Page) -> Note:
    """Return a note of the wall where it lies on a page's paper."""
    if isinstance(note, Beside):
        return note._replace(at=layout.on_paper(page, note.at))
    return note._replace(start=layout.on_paper(page, note.start), end=layout.on_paper(page, note.end))


def _crosses(line: DatumLine, page: Page, inside: float = 0.0) -> bool:
    """Return whether a line crosses what is seen of a page, so many mm inside its borders."""
    across, along = _spans(page, line.axis)
    seen = min(line.high, along[1]) - max(line.low, along[0])
    return across[0] + inside <= line.at <= across[1] - inside and seen > inside


def _line_note(plan: Plan, line: DatumLine, page: Page) -> Along:
    """Return the words along a datum line; a line well inside the page is the one that the page needs."""
    return line_note(plan, line)._replace(needed=_crosses(line, page, _INSIDE))


def _own_line(marks: Marks, page: Page, axis: Axis) -> Iterator[DatumLine]:
    """Yield a datum line at a round distance if none of the wall's own crosses the page well inside it."""
    if any(line.axis == axis and _crosses(line, page, _INSIDE) for line in marks.datum):
        return
    held = lines(marks.plan.job.enclosure)
    datum, (across, along) = held.left if axis == "x" else held.floor, _spans(page, axis)
    other = next(line for line in marks.datum if line.axis != axis)  # it reaches over all of the wall
    low, high = max(across[0], other.low), min(across[1], other.high)
    inside = min(_INSIDE, (high - low) / 4)
    for step in (100, 50, 10, 1):
        distance = round(((low + high) / 2 - datum) / step) * step
        at = on_grid(datum + distance)
        if low + inside <= at <= high - inside:
            yield DatumLine(axis, at, float(distance), "", *along)
            return


def _spans(page: Page, axis: Axis) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return from where to where a page is seen along an axis, and along the other one, mm on the wall."""
    x0, y0, x1, y1 = page.cell
    return ((x0, x1), (y0, y1)) if axis == "x" else ((y0, y1), (x0, x1))


def _draw_arrow(pen: Pen, tip: XY) -> None:
    """Draw the head of a plumb line: it points up the wall."""
    (x, y), (half, length) = tip, _ARROW
    pen.polyline("dimension", [(x - half, y - length), (x, y), (x + half, y - length)])
