"""What was measured at the house: pressures in bar gauge, flows in l/min, temperatures in Celsius.

Lengths are mm. And what is planned between there and the shower, where it is not drawn on the wall. What is
not stated keeps to a default, so that a static pressure and one reading on either side are enough.
"""

from typing import Annotated, Literal

from geometry.model.record import Bar, Celsius, Extent, Flow, Length, Name, Record, Span

HotSource = Literal["instant_heater", "stored_mains", "stored_gravity", "boosted"]
CheckValves = Literal["not_known", "none", "single", "double"]
BeyondPower = Literal["cooler", "slower"]
DrawsFrom = Literal["mains", "cistern"]
FarLength = Annotated[float, Span(0.0, 500_000.0, " mm", least_allowed=False)]
"""A pipe in the ground or through a house is longer than anything on the wall."""


class Reading(Record, frozen=True, kw_only=True):
    """One reading with water running: the pressure while that flow runs."""

    pressure: Bar
    flow: Flow


class Upstream(Record, frozen=True, kw_only=True):
    """A stretch of pipe between the place of measurement and the wall."""

    tube: Name
    length: FarLength
    elbows: Annotated[float, Span(0.0, 100.0, "")] = 0.0
    """How many elbows there are in it."""


class Booster(Record, frozen=True, kw_only=True):
    """A pump where the branch begins: its pressure with nothing running, its flow against no pressure."""

    pressure: Annotated[float, Span(0.0, 20.0, " bar", least_allowed=False)]
    flow: Annotated[float, Span(0.0, 200.0, " l/min", least_allowed=False)]
    draws_from: DrawsFrom = "cistern"


class Branch(Record, frozen=True, kw_only=True):
    """Hot or cold: the pressure with all taps shut, readings with water running, temperature."""

    static: Bar
    readings: tuple[Reading, ...] = ()
    temperature: Celsius
    upstream: tuple[Upstream, ...] = ()
    gauge_height: Extent = 1000.0
    """Height above the finished floor at which the pressures were read, in mm."""
    cistern: Extent | None = None
    """Height of the water in its cistern above the finished floor, in mm; counts where nothing was read with
    water running."""
    regulated: Bar | None = None
    """What a pressure reducing valve where the branch begins is set to."""
    check_valves: CheckValves = "not_known"
    """At the shower valve's inlet; what a valve has built in counts too."""
    pump: Booster | None = None


class Drain(Record, frozen=True, kw_only=True):
    """The waste pipe from the trap to the stack or gully."""

    length: Length
    fall: Annotated[float, Span(0.0, 1000.0, " mm/m")]
    """mm for each metre of its length."""
    bore: Length = 38.0
    """Inside diameter; about that of a 40 mm waste, from memory."""
    capacity: Flow | None = None
    """What the trap and grating carry, if their maker says so."""


class Supply(Record, frozen=True, kw_only=True):
    """Both branches, where the hot water comes from, and where it all goes."""

    cold: Branch
    hot: Branch
    source: HotSource = "stored_mains"
    heater_kw: Annotated[float, Span(0.0, 200.0, " kW")] | None = None
    beyond_power: BeyondPower = "cooler"
    """What an instant heater does when more is drawn than it can heat."""
    stored_litres: Annotated[float, Span(0.0, 2000.0, " l")] | None = None
    set_to: Annotated[float, Span(20.0, 60.0, " °C")] = 38.0
    """Temperature to which the shower's thermostat is set."""
    drain: Drain | None = None
