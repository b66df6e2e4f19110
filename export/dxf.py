"""Drawings as DXF: a pen for the model and for a sheet, blocks for parts, and the finished bytes.

The model is in millimetres at full size, y up; a sheet is in millimetres of paper. Real dimensions
are written, so that a receiver can measure and restyle them. Shapes are outlines only: a fill that is
right on white paper hides the lines on a dark screen. ezdxf is imported when a drawing is begun.
"""

import io
import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from threading import Lock
from typing import TYPE_CHECKING, Any

from export.dxf_layout import (
    OWN,
    TEXT_HEIGHT,
    WINDOW_LAYER,
    dimension_style,
    new_document,
)
from export.dxf_text import dimension_text, line_of_text, table_name
from export.layers import LAYERS
from export.pen import XY, Align, Axis, Pen

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.entities.dimstyleoverride import DimStyleOverride
    from ezdxf.layouts.base import BaseLayout

LOCKED = 16384  # flag of a viewport whose zoom cannot be changed, DXF reference
LETTER_WIDTH = 0.8  # of the text height: a generous guess, for extents only
MARGIN = 1.05  # of the extents, in the first view
NAMES = {layer: table_name(layer) for layer in LAYERS}
_OPTIONS = Lock()


class Extents:
    """The box around all that was drawn; empty at first."""

    def __init__(self) -> None:
        self.low: XY = (math.inf, math.inf)
        self.high: XY = (-math.inf, -math.inf)

    def __bool__(self) -> bool:
        return self.low[0] <= self.high[0]

    def grow(self, *points: XY, by: float = 0.0) -> None:
        """Take in these points, with `by` mm around each.

        Raises:
            ValueError: a coordinate is not a number, or is infinite.
        """
        for x, y in points:
            if not (math.isfinite(x) and math.isfinite(y)):
                raise ValueError(f"a drawing cannot have a point at x {x:g}, y {y:g} mm")
            self.low = (min(self.low[0], x - by), min(self.low[1], y - by))
            self.high = (max(self.high[0], x + by), max(self.high[1], y + by))


class DxfPen:
    """Draws into one space of a drawing: the model, a sheet, or a block."""

    def __init__(
        self, space: "BaseLayout", document: "Drawing", scale: float, *, paper: bool = False
    ) -> None:
        self.extents = Extents()
        self._space = space
        self._document = document
        self._scale = scale
        self._dashes = {"ltscale": 1 / scale} if paper and scale != 1 else {}

    def line(self, layer: str, start: XY, end: XY) -> None:
        """Draw a LINE."""
        self.extents.grow(start, end)
        self._space.add_line(start, end, dxfattribs=self._on(layer))

    def polyline(self, layer: str, points: Sequence[XY], *, closed: bool = False) -> None:
        """Draw an LWPOLYLINE whose dashes run on round its corners."""
        if len(points) < 2:
            raise ValueError(f"layer {layer!r}: a polyline needs two points, got {len(points)}")
        self.extents.grow(*points)
        attributes = {**self._on(layer), "flags": 128}  # 128: dashes run on, DXF reference
        self._space.add_lwpolyline(points, format="xy", close=closed, dxfattribs=attributes)

    def circle(self, layer: str, centre: XY, radius: float) -> None:
        """Draw a CIRCLE."""
        self._check_radius(layer, radius)
        self.extents.grow(centre, by=radius)
        self._space.add_circle(centre, radius, dxfattribs=self._on(layer))

    def arc(self, layer: str, centre: XY, radius: float, start: float, end: float) -> None:
        """Draw an ARC."""
        self._check_radius(layer, radius)
        turn = (end - start) % 360 or 360.0
        quarters = range(math.ceil(start / 90), math.floor((start + turn) / 90) + 1)
        for angle in (start, start + turn, *(90 * quarter for quarter in quarters)):
            self.extents.grow(_polar(centre, radius, angle))
        self._space.add_arc(centre, radius, start, end, dxfattribs=self._on(layer))

    def text(
        self, layer: str, at: XY, text: str, height: float, *, align: Align = "left", angle: float = 0.0
    ) -> None:
        """Write a TEXT on its baseline; nothing for a text without letters."""
        from ezdxf.enums import TextEntityAlignment

        if not text.strip():
            return
        width = LETTER_WIDTH * height * len(text)
        before = {"left": 0.0, "centre": width / 2, "right": width}[align]
        self.extents.grow(_polar(at, -before, angle), _polar(at, width - before, angle), by=height)
        attributes = {**self._on(layer), "height": height, "rotation": angle, "style": OWN}
        entity = self._space.add_text(line_of_text(text), dxfattribs=attributes)
        sides = {
            "left": TextEntityAlignment.LEFT,
            "centre": TextEntityAlignment.CENTER,
            "right": TextEntityAlignment.RIGHT,
        }
        entity.set_placement(at, align=sides[align])

    def dimension(
        self, layer: str, start: XY, end: XY, base: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Draw a linear DIMENSION that measures `start` to `end` along the axis."""
        along = "xy".index(axis)
        measured = abs(end[along] - start[along])
        self.extents.grow(start, end)
        on_line = [(p[0], base[1]) if axis == "x" else (base[0], p[1]) for p in (start, end)]
        self.extents.grow(*on_line, by=2 * height)
        made = self._space.add_linear_dim(
            base,
            start,
            end,
            angle=90.0 * along,
            text=dimension_text(text, measured),
            dimstyle=dimension_style(self._document, height, self._scale),
            dxfattribs=self._on(layer),
        )
        _render(made, measured)

    def running(
        self, layer: str, origin: XY, feature: XY, tag: XY, axis: Axis, text: str, height: float
    ) -> None:
        """Draw an ordinate DIMENSION that measures `feature` from `origin` along the axis."""
        along = "xy".index(axis)
        measured = abs(feature[along] - origin[along])
        self.extents.grow(origin, feature)
        self.extents.grow(tag, by=height * (len(text) + 1))
        made = self._space.add_ordinate_dim(
            feature,
            (tag[0] - feature[0], tag[1] - feature[1]),
            1 - along,  # the format calls the x direction 1
            origin=origin,
            text=dimension_text(text, measured),
            dimstyle=dimension_style(self._document, height, self._scale),
            dxfattribs=self._on(layer),
        )
        _render(made, measured)

    def _on(self, layer: str) -> dict[str, Any]:
        if layer not in NAMES:
            raise ValueError(f"there is no layer {layer!r}")
        return {"layer": NAMES[layer], **self._dashes}

    @staticmethod
    def _check_radius(layer: str, radius: float) -> None:
        if not (radius > 0 and math.isfinite(radius)):
            raise ValueError(f"layer {layer!r}: a radius must be above 0 mm, got {radius:g}")


class DxfDocument:
    """One drawing file: draw with `model`, lay out a `sheet` if wanted, then take the bytes.

    Args:
        scale: 10 for a drawing to be printed at 1:10; it sizes dashes and dimensions, never the model.

    Raises:
        ValueError: the scale is not above 0.
    """

    def __init__(self, scale: float) -> None:
        if not (scale > 0 and math.isfinite(scale)):
            raise ValueError(f"the scale of a drawing must be above 0, got {scale:g}")
        self._scale = scale
        with _fixed_metadata():
            self._document = new_document(scale)
        self.model = DxfPen(self._document.modelspace(), self._document, scale)
        self._blocks: dict[str, Extents] = {}
        self._has_sheet = False

    def block(self, name: str, draw: Callable[[Pen], None]) -> str:
        """Draw a part once, about its own origin, for `insert` to place.

        Args:
            name: The part's name as a user typed it.
            draw: Draws the part on the pen that it gets; its origin will lie where the part is inserted.

        Returns:
            The block's name in the file: legal, in capitals, and not yet taken.
        """
        from ezdxf.enums import InsertUnits

        wanted = unique = table_name(name)
        number = 2
        while unique in self._document.blocks:
            unique, number = f"{wanted}-{number}", number + 1
        space = self._document.blocks.new(unique)
        space.units = InsertUnits.Millimeters
        pen = DxfPen(space, self._document, self._scale)
        draw(pen)
        self._blocks[unique] = pen.extents
        return unique

    def insert(self, name: str, at: XY, layer: str, attributes: Mapping[str, str] | None = None) -> None:
        """Place a block in the model, with attributes that are kept and listed but not shown.

        Raises:
            ValueError: no block of that name has been drawn.
        """
        block = table_name(name)
        if block not in self._blocks:
            raise ValueError(f"there is no block {name!r} to insert")
        on_layer = self.model._on(layer)
        reference = self._document.modelspace().add_blockref(block, at, dxfattribs=on_layer)
        self.model.extents.grow(at)
        if size := self._blocks[block]:
            corners = [(at[0] + x, at[1] + y) for x, y in (size.low, size.high)]
            self.model.extents.grow(*corners)
        look = {**on_layer, "height": TEXT_HEIGHT * self._scale, "style": OWN}
        definition = self._document.blocks.get(block)
        for tag, value in (attributes or {}).items():
            key = table_name(tag).replace(" ", "_")
            if not definition.has_attdef(key):
                definition.add_attdef(key, (0, 0), dxfattribs=look).is_invisible = True
            reference.add_attrib(key, line_of_text(value), at, dxfattribs=look).is_invisible = True

    def sheet(self, paper: XY, window: tuple[XY, XY], centre: XY, *, name: str = "SHEET") -> DxfPen:
        """Lay out the sheet of paper, with a locked window on the model at the drawing's scale.

        Args:
            paper: Width and height of the paper, in mm.
            window: Lower left and upper right corner of the window on the paper, in mm.
            centre: The point of the model in the middle of the window.
            name: The name of the sheet in the file.

        Returns:
            A pen in millimetres of paper, from the paper's lower left corner.

        Raises:
            ValueError: the window has no size, or the drawing has its sheet already.
        """
        (left, bottom), (right, top) = window
        width, height = right - left, top - bottom
        if not (width > 0 and height > 0):
            raise ValueError(f"the window of sheet {name!r} must have a size, got {width:g} x {height:g} mm")
        if self._has_sheet:
            raise ValueError("this drawing has its sheet already")
        self._has_sheet = True
        self._document.layouts.rename("Layout1", table_name(name))
        layout = self._document.paperspace(table_name(name))
        layout.page_setup(paper, name="PAPER", device="none_device", scale=(1, 1))  # before any window
        layout.reset_extents((0, 0, 0), (*paper, 0))
        layout.add_viewport(
            ((left + right) / 2, (bottom + top) / 2),
            (width, height),
            centre,
            height * self._scale,
            status=2,
            dxfattribs={"layer": WINDOW_LAYER, "flags": LOCKED},
        )
        return DxfPen(layout, self._document, self._scale, paper=True)

    def to_bytes(self) -> bytes:
        """Return the finished file; the same drawing gives the same bytes.

        Raises:
            ValueError: nothing has been drawn in the model.
            RuntimeError: the file would have faults, which are listed.
        """
        if not self.model.extents:
            raise ValueError("nothing has been drawn, so there is no drawing to write")
        self._show_all()
        audit = self._document.audit()
        if faults := [entry.message for entry in (*audit.errors, *audit.fixes)]:
            count = "1 fault" if len(faults) == 1 else f"{len(faults)} faults"
            raise RuntimeError(f"the drawing would have {count}: {'; '.join(faults)}")
        self._order_classes()
        stream = io.StringIO()
        with _fixed_metadata():
            self._document.write(stream)
        return self._document.encode(stream.getvalue())

    def _order_classes(self) -> None:
        """Put the list of classes in order: the library fills it from a set, which has none."""
        classes = self._document.classes
        classes.add_required_classes(self._document.dxfversion)
        classes.classes = dict(sorted(classes.classes.items()))

    def _show_all(self) -> None:
        """Write the extents, and open the model with all of it in view."""
        (left, bottom), (right, top) = low, high = self.model.extents.low, self.model.extents.high
        space = self._document.modelspace()
        space.reset_extents((*low, 0), (*high, 0))
        space.reset_limits(low, high)
        (view,) = self._document.viewports.get_config("*Active")
        view.dxf.center = ((left + right) / 2, (bottom + top) / 2)
        view.dxf.height = MARGIN * max(top - bottom, (right - left) / view.dxf.aspect_ratio)


def _polar(origin: XY, distance: float, angle: float) -> XY:
    turned = math.radians(angle)
    return origin[0] + distance * math.cos(turned), origin[1] + distance * math.sin(turned)


def _render(made: "DimStyleOverride", measured: float) -> None:
    made.render()
    made.dimension.dxf.actual_measurement = measured


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    """Keep clock and random numbers out of a file; the library's option is put back afterwards."""
    import ezdxf

    options = ezdxf.options  # type: ignore[attr-defined]
    with _OPTIONS:
        before = options.write_fixed_meta_data_for_testing
        options.write_fixed_meta_data_for_testing = True
        try:
            yield
        finally:
            options.write_fixed_meta_data_for_testing = before
