"""The first sheet of the full-size pages: a map of the pages on the wall, and how to use them.

Millimetres on paper, from the sheet's lower left corner.
"""

from collections.abc import Iterator
from typing import NamedTuple

from export.drawings.cautions import cautions
from export.drawings.extent import around
from export.drawings.marks import enclosed
from export.drawings.note_places import Beside
from export.drawings.notes import place
from export.pen import Pen
from export.recorder import Recorder
from export.sheets.frame import LOCAL_CODES
from export.sheets.page_edges import (
    SMALL,
    Edges,
    draw_bars,
    job_words,
    stretch_caution,
    stretch_words,
    widest,
    window_on_paper,
)
from export.sheets.page_marks import Marks
from export.text import fitted, wrapped
from export.wrapped_pens import OnLayers, Placed
from geometry.finding import Finding, attention
from geometry.plan import Plan
from geometry.shape.outline import Bounds

SCALES = (2, 5, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 300, 500)
"""1:N of the map."""
_SHOWN = ("stud", "service", "chase", "recess", "drill", "wall", "pipe-hot", "pipe-cold", "pipe-mixed")
_TITLE = 5.0  # mm, height of the title
_BODY = (4.5, 4.0, 3.5, 3.0, SMALL, 2.2, 2.0, 1.8, 1.5, 1.2)  # mm, heights of the words that are tried
_LEGIBLE = 1.8  # mm, the least height of ISO 3098, from memory: above it the map comes first
_SHARES = (0.45, 0.4, 0.35, 0.3)  # of the sheet, for the map
_STOP = ("clash", "unchecked")
_MOST_FAULTS = 3
_BEFORE_CUTTING = ("Electricity", "Structure", "Dust", "Old pipes")
_NAME = 4.0  # mm, height of a page's name on the map; smaller where there is no room
_LEADING = 1.75  # of the height, from one baseline to the next
_GUTTER = 6.0  # mm between map and words
_CAPTION = 6.0  # mm under the map


class _Part(NamedTuple):
    """A heading and the sentences under it."""

    heading: str
    sentences: tuple[str, ...]
    layer: str = "text"


def draw_map(pen: Pen, marks: Marks, findings: tuple[Finding, ...]) -> None:
    """Draw the map of the pages, and the words beside it.

    Args:
        pen: Of a page of the same size as the others.
        marks: Of the whole wall, at full size.
        findings: Of its checks; those that must be cleared before cutting are named.
    """
    plan, edges = marks.plan, marks.edges
    x0, y0, x1, y1 = window_on_paper(edges.layout)
    draw_bars(pen, edges.layout, edges.margin, edges.overlap)
    job = job_words(edges.about)
    pen.text("frame", (x0, y1 - _TITLE), fitted("Full-size marking", _TITLE, x1 - x0, bold=True), _TITLE)
    pen.text("text", (x0, y1 - 2.6 * _TITLE), fitted(job, _TITLE * 0.6, x1 - x0), _TITLE * 0.6)
    parts, extent = _parts(plan, findings, edges), _extent(plan, edges)
    rooms = sorted(_rooms((x0, y0, x1, y1 - 3.4 * _TITLE)), key=lambda pair: _scale(extent, pair[0]))
    legible = (pair for pair in rooms if _fit(parts, _LEGIBLE, pair[1]))
    room, words = next(legible, None) or max(rooms, key=lambda pair: _height(parts, pair[1]))
    _draw_map(pen, marks, room)
    _write(pen, parts, words)


def _rooms(window: Bounds) -> Iterator[tuple[Bounds, Bounds]]:
    """Yield ways to share a sheet out between the map and the words: side by side, or the map above."""
    x0, y0, x1, y1 = window
    for share in _SHARES:
        middle, low = x0 + (x1 - x0) * share, y1 - (y1 - y0) * share
        yield (x0, y0, middle - _GUTTER, y1), (middle, y0, x1, y1)
        yield (x0, low, x1, y1), (x0, y0, x1, low - _GUTTER)


def _extent(plan: Plan, edges: Edges) -> Bounds:
    """Return the bounds of all that the map shows, in mm on the wall."""
    wall, enclosure = plan.job.wall, plan.job.enclosure
    boxes = [(0.0, 0.0, wall.width, wall.height), (enclosure.left, 0.0, enclosure.right, enclosure.rim)]
    return around([*boxes, *(page.cell for page in edges.layout.pages)])


def _scale(extent: Bounds, room: Bounds) -> int:
    """Return N of the largest scale 1:N at which the map fits above its caption."""
    wide, high = room[2] - room[0], room[3] - room[1] - _CAPTION
    left, low, right, top = extent
    return next((n for n in SCALES if (right - left) / n <= wide and (top - low) / n <= high), SCALES[-1])


def _draw_map(pen: Pen, marks: Marks, room: Bounds) -> None:
    """Draw the wall, its marks and the pages, and the map's caption below."""
    edges, enclosure, pages = marks.edges, marks.plan.job.enclosure, marks.edges.layout.pages
    extent = _extent(marks.plan, edges)
    scale = _scale(extent, room)
    dx, dy = room[0] - extent[0] / scale, room[3] - extent[3] / scale

    def draw(strokes: Recorder, on: Pen) -> None:
        placed = Placed(on, 1 / scale, dx, dy)
        strokes.replay(OnLayers(placed, _SHOWN))
        placed.polyline("tray", _corners((enclosure.left, 0.0, enclosure.right, enclosure.rim)), closed=True)

    draw(marks.strokes, pen)
    for page in pages:
        x0, y0, x1, y1 = (side / scale for side in page.cell)
        cell = (x0 + dx, y0 + dy, x1 + dx, y1 + dy)
        pen.polyline("dimension", _corners(cell), closed=True)
        near = Recorder()
        draw(marks.strokes_in(page.cell), near)
        _write_name(pen, page.name, cell, near)
    paper, count = edges.layout.paper, f"{len(pages)} page{'s' * (len(pages) != 1)}"
    way = "upright" if paper.height > paper.width else "on its side"
    caption = (f"map 1:{scale}, {count} of {paper.name} {way}", f"1:{scale}, {count}", f"1:{scale}")
    low = dy + extent[1] / scale - _CAPTION + 1.5
    pen.text("text", (room[0], low), widest(caption, SMALL, room[2] - room[0]), SMALL)


def _write_name(pen: Pen, name: str, cell: Bounds, drawn: Recorder) -> None:
    """Write a page's name where it hides no mark, as large as there is room for."""
    middle = ((cell[0] + cell[2]) / 2, (cell[1] + cell[3]) / 2)
    for note in place([Beside(middle, ((name,),), _NAME, "frame")], cell, drawn):
        note._replace(leader=None).draw(pen)


def _corners(bounds: Bounds) -> list[tuple[float, float]]:
    x0, y0, x1, y1 = bounds
    return [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]


def _parts(plan: Plan, findings: tuple[Finding, ...], edges: Edges) -> list[_Part]:
    parts = [
        _Part("Do not cut until these are cleared", _faults(findings), "caution"),
        _Part("Print", tuple(_printing(edges))),
        _Part(
            "Join",
            (
                "Begin at the bottom left. Cut each sheet on the dashed lines at its left and at its bottom, "
                "lay it over its neighbours cross on cross, and tape it.",
                "A dashed line at the right or at the top is where the next sheet will lie.",
                "Pages without marks are left out. A page that joins none is placed by its plumb line and "
                "its level line alone.",
            ),
        ),
        _Part(
            "Datum",
            (
                f"Distances are mm from the left edge of the {enclosed(plan)}, and up from its finished "
                "floor. Each page has a plumb line, with an arrow up the wall, and a level line.",
                "Measure every hole with the tape too: errors of joins add up, the tape's do not.",
                "Outlines are cut in the bare wall. Hot is dashed, H. Cold is continuous, C. Mixed is "
                "chain-dotted, with the number of its outlet.",
            ),
        ),
        _Part("Cautions", tuple(_words_of_caution(plan)), "caution"),
    ]
    return [part for part in parts if part.sentences]


def _faults(findings: tuple[Finding, ...]) -> tuple[str, ...]:
    """Return what is wrong, in one sentence each; of many the first ones, and how many more there are."""
    wrong = [f"{f.status.capitalize()}: {f.message}" for f in attention(findings) if f.status in _STOP]
    more = len(wrong) - _MOST_FAULTS
    return (*wrong[:_MOST_FAULTS], *([f"And {more} more: see the findings."] if more > 0 else []))


def _printing(edges: Edges) -> Iterator[str]:
    stretch = stretch_words(edges.layout.stretch)
    yield "Print at 100 %, actual size: no fit to page."
    yield (
        "Measure both bars of every sheet before you cut it: 100 mm. "
        "Reject a sheet that is more than 0.5 mm out."
    )
    yield (
        "All sheets out alike? Make them again with stretch x = 100 / the bar across, "
        f"stretch y = 100 / the bar up{', times the stretch they have' if stretch else ''}."
    )
    if stretch:
        yield f"These sheets are {stretch}, their bars too."
    if caution := stretch_caution(edges.layout.stretch):
        yield f"{caution}: a printer is not that far out by itself, so check its settings first."


def _words_of_caution(plan: Plan) -> Iterator[str]:
    for caution in cautions(plan):
        if caution.subject in _BEFORE_CUTTING:
            yield f"{caution.subject}: {caution.text}"
    yield LOCAL_CODES


def _height(parts: list[_Part], room: Bounds) -> float:
    """Return the largest height at which all the words fit."""
    return next((height for height in _BODY if _fit(parts, height, room)), _BODY[-1])


def _fit(parts: list[_Part], height: float, room: Bounds) -> bool:
    """Return whether the words fit at a height."""
    return len(_lines(parts, height, room[2] - room[0])) * _LEADING * height <= room[3] - room[1]


def _write(pen: Pen, parts: list[_Part], room: Bounds) -> None:
    """Write the parts from the top."""
    height = _height(parts, room)
    for index, (layer, words) in enumerate(_lines(parts, height, room[2] - room[0]), 1):
        if words:
            pen.text(layer, (room[0], room[3] - index * _LEADING * height), words, height)


def _lines(parts: list[_Part], height: float, width: float) -> list[tuple[str, str]]:
    """Return the lines of all parts with their layers; an empty one after each keeps room for tails."""
    lines = []
    for part in parts:
        heading = "caution" if part.layer == "caution" else "frame"
        lines += [(heading, words) for words in wrapped(part.heading, height, width, bold=True)]
        for sentence in part.sentences:
            lines += [("text", words) for words in wrapped(sentence, height, width)]
        lines.append(("text", ""))
    return lines
