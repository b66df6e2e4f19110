"""The full-size pages as a reader that did not write them sees them."""

import io
import math
import re
from functools import cache
from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np
import pdfplumber
import pypdfium2
import pytest
import shapely

from export.sheets.full_size import full_size_sheet
from export.sheets.options import SheetOptions
from geometry.model import XY, Job
from geometry.setting_out.arrangement import suggested_job
from tests.export.jobs import planned
from tests.export.measured import as_pdf
from tests.export.pdf_reader import POINT
from tests.samples import sample_job

CLOSE = 0.05  # mm; what is asked of a hole's centre and a chase's corner
Segment = tuple[XY, XY]


class Read(NamedTuple):
    """What was read from one page, in mm from its lower left corner."""

    name: str
    width: float
    height: float
    text: str
    sideways: str
    """The words that run up the page."""
    segments: list[Segment]
    """Every straight stroke, those of joined lines one by one."""
    strong: list[Segment]
    """Those of 0.2 mm or more: what is cut, pipes, the wall."""
    crosses: dict[str, XY]
    """Register crosses by their labels."""
    bounds: Any
    """Of every stroke and letter: x min, y min, x max, y max."""

    def hole_crosses(self) -> list[tuple[XY, float]]:
        """Return where a level and an upright stroke of one length halve each other, and that length."""
        level = [
            (a, b) for a, b in self.segments if a[1] == pytest.approx(b[1]) and 8 < abs(a[0] - b[0]) < 23
        ]
        upright = [
            (a, b) for a, b in self.segments if a[0] == pytest.approx(b[0]) and 8 < abs(a[1] - b[1]) < 23
        ]
        found = [
            (_middle(*one), abs(one[0][0] - one[1][0]))
            for one in level
            for other in upright
            if math.dist(_middle(*one), _middle(*other)) < CLOSE
        ]
        return [
            (at, size)
            for at, size in found
            if all(math.dist(at, cross) > 1 for cross in self.crosses.values())
        ]

    def bars(self) -> tuple[list[float], list[float]]:
        """Return the lengths of long strokes in the strips at the bottom and at the left: across and up."""
        level = [math.dist(a, b) for a, b in self.segments if a[1] == pytest.approx(b[1]) and a[1] < 15]
        upright = [math.dist(a, b) for a, b in self.segments if a[0] == pytest.approx(b[0]) and a[0] < 15]
        return [length for length in level if length > 50], [length for length in upright if length > 50]


def _middle(a: XY, b: XY) -> XY:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def read(data: bytes) -> list[Read]:
    """Read all pages, the map first."""
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        return [_read_page(page) for page in pdf.pages]


def texts(data: bytes) -> list[str]:
    """Read only the words of all pages, with another reader."""
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data)]


def _read_page(page: Any) -> Read:
    def mm(at: XY) -> XY:
        return at[0] * POINT, (float(page.height) - at[1]) * POINT

    segments: list[Segment] = []
    strong: list[Segment] = []
    diamonds: list[XY] = []
    for path in (*page.lines, *page.curves, *page.rects):
        if not path["stroke"]:
            continue
        corners = [mm(at) for at in path["pts"]]
        xs, ys = zip(*corners, strict=True)
        wide, high = max(xs) - min(xs), max(ys) - min(ys)
        if len(set(corners)) == 4 and abs(wide - high) < 0.01 and min(abs(wide - 4), abs(wide - 2)) < 0.01:
            diamonds.append(((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2))
        if path["object_type"] == "rect":
            corners.append(corners[0])
        segments += list(pairwise(corners))
        if path["linewidth"] * POINT > 0.2:
            strong += list(pairwise(corners))
    crosses = {}
    for word in page.extract_words(keep_blank_chars=True, x_tolerance=1):
        for label in re.findall(r"[A-Z]+\d+\|[A-Z]+\d+ \d", word["text"]):
            box = shapely.box(*mm((word["x0"], word["bottom"])), *mm((word["x1"], word["top"])))
            crosses[label] = min(diamonds, key=lambda at: float(shapely.distance(box, shapely.Point(at))))
    text = page.extract_text()
    name = re.search(r"page ([A-Z]+\d+), sheet", text)
    letters = [(*mm((c["x0"], c["bottom"])), *mm((c["x1"], c["top"]))) for c in page.chars]
    ends = [(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])) for a, b in segments]
    return Read(
        name.group(1) if name else "map",
        float(page.width) * POINT,
        float(page.height) * POINT,
        text,
        _sideways(page.chars),
        segments,
        strong,
        crosses,
        np.array(letters + ends),
    )


def _sideways(chars: list[dict[str, Any]]) -> str:
    """Gather the letters that run up the page, one line of words after the other."""
    turned = [char for char in chars if not char["upright"]]
    lines = sorted({round(char["matrix"][4], 1) for char in turned})
    rows = [
        sorted((c for c in turned if round(c["matrix"][4], 1) == at), key=lambda c: c["matrix"][5])
        for at in lines
    ]
    return "\n".join("".join(char["text"] for char in row) for row in rows)


def alcove(title: str = "Alcove") -> Job:
    """Return the trade's own arrangement above a 760 tray."""
    return suggested_job(760, 760, "left", title=title)


@cache
def sheet(name: str, paper: str = "A4", stretch_x: float = 1.0, stretch_y: float = 1.0) -> list[Read]:
    """Return the pages of a sample or of the alcove, the map first; to look at, not to change."""
    job = alcove() if name == "alcove" else sample_job(name)
    options = SheetOptions(paper=paper, stretch_x=stretch_x, stretch_y=stretch_y)
    return read(as_pdf(full_size_sheet, planned(job), (), options))
