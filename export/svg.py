"""SVG: a pen that draws one picture, built as a tree of elements, so that no text is read as markup.

Millimetres of paper, origin at the bottom left of the picture, at true size. Words name the font of the
sheets and their own width, so that a reader with another font keeps them in their place. Equal drawings
give equal bytes: there is no clock.
"""

import math
from collections.abc import Sequence
from xml.etree import ElementTree as ET

from export.layers import DASHES, LAYERS, RGB
from export.pen import XY, Align
from export.plain_dimensions import PlainDimensions
from export.text import CAPITAL, clean, is_bold, text_width
from geometry.units import number

FAMILY = "DejaVu Sans, Verdana, sans-serif"
_PLACES = 3  # decimals of a mm
_ANCHORS: dict[Align, str] = {"left": "start", "centre": "middle", "right": "end"}
_NOT_IN_XML = {0xFFFE: "?", 0xFFFF: "?"}


class SvgPen(PlainDimensions):
    """Draws one picture; `to_bytes` gives the file.

    Args:
        width: Of the picture, in mm.
        height: Of the picture, in mm.
        title: What it shows, for those who hear it.
        description: A sentence more about it.

    Raises:
        ValueError: A size is not above 0.
    """

    def __init__(self, width: float, height: float, *, title: str = "", description: str = "") -> None:
        if not (0 < width < math.inf and 0 < height < math.inf):
            raise ValueError(f"a picture must have a size above 0 mm, got {width:g} × {height:g} mm")
        self._height = height
        self._root = ET.Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "width": f"{_mm(width)}mm",
                "height": f"{_mm(height)}mm",
                "viewBox": f"0 0 {_mm(width)} {_mm(height)}",
                "role": "img",
            },
        )
        for tag, words in (("title", title), ("desc", description)):
            if words:
                ET.SubElement(self._root, tag).text = _words(words)
        paper = {"width": "100%", "height": "100%", "fill": "#ffffff"}
        ET.SubElement(self._root, "rect", paper)
        self._group: ET.Element | None = None
        self._layer = ""

    def line(self, layer: str, start: XY, end: XY) -> None:
        """Draw one straight line."""
        (x1, y1), (x2, y2) = self._on_paper(layer, start), self._on_paper(layer, end)
        self._add(layer, "line", {"x1": x1, "y1": y1, "x2": x2, "y2": y2})

    def polyline(self, layer: str, points: Sequence[XY], *, closed: bool = False) -> None:
        """Draw joined lines; a closed one is filled if its layer has a fill."""
        if len(points) < 2:
            raise ValueError(f"layer {layer!r}: joined lines need two points or more, got {len(points)}")
        attributes = {"points": self._points(layer, points)}
        if closed:
            attributes |= _fill_of(layer)
        self._add(layer, "polygon" if closed else "polyline", attributes)

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        """Fill the closed shape through these points, without its edge, if its layer has a fill."""
        if LAYERS[layer].fill:
            attributes = {"points": self._points(layer, points), "stroke": "none"}
            self._add(layer, "polygon", attributes | _fill_of(layer))

    def circle(self, layer: str, centre: XY, radius: float) -> None:
        """Draw a true circle, filled if its layer has a fill."""
        x, y = self._on_paper(layer, centre)
        self._add(layer, "circle", {"cx": x, "cy": y, "r": _mm(_finite(layer, radius))} | _fill_of(layer))

    def arc(self, layer: str, centre: XY, radius: float, start: float, end: float) -> None:
        """Draw an arc counter-clockwise, in degrees; a whole circle if it ends where it starts."""
        sweep = (_finite(layer, end) - _finite(layer, start)) % 360
        x, y = self._on_paper(layer, centre)
        r = _mm(_finite(layer, radius))
        if sweep == 0:
            self._add(layer, "circle", {"cx": x, "cy": y, "r": r})
            return
        (x1, y1), (x2, y2) = (
            self._on_paper(layer, _on_circle(centre, radius, angle)) for angle in (start, start + sweep)
        )
        # y runs down in the file, so that what runs counter-clockwise has the sweep flag 0
        self._add(layer, "path", {"d": f"M {x1} {y1} A {r} {r} 0 {int(sweep > 180)} 0 {x2} {y2}"})

    def text(
        self, layer: str, at: XY, text: str, height: float, *, align: Align = "left", angle: float = 0.0
    ) -> None:
        """Write one line of text as typed; bold on the layers that `export.text` names."""
        words = _words(text)
        if not words or not LAYERS[layer].plot:
            return
        x, y = self._on_paper(layer, at)
        bold = is_bold(layer)
        attributes = {
            "x": x,
            "y": y,
            "font-size": _mm(_finite(layer, height) / CAPITAL),
            "fill": _colour(LAYERS[layer].colour),
            "stroke": "none",
            "textLength": _mm(text_width(words, height, bold=bold)),
            "lengthAdjust": "spacingAndGlyphs",
            "xml:space": "preserve",
        }
        if align != "left":
            attributes["text-anchor"] = _ANCHORS[align]
        if bold:
            attributes["font-weight"] = "bold"
        if _finite(layer, angle) % 360:
            attributes["transform"] = f"rotate({number(-angle, _PLACES)} {x} {y})"
        self._add(layer, "text", attributes, words)

    def to_bytes(self) -> bytes:
        """Return the picture as a file."""
        data: bytes = ET.tostring(self._root, encoding="utf-8", xml_declaration=True)
        return data

    def _add(self, layer: str, tag: str, attributes: dict[str, str], text: str | None = None) -> None:
        """Add an element to the group of its layer; strokes that follow one another on a layer share one."""
        look = LAYERS[layer]
        if not look.plot:
            return
        if self._group is None or layer != self._layer:
            self._layer = layer
            self._group = ET.SubElement(self._root, "g", _group(layer))
        ET.SubElement(self._group, tag, attributes).text = text

    def _points(self, layer: str, points: Sequence[XY]) -> str:
        return " ".join(",".join(self._on_paper(layer, point)) for point in points)

    def _on_paper(self, layer: str, point: XY) -> tuple[str, str]:
        x, y = (_finite(layer, axis) for axis in point)
        return _mm(x), _mm(self._height - y)


def _group(layer: str) -> dict[str, str]:
    look = LAYERS[layer]
    attributes = {
        "class": layer,
        "fill": "none",
        "stroke": _colour(look.colour),
        "stroke-width": _mm(look.weight),
        "stroke-linejoin": "round",
        "font-family": FAMILY,
    }
    if DASHES[look.pattern]:
        attributes["stroke-dasharray"] = " ".join(_mm(length) for length in DASHES[look.pattern])
    return attributes


def _fill_of(layer: str) -> dict[str, str]:
    fill = LAYERS[layer].fill
    return {"fill": _colour(fill)} if fill else {}


def _colour(rgb: RGB) -> str:
    return "#" + "".join(f"{round(part * 255):02x}" for part in rgb)


def _mm(length: float) -> str:
    return number(length, _PLACES)


def _words(text: str) -> str:
    return clean(text).translate(_NOT_IN_XML)


def _finite(layer: str, value: float) -> float:
    """Return a number; one that is none is refused before it spoils the file."""
    if not math.isfinite(value):
        raise ValueError(f"layer {layer!r}: a coordinate is not a number, got {value}")
    return value


def _on_circle(centre: XY, radius: float, angle: float) -> XY:
    turn = math.radians(angle)
    return centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)
