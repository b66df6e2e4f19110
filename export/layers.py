"""What each layer means and looks like on white paper.

Colours are red, green, blue from 0 to 1; weights are millimetres on paper, from the series of
ISO 128-2 (0.13 0.18 0.25 0.35 0.5 0.7). A meaning never rests on colour alone: hot is dashed and
carries an H, cold is continuous and carries a C, mixed is chain-dotted and carries its outlet number.
"""

from typing import Literal, NamedTuple

Pattern = Literal["continuous", "dashed", "chain", "dotted"]
RGB = tuple[float, float, float]

DASHES: dict[Pattern, tuple[float, ...]] = {
    "continuous": (),
    "dashed": (3.0, 1.5),
    "chain": (8.0, 1.5, 0.5, 1.5),
    "dotted": (0.5, 1.0),
}
"""Lengths of line and gap in mm on paper, by turns; chosen to be told apart at arm's length, no source."""


class Layer(NamedTuple):
    """The look of one layer; `fill` is for closed shapes, `plot` says whether it is printed."""

    colour: RGB
    weight: float
    pattern: Pattern = "continuous"
    fill: RGB | None = None
    plot: bool = True


INK: RGB = (0.10, 0.10, 0.12)
GREY: RGB = (0.45, 0.45, 0.48)
RED: RGB = (0.72, 0.20, 0.00)
BLUE: RGB = (0.00, 0.40, 0.65)
VIOLET: RGB = (0.42, 0.20, 0.50)
ALARM: RGB = (0.75, 0.00, 0.10)
AMBER: RGB = (0.60, 0.38, 0.00)

LAYERS: dict[str, Layer] = {
    "hose-sweep": Layer((0.55, 0.62, 0.70), 0.13, fill=(0.92, 0.94, 0.97)),
    "spray": Layer((0.50, 0.65, 0.75), 0.13, "dotted"),
    "tile": Layer((0.72, 0.72, 0.74), 0.13),
    "tile-whole": Layer(INK, 0.25),
    "tile-cut": Layer(INK, 0.25, fill=(0.94, 0.94, 0.95)),
    "tile-hole": Layer(INK, 0.35),
    "movement-joint": Layer(INK, 0.35, "dashed"),
    "zone": Layer((0.60, 0.50, 0.20), 0.18, "dotted"),
    "wall": Layer(INK, 0.7),
    "opening": Layer(INK, 0.5),
    "tray": Layer(INK, 0.5),
    "screen": Layer((0.30, 0.45, 0.45), 0.25),
    "stud": Layer((0.50, 0.38, 0.22), 0.25, "dashed"),
    "service": Layer(AMBER, 0.35),
    "chase": Layer((0.35, 0.35, 0.38), 0.25, fill=(0.90, 0.90, 0.91)),
    "recess": Layer(INK, 0.5, "dashed", fill=(0.95, 0.95, 0.95)),
    "body": Layer(GREY, 0.25),
    "joint-room": Layer(GREY, 0.18, "dotted"),
    "pipe-hot": Layer(RED, 0.7, "dashed"),
    "pipe-cold": Layer(BLUE, 0.7),
    "pipe-mixed": Layer(VIOLET, 0.7, "chain"),
    "datum": Layer(INK, 0.35, "chain"),
    "centre-line": Layer(GREY, 0.18, "chain"),
    "quarter-line": Layer(GREY, 0.18, "dashed"),
    "plate": Layer(INK, 0.5),
    "head": Layer(INK, 0.5),
    "rail": Layer(INK, 0.5),
    "handset": Layer(GREY, 0.25),
    "hose": Layer(INK, 0.35),
    "drill": Layer(INK, 0.35),
    "layer": Layer(INK, 0.25),
    "masonry": Layer(INK, 0.5, fill=(0.93, 0.91, 0.88)),
    "lining": Layer(INK, 0.25, fill=(0.97, 0.97, 0.97)),
    "dimension": Layer(INK, 0.18),
    "leader": Layer(GREY, 0.13),
    "piece": Layer(INK, 0.25),
    "text": Layer(INK, 0.25),
    "clash": Layer(ALARM, 0.7),
    "tight": Layer(AMBER, 0.5, "dashed"),
    "caution": Layer(ALARM, 0.35),
    "frame": Layer(INK, 0.7),
    "rule": Layer(GREY, 0.18),
    "register": Layer(INK, 0.18),
    "trim": Layer(GREY, 0.13, "dashed"),
    "check-bar": Layer(INK, 0.35),
}
"""Every layer there is, in the order in which they are painted."""
