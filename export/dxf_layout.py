"""How a drawing file is set up before anything is drawn: units, layers, line types, text and dimensions.

Model lengths are millimetres. Sizes of dashes, text and dimensions are millimetres on paper and are
multiplied by the scale (10 for 1:10). Nothing here knows what is drawn.
"""

import math
from functools import cache
from typing import TYPE_CHECKING

from export.dxf_text import table_name
from export.layers import LAYERS, RGB, Layer, Pattern

if TYPE_CHECKING:
    from ezdxf.document import Drawing

OWN = "CHASEWRIGHT"
"""The name of our text style and dimension style, and the beginning of our line types' names."""
FONT = "arial.ttf"
"""Named and not embedded; it has Latin, Greek, Cyrillic and Hebrew. A receiver without it takes its own."""
WINDOW_LAYER = "VIEWPORT"
"""Holds the window of a sheet on the model; it is not printed."""

METRIC = 1  # $MEASUREMENT, DXF reference
DASHES: dict[Pattern, tuple[float, ...]] = {
    "dashed": (4.0, -2.0),
    "chain": (8.0, -2.0, 0.5, -2.0),
    "dotted": (0.5, -1.5),
}
"""Strokes and gaps, mm on paper: our own choice, gaps wide enough for a line of 0.7."""
TEXT_HEIGHT = 2.5  # mm on paper, ISO 3098 series, from memory
DIMENSION = {
    "dimlfac": 1.0,  # shows what it measures, without a factor
    "dimtxt": TEXT_HEIGHT,
    "dimtsz": 1.2,  # mm on paper: oblique strokes for ends, which stay clear of each other in a chain
    "dimasz": 2.0,  # mm on paper: half the leg of a running dimension
    "dimexo": 1.0,  # mm on paper: gap between the feature and its extension line
    "dimexe": 1.5,  # mm on paper: extension beyond the dimension line
    "dimgap": 0.8,  # mm on paper: gap between line and number
    "dimdec": 1,  # decimals
    "dimzin": 8,  # 600, not 600.0
    "dimdsep": ord("."),
    "dimtad": 1,  # number above the line
    "dimtih": 0,  # number along the line, inside
    "dimtoh": 0,  # and outside
    "dimtofl": 1,  # dimension line drawn although the number is outside
    "dimtmove": 2,  # number moves alone, without a leader
}
"""The dimension style in DXF variables; all of it is in the style, so that a receiver can redraw it."""


def new_document(scale: float) -> "Drawing":
    """Return an empty drawing in millimetres with every layer and style that ours use.

    Args:
        scale: 10 for a drawing to be printed at 1:10.
    """
    from ezdxf.enums import InsertUnits
    from ezdxf.filemanagement import new

    document = new("R2010", units=InsertUnits.Millimeters)
    for layout in document.layouts:
        layout.units = InsertUnits.Millimeters  # the model stays unitless otherwise
        layout.dxf.layout_flags = 0  # as $PSLTSCALE, which each layout keeps for itself
    document.header["$MEASUREMENT"] = METRIC
    document.header["$PSLTSCALE"] = (
        0  # dashes have the size of the space they are drawn in: ours fit the scale
    )
    document.header["$LWDISPLAY"] = 1
    document.header["$TEXTSTYLE"] = OWN
    document.styles.add(OWN, font=FONT)
    for pattern, dashes in DASHES.items():
        strokes = [scale * dash for dash in dashes]
        document.linetypes.add(
            line_type(pattern), pattern=[sum(map(abs, strokes)), *strokes], description=pattern
        )
    for name, look in LAYERS.items():
        _add_layer(document, name, look)
    document.layers.add(WINDOW_LAYER, color=8, plot=False)
    own = document.dimstyles.get(dimension_style(document, TEXT_HEIGHT * scale, scale))
    own.copy_to_header(document)
    return document


def dimension_style(document: "Drawing", height: float, scale: float) -> str:
    """Return the name of the dimension style whose numbers are `height` mm high, made if it is not there."""
    multiple = height / TEXT_HEIGHT
    name = OWN if abs(multiple - scale) < 1e-6 else f"{OWN}-{multiple:g}"
    if name not in document.dimstyles:
        document.dimstyles.add(name, dxfattribs={**DIMENSION, "dimscale": multiple, "dimtxsty": OWN})
    return name


def line_type(pattern: Pattern) -> str:
    """Return the name of the line type of a pattern."""
    return "Continuous" if pattern == "continuous" else f"{OWN}-{pattern.upper()}"


@cache
def nearest_index(colour: RGB) -> int:
    """Return the nearest of the 255 indexed colours; for ink 7, which is black on white, white on black."""
    from ezdxf.colors import aci2rgb

    if is_ink(colour):
        return 7
    wanted = true_colour(colour)
    return min(range(1, 256), key=lambda index: math.dist(aci2rgb(index), wanted))


def nearest_weight(weight: float) -> int:
    """Return the nearest line weight that the format knows, in hundredths of a millimetre."""
    from ezdxf.lldxf.const import VALID_DXF_LINEWEIGHTS

    return min(VALID_DXF_LINEWEIGHTS, key=lambda legal: abs(legal - 100 * weight))


def true_colour(colour: RGB) -> tuple[int, int, int]:
    """Return the colour in steps of 0 to 255."""
    red, green, blue = (round(255 * part) for part in colour)
    return red, green, blue


def is_ink(colour: RGB) -> bool:
    """Say whether a colour is so near to black that it would vanish on a receiver's dark background."""
    return max(colour) < 0.2


def _add_layer(document: "Drawing", name: str, look: Layer) -> None:
    from ezdxf.colors import rgb2int

    layer = document.layers.add(
        table_name(name),
        color=nearest_index(look.colour),
        true_color=None if is_ink(look.colour) else rgb2int(true_colour(look.colour)),
        linetype=line_type(look.pattern),
        lineweight=nearest_weight(look.weight),
        plot=look.plot,
    )
    layer.description = f"{name.replace('-', ' ')}: {look.pattern}, {look.weight:g} mm"
