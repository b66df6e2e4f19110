"""Flow against supply pressure: one line for each outlet alone, with today's pressure and each one's need.

Millimetres on paper, from the lower left corner of the plot's room. A line is told by its letter as well as
by its pattern; what the letters stand for is listed beside the plot, not in it.
"""

import math
from collections.abc import Callable, Iterator, Sequence

from export.pen import XY, Pen
from geometry.supply.sweep import Sweep
from geometry.units import number

LETTERING = 2.5  # mm, ISO 3098 series, from memory
LEFT, LOW = 13.0, 12.0  # mm, room for the numbers and names of the axes
TOP = 7.5  # mm, room for the name of the upright axis
RIGHT = 4.0  # mm
CROSS = 1.5  # mm, half of the cross where it was measured
RING = 1.6  # mm, radius of the ring where an outlet gets what it needs
PATTERNS = ("rail", "datum", "recess", "pipe-mixed")
"""The layers of the lines, in turn: continuous, chain, dashed, heavy chain."""
_At = Callable[[XY], XY]
"""Where a point of the plot lies on paper: bar and l/min to mm."""
_STEPS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)  # l/min between lines of the grid


def letter(index: int) -> str:
    """Return the letter of a line."""
    return chr(ord("A") + index % 26)


def draw_supply_plot(sweeps: Sequence[Sweep], pen: Pen, width: float, height: float) -> None:
    """Draw the plot into a room of this size.

    Args:
        sweeps: the lines, one or more.
        pen: in mm of paper, the room's lower left corner at 0, 0.
        width: of the room.
        height: of the room.
    """
    most = max(flow for sweep in sweeps for _, flow in (*sweep.points, (0.0, sweep.need)))
    step = next((step for step in _STEPS if most / step <= 6), _STEPS[-1])
    top_flow = step * max(1, math.ceil(most / step))
    top_bar = sweeps[0].points[-1][0]
    wide, tall = width - LEFT - RIGHT, height - LOW - TOP

    def at(point: XY) -> XY:
        return LEFT + wide * point[0] / top_bar, LOW + tall * point[1] / top_flow

    _draw_grid(pen, at, top_bar, top_flow, step)
    bar = sweeps[0].now[0]
    pen.line("centre-line", at((bar, 0.0)), at((bar, top_flow)))
    for index, sweep in enumerate(sweeps):
        pen.polyline(PATTERNS[index % len(PATTERNS)], [at(point) for point in sweep.points])
        x, y = at(sweep.now)
        pen.line("plate", (x - CROSS, y - CROSS), (x + CROSS, y + CROSS))
        pen.line("plate", (x - CROSS, y + CROSS), (x + CROSS, y - CROSS))
        if sweep.enough is not None:
            pen.circle("plate", at((sweep.enough, sweep.need)), RING)
    for index, place in enumerate(_letters(sweeps, at, top_bar)):
        pen.text("frame", place, letter(index), LETTERING, align="centre")


def _draw_grid(pen: Pen, at: _At, top_bar: float, top_flow: float, step: float) -> None:
    for bar in range(int(top_bar) + 1):
        pen.line("rule", at((bar, 0.0)), at((bar, top_flow)))
        x, y = at((bar, 0.0))
        pen.text("text", (x, y - 4.0), number(bar), LETTERING, align="centre")
    for index in range(round(top_flow / step) + 1):
        pen.line("rule", at((0.0, index * step)), at((top_bar, index * step)))
        x, y = at((0.0, index * step))
        pen.text("text", (x - 1.5, y - LETTERING / 2), number(index * step), LETTERING, align="right")
    x, y = at((top_bar / 2, 0.0))
    pen.text("text", (x, y - 9.0), "bar with all taps shut", LETTERING, align="centre")
    x, y = at((0.0, top_flow))
    pen.text("text", (0.0, y + 3.6), "l/min", LETTERING)


def _marked(sweep: Sweep) -> Iterator[XY]:
    yield sweep.now
    if sweep.enough is not None:
        yield sweep.enough, sweep.need


def _letters(sweeps: Sequence[Sweep], at: _At, top_bar: float) -> Iterator[XY]:
    """Go through the places of the letters: above their lines, each where it is clear of those before."""
    taken = [at(point) for sweep in sweeps for point in _marked(sweep)]
    for sweep in sweeps:
        tried = [at(point) for point in sweep.points if 0.3 * top_bar <= point[0] <= 0.97 * top_bar]
        places = [(x, y + 1.6) for x, y in reversed(tried)]
        free = [p for p in places if all(math.dist(p, q) > 2.5 * LETTERING for q in taken)]
        taken.append((free or places)[0])
        yield taken[-1]
