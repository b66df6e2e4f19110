"""The hanging hose on the wall: the curves it hangs in as the slider moves, and how near they come to a part.

Millimetres, x right and y up on the wall; a slider height is that above the rail's foot. The curve is that
of a limp hose, which hangs lower and bends tighter than a real one: where it bends tighter than the hose
can, a loop of the hose's least radius is counted in, tangent at the lowest point and standing above it.
Nothing here knows limits or what lies beside the hose.
"""

import math
from functools import cached_property, lru_cache
from typing import NamedTuple

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from geometry.arrays import Flags, Floats, Shapes
from geometry.hose.catenary import Hang, hang
from geometry.model import XY, HoseOutlet
from geometry.parts.records import OutletPart
from geometry.plan import Hung, Placed
from geometry.shape.outline import Outline, core

XYZ = tuple[float, float, float]

STEP = 10.0
"""The slider moves by no more than this from one curve to the next, mm; own choice."""
LEAST_STEPS = 16  # of a slide that is short, own choice
STANDING_OFF = 0.01
"""No chord of a curve stands off the true one by more than this, mm; own choice."""
TAUT = 0.1
"""A hose with less slack than this counts as too short, mm: the grid that positions are kept to."""
DRAWN = 65
"""Points of a curve that is only drawn; its chords stand off by 0.14 mm in 2 m of hose."""


class Ends(NamedTuple):
    """Everything that the curves of a hose depend on, in mm: where its ends are, and its own sizes."""

    nozzle: XYZ
    """Where it leaves its outlet, straight down."""
    nut: XYZ
    """Where it would end with the slider at the rail's foot."""
    slide: tuple[float, float]
    """Lowest and highest slider."""
    length: float
    radius: float
    """Of the hose itself, to its outside."""
    least_bend: float
    """Least radius to which its axis bends."""

    @property
    def span(self) -> float:
        """Level distance between the ends, in plan."""
        return math.hypot(self.nut[0] - self.nozzle[0], self.nut[2] - self.nozzle[2])

    def straight(self, slider: float) -> float:
        """Return the straight distance between the ends."""
        return math.hypot(self.span, self.nut[1] + slider - self.nozzle[1])

    @property
    def hangs(self) -> tuple[float, float] | None:
        """Lowest and highest slider at which the hose is long enough, or None where it never is."""
        taut = self.length - TAUT
        if taut < self.span:
            return None
        up, level = math.sqrt(taut**2 - self.span**2), self.nozzle[1] - self.nut[1]
        low, high = max(self.slide[0], level - up), min(self.slide[1], level + up)
        return (low, high) if low <= high else None

    @property
    def hangs_throughout(self) -> bool:
        """Whether the hose is long enough at every slider height."""
        return self.hangs == self.slide


class Sweep:
    """The curves of one hose, one a slider height; every array has that first axis and is not to be written.

    Each is worked out when it is first asked for. A slider at which the hose is too short raises
    ValueError then.
    """

    def __init__(self, ends: Ends, sliders: Floats, points: int | None) -> None:
        self.ends = ends
        self.sliders = sliders
        """Heights above the rail's foot."""
        self._points = points

    def one(self, slider: float) -> "Sweep":
        """Return the curve at one slider height alone, which need not be among these."""
        index = int(np.searchsorted(self.sliders, slider))
        found = Sweep(self.ends, np.array([slider]), self._points)
        if index < len(self.sliders) and self.sliders[index] == slider:
            found._hang = Hang(*(field[index : index + 1] for field in self._hang))
        return found

    @cached_property
    def lines(self) -> Floats:
        """Points (x, y) from the nozzle to the nut, of shape (sliders, points, 2)."""
        return self._seen(self._hang.curve(self._points or self._hang.points(STANDING_OFF)))

    @cached_property
    def lows(self) -> Floats:
        """The lowest point (x, y) of each."""
        return self._seen(np.stack(self._hang.lowest(), axis=-1))

    @cached_property
    def loops(self) -> Flags:
        """Where the curve bends tighter than the hose can, so that a loop is counted in."""
        return np.asarray(self._hang.bend_at_low() < self.ends.least_bend)

    @cached_property
    def centres(self) -> Floats:
        """The centre (x, y) of the loop at each slider height, whether there is one or not."""
        return np.asarray(self.lows + np.array((0.0, self.ends.least_bend)))

    @cached_property
    def axes(self) -> Shapes:
        """The lines as geometries."""
        return np.asarray(shapely.linestrings(self.lines))

    @cached_property
    def hubs(self) -> Shapes:
        """The centres as geometries."""
        return np.asarray(shapely.points(self.centres))

    @cached_property
    def _hang(self) -> Hang:
        rise = self.ends.nut[1] + self.sliders - self.ends.nozzle[1]
        return hang(self.ends.span, rise, self.ends.length)

    def _seen(self, curved: Floats) -> Floats:
        """Return points (s, y) of the hose's own upright plane as they are seen on the wall."""
        (x, y, _), (nut_x, _, _), span = self.ends.nozzle, self.ends.nut, self.ends.span
        seen = np.empty_like(curved)
        np.multiply(curved[..., 0], (nut_x - x) / span if span > 0 else 0.0, out=seen[..., 0])
        seen[..., 0] += x
        np.add(curved[..., 1], y, out=seen[..., 1])
        return seen


def nozzle(outlet: Placed[HoseOutlet, OutletPart]) -> XYZ:
    """Return where a hose leaves its outlet, in mm: x, y on the wall and z from the bare face."""
    x, y = outlet.fitting.at
    return x, y + outlet.part.nozzle_y, outlet.face + outlet.part.nozzle_out


def ends_of(hung: Hung) -> Ends:
    """Return the ends of a hose as it hangs in its job."""
    rail, part = hung.rail.fitting, hung.rail.part
    return Ends(
        nozzle=nozzle(hung.outlet),
        nut=(rail.x, rail.height - part.nut_below, hung.rail.face + part.nut_out),
        slide=(part.slide_low, part.slide_high),
        length=hung.part.length,
        radius=hung.part.diameter / 2,
        least_bend=hung.part.least_bend,
    )


def curves(hung: Hung) -> Sweep:
    """Return the curves of a hose over its whole slide; none where it is too short throughout.

    `Ends.hangs` tells over which slider heights it is long enough: the first and the last curve are at
    its ends, the others no more than 10 mm of slider apart. They lie closer together towards both ends,
    since a hose that grows taut moves fast there.
    """
    return sweep(ends_of(hung))


@lru_cache(maxsize=64)
def sweep(ends: Ends) -> Sweep:
    """Return the curves over the whole slide; see `curves`."""
    if ends.hangs is None:
        return at(ends, np.empty(0))
    low, high = ends.hangs
    half = (high - low) / 2
    count = max(LEAST_STEPS, math.ceil(math.pi * half / STEP))
    sliders = low + half + half * np.sin(np.linspace(-math.pi / 2, math.pi / 2, count + 1))
    sliders[0], sliders[-1] = low, high
    return at(ends, sliders)


def at(ends: Ends, sliders: Floats, points: int | None = None) -> Sweep:
    """Return the curves at these slider heights, in mm above the rail's foot.

    Without a number of points to a curve, each has so many that no chord stands off it by more than 0.01 mm.
    """
    return Sweep(ends, sliders, points)


def line_at(hung: Hung, slider: float) -> Floats | None:
    """Return the axis of the hose at one slider height as points (x, y), or None where it is too short."""
    ends = ends_of(hung)
    if ends.hangs is None or not ends.hangs[0] <= slider <= ends.hangs[1]:
        return None
    return np.asarray(at(ends, np.array([slider])).lines[0])


# clearance


def clearance_to(swept: Sweep, outline: Outline) -> Floats:
    """Return the gap in mm between the hose and an outline as seen on the wall, for each slider height.

    It is measured from the outside of the hose, its loop included. Negative is how deep the hose goes
    into the outline: from its deepest point to the nearest way out, hose radius included, so that it
    falls steadily as the hose goes in.

    Args:
        swept: the curves.
        outline: with one point, joined points or a convex polygon for its core.
    """
    return np.minimum(hose_gaps(swept, outline), loop_gaps(swept, outline))


def hose_gaps(swept: Sweep, outline: Outline) -> Floats:
    """Return the gap between the hose without its loop and an outline, in mm; see `clearance_to`."""
    apart = np.asarray(shapely.distance(swept.axes, core(outline)), dtype=np.float64)
    met = apart == 0
    if outline.closed and np.any(met):
        apart[met] = -_depth(swept.lines[met], outline.points)
    return apart - outline.radius - swept.ends.radius


def loop_gaps(swept: Sweep, outline: Outline) -> Floats:
    """Return the gap between the loop alone and an outline, in mm; infinite where there is no loop."""
    if not np.any(swept.loops):
        return np.full(len(swept.sliders), math.inf)
    apart = np.asarray(shapely.distance(swept.hubs, core(outline)), dtype=np.float64)
    met = apart == 0
    if outline.closed and np.any(met):
        apart[met] = -_depth(swept.centres[met][:, np.newaxis], outline.points)
    gaps = apart - outline.radius - swept.ends.least_bend - swept.ends.radius
    return np.where(swept.loops, gaps, math.inf)


def _depth(lines: Floats, corners: tuple[XY, ...]) -> Floats:
    """Return how far the deepest point of each line is from the nearest edge of a convex polygon, in mm."""
    start = np.array(corners)
    edge = np.roll(start, -1, axis=0) - start
    inward = np.stack((-edge[:, 1], edge[:, 0]), axis=-1) / np.hypot(*edge.T)[:, np.newaxis]
    clockwise = np.sum(start[:, 0] * edge[:, 1] - start[:, 1] * edge[:, 0]) < 0
    inside = lines @ inward.T - np.sum(start * inward, axis=-1)  # of each point from each edge
    if clockwise:
        inside = -inside
    one, two = inside[:, :-1], inside[:, 1:]
    # along a chord each is linear and their least concave: its top is at an end, or where two are equal
    best = np.max(np.min(inside, axis=-1), axis=-1, initial=0.0)
    for i in range(len(corners)):
        for j in range(i):
            lead, change = one[..., i] - one[..., j], two[..., i] - two[..., j] - one[..., i] + one[..., j]
            share = np.clip(-lead / np.where(change == 0, math.inf, change), 0.0, 1.0)[..., np.newaxis]
            along = np.min(one + share * (two - one), axis=-1)
            best = np.maximum(best, np.max(along, axis=-1, initial=0.0))
    return np.asarray(best)


# drawing


def swept_outline(hung: Hung, clearance: float = 0.0) -> BaseGeometry:
    """Return what the hose sweeps on the wall, with room of `clearance` mm round it; empty if too short.

    For drawing only: its circles are polygons and its curves coarse, good to about 0.5 mm, and what is
    judged comes from `clearance_to`.
    """
    return _swept(ends_of(hung), clearance)


@lru_cache(maxsize=64)
def _swept(ends: Ends, clearance: float) -> BaseGeometry:
    swept = sweep(ends)
    if not len(swept.sliders):
        return shapely.MultiPolygon()
    lines = at(ends, swept.sliders, DRAWN).lines
    room = ends.radius + clearance
    bands = [shapely.buffer(shapely.linestrings(lines), room), _band(lines[:, -1], room)]
    if np.any(swept.loops):
        bands.append(_band(swept.centres[swept.loops], room + ends.least_bend))
    return shapely.union_all(np.concatenate([np.atleast_1d(np.asarray(band)) for band in bands]))


def _band(points: Floats, radius: float) -> BaseGeometry:
    """Return joined points, or a single one, with room all round."""
    joined = shapely.LineString(points) if len(points) > 1 else shapely.Point(points[0])
    return joined.buffer(radius, quad_segs=16)
