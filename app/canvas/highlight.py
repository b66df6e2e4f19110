"""The outlines of what is chosen or pointed at, kept while plan and stage stay."""

from typing import NamedTuple

from app.canvas.pick import shapes
from app.canvas.qt_pen import QtPen
from app.canvas.stages import Stage
from export.drawings.extent import around
from export.drawings.outlines import draw_outline
from geometry.edits.refs import Ref
from geometry.plan import Plan
from geometry.shape.outline import Bounds


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
    pen, boxes = QtPen(), []
    for shape in shapes(plan, stage, (ref,)):
        draw_outline(pen, "text", shape.outline)
        boxes.append(shape.outline.bounds)
    return Highlight(ref, pen, around(boxes)) if boxes else None
