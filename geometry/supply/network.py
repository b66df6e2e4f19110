"""The way of the water: two branches, the valve that mixes them, and the ways from it to the outlets.

A branch is the supply as measured, and the pieces from there to the valve; a way out is the pieces from the
valve to an outlet and the head that ends it. All pressures are gauge, all heights follow from the rises of
the stretches.
"""

from typing import Annotated, Literal, NamedTuple

from geometry.model.record import Bar, Celsius, Record, Span, Text, duplicate
from geometry.supply.pieces import AboveZeroBar, Device, Litres, Piece
from geometry.supply.supply_curve import SupplyCurve


class Feed(Record, frozen=True, kw_only=True):
    """One branch, cold or hot, up to the valve."""

    curve: SupplyCurve
    temperature: Celsius
    pieces: tuple[Piece, ...] = ()
    regulated: Bar | None = None
    """A pressure reducing valve where the curve was measured: no more than this passes, and nothing back."""


class Heater(Record, frozen=True, kw_only=True):
    """An instant heater; what it can give hot is bounded by its power.

    Drawn beyond that, one kind lets the water through `cooler`, another slows it so that it stays hot.
    """

    power: Annotated[float, Span(0.0, 200.0, " kW", least_allowed=False)]
    beyond: Literal["cooler", "slower"] = "cooler"


class MixingValve(Record, frozen=True, kw_only=True):
    """A thermostatic valve: one shuttle gives the hot side what it takes from the cold.

    With the shuttle at a share s of its way towards hot, the hot side passes s x `hot_flow` and the cold side
    (1 - s) x `cold_flow` at `pressure`. The thermostat moves it until the mixed water has its `setting`.
    """

    setting: Celsius = 38.0
    hot_flow: Litres
    cold_flow: Litres
    pressure: AboveZeroBar = 1.0

    @property
    def hot_side(self) -> float:
        """What the hot side takes with the shuttle all at hot, in bar per (l/min) squared."""
        return self.pressure / self.hot_flow**2

    @property
    def cold_side(self) -> float:
        """What the cold side takes with the shuttle all at cold, in bar per (l/min) squared."""
        return self.pressure / self.cold_flow**2


class Outlet(Record, frozen=True, kw_only=True):
    """One way out of the valve: pipe, hose and the head or handset at its end."""

    name: Text
    pieces: tuple[Piece, ...] = ()
    head: Device
    submerged: bool = False
    """Whether it lies under water, so that a sucking supply draws from it; else that draws air."""

    def __post_init__(self) -> None:
        super().__post_init__()
        if not self.name:
            raise ValueError(".name: must not be empty")


class Ways(NamedTuple):
    """What of a network runs: all of it but the outlets that are shut."""

    cold: Feed
    hot: Feed
    heater: Heater | None
    valve: MixingValve
    outlets: tuple[Outlet, ...]


class Network(Record, frozen=True, kw_only=True):
    """Both branches, the valve and all its outlets."""

    cold: Feed
    hot: Feed
    """With an instant heater, `hot.temperature` is what it is set to."""
    heater: Heater | None = None
    valve: MixingValve
    outlets: tuple[Outlet, ...]

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.hot.temperature <= self.cold.temperature:
            raise ValueError(
                f".hot.temperature: must be above the cold {self.cold.temperature:g} °C,"
                f" got {self.hot.temperature:g}"
            )
        if not self.outlets:
            raise ValueError(".outlets: must have one outlet or more, has none")
        names = ["cold", "hot", *(outlet.name for outlet in self.outlets)]
        names += [piece.name for _, pieces in self.ways() for piece in pieces]
        again = duplicate(tuple(names))
        if again is not None:
            raise ValueError(f".outlets: a name must stand only once in a network: {names[again]!r}")

    def ways(self) -> tuple[tuple[str, tuple[Piece, ...]], ...]:
        """Return the pieces of every way: "cold", "hot", and each outlet by name, its head last."""
        return (
            ("cold", self.cold.pieces),
            ("hot", self.hot.pieces),
            *((outlet.name, (*outlet.pieces, outlet.head)) for outlet in self.outlets),
        )

    def opened(self, names: tuple[str, ...]) -> Ways:
        """Return what runs with the outlets of these names open, in the network's order.

        Raises:
            ValueError: there is no such outlet.
        """
        known = {outlet.name for outlet in self.outlets}
        for name in names:
            if name not in known:
                raise ValueError(f"no outlet is called {name!r}; there are {', '.join(sorted(known))}")
        outlets = tuple(outlet for outlet in self.outlets if outlet.name in names)
        return Ways(self.cold, self.hot, self.heater, self.valve, outlets)
