"""Flows found in rounds: what every way takes is drawn as a parabola over its flow, which is easily solved.

A parabola touches the loss at the flow of the round before; since losses grow about as the square of the
flow, a round more than doubles the digits. Where an outlet stays dry or the rounds do not settle there is no
answer, and a root must be bracketed instead. kg/s and bar.
"""

import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

MOST_ROUNDS = 14
MOST_STEPS = 40
SETTLED = 1e-6
"""Part of a flow; the round that changes no flow by more is the last: it leaves about the square of that."""


class Parabola(NamedTuple):
    """A pressure over a flow: rest + square x flow squared."""

    rest: float
    square: float

    def at(self, mass: float) -> float:
        """Return the pressure in bar at a flow in kg/s."""
        return self.rest + self.square * mass * mass


Flows = tuple[float, ...]


def settled(
    flows: Flows, next_round: Callable[[Flows], Flows | None], within: float = SETTLED
) -> Flows | None:
    """Return the flows that a round does not change; None where it stops at a dry outlet or goes on."""
    for _ in range(MOST_ROUNDS):
        after = next_round(flows)
        if after is None or not all(after):
            return None
        if all(abs(new - old) <= within * new for new, old in zip(after, flows, strict=True)):
            return after
        flows = after
    return None


def passed(outlets: Sequence[Parabola], pressure: float) -> Flows:
    """Return what runs out of outlets at a pressure before them; zero where it does not reach."""
    return tuple(
        math.sqrt((pressure - rest) / square) if pressure > rest else 0.0 for rest, square in outlets
    )


def together(outlets: Sequence[Parabola], flows: Flows) -> Parabola:
    """Return one outlet for several: it touches the pressure that they share, over what runs out of all."""
    if len(outlets) == 1:
        return outlets[0]
    gain = mass = weighted = 0.0
    for (rest, square), flow in zip(outlets, flows, strict=True):
        gained = 0.5 / (square * flow)  # kg/s per bar
        gain += gained
        mass += flow
        weighted += gained * (rest + square * flow * flow)
    square = 0.5 / (mass * gain)
    return Parabola(weighted / gain - square * mass * mass, square)


def driven(sides: Sequence[tuple[Parabola, float, float]], outlet: Parabola) -> float | None:
    """Return the flow in kg/s at which the sides of a valve use up its shuttle's whole way.

    With y = 1 / flow squared, a side that is above the outlet by a - b / y bar takes share x sqrt(resistance
    / (a y - b)) of the way. That falls with y, ever less steeply, so Newton's steps never pass the root.

    Args:
        sides: what each holds at its inlet, its share of the flow, and its resistance with all of the way.
        outlet: what is needed behind the valve.

    Returns:
        None where a side does not reach the outlet.
    """
    lines = []
    for held, share, resistance in sides:
        over = held.rest - outlet.rest
        if over <= 0.0:
            return None
        lines.append((over, outlet.square - held.square * share * share, resistance * share * share))
    if len(lines) == 1:
        a, b, resistance = lines[0]
        return math.sqrt(a / (b + resistance))
    y = max((b + resistance) / a for a, b, resistance in lines)
    for _ in range(MOST_STEPS):
        way, steepness = 0.0, 0.0
        for a, b, resistance in lines:
            left = a * y - b
            part = math.sqrt(resistance / left)
            way += part
            steepness += 0.5 * part * a / left
        step = (way - 1.0) / steepness
        y += step
        if step <= 1e-12 * y:
            break
    return 1.0 / math.sqrt(y)
