"""A pen that remembers: for replaying a drawing on another pen, for its extents, and for tests."""

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from export.pen import XY, Align, Axis, Pen


class Stroke(NamedTuple):
    """One call of a pen: the verb, and its arguments by name."""

    verb: str
    layer: str
    values: dict[str, Any]


class Recorder:
    """Records every stroke in order."""

    def __init__(self) -> None:
        self.strokes: list[Stroke] = []

    def line(self, layer: str, start: XY, end: XY) -> None:
        """Record a line."""
        self.strokes.append(Stroke("line", layer, {"start": start, "end": end}))

    def polyline(self, layer: str, points: Sequence[XY], *, closed: bool = False) -> None:
        """Record joined lines."""
        self.strokes.append(Stroke("polyline", layer, {"points": tuple(points), "closed": closed}))

    def circle(self, layer: str, centre: XY, radius: float) -> None:
        """Record a circle."""
        self.strokes.append(Stroke("circle", layer, {"centre": centre, "radius": radius}))

    def arc(self, layer: str, centre: XY, radius: float, start: float, end: float) -> None:
        """Record an arc."""
        self.strokes.append(
            Stroke("arc", layer, {"centre": centre, "radius": radius, "start": start, "end": end})
        )

    def text(
        self, layer: str, at: XY, text: str, height: float, *, align: Align = "left", angle: float = 0.0
    ) -> None:
        """Record a line of text."""
        self.strokes.append(
            Stroke("text", layer, {"at": at, "text": text, "height": height, "align": align, "angle": angle})
        )

    def dimension(
        self, layer: str, start: XY, end: XY, base: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Record a dimension."""
        values = {"start": start, "end": end, "base": base, "axis": axis, "text": text, "height": height}
        self.strokes.append(Stroke("dimension", layer, values))

    def running(
        self, layer: str, origin: XY, feature: XY, tag: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Record a running dimension."""
        values = {
            "origin": origin, "feature": feature, "tag": tag, "axis": axis, "text": text, "height": height,
        }  # fmt: skip
        self.strokes.append(Stroke("running", layer, values))

    def replay(self, pen: Pen) -> None:
        """Draw everything again, in the same order, on another pen."""
        for stroke in self.strokes:
            getattr(pen, stroke.verb)(stroke.layer, **stroke.values)

    def on(self, *layers: str) -> list[Stroke]:
        """Return the strokes on these layers, in order."""
        return [stroke for stroke in self.strokes if stroke.layer in layers]

    def bounds(self) -> tuple[float, float, float, float]:
        """Return x min, y min, x max, y max of all that was drawn, in mm; text counts by its anchor.

        Raises:
            ValueError: nothing has been drawn.
        """
        points = [point for stroke in self.strokes for point in _extent(stroke)]
        if not points:
            raise ValueError("nothing has been drawn, so it has no bounds")
        xs, ys = zip(*points, strict=True)
        return min(xs), min(ys), max(xs), max(ys)


def _extent(stroke: Stroke) -> Iterator[XY]:
    values = stroke.values
    if stroke.verb in ("circle", "arc"):
        (x, y), r = values["centre"], values["radius"]
        yield (x - r, y - r)
        yield (x + r, y + r)
    elif stroke.verb == "polyline":
        yield from values["points"]
    else:
        yield from (
            values[name] for name in ("start", "end", "at", "feature", "tag", "base") if name in values
        )
