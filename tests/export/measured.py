"""What a drawing or a sheet shows, measured: the boxes of its texts and the lines between."""

import math
from collections.abc import Iterator
from itertools import combinations, pairwise
from typing import NamedTuple

from export.pen import XY
from export.recorder import Recorder, Stroke
from export.text import is_bold, text_box
from export.wrapped_pens import Clipped

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
    return [
        (a.text, b.text)
        for a, b in combinations(texts, 2)
        if a.bounds[0] < b.bounds[2] - slack
        and b.bounds[0] < a.bounds[2] - slack
        and a.bounds[1] < b.bounds[3] - slack
        and b.bounds[1] < a.bounds[3] - slack
    ]


def pieces(drawn: Recorder, *layers: str) -> Iterator[tuple[XY, XY]]:
    """Go through the straight pieces of what was drawn on these layers."""
    for stroke in taken_apart(drawn).on(*layers):
        if stroke.verb == "line":
            yield stroke.values["start"], stroke.values["end"]
        elif stroke.verb == "polyline":
            points = stroke.values["points"]
            yield from pairwise((*points, points[0]) if stroke.values["closed"] else points)


class RecordedPages:
    """Stands in for the PDF document: keeps every page as a recorder, in mm of paper."""

    def __init__(self, **about: str) -> None:
        self.about = about
        self.pages: list[Recorder] = []
        self.sizes: list[XY] = []
        self.names: list[str] = []

    def page(self, width: float, height: float, *, name: str = "") -> Recorder:
        self.pages.append(Recorder())
        self.sizes.append((width, height))
        self.names.append(name)
        return self.pages[-1]

    def to_bytes(self) -> bytes:
        return b""
