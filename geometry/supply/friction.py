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
_SLOPE = 2.0 / math.log(10.0)


def uncertain(reynolds: float) -> bool:
    """Return whether the flow lies between laminar and turbulent, where no factor is certain."""
    return LAMINAR_BELOW <= reynolds <= TURBULENT_ABOVE


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Return the Darcy friction factor.

    Laminar 64 / Re (Hagen and Poiseuille), turbulent by Colebrook's equation solved to rounding.

    Args:
        reynolds: velocity x bore / kinematic viscosity, above zero.
        relative_roughness: roughness over bore, 0 to 0.05.

    Raises:
        ValueError: an argument lies outside its bounds.
    """
    if not (0.0 < reynolds < math.inf and 0.0 <= relative_roughness <= ROUGHEST):
        raise ValueError(
            "friction needs a Reynolds number above 0 and a relative roughness from 0 to"
            f" {ROUGHEST:g}, got {reynolds:g} and {relative_roughness:g}"
        )
    if reynolds < LAMINAR_BELOW:
        return 64.0 / reynolds
    if reynolds > TURBULENT_ABOVE:
        return _colebrook(reynolds, relative_roughness)
    low = 64.0 / LAMINAR_BELOW
    along = (reynolds - LAMINAR_BELOW) / (TURBULENT_ABOVE - LAMINAR_BELOW)
    return low + along * (_at_turbulent_bound(relative_roughness) - low)


@lru_cache(maxsize=256)
def _at_turbulent_bound(relative_roughness: float) -> float:
    return _colebrook(TURBULENT_ABOVE, relative_roughness)


def _colebrook(reynolds: float, relative_roughness: float) -> float:
    """Solve x = -2 log10(e / 3.7 + 2.51 x / Re) for x = 1 / sqrt(f); return f."""
    rough, smooth = relative_roughness / 3.7, 2.51 / reynolds
    # Haaland's formula is within 2 % of the root; each Newton step squares what is left
    x = -1.8 * math.log10(rough**1.11 + 6.9 / reynolds)
    for _ in range(2):
        inside = rough + smooth * x
        x -= (x + 2.0 * math.log10(inside)) / (1.0 + _SLOPE * smooth / inside)
    return 1.0 / (x * x)
