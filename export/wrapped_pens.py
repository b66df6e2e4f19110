"""Pens that wrap a pen: they move and scale a drawing, cut it to a window, or leave layers out.

Millimetres, y up. A wrapped pen is a pen, so they nest in any order. None of them knows what the
drawing shows or which format the innermost pen writes.
"""

import math
from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise
from typing import Protocol, runtime_checkable

from export.layers import LAYERS
from export.pen import XY, Align, Axis, Pen
from export.plain_dimensions import PlainDimensions
from export.text import is_bold, text_box

SAGITTA = 0.01
"""How far a curve drawn as straight lines may stray from the true one, in mm."""

_TOUCH = 1e-9  # degrees; an arc this short only touches the window


@runtime_checkable
class FillingPen(Protocol):
    """A pen that can also fill a shape without drawing its edge, as cutting at a window needs.

    On any other pen a shape that is cut through shows its edges only.
    """

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        """Fill the closed shape through these points, if its layer has a fill."""


class Placed:
    """Draws at a scale and an offset: x becomes `x * scale * stretch_x + dx`, and y likewise.

    The stretch makes good what a printer gets wrong: it moves points, while text and dimensions
    keep the height that the scale gives them. Where it differs in x and y, circles and arcs become
    fine polylines.
    """

    def __init__(
        self, pen: Pen, scale: float, dx: float, dy: float, *, stretch_x: float = 1.0, stretch_y: float = 1.0
    ) -> None:
        if not (scale > 0 and stretch_x > 0 and stretch_y > 0):
            raise ValueError(
                f"scale and stretch must be above 0, got {scale:g} and {stretch_x:g} by {stretch_y:g}"
            )
        self._pen = pen
        self._scale = scale
        self._sx, self._sy = scale * stretch_x, scale * stretch_y
        self._dx, self._dy = dx, dy

    def _put(self, point: XY) -> XY:
        return point[0] * self._sx + self._dx, point[1] * self._sy + self._dy

    def line(self, layer: str, start: XY, end: XY) -> None:
        """Draw one straight line."""
        self._pen.line(layer, self._put(start), self._put(end))

    def polyline(self, layer: str, points: Sequence[XY], *, closed: bool = False) -> None:
        """Draw joined lines."""
        self._pen.polyline(layer, [self._put(point) for point in points], closed=closed)

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        """Fill a shape without its edge, where the wrapped pen can."""
        _fill(self._pen, layer, [self._put(point) for point in points])

    def circle(self, layer: str, centre: XY, radius: float) -> None:
        """Draw a circle."""
        if self._sx == self._sy:
            self._pen.circle(layer, self._put(centre), radius * self._sx)
        else:
            self.polyline(layer, self._curve(centre, radius, 0.0, 360.0)[:-1], closed=True)

    def arc(self, layer: str, centre: XY, radius: float, start: float, end: float) -> None:
        """Draw an arc."""
        if self._sx == self._sy:
            self._pen.arc(layer, self._put(centre), radius * self._sx, start, end)
        else:
            self.polyline(layer, self._curve(centre, radius, start, start + _sweep(start, end)))

    def _curve(self, centre: XY, radius: float, start: float, end: float) -> list[XY]:
        return _curve(centre, radius, start, end, SAGITTA / max(self._sx, self._sy))

    def text(
        self, layer: str, at: XY, text: str, height: float, *, align: Align = "left", angle: float = 0.0
    ) -> None:
        """Write one line of text."""
        self._pen.text(layer, self._put(at), text, height * self._scale, align=align, angle=angle)

    def dimension(
        self, layer: str, start: XY, end: XY, base: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Draw a dimension; its text stays what it was."""
        put = self._put
        self._pen.dimension(layer, put(start), put(end), put(base), axis, text, height * self._scale)

    def running(
        self, layer: str, origin: XY, feature: XY, tag: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Draw a running dimension; its text stays what it was."""
        put = self._put
        self._pen.running(layer, put(origin), put(feature), put(tag), axis, text, height * self._scale)


class Clipped(PlainDimensions):
    """Draws only what lies in a window; lines end exactly on its border, and none run along it for the cut.

    Text is drawn whole where any of it shows and not at all elsewhere. Dimensions are taken apart
    into lines and text first.
    """

    def __init__(self, pen: Pen, x0: float, y0: float, x1: float, y1: float) -> None:
        if not (x0 < x1 and y0 < y1):
            raise ValueError(f"a window needs width and height, got x {x0:g} to {x1:g}, y {y0:g} to {y1:g}")
        self._pen = pen
        self._x0, self._y0, self._x1, self._y1 = x0, y0, x1, y1
        # Which coordinate, where the border is, and whether the window is above (1) or below (-1) it.
        self._borders = ((0, x0, 1), (0, x1, -1), (1, y0, 1), (1, y1, -1))

    def line(self, layer: str, start: XY, end: XY) -> None:
        """Draw the part of a line that lies in the window."""
        piece = self._within(start, end)
        if piece:
            self._pen.line(layer, *piece)

    def polyline(self, layer: str, points: Sequence[XY], *, closed: bool = False) -> None:
        """Draw the parts of joined lines that lie in the window, and the part of the fill."""
        if all(self._holds(point) for point in points):
            self._pen.polyline(layer, points, closed=closed)
            return
        if closed:
            self.fill(layer, points)
            # Starting outside keeps the run whole that passes the first point.
            outside = next(i for i, point in enumerate(points) if not self._holds(point))
            points = [*points[outside:], *points[: outside + 1]]
        for run in self._runs(points):
            self._pen.polyline(layer, run)

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        """Fill the part of a shape that lies in the window, without an edge, where the wrapped pen can."""
        if LAYERS[layer].fill:
            shape = list(points)
            for axis, border, keep in self._borders:
                shape = _half(shape, axis, border, keep)
            if shape:
                _fill(self._pen, layer, shape)

    def circle(self, layer: str, centre: XY, radius: float) -> None:
        """Draw a circle, or the arcs of it that lie in the window, and the part of the fill."""
        x, y = centre
        if self._holds((x - radius, y - radius)) and self._holds((x + radius, y + radius)):
            self._pen.circle(layer, centre, radius)
            return
        if LAYERS[layer].fill:
            self.fill(layer, _curve(centre, radius, 0.0, 360.0, SAGITTA)[:-1])
        for start, end in self._arcs(centre, radius, 0.0, 360.0):
            self._pen.arc(layer, centre, radius, start, end)

    def arc(self, layer: str, centre: XY, radius: float, start: float, end: float) -> None:
        """Draw the parts of an arc that lie in the window."""
        for piece_start, piece_end in self._arcs(centre, radius, start, start + _sweep(start, end)):
            self._pen.arc(layer, centre, radius, piece_start, piece_end)

    def text(
        self, layer: str, at: XY, text: str, height: float, *, align: Align = "left", angle: float = 0.0
    ) -> None:
        """Write one line of text if any of it lies in the window."""
        left, bottom, right, top = text_box(text, height, align, bold=is_bold(layer))
        cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        corners = [(x, y) for x in (left, right) for y in (bottom, top)]
        xs = [at[0] + x * cos - y * sin for x, y in corners]
        ys = [at[1] + x * sin + y * cos for x, y in corners]
        if self._x0 <= max(xs) and min(xs) <= self._x1 and self._y0 <= max(ys) and min(ys) <= self._y1:
            self._pen.text(layer, at, text, height, align=align, angle=angle)

    def _holds(self, point: XY) -> bool:
        return self._x0 <= point[0] <= self._x1 and self._y0 <= point[1] <= self._y1

    def _within(self, start: XY, end: XY) -> tuple[XY, XY] | None:
        """Return the part of a line in the window, if it has any length (Liang and Barsky's method)."""
        enter, leave = 0.0, 1.0
        for axis, border, keep in self._borders:
            room, gain = keep * (start[axis] - border), keep * (end[axis] - start[axis])
            if gain > 0:
                enter = max(enter, -room / gain)
            elif gain < 0:
                leave = min(leave, -room / gain)
            elif room < 0:
                return None
        if enter >= leave:
            return None
        first = self._onto(_between(start, end, enter)) if enter > 0 else start
        last = self._onto(_between(start, end, leave)) if leave < 1 else end
        return (first, last) if first != last else None

    def _onto(self, point: XY) -> XY:
        """Put a point that rounding left a hair outside back on the border."""
        return min(max(point[0], self._x0), self._x1), min(max(point[1], self._y0), self._y1)

    def _runs(self, points: Sequence[XY]) -> Iterator[list[XY]]:
        """Yield the parts of joined lines in the window, each as long as it goes on unbroken."""
        run: list[XY] = []
        for start, end in pairwise(points):
            piece = self._within(start, end)
            if piece and run and piece[0] == run[-1]:
                run.append(piece[1])
            elif piece:
                if run:
                    yield run
                run = list(piece)
        if run:
            yield run

    def _arcs(self, centre: XY, radius: float, start: float, end: float) -> Iterator[tuple[float, float]]:
        """Yield the parts, in degrees, of an arc that lie in the window."""
        cuts = list(self._cuts(centre, radius))
        if end - start == 360 and cuts:
            start, end = cuts[0], cuts[0] + 360
        turns = sorted((cut - start) % 360 for cut in cuts)
        marks = [start, *(start + turn for turn in turns if 0 < turn < end - start), end]
        begun = start
        for a, b in pairwise(marks):
            if not self._holds(_on_circle(centre, radius, (a + b) / 2)):
                if a - begun > _TOUCH:
                    yield begun, a
                begun = b
        if end - begun > _TOUCH:
            yield begun, end

    def _cuts(self, centre: XY, radius: float) -> Iterator[float]:
        """Yield the angles at which a circle meets the lines of the window's border."""
        x, y = centre
        for border in (self._x0, self._x1):
            if abs(border - x) < radius:
                angle = math.degrees(math.acos((border - x) / radius))
                yield from (angle, -angle)
        for border in (self._y0, self._y1):
            if abs(border - y) < radius:
                angle = math.degrees(math.asin((border - y) / radius))
                yield from (angle, 180 - angle)


class OnLayers:
    """Draws only what is on the named layers."""

    def __init__(self, pen: Pen, layers: Collection[str]) -> None:
        self._pen = pen
        self._layers = frozenset(layers)

    def line(self, layer: str, start: XY, end: XY) -> None:
        """Draw one straight line."""
        if layer in self._layers:
            self._pen.line(layer, start, end)

    def polyline(self, layer: str, points: Sequence[XY], *, closed: bool = False) -> None:
        """Draw joined lines."""
        if layer in self._layers:
            self._pen.polyline(layer, points, closed=closed)

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        """Fill a shape without its edge, where the wrapped pen can."""
        if layer in self._layers:
            _fill(self._pen, layer, points)

    def circle(self, layer: str, centre: XY, radius: float) -> None:
        """Draw a circle."""
        if layer in self._layers:
            self._pen.circle(layer, centre, radius)

    def arc(self, layer: str, centre: XY, radius: float, start: float, end: float) -> None:
        """Draw an arc."""
        if layer in self._layers:
            self._pen.arc(layer, centre, radius, start, end)

    def text(
        self, layer: str, at: XY, text: str, height: float, *, align: Align = "left", angle: float = 0.0
    ) -> None:
        """Write one line of text."""
        if layer in self._layers:
            self._pen.text(layer, at, text, height, align=align, angle=angle)

    def dimension(
        self, layer: str, start: XY, end: XY, base: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Draw a dimension."""
        if layer in self._layers:
            self._pen.dimension(layer, start, end, base, axis, text, height)

    def running(
        self, layer: str, origin: XY, feature: XY, tag: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Draw a running dimension."""
        if layer in self._layers:
            self._pen.running(layer, origin, feature, tag, axis, text, height)


def _fill(pen: Pen, layer: str, points: Sequence[XY]) -> None:
    if isinstance(pen, FillingPen):
        pen.fill(layer, points)


def _sweep(start: float, end: float) -> float:
    """Return how far an arc goes counter-clockwise, in degrees above 0 up to 360."""
    return (end - start) % 360 or 360.0


def _between(start: XY, end: XY, share: float) -> XY:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _on_circle(centre: XY, radius: float, angle: float) -> XY:
    turn = math.radians(angle)
    return centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)


def _curve(centre: XY, radius: float, start: float, end: float, sagitta: float) -> list[XY]:
    """Return points on an arc, close enough that chords stray from it by `sagitta` mm at most."""
    step = 2 * math.degrees(math.acos(max(1 - sagitta / radius, 0.7)))  # a tiny one has 4 sides at least
    count = max(math.ceil((end - start) / step), 1)
    return [_on_circle(centre, radius, start + (end - start) * i / count) for i in range(count + 1)]


def _half(points: list[XY], axis: int, border: float, keep: int) -> list[XY]:
    """Cut a closed shape at one line, keeping the side above (1) or below (-1) (Sutherland and Hodgman)."""
    kept = []
    for before, point in zip([points[-1], *points[:-1]] if points else [], points, strict=True):
        was, now = keep * (before[axis] - border), keep * (point[axis] - border)
        if (was < 0) != (now < 0):
            kept.append(_between(before, point, was / (was - now)))
        if now >= 0:
            kept.append(point)
    return kept
