"""What water passes on its way: stretches of pipe, devices known by their flow, pumps.

Lengths and heights in mm, flows in l/min, pressures in bar. Every piece has a name by which results speak
of it; in one network no name stands twice.
"""

from typing import Annotated

from geometry.model.record import Bar, Extent, Length, Record, Span, Text

PipeLength = Annotated[float, Span(0.0, 500_000.0, " mm")]
"""Pipe upstream of the wall may be far longer than anything on it."""
Rise = Annotated[float, Span(-100_000.0, 100_000.0, " mm")]
Litres = Annotated[float, Span(0.0, 500.0, " l/min", least_allowed=False)]
AboveZeroBar = Annotated[float, Span(0.0, 20.0, " bar", least_allowed=False)]


class Stretch(Record, frozen=True, kw_only=True):
    """Pipe of one bore, with the fittings in it."""

    name: Text
    length: PipeLength
    bore: Length
    """Inside diameter."""
    roughness: Extent = 0.0015
    """Drawn copper tube, handbook value (lmnoeng.com/surface.htm)."""
    rise: Rise = 0.0
    """Height of its end over its start, in the direction of flow; negative where it falls."""
    sum_k: Annotated[float, Span(0.0, 10_000.0, "")] = 0.0
    """Sum of the loss coefficients of its fittings, for the velocity in this bore."""
    extra_length: PipeLength = 0.0
    """Equivalent length of fittings that are stated so, added to the length for friction only."""


class Device(Record, frozen=True, kw_only=True):
    """A valve, filter, hose, handset or head: it passes `flow` at a difference of `pressure`.

    At another flow it takes pressure x (flow / stated flow) squared.
    """

    name: Text
    flow: Litres
    pressure: AboveZeroBar = 1.0
    opening: Bar = 0.0
    """What a check valve's spring takes on top of that before anything flows."""
    one_way: bool = False
    """Whether it holds water back from flowing the other way."""

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.opening and not self.one_way:
            raise ValueError(
                f".opening: only a one-way device has an opening pressure, got {self.opening:g} bar"
            )


class Pump(Record, frozen=True, kw_only=True):
    """A pump: it adds `pressure` at no flow and nothing at `flow`, on a parabola between and beyond.

    Beyond `flow` it stands in the way. A pump holds water back from flowing the other way.
    """

    name: Text
    pressure: AboveZeroBar
    flow: Litres


Piece = Stretch | Device | Pump
