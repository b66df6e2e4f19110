"""Branches and outlets made ready for the solvers: a pressure for a flow, a flow for a pressure.

kg/s and bar. A `Source` is one branch up to the valve, `Drains` are the open outlets behind it; between them
stands the shuttle of the valve, which gives each side a part of its way.
"""

import math
from collections.abc import Sequence

from geometry.supply.loss import Path
from geometry.supply.network import Feed, Outlet
from geometry.supply.root import flow_root
from geometry.supply.rounds import Flows, Parabola, passed, settled, together


class Source:
    """One branch at one temperature: what pressure it holds at the valve's inlet."""

    __slots__ = ("_feed", "_litres", "_path", "_side", "resistance")

    def __init__(self, feed: Feed, side: float, temperature: float, path: Path | None = None) -> None:
        """Make it ready; `side` is what its side of the valve takes, in bar per (l/min) squared."""
        self._feed, self._side = feed, side
        self._path = path or Path(feed.pieces, temperature)
        self._litres = self._path.litres
        self.resistance = side * self._litres**2
        """Of its side of the valve, in bar per (kg/s) squared, when all of the shuttle's way is its."""

    def at(self, temperature: float) -> "Source":
        """Return the same branch with water at another temperature."""
        return Source(self._feed, self._side, temperature, self._path.at(temperature))

    @property
    def one_way(self) -> bool:
        """Whether nothing runs back into it."""
        return self._path.one_way or self._feed.regulated is not None

    @property
    def still(self) -> float:
        """The pressure in bar at which it begins to flow."""
        return self._regulated(self._feed.curve.static) - self._path.start

    def pressure(self, mass: float) -> float:
        """Return the pressure in bar at the valve's inlet at a flow in kg/s; it falls as the flow grows."""
        return self._regulated(self._feed.curve.pressure(mass * self._litres)) - self._path.needs(mass)

    def _regulated(self, held: float) -> float:
        most = self._feed.regulated
        return held if most is None or held < most else most

    def touching(self, mass: float) -> Parabola:
        """Return the pressure at the valve's inlet as a parabola that touches it at a flow, not at none."""
        curve, taken = self._feed.curve, self._path.touching(mass)
        held = curve.pressure(mass * self._litres)
        kept = self._regulated(held)
        falling = 0.5 * curve.exponent * (curve.static - held) if kept == held else 0.0
        return Parabola(kept + falling - taken.rest, -falling / (mass * mass) - taken.square)

    def flow_into(self, pressure: float, resistance: float) -> float:
        """Return the flow in kg/s into a place of this pressure in bar; below zero it is pushed back.

        Args:
            pressure: in bar, behind the valve.
            resistance: of this side of the valve, in bar per (kg/s) squared.
        """
        over = self.still - pressure
        if over > 0.0:
            return flow_root(
                lambda m: self.pressure(m) - resistance * m * m - pressure, _bound(over, resistance)
            )
        if self.one_way or over == 0.0:
            return 0.0
        return -flow_root(
            lambda m: pressure - resistance * m * m - self.pressure(-m), _bound(-over, resistance)
        )


Sides = list[tuple[float, float, float]]
"""Of each side of the valve that runs: its flow, the pressure at its inlet, its resistance."""


def way_needed(sides: Sides, pressure: float) -> float:
    """Return how much of its whole way the shuttle must leave open for some flows into a pressure in bar.

    Returns:
        The parts of both sides together: 1 is the valve as it is, more than 1 is more than it can pass;
        infinity where a side would have to flow uphill.
    """
    needed = 0.0
    for mass, held, resistance in sides:
        if held <= pressure:
            return math.inf
        needed += mass * math.sqrt(resistance / (held - pressure))
    return needed


class Drains:
    """The open outlets, with the mixed water at one temperature.

    Nothing comes in through them, unless `drawing` says that the submerged ones may.
    """

    __slots__ = ("_drawing", "paths")

    def __init__(self, paths: Sequence[Path], drawing: Sequence[bool]) -> None:
        self.paths, self._drawing = paths, drawing

    @property
    def floor(self) -> float:
        """The pressure in bar behind the valve at which the first outlet begins to run."""
        return min((path.start for path in self.paths), default=-math.inf)

    @property
    def _lead(self) -> int:
        """The index of the outlet that runs first."""
        starts = [path.start for path in self.paths]
        return starts.index(min(starts))

    @classmethod
    def of(cls, outlets: Sequence[Outlet], temperature: float, *, drawing: bool = False) -> "Drains":
        """Return the ways out to some outlets."""
        return cls(
            [Path((*outlet.pieces, outlet.head), temperature) for outlet in outlets],
            [drawing and outlet.submerged for outlet in outlets],
        )

    def at(self, temperature: float) -> "Drains":
        """Return the same ways with water at another temperature."""
        return Drains([path.at(temperature) for path in self.paths], self._drawing)

    def most(self, pressure: float) -> float:
        """Return a flow in kg/s that the first outlet to run cannot pass at this pressure in bar."""
        return _bound(max(pressure - self.floor, 0.0), self.paths[self._lead].square)

    def guess(self, pressure: float) -> Flows:
        """Return flows in kg/s of about the right size at a pressure that the supplies hold at rest."""
        return tuple(0.5 * math.sqrt(max(pressure - path.start, 0.1) / path.square) for path in self.paths)

    def pressure(self, flows: Flows) -> float:
        """Return the pressure in bar behind the valve if these flows run."""
        first = self._lead
        return self.paths[first].needs(flows[first])

    def led(self, lead: float) -> tuple[float, Flows]:
        """Return the pressure in bar behind the valve and every flow, if the first to run has `lead` kg/s."""
        first = self._lead
        pressure = self.paths[first].needs(lead)
        return pressure, tuple(
            lead if index == first else self._flow(index, pressure) for index in range(len(self.paths))
        )

    def sharing(self, mass: float) -> tuple[float, Flows]:
        """Return the pressure behind the valve and every flow, if `mass` kg/s runs out of all together."""
        if len(self.paths) > 1:
            eases = [1.0 / math.sqrt(path.square) for path in self.paths]
            rough = tuple(mass * ease / sum(eases) for ease in eases)
            flows = settled(rough, lambda flows: self._shared(flows, mass))
            if flows is not None:
                return self.pressure(flows), flows
            mass = flow_root(lambda lead: mass - sum(self.led(lead)[1]), mass)
        return self.led(mass)

    def _shared(self, flows: Flows, mass: float) -> Flows:
        outlets = self.touching(flows)
        return passed(outlets, together(outlets, flows).at(mass))

    def touching(self, flows: Flows) -> list[Parabola]:
        """Return what each outlet needs as a parabola that touches it at its flow above zero."""
        return [path.touching(mass) for path, mass in zip(self.paths, flows, strict=True)]

    def flows(self, pressure: float) -> Flows:
        """Return the flows in kg/s at a pressure behind the valve; below zero they are drawn back."""
        return tuple(self._flow(index, pressure) for index in range(len(self.paths)))

    def _flow(self, index: int, pressure: float) -> float:
        path = self.paths[index]
        over = pressure - path.start
        if over > 0.0:
            return flow_root(lambda m: pressure - path.needs(m), _bound(over, path.square))
        if path.one_way or not self._drawing[index] or over == 0.0:
            return 0.0
        return -flow_root(lambda m: path.needs(-m) - pressure, _bound(-over, path.square))


def _bound(pressure: float, resistance: float) -> float:
    """Return a flow in kg/s just above what `pressure` bar drives through this resistance alone."""
    return math.sqrt(pressure / resistance) * (1.0 + 1e-9)
