"""The names of the pieces of tube beside their pipes: `H-1`, as written on the pipe. Pixels; no Qt.

They are counted anew with every step of a drag, as the cut list would count them.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from app.canvas.letters import beside
from app.canvas.placing import Name, centred_at, clipped
from app.canvas.room import Room
from app.canvas.sizes import LARGE
from app.canvas.view import View
from geometry.model import XY
from geometry.pipework.cut_list import runs
from geometry.plan import Plan

AWAY = (28.0, 40.0, 55.0, 70.0)
"""How far off its piece a name is tried that has no room beside it, pixels."""


def piece_names(plan: Plan, view: View, size: XY, room: Room) -> Iterator[Name]:
    """Go through the names of all pieces that have room for one; the room is taken.

    A short piece goes before a long one, which has room elsewhere.

    Args:
        plan: the job with its parts.
        view: where the wall is seen.
        size: of the screen, pixels.
        room: what names must not cover.
    """
    widths = {chase.pipe: chase.width for chase in plan.chases}
    seen: list[tuple[float, str, str, tuple[XY, XY], float]] = []
    for run in runs(plan):
        off = widths[run.pipe.id] / 2 * view.scale
        for piece in run.pieces:
            legs = [clipped(view.to_screen(a), view.to_screen(b), size) for a, b in pairwise(piece.axis)]
            leg = max((leg for leg in legs if leg), key=lambda leg: math.dist(*leg), default=None)
            if leg and leg[0] != leg[1]:
                seen.append((math.dist(*leg), f"pipe-{run.pipe.service}", piece.name, leg, off))
    for _, layer, words, leg, off in sorted(seen):
        name = beside(layer, words, leg, off, room) or _led(layer, words, leg, room)
        if name:
            room.take(name.box)
            yield name


def _led(layer: str, words: str, leg: tuple[XY, XY], room: Room) -> Name | None:
    """Return a name near the middle of a leg to which a line leads, where it covers nothing."""
    x, y = (leg[0][0] + leg[1][0]) / 2, (leg[0][1] + leg[1][1]) / 2
    for away in AWAY:
        for turn in range(0, 360, 30):
            at = x + away * math.cos(math.radians(turn)), y + away * math.sin(math.radians(turn))
            name = centred_at(layer, words, at, LARGE)
            if room.is_free(name.box):
                return name._replace(led_to=(x, y))
    return None
