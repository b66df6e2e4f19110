"""The page of the elevation on which every piece of the cut list is found by its name. Mm on paper."""

from collections.abc import Sequence
from typing import NamedTuple

from export.document import Document
from export.drawings.pipework import draw_pipework, extent
from export.pen import XY, Pen
from export.recorder import Recorder
from export.sheets.flow import BODY, LINE
from export.sheets.frame import Sheet, draw_frame, inside
from export.sheets.paper import Paper
from export.text import RISE, wrapped
from export.wrapped_pens import Placed
from geometry.plan import Plan

KIND = "Elevation: pipes and pieces"
FOOT = 3  # lines of words under the drawing, where not all names have room on it
_KEY = (
    "Pipes by piece, named as in the cut list, with the length to cut in mm. Rings: joints and ends. "
    "H hot, C cold, 1 2 3 outlets."
)


class _Place(NamedTuple):
    """A sheet of paper, the scale of the drawing on it, and where the wall's lower left corner stands."""

    paper: Paper
    scale: int
    origin: XY


def pipework_page(plan: Plan, sheet: Sheet, scales: Sequence[int], document: Document) -> None:
    """Lay out the page, whichever way up the drawing is larger; names without room stand below it.

    Args:
        plan: the job with its parts.
        sheet: the elevation's, with the number of this page.
        scales: N of 1:N, from the largest.
        document: takes the page.
    """
    place, drawn, left_out = _drawn(plan, sheet.paper, scales, foot=0)
    if left_out:
        place, drawn, left_out = _drawn(plan, sheet.paper, scales, foot=FOOT)
    pen = document.page(place.paper.width, place.paper.height, name=f"{KIND} 1:{place.scale}")
    draw_frame(pen, sheet._replace(paper=place.paper, kind=KIND, scale=f"1:{place.scale}"))
    left, low, right, top = inside(place.paper)
    _write(pen, wrapped(_KEY, BODY, right - left), (left, top))
    drawn.replay(pen)
    if left_out:
        words = wrapped(f"No room for {', '.join(left_out)}: take larger paper.", BODY, right - left)
        _write(pen, words, (left, low + len(words) * LINE * BODY))


def _drawn(
    plan: Plan, paper: Paper, scales: Sequence[int], foot: int
) -> tuple[_Place, Recorder, tuple[str, ...]]:
    """Draw on the better side up, with room for lines of words at the foot; return the names left out too."""
    places = [_place(plan, side, scales, foot) for side in (paper, paper.turned)]
    place = min(places, key=lambda one: one.scale)
    drawn = Recorder()
    left_out = draw_pipework(plan, Placed(drawn, 1 / place.scale, *place.origin), place.scale)
    return place, drawn, left_out


def _place(plan: Plan, paper: Paper, scales: Sequence[int], foot: int) -> _Place:
    """Return where the drawing stands at the largest scale that fits, or at the smallest there is."""
    left, low, right, top = inside(paper)
    below = top - len(wrapped(_KEY, BODY, right - left)) * LINE * BODY - 2.0
    room = below - low - foot * LINE * BODY

    def fits(scale: int) -> bool:
        x0, y0, x1, y1 = extent(plan, scale)
        return (x1 - x0) / scale <= right - left and (y1 - y0) / scale <= room

    scale = next(filter(fits, scales), scales[-1])
    x0, _, x1, y1 = extent(plan, scale)
    shift = (right - left - (x1 - x0) / scale) / 2
    return _Place(paper, scale, (left + shift - x0 / scale, below - y1 / scale))


def _write(pen: Pen, words: Sequence[str], at: XY) -> None:
    for index, line in enumerate(words):
        pen.text("text", (at[0], at[1] - RISE * BODY - index * LINE * BODY), line, BODY)
