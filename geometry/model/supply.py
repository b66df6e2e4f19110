"""What was measured at the house: pressures in bar gauge, flows in l/min, temperatures in Celsius."""

from typing import Annotated, Literal

from geometry.model.record import Bar, Celsius, Extent, Flow, Length, Name, Record, Span

HotSource = Literal["instant_heater", "stored_mains", "stored_gravity", "boosted"]


class Reading(Record, frozen=True, kw_only=True):
    """One reading with water running: the pressure while that flow runs."""

    pressure: Bar
    flow: Flow


class Upstream(Record, frozen=True, kw_only=True):
    """A stretch of pipe between the place of measurement and the wall."""

    tube: Name
    length: Length


class Branch(Record, frozen=True, kw_only=True):
    """Hot or cold: the pressure with all taps shut, readings with water running, temperature."""

    static: Bar
    readings: tuple[Reading, ...] = ()
    temperature: Celsius
    upstream: tuple[Upstream, ...] = ()
    gauge_height: Extent = 1000.0
    """Height above the finished floor at which the pressures were read, in mm."""


class Supply(Record, frozen=True, kw_only=True):
    """Both branches, and where the hot water comes from."""

    cold: Branch
    hot: Branch
    source: HotSource = "stored_mains"
    heater_kw: Annotated[float, Span(0.0, 200.0, " kW")] | None = None
    stored_litres: Annotated[float, Span(0.0, 2000.0, " l")] | None = None
