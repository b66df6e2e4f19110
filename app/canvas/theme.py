"""What each layer looks like on the screen, in daylight and in a dim room. No Qt.

Colours are hexadecimal; widths are pixels whatever the zoom. A meaning never rests on colour alone: it has
a letter, a line style or a mark of its own as well, as in `export/layers.py`, whose layers these are.
Words are readable at the AA level of WCAG 2.1 (4.5 to 1), lines that carry a meaning are visible at its
3 to 1; a test works both out.
"""

from collections.abc import Mapping
from typing import NamedTuple

from export.layers import LAYERS, Pattern

DASHES: dict[Pattern, tuple[float, ...]] = {
    "continuous": (),
    "dashed": (7.0, 4.0),
    "chain": (12.0, 3.0, 2.0, 3.0),
    "dotted": (1.5, 3.5),
}
"""Pixels drawn and left out in turn."""


class Ink(NamedTuple):
    """The look of one layer; `fill` is for closed shapes."""

    colour: str
    width: float = 1.0
    pattern: Pattern = "continuous"
    fill: str | None = None


class Theme(NamedTuple):
    """The look of the whole drawing."""

    name: str
    room: str
    """Round the wall."""
    wall: str
    """The wall's face."""
    words: str
    plate: str
    """Behind words that stand over lines."""
    chosen: str
    """What is chosen, and the guides while it moves; it is framed as well."""
    on_chosen: str
    """Words on that colour."""
    refer: str
    """What somebody else decides, as in the lists of findings."""
    inks: Mapping[str, Ink]

    def ink(self, layer: str) -> Ink:
        """Return the look of a layer."""
        return self.inks[layer]


_WIDE = {
    "wall": 2.0,
    "tray": 2.0,
    "pipe-hot": 2.5,
    "pipe-cold": 2.5,
    "pipe-mixed": 2.5,
    "clash": 2.5,
    "tight": 2.0,
    "hose": 1.5,
    "recess": 1.5,
    "plate": 1.5,
    "head": 1.5,
    "rail": 1.5,
}
"""Pixels of the layers that are wider than 1 pixel, which is drawn fastest."""
_LIGHT_COLOURS = {
    "hose-sweep": "#8fa3b8",
    "spray": "#4f7c9c",
    "tile": "#d3d5d8",
    "tile-whole": "#b4b9be",
    "tile-cut": "#b4b9be",
    "tile-hole": "#1a1a1f",
    "zone": "#735a15",
    "wall": "#23272b",
    "opening": "#3a4046",
    "tray": "#23272b",
    "screen": "#3f7373",
    "stud": "#8a6237",
    "service": "#8a5600",
    "chase": "#6a7076",
    "recess": "#3a4046",
    "body": "#6a7076",
    "joint-room": "#7d8389",
    "pipe-hot": "#b83200",
    "pipe-cold": "#005f99",
    "pipe-mixed": "#6b3380",
    "datum": "#23272b",
    "centre-line": "#737980",
    "quarter-line": "#737980",
    "plate": "#23272b",
    "head": "#23272b",
    "rail": "#23272b",
    "handset": "#5c6268",
    "hose": "#23272b",
    "drill": "#23272b",
    "layer": "#23272b",
    "masonry": "#23272b",
    "lining": "#23272b",
    "dimension": "#3a4046",
    "leader": "#8b9198",
    "piece": "#23272b",
    "text": "#23272b",
    "clash": "#b8001a",
    "tight": "#855200",
    "caution": "#b8001a",
    "frame": "#23272b",
    "rule": "#8b9198",
    "register": "#23272b",
    "trim": "#8b9198",
    "check-bar": "#23272b",
}
_LIGHT_FILLS = {
    "hose-sweep": "#e9eff5",
    "tile-cut": "#eef0f1",
    "chase": "#e2e3e5",
    "recess": "#eff0f0",
    "masonry": "#eee9e2",
    "lining": "#f6f6f6",
}
_DARK_COLOURS = {
    "hose-sweep": "#5a6b7d",
    "spray": "#6f9fc0",
    "tile": "#343a40",
    "tile-whole": "#4a5159",
    "tile-cut": "#4a5159",
    "tile-hole": "#e6e9ed",
    "zone": "#c9a84f",
    "wall": "#e4e7ea",
    "opening": "#c3c8cd",
    "tray": "#e4e7ea",
    "screen": "#7fbcbc",
    "stud": "#c79a68",
    "service": "#e6ab4a",
    "chase": "#8d949b",
    "recess": "#c3c8cd",
    "body": "#8d949b",
    "joint-room": "#858c93",
    "pipe-hot": "#ff8a5c",
    "pipe-cold": "#5fb8f2",
    "pipe-mixed": "#cba2e2",
    "datum": "#e4e7ea",
    "centre-line": "#8d949b",
    "quarter-line": "#8d949b",
    "plate": "#e4e7ea",
    "head": "#e4e7ea",
    "rail": "#e4e7ea",
    "handset": "#a9b0b7",
    "hose": "#e4e7ea",
    "drill": "#e4e7ea",
    "layer": "#e4e7ea",
    "masonry": "#e4e7ea",
    "lining": "#e4e7ea",
    "dimension": "#c3c8cd",
    "leader": "#7d848b",
    "piece": "#e4e7ea",
    "text": "#e4e7ea",
    "clash": "#ff7b83",
    "tight": "#f0b54a",
    "caution": "#ff7b83",
    "frame": "#e4e7ea",
    "rule": "#7d848b",
    "register": "#e4e7ea",
    "trim": "#7d848b",
    "check-bar": "#e4e7ea",
}
_DARK_FILLS = {
    "hose-sweep": "#222a32",
    "tile-cut": "#272c31",
    "chase": "#33383d",
    "recess": "#292e33",
    "masonry": "#3a342c",
    "lining": "#2a2d30",
}


def _inks(colours: Mapping[str, str], fills: Mapping[str, str]) -> dict[str, Ink]:
    return {
        name: Ink(colours.get(name, colours["text"]), _WIDE.get(name, 1.0), layer.pattern, fills.get(name))
        for name, layer in LAYERS.items()
    }


LIGHT = Theme(
    name="light",
    room="#e8ebee",
    wall="#fcfcfb",
    words="#23272b",
    plate="#fcfcfb",
    chosen="#00666b",
    on_chosen="#ffffff",
    refer="#1f5a94",
    inks=_inks(_LIGHT_COLOURS, _LIGHT_FILLS),
)
DARK = Theme(
    name="dark",
    room="#121518",
    wall="#1c2024",
    words="#e4e7ea",
    plate="#1c2024",
    chosen="#4fd1c5",
    on_chosen="#0d1113",
    refer="#8cc1f5",
    inks=_inks(_DARK_COLOURS, _DARK_FILLS),
)
THEMES = {theme.name: theme for theme in (LIGHT, DARK)}
