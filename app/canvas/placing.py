"""Words with their place on the screen, and the sums that find one. Pixels, y down; no Qt."""

from typing import NamedTuple

from app.canvas.room import Room
from app.canvas.view import View
from export.text import RISE, SINK, text_width
from geometry.edits.refs import Ref
from geometry.model import XY
from geometry.shape.outline import Bounds

SIDE = 2.0
"""Kept free beside words, pixels."""


class Name(NamedTuple):
    """Words with their place: `at` is left on the baseline."""

    layer: str
    words: str
    at: XY
    height: float
    box: Bounds
    ref: Ref | None = None
    led_to: XY | None = None
    """What a line leads to, if the words stand away from it."""


def level_at(layer: str, words: str, at: XY, height: float, ref: Ref | None = None) -> Name:
    """Return words that begin at `at`, level with the middle of their capitals."""
    wide = text_width(words, height)
    x, middle = at
    base = middle + height / 2
    box = (x - SIDE, base - RISE * height, x + wide + SIDE, base + SINK * height)
    return Name(layer, words, (x, base), height, box, ref)


def centred_at(layer: str, words: str, middle: XY, height: float) -> Name:
    """Return words about a middle."""
    return level_at(layer, words, (middle[0] - text_width(words, height) / 2, middle[1]), height)


def beside_place(words: str, place: Bounds, size: XY, height: float, room: Room) -> Name:
    """Return words near a place, on the screen, where they cover least: above it, below, or to a side.

    Args:
        words: what is written.
        place: what they are about, with all that is drawn for it, pixels.
        size: of the screen, pixels.
        height: of the capitals, pixels.
        room: what they should not cover.
    """
    left, top, right, low = place
    wide, middle, level = text_width(words, height), (left + right) / 2, (top + low) / 2
    tried = []
    for off in (height, 3 * height, 5 * height, 8 * height):
        tried += [
            (middle, top - off), (middle, low + off),
            (right + off + wide / 2, level), (left - off - wide / 2, level),
            (right + off + wide / 2, top - off), (left - off - wide / 2, top - off),
            (right + off + wide / 2, low + off), (left - off - wide / 2, low + off),
        ]  # fmt: skip
    tried.append((size[0] / 2, size[1] / 2))
    found = [centred_at("text", words, at, height) for at in tried]
    window = (0.0, 0.0, *size)
    inside = [name for name in found if holds(window, name.box)]
    return min(inside or found[-1:], key=lambda name: room.covered(name.box))


def on_screen(view: View, bounds: Bounds) -> Bounds:
    """Return where bounds in mm are seen."""
    (left, low), (right, top) = view.to_screen(bounds[:2]), view.to_screen(bounds[2:])
    return left, top, right, low


def holds(window: Bounds, box: Bounds) -> bool:
    """Return whether a box lies wholly in a window."""
    return window[0] <= box[0] and window[1] <= box[1] and box[2] <= window[2] and box[3] <= window[3]


def clipped(a: XY, b: XY, size: XY) -> tuple[XY, XY] | None:
    """Return the part of a line that is on the screen, if any is (Liang and Barsky's method)."""
    enter, leave = 0.0, 1.0
    for axis in (0, 1):
        gain = b[axis] - a[axis]
        for room, way in ((-a[axis], 1.0), (size[axis] - a[axis], -1.0)):
            if gain * way > 0:
                enter = max(enter, room / gain)
            elif gain * way < 0:
                leave = min(leave, room / gain)
            elif room * way > 0:
                return None
    if enter >= leave:
        return None
    dx, dy = b[0] - a[0], b[1] - a[1]
    return (a[0] + enter * dx, a[1] + enter * dy), (a[0] + leave * dx, a[1] + leave * dy)
