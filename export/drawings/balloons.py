"""Findings on the drawing: where each was measured, with the number under which a table lists it.

Model millimetres; sizes on paper are multiplied by the scale.
"""

import math
from collections.abc import Iterator

from export.drawings.outlines import draw_outline
from export.drawings.spots import Spot, Spots
from export.pen import XY, Pen
from export.text import is_bold, text_width
from geometry.finding import Finding, Status, attention
from geometry.shape.outline import Bounds, rectangle

HEIGHT = 2.5  # mm on paper, ISO 3098 series, from memory
PAD = 0.9  # mm on paper, between a number and its frame
CORNER = 1.0  # mm on paper, of the frame round a number
RING = 0.9  # mm on paper, radius of the ring at each end of what was measured
AWAY = (4.0, 5.5, 7.5, 10.0, 13.0, 17.0, 22.0, 28.0, 36.0, 46.0)  # mm on paper; distances that are tried
WAYS = 16  # directions that are tried
TIED = 5.0  # mm on paper; a number farther away than this has a leader
SAME = 3.0  # mm on paper; findings nearer together than this share a frame
IN_A_ROW = (3, 2, 1)  # numbers in a row of a frame, the first that finds a place off all lines
MOST = 9  # numbers in a frame
LEADING = 1.7  # from one row to the next, as a share of the height
LAYERS: dict[Status, str] = {
    "clash": "clash",
    "unchecked": "caution",
    "refer": "text",
    "tight": "tight",
    "clear": "leader",
}
"""The layer that marks a finding of each status."""


def numbered(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the findings that have a number, all but the clear ones: the first is 1, clashes come first."""
    return tuple(finding for finding in attention(findings) if finding.status != "clear")


def draw_places(findings: tuple[Finding, ...], pen: Pen, scale: float) -> None:
    """Draw where each numbered finding was measured; `scale` is 20 for 1:20."""
    for finding in numbered(findings):
        if finding.place:
            _draw_place(finding, LAYERS[finding.status], pen, scale)


def draw_numbers(findings: tuple[Finding, ...], spots: Spots, pen: Pen, scale: float) -> None:
    """Set the number of each finding beside its place; findings at one spot share a frame.

    A frame for which there is no room is left out.

    Args:
        findings: of all checks; clear ones and those without a place have no number on the drawing.
        spots: the drawing so far.
        pen: in model mm.
        scale: 20 for 1:20.
    """
    height, pad = HEIGHT * scale, PAD * scale
    for numbers, worst in _gathered(findings, scale):
        layer = LAYERS[worst.status]
        narrowest = (IN_A_ROW[-1], False)  # last of all on lines, as narrow as can be
        for in_a_row, bare in (*((many, True) for many in IN_A_ROW), narrowest):
            rows = _rows(numbers, in_a_row)
            width = max(text_width(row, height, bold=is_bold(layer)) for row in rows) + 2 * pad
            tall = height + (len(rows) - 1) * LEADING * height + 2 * pad
            spot = spots.take(round_about(_middle(worst), scale), width, tall, bare=bare)
            if spot:
                _draw_frame(spot, rows, layer, (width, tall), pen, scale)
                break


def _draw_frame(spot: Spot, rows: list[str], layer: str, size: XY, pen: Pen, scale: float) -> None:
    height, (x, y), (width, tall) = HEIGHT * scale, spot.middle, size
    frame = (x - width / 2, y - tall / 2, x + width / 2, y + tall / 2)
    if spot.tied_to:
        pen.line("leader", _rim(frame, spot.tied_to), spot.tied_to)
    draw_outline(pen, layer, rectangle(*frame, CORNER * scale))
    for index, row in enumerate(rows):
        baseline = frame[3] - PAD * scale - height - index * LEADING * height
        pen.text(layer, (x, baseline), row, height, align="centre")


def _gathered(findings: tuple[Finding, ...], scale: float) -> list[tuple[list[int], Finding]]:
    """Return the numbers at each spot, with the finding that is the worst there: the first."""
    spots: list[tuple[list[int], Finding]] = []
    for number, finding in enumerate(numbered(findings), 1):
        if not finding.place:
            continue
        at = _middle(finding)
        for numbers, worst in spots:
            if math.dist(at, _middle(worst)) < SAME * scale:
                numbers.append(number)
                break
        else:
            spots.append(([number], finding))
    return spots


def _rows(numbers: list[int], in_a_row: int) -> list[str]:
    """Return numbers in rows, and how many more there are than a frame holds."""
    shown = [str(number) for number in numbers[:MOST]]
    if len(numbers) > MOST:
        shown[-1] = f"+{len(numbers) - MOST + 1}"
    rows = [", ".join(shown[first : first + in_a_row]) for first in range(0, len(shown), in_a_row)]
    return [*(f"{row}," for row in rows[:-1]), rows[-1]]


def _middle(finding: Finding) -> XY:
    xs, ys = zip(*finding.place, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def round_about(at: XY, scale: float) -> Iterator[Spot]:
    """Go through places round a point, the nearest first, from the upper right counter-clockwise."""
    for away in AWAY:
        for way in range(WAYS):
            angle = math.pi / 4 + 2 * math.pi * way / WAYS
            middle = at[0] + away * scale * math.cos(angle), at[1] + away * scale * math.sin(angle)
            yield Spot(middle, at if away > TIED else None)


def _rim(frame: Bounds, to: XY) -> XY:
    """Return the point of a frame that is nearest to a point outside it."""
    return min(max(to[0], frame[0]), frame[2]), min(max(to[1], frame[1]), frame[3])


def _draw_place(finding: Finding, layer: str, pen: Pen, scale: float) -> None:
    """Draw a ring at each end of what was measured, or a single one where they would touch."""
    first, last = finding.place[0], finding.place[-1]
    if math.dist(first, last) < 3 * RING * scale:
        pen.circle(layer, ((first[0] + last[0]) / 2, (first[1] + last[1]) / 2), RING * scale)
        return
    pen.polyline(layer, finding.place)
    for point in (first, last):
        pen.circle(layer, point, RING * scale)
