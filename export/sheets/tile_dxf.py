"""The tiles as DXF at true size, for a saw or water-jet: one closed outline for each piece, a circle a hole.

Model millimetres as on the wall. Whole tiles, cut pieces and holes each have their layer; what is left out
inside a piece, such as a niche, is a closed outline on the layer of the holes. Nothing is drawn twice.
"""

from export.dxf import DxfDocument
from export.sheets.options import SheetOptions
from geometry.finding import Finding
from geometry.plan import Plan
from geometry.tiling.drilling import drilled
from geometry.tiling.pieces import pieces_of

SCALE = 10.0
"""Of dashes and letters, as for a drawing at 1:10; what is cut has its true size."""
LETTERS = 20.0
"""Height of a tile's name, in mm."""


def tile_dxf(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    """Return the tiles as a DXF file, R2010, in mm.

    Args:
        plan: the job with its parts.
        findings: not used.
        options: not used: the file has no paper.

    Raises:
        ValueError: there are too many tiles.
    """
    document = DxfDocument(SCALE)
    pen = document.model
    pieces = pieces_of(plan)
    for piece in pieces:
        outline, *inner = piece.rings
        pen.polyline("tile-whole" if piece.kind == "whole" else "tile-cut", outline, closed=True)
        for ring in inner:
            pen.polyline("tile-hole", ring, closed=True)
    drawn = set()
    for one in drilled(plan):
        at = one.hole.at, one.hole.diameter
        if one.tiles and at not in drawn:
            drawn.add(at)
            pen.circle("tile-hole", one.hole.at, one.hole.diameter / 2)
    for piece in pieces:
        x0, y0, x1, y1 = piece.bounds
        height = min(LETTERS, (y1 - y0) / 3, (x1 - x0) / (len(piece.name) + 1))
        pen.text("text", (x0 + height / 2, y0 + height / 2), piece.name, height)
    if not pieces:
        pen.text("text", (0.0, 0.0), "Nothing on this wall is tiled.", LETTERS)
    return document.to_bytes()
