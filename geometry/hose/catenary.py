"""A limp hose hung between two points: the catenary, for one hang or for whole arrays of hangs.

Millimetres and degrees. Everything is relative to the start: s is the level distance towards the end,
y is up. A real hose has some stiffness, so where the ideal bend comes out tighter than about 40 mm the
hose hangs higher and wider than drawn (from memory). Nothing here knows walls, rails or fittings.
"""

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from geometry.arrays import Flags, Floats

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

UPRIGHT = 1e-6  # mm; a hose over a lesser span is worked as one over this span: two upright legs, own choice
LEAST_CHORDS = 32  # of a curve, own choice: each is then short against the bends
STEPS = 4  # Newton steps; measured: three reach the last digit from the first guess, nearly taut to upright


class Hang(NamedTuple):
    """One catenary per element: y = scale * cosh(u), with u from `middle - half` to `middle + half`."""

    span: Floats
    """Level distance between the ends, mm."""
    rise: Floats
    """Height of the end over the start, mm."""
    scale: Floats
    """Catenary parameter in mm: radius at the lowest point of the full curve; 0 for upright legs."""
    half: Floats
    """Half the span over the scale."""
    middle: Floats
    """Level distance from the curve's lowest point to mid-span, over the scale."""

    def heights(self, fraction: Floats) -> Floats:
        """Return y over the start, in mm, at this fraction of the span; exactly the rise at fraction 1."""
        scale = np.maximum(self.span, UPRIGHT) / (2 * self.half)
        # a (cosh u - cosh u0) is 2 a sinh(v) sinh(u0 + v), where v = (u - u0) / 2: as a product it keeps its
        # digits when the hose is nearly taut, and one exponential, the costly part, does for both
        grown = np.expm1(fraction * self.half)
        other = np.exp(self.middle - self.half) * (1 + grown)
        drop = (grown + grown / (1 + grown)) * (other - 1 / other)
        return np.where(fraction == 1, self.rise, scale / 2 * drop)

    def curve(self, points: int = 129) -> Floats:
        """Return the hose as points (s, y), in an array of shape (..., points, 2); both ends are exact.

        The points are uniform in s, that is in t = s / scale. A chord over dt then stands off the curve by
        scale * dt² / 8 wherever it lies: the arc is scale * cosh(t) * dt long and its radius
        scale * cosh(t)². At most that is 0.28 * length / (points - 1)², or 0.035 mm for a 2 m hose of 129
        points, and the chords together are shorter than the hose by no more than 1.05 times as much.

        Raises:
            ValueError: `points` is less than 3.
        """
        if points < 3:
            raise ValueError(f"a hose curve needs 3 points or more, got {points}")
        hung = Hang(*(field[..., np.newaxis] for field in self))
        fraction = np.linspace(0.0, 1.0, points)
        return np.stack((fraction * hung.span, hung.heights(fraction)), axis=-1)

    def points(self, off: float) -> int:
        """Return how many points the curves want so that no chord stands off by more than `off` mm."""
        # scale * dt² / 8 of `curve`, with dt = 2 * half / steps and scale = span / (2 * half)
        least = np.sqrt(np.max(np.maximum(self.span, UPRIGHT) * self.half, initial=0.0) / (4 * off))
        return max(LEAST_CHORDS, math.ceil(float(least))) + 1

    def lowest(self) -> tuple[Floats, Floats]:
        """Return (s, y) of the lowest point of the hose, in mm; an end where it only falls or climbs."""
        fraction = np.clip(0.5 - self.middle / (2 * self.half), 0.0, 1.0)
        return fraction * self.span, self.heights(fraction)

    def bend_at_low(self) -> Floats:
        """Return the radius in mm to which the hose bends at its lowest point; 0 for upright legs.

        It is the scale wherever the hose dips between its ends, and more where it only falls or climbs.
        """
        low = np.clip(0.0, self.middle - self.half, self.middle + self.half)
        return np.asarray(self.scale * np.cosh(low) ** 2)

    def end_angles(self) -> tuple[Floats, Floats]:
        """Return the slope at the start and at the end: degrees up from the level, walking towards the end.

        A hose that leaves the start straight down has -90 there.
        """
        start, end = self.middle - self.half, self.middle + self.half
        return np.degrees(np.arctan(np.sinh(start))), np.degrees(np.arctan(np.sinh(end)))


def hang(span: "ArrayLike", rise: "ArrayLike", length: "ArrayLike") -> Hang:
    """Find the catenary of a hose; the arguments may be numbers or arrays that broadcast.

    Solves sinh(t) / t = sqrt(length² - rise²) / span for t, half the span over the scale (textbook
    catenary), by its logarithm. The scale is good to rounding, except that a nearly taut hose loses as
    many digits as its slack has leading zeros against its length.

    Args:
        span: Level distance between the ends, mm, 0 or more.
        rise: Height of the end over the start, mm, negative where the end is lower.
        length: Length of the hose, mm.

    Raises:
        ValueError: A value is not finite, the span is negative, or the hose is no longer than the
            straight line between its ends.
    """
    h, v, long = np.broadcast_arrays(*(np.asarray(value, dtype=np.float64) for value in (span, rise, length)))
    width = np.maximum(h, UPRIGHT)
    straight = np.hypot(width, v)
    _refuse(~(np.isfinite(h) & np.isfinite(v) & np.isfinite(long)), "must be finite numbers", h, v, long)
    _refuse(h < 0, "must have a span of 0 mm or more", h, v, long)
    _refuse(long <= straight, "must be longer than the straight line between its ends", h, v, long)
    # ratio² - 1 from the slack itself, not from a difference of squares
    half = _half_span(0.5 * np.log1p((long - straight) * (long + straight) / width**2))
    middle = np.arcsinh(v / np.sqrt((long - v) * (long + v)))
    return Hang(h, v, np.where(h < UPRIGHT, 0.0, width / (2 * half)), half, middle)


def curve(span: "ArrayLike", rise: "ArrayLike", length: "ArrayLike", points: int = 129) -> Floats:
    """Return `Hang.curve` of a hose; arguments and errors are those of `hang` and of the method."""
    return hang(span, rise, length).curve(points)


def lowest(span: "ArrayLike", rise: "ArrayLike", length: "ArrayLike") -> tuple[Floats, Floats]:
    """Return `Hang.lowest` of a hose; arguments and errors are those of `hang`."""
    return hang(span, rise, length).lowest()


def bend_at_low(span: "ArrayLike", rise: "ArrayLike", length: "ArrayLike") -> Floats:
    """Return `Hang.bend_at_low` of a hose; arguments and errors are those of `hang`."""
    return hang(span, rise, length).bend_at_low()


def end_angles(span: "ArrayLike", rise: "ArrayLike", length: "ArrayLike") -> tuple[Floats, Floats]:
    """Return `Hang.end_angles` of a hose; arguments and errors are those of `hang`."""
    return hang(span, rise, length).end_angles()


def _half_span(log_ratio: Floats) -> Floats:
    """Solve ln(sinh(t) / t) = log_ratio, above 0, for t."""
    # exact in the limit of a small t, and everywhere within a twentieth of t
    t = np.sqrt(log_ratio * (6 + log_ratio))
    for _ in range(STEPS):
        value, slope = _log_sinh_over(t)
        t = t - (value - log_ratio) / slope
    return t


def _log_sinh_over(t: Floats) -> tuple[Floats, Floats]:
    """Return ln(sinh(t) / t) and its slope, coth(t) - 1 / t, to full relative precision for t above 0."""
    left = -np.expm1(-2 * t)
    value, slope = t + np.log(left / (2 * t)), (2 - left) / left - 1 / t
    small = t < 0.5
    if np.any(small):
        square = np.minimum(t, 0.5) ** 2
        tail = np.zeros_like(t)
        for n in range(14, 0, -2):  # sinh(t) / t - 1 = t²/3! + t⁴/5! + ..., nested
            tail = square / (n * (n + 1)) * (1 + tail)
        value = np.where(small, np.log1p(tail), value)
        slope = np.where(small, t / (3 + square / (5 + square / 7)), slope)
    return value, slope


def _refuse(bad: Flags, rule: str, span: Floats, rise: Floats, length: Floats) -> None:
    if np.any(bad):
        s, r, n = (float(values[bad][0]) for values in (span, rise, length))
        raise ValueError(f"a hose {rule}: length {n:.9g} mm, span {s:.9g} mm, rise {r:.9g} mm")
