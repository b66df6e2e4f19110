"""What a network does when it runs: flows, temperatures, pressures, and what takes them. Immutable.

Flows in l/min at the water's own temperature, and in kg/s where they must add up; pressures in bar gauge;
temperatures in Celsius.
"""

from typing import Literal

from geometry.model.record import Record

Trouble = Literal[
    "no_flow", "hot_too_weak", "cold_too_weak", "hot_too_cool", "cold_too_warm", "heater_too_small",
    "reverse_hot", "reverse_cold", "drawn_back", "outlet_dry", "uncertain",
]  # fmt: skip

Role = Literal["supply", "regulator", "heater", "pump", "pipe", "device", "valve", "head"]


class Problem(Record, frozen=True, kw_only=True):
    """Something that keeps the result from being what was wanted, in one sentence."""

    kind: Trouble
    message: str
    parts: tuple[str, ...] = ()
    """The outlets or pieces concerned."""


class OutletState(Record, frozen=True, kw_only=True):
    """What comes out of one outlet."""

    name: str
    flow: float
    mass: float
    """kg/s."""
    pressure: float
    """bar just before its head."""


class Loss(Record, frozen=True, kw_only=True):
    """What one piece takes at the flow through it."""

    name: str
    way: str
    """"cold", "hot" or the outlet's name."""
    role: Role
    flow: float
    pressure: float
    """bar; negative where a pump gives it."""
    height: float = 0.0
    """bar that the water's own height takes there; negative where it falls."""
    velocity: float | None = None
    """m/s, for pipes."""
    uncertain: bool = False
    """Whether the flow there is neither laminar nor turbulent for certain."""


class Solution(Record, frozen=True, kw_only=True):
    """A network with some of its outlets open."""

    outlets: tuple[OutletState, ...]
    temperature: float | None
    """Of the mixed water; None where none flows."""
    hot_temperature: float
    """Of the hot water as it reaches the valve."""
    hot_mass: float
    cold_mass: float
    """kg/s into the valve; below zero flows back."""
    hot_flow: float
    cold_flow: float
    hot_pressure: float
    cold_pressure: float
    """bar at the valve's inlets."""
    mixed_pressure: float
    """bar behind the valve, at its height."""
    position: float | None
    """Of the valve's shuttle, 0 all cold to 1 all hot; None where nothing flows."""
    losses: tuple[Loss, ...]
    problems: tuple[Problem, ...] = ()

    @property
    def flow(self) -> float:
        """All outlets together, in l/min."""
        return sum(outlet.flow for outlet in self.outlets)

    @property
    def hot_share(self) -> float | None:
        """The hot water's share of the mixed water by mass; None where none flows or one side flows back."""
        total = self.hot_mass + self.cold_mass
        if total <= 0.0 or self.hot_mass < 0.0 or self.cold_mass < 0.0:
            return None
        return self.hot_mass / total

    @property
    def pressure_ratio(self) -> float | None:
        """The higher inlet pressure over the lower, both running; None where the lower is not above 0."""
        low, high = sorted((self.hot_pressure, self.cold_pressure))
        return high / low if low > 0.0 else None

    @property
    def costliest(self) -> Loss | None:
        """The pipe or device between the measured supply and the head that takes most pressure.

        The head is left out, since its pressure is what it needs, and so is the supply's own fall. Of the
        valve only the side that takes less counts: on the other the thermostat holds a surplus back.
        """
        between = [loss for loss in self.losses if loss.role in ("pipe", "device") and loss.pressure > 0.0]
        sides = [loss for loss in self.losses if loss.role == "valve" and loss.pressure > 0.0]
        return max((*between, *sorted(sides, key=_taken)[:1]), key=_taken, default=None)

    def outlet(self, name: str) -> OutletState:
        """Return what comes out of an outlet; KeyError if it is not open."""
        for outlet in self.outlets:
            if outlet.name == name:
                return outlet
        raise KeyError(name)

    def has(self, kind: Trouble) -> bool:
        """Return whether a problem of this kind was found."""
        return any(problem.kind == kind for problem in self.problems)


def _taken(loss: Loss) -> float:
    return loss.pressure
