"""The one root finder of this package: it never leaves its bracket and always ends."""

import math
from collections.abc import Callable

MOST_STEPS = 120


def root(of: Callable[[float], float], low: float, high: float, within: float = 1e-12) -> float:
    """Return where a continuous function that is not negative at `low` and not positive at `high` is zero.

    Chandrupatla's method: inverse quadratic steps where they are safe, else the bracket is halved (Advances
    in Engineering Software 28 (1997) 145).

    Args:
        of: the function, falling through zero between the bounds.
        low: where it is zero or above.
        high: where it is zero or below.
        within: width of the bracket at which to stop, relative to the larger bound.

    Raises:
        ArithmeticError: the bounds do not hold the root, a value is not a number, or it has not settled.
    """
    a, b = high, low
    at_a, at_b = of(a), of(b)
    if at_a == 0.0:
        return a
    if at_b == 0.0:
        return b
    if not (at_b > 0.0 > at_a):
        raise ArithmeticError(f"no root between {low:g} and {high:g}: the values are {at_b:g} and {at_a:g}")
    least = within * max(abs(low), abs(high))
    c, at_c, step = a, at_a, at_a / (at_a - at_b)  # the first step along the chord
    for _ in range(MOST_STEPS):
        x = a + step * (b - a)
        at_x = of(x)
        if math.isnan(at_x):
            raise ArithmeticError(f"no number at {x:g} between {low:g} and {high:g}")
        if (at_x > 0.0) == (at_a > 0.0):
            c, at_c = a, at_a
        else:
            c, at_c, b, at_b = b, at_b, a, at_a
        a, at_a = x, at_x
        best = a if abs(at_a) < abs(at_b) else b
        room = abs(b - a)
        margin = (0.5 * least + 4e-16 * abs(best)) / room if room else 1.0
        if margin > 0.5 or at_a == 0.0:
            return best
        step = _step(a, b, c, at_a, at_b, at_c)
        step = min(max(step, margin), 1.0 - margin)
    raise ArithmeticError(f"no root settled between {low:g} and {high:g} in {MOST_STEPS} steps")


def flow_root(of: Callable[[float], float], high: float) -> float:
    """Return the flow, from 0 to `high`, at which a function of it is zero, as `root` does.

    What flows lose grows about as their square, so the root is looked for by it: that is nearly a straight.
    """
    return math.sqrt(root(lambda square: of(math.sqrt(square)), 0.0, high * high))


def _step(a: float, b: float, c: float, at_a: float, at_b: float, at_c: float) -> float:
    """Return the next place from a (0) to b (1): inverse quadratic where that is safe, else halfway."""
    xi = (a - b) / (c - b)
    phi = (at_a - at_b) / (at_c - at_b)
    if not (phi * phi < xi and (1.0 - phi) ** 2 < 1.0 - xi):
        return 0.5
    slope = (c - a) / (b - a)
    return at_a / (at_b - at_a) * at_c / (at_b - at_c) + slope * at_a / (at_c - at_a) * at_b / (at_c - at_b)
