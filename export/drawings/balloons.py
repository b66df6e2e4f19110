"""Findings on the drawing: where each was measured, with the number under which a table lists it.

Model millimetres; sizes on paper are multiplied by the scale.
"""

import math

from export.drawings.notes import Beside, place
from export.drawings.outlines import draw_outline
from export.pen import Pen
from export.recorder import Recorder
from geometry.finding import Finding, Status, attention
from geometry.shape.outline import Bounds, rectangle

HEIGHT = 2.5  # mm on paper, ISO 3098 series, from memory
CORNER = 1.0  # mm on paper, of the frame round a number
RING = 0.9  # mm on paper, radius of the ring at each end of what was measured
LAYERS: dict[Status, str] = {
    "clash": "clash",
    "unchecked": "caution",
    "refer": "caution",
    "tight": "tight",
    "clear": "leader",
}
"""The layer that marks a finding of each status."""


def numbered(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the findings that have a number, all but the clear ones: the first is 1, clashes come first."""
    return tuple(finding for finding in attention(findings) if finding.status != "clear")


def draw_balloons(
    findings: tuple[Finding, ...], window: Bounds, drawn: Recorder, pen: Pen, scale: float
) -> None:
    """Mark the places of the findings, and set the number of each beside its place.

    Args:
        findings: of all checks; clear ones and those without a place are not marked.
        window: where numbers may stand.
        drawn: the strokes that numbers must not cover.
        pen: in model mm.
        scale: 20 for 1:20.
    """
    notes = []
    for number, finding in enumerate(numbered(findings), 1):
        if finding.place:
            layer = LAYERS[finding.status]
            _draw_place(finding, layer, pen, scale)
            _draw_place(finding, layer, drawn, scale)
            xs, ys = zip(*finding.place, strict=True)
            middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
            notes.append(Beside(middle, ((str(number),),), HEIGHT * scale, layer, clear=2 * RING * scale))
    for placed in place(notes, window, drawn):
        xs, ys = zip(*placed.box, strict=True)
        frame = rectangle(min(xs), min(ys), max(xs), max(ys), CORNER * scale)
        draw_outline(pen, placed.note.layer, frame)
        placed.draw(pen)


def _draw_place(finding: Finding, layer: str, pen: Pen, scale: float) -> None:
    """Draw a ring at each end of what was measured, or a single one where they would touch."""
    first, last = finding.place[0], finding.place[-1]
    if math.dist(first, last) < 3 * RING * scale:
        pen.circle(layer, ((first[0] + last[0]) / 2, (first[1] + last[1]) / 2), RING * scale)
        return
    pen.polyline(layer, finding.place)
    for point in (first, last):
        pen.circle(layer, point, RING * scale)
