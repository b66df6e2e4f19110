"""How the pressure at the place of measurement falls as water is drawn: static - fall x flow ^ exponent.

Bar gauge and l/min. Two things are enough, the static pressure and one reading with water running; more
readings also settle the exponent.
"""

import math
from collections.abc import Sequence
from typing import Annotated

from geometry.model.record import Record, Span
from geometry.model.supply import Reading
from geometry.supply.loss import head

USUAL_EXPONENT = 1.85
"""Flow tests of water mains (NFPA 291) project readings so, after Hazen and Williams."""
LEAST_EXPONENT, MOST_EXPONENT = 1.0, 2.0
"""Laminar flow, and fittings and fully rough pipe."""
LEAST_READ = 0.1
"""l/min; nobody reads less with a bucket, and a curve through it would say nothing."""
_GOLDEN = 0.6180339887498949


class SupplyCurve(Record, frozen=True, kw_only=True):
    """What a supply holds at a flow."""

    static: Annotated[float, Span(-1.0, 20.0, " bar")]
    """With all taps shut; below zero is a main that sucks."""
    fall: Annotated[float, Span(0.0, 1e6, "")] = 0.0
    """bar per (l/min) ^ exponent."""
    exponent: Annotated[float, Span(LEAST_EXPONENT, MOST_EXPONENT, "")] = USUAL_EXPONENT
    misfit: float = 0.0
    """The farthest that a reading lies from the curve, in bar."""

    def pressure(self, flow: float) -> float:
        """Return the pressure in bar at a flow in l/min; water pushed back raises it."""
        return self.static - math.copysign(self.fall * math.pow(abs(flow), self.exponent), flow)

    def flow(self, pressure: float) -> float | None:
        """Return the flow in l/min at which a pressure in bar is left; None where nothing bounds it."""
        if pressure >= self.static:
            return 0.0
        if not self.fall:
            return None
        return math.pow((self.static - pressure) / self.fall, 1.0 / self.exponent)


def fit_curve(static: float, readings: Sequence[Reading], place: str = "supply") -> SupplyCurve:
    """Fit the curve to what was measured at one place, by least squares of the pressures.

    Readings at one flow only leave the exponent open: it is then the usual one.

    Args:
        static: pressure in bar with all taps shut.
        readings: pressures with water running, one or more.
        place: what the messages call the place, such as "cold".

    Raises:
        ValueError: there is no reading, or one cannot be; the message names it.
    """
    if not readings:
        raise ValueError(f"{place}: needs at least one reading with water running, has none")
    for number, reading in enumerate(readings, 1):
        if reading.flow < LEAST_READ:
            raise ValueError(
                f"{place} reading {number}: the flow must be at least {LEAST_READ:g} l/min,"
                f" got {reading.flow:g}"
            )
        if reading.pressure > static:
            raise ValueError(
                f"{place} reading {number}: {reading.pressure:g} bar with water running cannot be above"
                f" the static {static:g} bar"
            )
    if len({reading.flow for reading in readings}) == 1:
        exponent = USUAL_EXPONENT
    else:
        exponent = _best_exponent(static, readings)
    fall, _ = _best_fall(static, readings, exponent)
    curve = SupplyCurve(static=static, fall=fall, exponent=exponent)
    return curve.but(misfit=max(abs(curve.pressure(r.flow) - r.pressure) for r in readings))


def gravity_curve(water_above: float, temperature: float) -> SupplyCurve:
    """Return the curve of a cistern whose water stands `water_above` mm over the place: it does not fall.

    The pipe down from the cistern then belongs to the branch, as a stretch.
    """
    if water_above <= 0.0:
        raise ValueError(f"the cistern's water must stand above the place, got {water_above:g} mm")
    return SupplyCurve(static=head(water_above, temperature))


def _best_fall(static: float, readings: Sequence[Reading], exponent: float) -> tuple[float, float]:
    """Return the fall with the least sum of squares for an exponent, and that sum."""
    powers = [reading.flow**exponent for reading in readings]
    drops = [static - reading.pressure for reading in readings]
    fall = sum(p * d for p, d in zip(powers, drops, strict=True)) / sum(p * p for p in powers)
    return fall, sum((d - fall * p) ** 2 for p, d in zip(powers, drops, strict=True))


def _best_exponent(static: float, readings: Sequence[Reading]) -> float:
    """Narrow the exponent down by golden section; the sum of squares has one lowest place."""
    if all(reading.pressure == static for reading in readings):
        return USUAL_EXPONENT
    low, high = LEAST_EXPONENT, MOST_EXPONENT
    while high - low > 1e-9:
        left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        if _best_fall(static, readings, left)[1] < _best_fall(static, readings, right)[1]:
            high = right
        else:
            low = left
    return (low + high) / 2.0
