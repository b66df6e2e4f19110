"""The letters of pipes: H, C or the number of an outlet beside each leg that is seen. Pixels; no Qt."""

import math
from collections.abc import Collection, Iterator

from app.canvas.placing import SIDE, Name, centred_at, clipped
from app.canvas.room import Room
from app.canvas.sizes import LARGE
from app.canvas.view import View
from export.drawings.marks import pipe_letter
from export.text import RISE, SINK, text_width
from geometry.model import XY
from geometry.plan import Plan

GAP = 3.0
"""Between a chase and the letter beside it, pixels."""
SHORT = 30.0
"""A leg of a pipe shorter than this has no letter, unless it is the longest of its pipe; pixels."""
ALONG = (0.5, 0.35, 0.65, 0.2, 0.8)
"""Where along what is seen of a leg its letter is tried, the best first."""


def letters(
    plan: Plan, view: View, size: XY, room: Room, pipes: Collection[str] | None = None
) -> Iterator[Name]:
    """Go through the letters of all legs that have room for one; the room is taken.

    Args:
        plan: the job with its parts.
        view: where the wall is seen.
        size: of the screen, pixels.
        room: what letters must not cover.
        pipes: of which pipes; None is all.
    """
    for pipe, chase in zip(plan.job.pipes, plan.chases, strict=True):
        if pipes is not None and pipe.id not in pipes:
            continue
        legs = [clipped(view.to_screen(a), view.to_screen(b), size) for a, b in chase.legs]
        lengths = [math.dist(*leg) if leg else 0.0 for leg in legs]
        letter = pipe_letter(pipe)
        for leg, length in zip(legs, lengths, strict=True):
            if leg and length > 0 and length >= min(SHORT, max(lengths)):
                name = beside(f"pipe-{pipe.service}", letter, leg, chase.width / 2 * view.scale, room)
                if name:
                    room.take(name.box)
                    yield name


def beside(layer: str, words: str, leg: tuple[XY, XY], off: float, room: Room) -> Name | None:
    """Return words beside a leg, on either side of it, where they cover nothing.

    Args:
        layer: whose ink they have.
        words: a letter or a name.
        leg: as it is seen, in pixels.
        off: how far the chase reaches to its side, pixels.
        room: what they must not cover.
    """
    (ax, ay), (bx, by) = leg
    length = math.dist(*leg)
    nx, ny = abs(by - ay) / length, -abs(bx - ax) / length  # to the right of it, or above
    wide, high = text_width(words, LARGE) + 2 * SIDE, 2 * max(RISE - 0.5, SINK + 0.5) * LARGE
    out = off + GAP + (wide * abs(nx) + high * abs(ny)) / 2
    for share in ALONG:
        x, y = ax + share * (bx - ax), ay + share * (by - ay)
        for side in (1, -1):
            name = centred_at(layer, words, (x + side * nx * out, y + side * ny * out), LARGE)
            if room.is_free(name.box):
                return name
    return None
