"""What a drawing or a sheet shows, measured: the boxes of its texts and the lines between."""

import math
from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import NamedTuple

from export.pack import LayOut
from export.pdf import PdfDocument
from export.pen import XY
from export.recorded import RecordedDocument
from export.recorder import Recorder, Stroke
from export.sheets.frame import frame_box, title_box
from export.sheets.options import SheetOptions
from export.sheets.paper import paper
from export.text import is_bold, text_box
from export.wrapped_pens import Clipped
from geometry.finding import Finding
from geometry.plan import Plan

EVERYWHERE = (-1e7, -1e7, 1e7, 1e7)


class Words(NamedTuple):
    """One text with the corners of the room that its letters take up."""

    text: str
    height: float
    corners: tuple[XY, ...]

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        xs, ys = zip(*self.corners, strict=True)
        return min(xs), min(ys), max(xs), max(ys)


def taken_apart(drawn: Recorder) -> Recorder:
    """Return a drawing with its dimensions as lines and texts."""
    plain = Recorder()
    drawn.replay(Clipped(plain, *EVERYWHERE))
    return plain


def words(drawn: Recorder) -> list[Words]:
    """Return every text of a drawing, those of its dimensions too."""
    return [
        _words(stroke) for stroke in taken_apart(drawn).strokes if stroke.verb == "text" and _text(stroke)
    ]


def _text(stroke: Stroke) -> str:
    return str(stroke.values["text"]).strip()


def _words(stroke: Stroke) -> Words:
    values = stroke.values
    left, low, right, top = text_box(
        values["text"], values["height"], values["align"], bold=is_bold(stroke.layer)
    )
    cos, sin = math.cos(math.radians(values["angle"])), math.sin(math.radians(values["angle"]))
    x, y = values["at"]
    corners = tuple(
        (x + a * cos - b * sin, y + a * sin + b * cos)
        for a, b in ((left, low), (right, low), (right, top), (left, top))
    )
    return Words(values["text"], values["height"], corners)


def touching(texts: list[Words], slack: float = 1e-6) -> list[tuple[str, str]]:
    """Return the pairs of texts whose rooms overlap; all of them stand level or upright."""
    boxes = [(text.text, *text.bounds) for text in texts]
    return [
        (a, b)
        for (a, ax0, ay0, ax1, ay1), (b, bx0, by0, bx1, by1) in combinations(boxes, 2)
        if ax0 < bx1 - slack and bx0 < ax1 - slack and ay0 < by1 - slack and by0 < ay1 - slack
    ]


def pieces(drawn: Recorder, *layers: str) -> Iterator[tuple[XY, XY]]:
    """Go through the straight pieces of what was drawn on these layers."""
    for stroke in taken_apart(drawn).on(*layers):
        if stroke.verb == "line":
            yield stroke.values["start"], stroke.values["end"]
        elif stroke.verb == "polyline":
            points = stroke.values["points"]
            yield from pairwise((*points, points[0]) if stroke.values["closed"] else points)


def laid_out(
    sheet: LayOut, plan: Plan, findings: tuple[Finding, ...] = (), options: SheetOptions | None = None
) -> RecordedDocument:
    """Return the pages of a sheet, stroke by stroke."""
    document = RecordedDocument()
    sheet(plan, findings, options or SheetOptions(), document)
    return document


def as_pdf(
    sheet: LayOut, plan: Plan, findings: tuple[Finding, ...] = (), options: SheetOptions | None = None
) -> bytes:
    """Return the file of a sheet."""
    document = PdfDocument()
    sheet(plan, findings, options or SheetOptions(), document)
    return document.to_bytes()


def assert_legible(pages: RecordedDocument) -> None:
    """Texts of every page neither touch, nor leave the frame, nor reach into the title block."""
    for page in pages.pages:
        sheet = next(
            one
            for name in ("A0", "A1", "A2", "A3", "A4", "A5")
            for one in (paper(name), paper(name, landscape=True))
            if (one.width, one.height) == (page.width, page.height)
        )
        found = words(page)
        assert touching(found, slack=1e-4) == []
        left, low, right, top = frame_box(sheet)
        block = title_box(sheet)
        for text in found:
            x0, y0, x1, y1 = text.bounds
            assert left <= x0 <= x1 <= right, text
            assert low <= y0 <= y1 <= top, text
            assert y0 >= block[3] or x1 <= block[0] or (y1 <= block[3] and x0 >= block[0]), text
            assert text.height >= 1.8 - 1e-6, text
