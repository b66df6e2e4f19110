"""The outlines of what is chosen or pointed at, kept while plan and stage stay."""

from typing import NamedTuple

from app.canvas.pick import shapes
from app.canvas.qt_pen import QtPen
from app.canvas.stages import Stage
from export.drawings.extent import around
from export.drawings.outlines import draw_outline
from geometry.edits.refs import TILES, Ref
from geometry.plan import Plan
from geometry.shape.outline import Bounds, Outline, rectangle


class Highlight(NamedTuple):
    """The outlines of one thing, and their bounds in mm."""

    ref: Ref
    pen: QtPen
    bounds: Bounds


class Highlights:
    """Works out highlights, and keeps those of the last plan."""

    def __init__(self) -> None:
        self._plan: Plan | None = None
        self._stage: Stage = "all"
        self._kept: dict[Ref, Highlight | None] = {}

    def of(self, plan: Plan, stage: Stage, ref: Ref) -> Highlight | None:
        """Return the highlight of a thing, or None if the stage does not show it."""
        if plan is not self._plan or stage != self._stage:
            self._plan, self._stage, self._kept = plan, stage, {}
        if ref not in self._kept:
            self._kept[ref] = _highlight(plan, stage, ref)
        return self._kept[ref]


def _highlight(plan: Plan, stage: Stage, ref: Ref) -> Highlight | None:
    pen, outlines = QtPen(), _outlines(plan, stage, ref)
    for outline in outlines:
        draw_outline(pen, "text", outline)
    return Highlight(ref, pen, around([outline.bounds for outline in outlines])) if outlines else None


def _outlines(plan: Plan, stage: Stage, ref: Ref) -> list[Outline]:
    found = [shape.outline for shape in shapes(plan, stage, (ref,))]
    tiling = plan.job.finish.tiling
    if found and ref == TILES and tiling:  # which are picked by a corner, and told by the first of them
        x, y = tiling.start_x, tiling.start_y
        return [rectangle(x, y, x + tiling.wide, y + tiling.high)]
    return found
