"""A DXF drawing with something of everything on it."""

from export.dxf import DxfDocument


def a_drawing(scale: float = 10) -> DxfDocument:
    """Return a wall 900 by 2400 mm with something of everything on it, and a sheet."""
    document = DxfDocument(scale)
    pen = document.model
    pen.polyline("wall", [(0, 0), (900, 0), (900, 2400), (0, 2400)], closed=True)
    pen.line("datum", (0, 1000), (900, 1000))
    pen.polyline("pipe-hot", [(300, 0), (300, 1100)])
    pen.circle("plate", (375, 1100), 80)
    pen.arc("screen", (0, 0), 700, 0, 90)
    pen.text("text", (20, 2430), "H and C at 1100", 35)
    pen.dimension("dimension", (0, 0), (375, 0), (0, -150), "x", "375 c/l", 25)
    pen.running("dimension", (0, 0), (375, 1100), (1000, 1100), "y", "1100", 25)
    name = document.block("Valve", lambda part: part.circle("body", (0, 0), 60))
    document.insert(name, (375, 1100), "body", {"part": "thermostatic valve"})
    sheet = document.sheet((297, 420), ((15, 60), (285, 410)), (400, 1150))
    sheet.polyline("frame", [(20, 10), (287, 10), (287, 410), (20, 410)], closed=True)
    sheet.line("datum", (20, 40), (250, 40))
    return document
