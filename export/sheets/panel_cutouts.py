"""The sheet for panels: the wall with its panels, their sizes, and every cut-out from a panel's own edges.

Millimetres on paper.
"""

import math

import shapely

from export.document import Document
from export.pen import Pen
from export.sheets.flow import Section, entry, paragraph
from export.sheets.listed import listed_sheet, reading_width
from export.sheets.options import SheetOptions
from export.sheets.paper import paper
from export.sheets.ticked import Column, table
from export.sheets.tiler import draw_to_fit
from geometry.finding import Finding
from geometry.model import Panels
from geometry.plan import Plan
from geometry.shape.outline import Bounds
from geometry.tiling.drilling import drilled
from geometry.tiling.pieces import Piece, panels_of
from geometry.tiling.region import gaps_in
from geometry.units import number

KIND = "Panels"
_SIZES = (
    Column("", 5.0),
    Column("Panel", 22.0, layer="frame"),
    Column("Width", 20.0, "right", "frame"),
    Column("Height", 20.0, "right", "frame"),
    Column("How it is cut", 0.0),
)
_CUT_OUTS = (
    Column("", 5.0),
    Column("Panel", 22.0, layer="frame"),
    Column("Cut-out", 0.0),
    Column("Size", 26.0, "right"),
    Column("From left edge", 24.0, "right", "frame"),
    Column("Above lower edge", 24.0, "right", "frame"),
)


def panels_sheet(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document
) -> None:
    """Lay out the sheet for panels.

    Args:
        plan: the job with its parts.
        findings: not used.
        options: paper.
        document: takes the pages.

    Raises:
        ValueError: there are too many panels.
    """
    sheet = paper(options.paper)
    width = reading_width(sheet)
    pieces, held = panels_of(plan), plan.job.finish.panels
    if held is None or not pieces:
        words = paragraph("Nothing on this wall is panelled. Tiles are on their own sheet.", width)
        listed_sheet(document, sheet, plan.job.about, KIND, [[Section(KIND, words)]])
        return

    def elevation(pen: Pen, room: Bounds) -> float:
        return draw_to_fit(plan, pen, room, pieces)

    note = (
        "Each panel is seen from its face: turn left and right round when you mark or cut it from the back. "
        "A size or distance is that of the panel itself, trims and joints already taken off. Centres of "
        "holes and the near corner of other cut-outs are given from the left and the lower edge; a minus is "
        "outside the panel."
    )
    sections = [
        Section("How to read it", paragraph(note, width)),
        table("Sizes", _SIZES, [_size(piece) for piece in pieces], width),
        _cut_outs(plan, pieces, width),
        Section(
            "Amounts", tuple(entry(name, text, width) for name, text in amounts_words(plan, pieces, held))
        ),
    ]
    listed_sheet(document, sheet, plan.job.about, KIND, [sections], elevation)


def _size(piece: Piece) -> list[str]:
    wide, high = piece.size
    how = {
        "whole": "whole sheet",
        "cut": f"from a sheet of {number(piece.tile.wide)} × {number(piece.tile.high)}",
        "notched": "with a cut-out at its edge or inside, see below",
    }[piece.kind]
    return ["", piece.name, number(wide), number(high), how]


def cut_outs(plan: Plan, pieces: tuple[Piece, ...]) -> list[list[str]]:
    """Return what is cut out of each panel: what, how large, from its left edge, above its lower edge."""
    rows = []
    border = plan.job.finish.panels.trim if plan.job.finish.panels else 0.0
    for piece in pieces:
        x0, y0, x1, y1 = piece.bounds
        for one in drilled(plan, pieces):
            for tile in one.tiles:
                if tile.piece is piece:
                    what = f"{one.number} {one.hole.owner}{', over the edge' if tile.cuts else ''}"
                    size = f"dia. {number(one.hole.diameter)}"
                    rows.append([piece.name, what, size, number(tile.across), number(tile.up)])
        for gap in gaps_in(plan.job.finish, plan.job.wall, plan.job.enclosure):
            left, low = max(gap[0] - border, x0), max(gap[1] - border, y0)
            right, top = min(gap[2] + border, x1), min(gap[3] + border, y1)
            if right - left > 0.05 and top - low > 0.05:
                size = f"{number(right - left)} × {number(top - low)}"
                rows.append([piece.name, "opening, niche or rim", size, number(left - x0), number(low - y0)])
    return rows


def _cut_outs(plan: Plan, pieces: tuple[Piece, ...], width: float) -> Section:
    rows = [["", *row] for row in cut_outs(plan, pieces)]
    if not rows:
        return Section("Cut-outs", paragraph("No panel has a cut-out.", width))
    return table("Cut-outs", _CUT_OUTS, rows, width)


def amounts_words(plan: Plan, pieces: tuple[Piece, ...], held: Panels) -> list[tuple[str, str]]:
    """Return what the panels come to, as subject and sentence."""
    area = sum(float(shapely.area(piece.shape)) for piece in pieces) / 1e6
    joints = joint_length(pieces, held.joint)
    around = sum(float(shapely.length(piece.shape)) for piece in pieces) - 2 * joints
    return [
        (
            "Sheets",
            f"{len(pieces)} of {number(held.wide)} × {number(held.high)}, one a panel; {area:.2f} m2 laid.",
        ),
        ("Joints", f"{number(joints / 1000, 2)} m of joint strip or sealant, {number(held.joint)} wide."),
        ("Trims", f"{number(around / 1000, 2)} m of edge trim, {number(held.trim)} thick."),
    ]


def joint_length(pieces: tuple[Piece, ...], joint: float) -> float:
    """Return how long the joints between neighbouring panels are together, in mm."""
    total = 0.0
    for index, one in enumerate(pieces):
        for other in pieces[:index]:
            if one.area == other.area:
                total += _facing(one.bounds, other.bounds, joint)
    return total


def _facing(a: Bounds, b: Bounds, joint: float) -> float:
    """Return the length along which two upright boxes lie a joint apart."""
    for axis in (0, 1):
        apart = max(a[axis] - b[axis + 2], b[axis] - a[axis + 2])
        if math.isclose(apart, joint, abs_tol=0.01):
            other = 1 - axis
            return max(0.0, min(a[other + 2], b[other + 2]) - max(a[other], b[other]))
    return 0.0
