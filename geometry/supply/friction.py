"""The Darcy friction factor of a round pipe running full, a plain number.

Below a Reynolds number of 2300 the flow is laminar, above 4000 turbulent. Between them it may be either,
and nobody can say which: there the factor is drawn straight from its laminar value at 2300 to its turbulent
value at 4000, so that the loss grows steadily with the flow, and `uncertain` tells the caller to say so.
"""

import math
from functools import lru_cache

LAMINAR_BELOW = 2300.0
TURBULENT_ABOVE = 4000.0
"""Reynolds numbers; both are the usual textbook bounds."""
ROUGHEST = 0.05
"""Roughness over bore up to which the Colebrook equation was drawn up."""
_SMOOTH = 2.51 * 2.0 / math.log(10.0)
_SQUARE = (math.log(10.0) / 2.0) ** 2
_LAMINAR_AT_BOUND = 64.0 / LAMINAR_BELOW


def uncertain(reynolds: float) -> bool:
    """Return whether the flow lies between laminar and turbulent, where no factor is certain."""
    return LAMINAR_BELOW <= reynolds <= TURBULENT_ABOVE


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Return the Darcy friction factor.

    Laminar 64 / Re (Hagen and Poiseuille), turbulent by Colebrook's equation to 1 part in 10^10.

    Args:
        reynolds: velocity x bore / kinematic viscosity, above zero.
        relative_roughness: roughness over bore, 0 to 0.05.

    Raises:
        ValueError: an argument lies outside its bounds.
    """
    if not 0.0 < reynolds < math.inf:
        raise ValueError(f"friction needs a Reynolds number above 0, got {reynolds:g}")
    return bore_wall(relative_roughness).factor(reynolds)


class BoreWall:
    """The inside of a pipe by its relative roughness, made ready to be asked for many flows."""

    def __init__(self, relative_roughness: float) -> None:
        if not 0.0 <= relative_roughness <= ROUGHEST:
            raise ValueError(
                f"friction needs a relative roughness from 0 to {ROUGHEST:g}, got {relative_roughness:g}"
            )
        self._rough = relative_roughness / 3.7
        self._start = self._rough**1.11
        self._at_bound, _ = self._turbulent(TURBULENT_ABOVE)
        self.touching = lru_cache(maxsize=256)(self._touching)
        """The factor at a Reynolds number above zero, and the power of that with which it goes there."""

    def factor(self, reynolds: float) -> float:
        """Return the Darcy friction factor at a Reynolds number, which must be above zero."""
        return self.touching(reynolds)[0]

    def _touching(self, reynolds: float) -> tuple[float, float]:
        if reynolds > TURBULENT_ABOVE:
            return self._turbulent(reynolds)
        if reynolds < LAMINAR_BELOW:
            return 64.0 / reynolds, -1.0
        growth = (self._at_bound - _LAMINAR_AT_BOUND) / (TURBULENT_ABOVE - LAMINAR_BELOW)
        factor = _LAMINAR_AT_BOUND + growth * (reynolds - LAMINAR_BELOW)
        return factor, growth * reynolds / factor

    def _turbulent(self, reynolds: float) -> tuple[float, float]:
        """Solve Colebrook's 1 / sqrt(f) = -2 log10(e / 3.7 + 2.51 / (Re sqrt(f))); return f and its power.

        With x = ln 10 / (2 sqrt(f)) that is x = -ln(e / 3.7 + smooth x).
        """
        rough, smooth = self._rough, _SMOOTH / reynolds
        # Haaland's formula is within 2 % of the root; one step with three derivatives does the rest
        x = -0.9 * math.log(self._start + 6.9 / reynolds)
        inside = rough + smooth * x
        bend = smooth / inside
        step = (x + math.log(inside)) / (1.0 + bend)
        second = -0.5 * bend * bend / (1.0 + bend)
        x -= step * (1.0 + step * second * (1.0 + 2.0 * step * (second + bend / 3.0)))
        pull = smooth / (rough + smooth * x)
        return _SQUARE / (x * x), -2.0 * pull / (1.0 + pull)


bore_wall = lru_cache(maxsize=256)(BoreWall)
