"""The fittings as they are seen on the wall: at the face and in front of it, each part on its layer.

Model millimetres, x right and y up. What a fitting cuts out of the wall is drawn with the chases.
"""

from export.drawings.outlines import draw_outline
from export.pen import Pen
from geometry.plan import Plan
from geometry.setting_out.holes import holes
from geometry.shape.solid import Solid

_LAYERS = {
    "box": "body",
    "plate": "plate",
    "flange": "plate",
    "nozzle": "plate",
    "spout": "plate",
    "ceiling flange": "head",
    "arm": "head",
    "head": "head",
    "rail": "rail",
    "bracket": "rail",
    "handset": "handset",
}
"""The layer of each kind of solid; recess, pocket and screw are not among them."""
_CROSS = 12.0  # mm; half of the cross at a hole for water, or the screw's diameter if that is less


def fitting_layer(solid: Solid) -> str | None:
    """Return the layer that shows a solid of a fitting, or None if it is not drawn by itself."""
    return "plate" if solid.what.endswith(" control") else _LAYERS.get(solid.what)


def draw_fitting(plan: Plan, pen: Pen, fitting_id: str) -> None:
    """Draw one fitting, what stands nearer to the room later; its holes are crosses.

    Args:
        plan: the job with its parts.
        pen: draws in mm on the wall; a pen that moves the drawing gives the part about its own origin.
        fitting_id: nothing is drawn if there is no such fitting.
    """
    own = [solid for solid in plan.fitted if solid.owner == fitting_id]
    for solid in sorted((solid.in_elevation() for solid in own), key=lambda solid: solid.low):
        layer = fitting_layer(solid)
        if layer:
            draw_outline(pen, layer, solid.outline)
    draw_holes(plan, pen, fitting_id)


def draw_holes(plan: Plan, pen: Pen, fitting_id: str) -> None:
    """Draw a cross at the centre of each hole of a fitting, and a circle where a screw goes."""
    for hole in holes(plan):
        if hole.owner == fitting_id:
            (x, y), arm = hole.at, min(_CROSS, hole.diameter)
            pen.line("drill", (x - arm, y), (x + arm, y))
            pen.line("drill", (x, y - arm), (x, y + arm))
            if hole.kind == "screw":
                pen.circle("drill", hole.at, hole.diameter / 2)
