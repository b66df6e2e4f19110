"""Sheets of text and tables: sections that flow over as many framed pages as they take. Mm on paper."""

from collections.abc import Callable, Sequence
from itertools import chain, cycle

from export.document import Document, PagePen
from export.pen import Pen
from export.recorder import Recorder
from export.sheets.flow import Laid, Section, columns, flow
from export.sheets.frame import Sheet, draw_frame, inside
from export.sheets.paper import Paper
from geometry.model import About
from geometry.shape.outline import Bounds

Drawn = Callable[[Pen, Bounds], float]
"""Draws into a room and returns how much of its height it took."""


def reading_width(sheet: Paper) -> float:
    """Return how wide the text of such a sheet is set."""
    left, _, right, _ = columns(inside(sheet))[0]
    return right - left


def listed_sheet(
    document: Document,
    sheet: Paper,
    about: About,
    kind: str,
    chapters: Sequence[Sequence[Section]],
    first: Drawn | None = None,
    more: Sequence[Callable[[PagePen], None]] = (),
) -> None:
    """Lay out chapters of sections; each chapter begins on a page of its own.

    Args:
        document: takes the pages.
        sheet: the paper.
        about: for the title block.
        kind: what the document is.
        chapters: their sections are made for `reading_width`.
        first: what stands at the top of the first column, before the sections.
        more: draws what stands in the free room of each further page, after the chapters.
    """
    rooms = columns(inside(sheet))
    drawn = Recorder()
    taken = first(drawn, rooms[0]) if first else 0.0
    left, low, right, top = rooms[0]
    pages: list[list[Laid]] = []
    for index, sections in enumerate(chapters):
        opening = (left, low, right, top - taken) if index == 0 else rooms[0]
        laid = flow(sections, chain((opening, *rooms[1:]), cycle(rooms)))
        pages += [
            [one for one in laid if one.region // len(rooms) == page]
            for page in range(laid[-1].region // len(rooms) + 1)
        ]
    total = len(pages) + len(more)
    document.entitle(about.title or kind, author=about.creator, subject=kind)

    def begin(number: int) -> PagePen:
        name = kind if total == 1 else f"{kind}, sheet {number}"
        pen = document.page(sheet.width, sheet.height, name=name)
        draw_frame(pen, Sheet(sheet, about, kind, number=number, total=total))
        return pen

    for number, page in enumerate(pages, 1):
        pen = begin(number)
        if number == 1:
            drawn.replay(pen)
        for one in page:
            one.block.draw(pen, one.x, one.y)
    for number, draw in enumerate(more, len(pages) + 1):
        draw(begin(number))
