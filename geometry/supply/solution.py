"""What a network does when it runs: flows, temperatures, pressures, and what takes them. Immutable.

Flows in l/min at the water's own temperature, and in kg/s where they must add up; pressures in bar gauge;
temperatures in Celsius. What each piece takes is worked out when it is first asked for.
"""

from collections.abc import Iterator
from functools import cached_property
from typing import Literal, NamedTuple

from geometry.model.record import Record
from geometry.supply.loss import Path, litre_flow
from geometry.supply.network import Ways
from geometry.supply.report import Loss, Role, State, inlet_pressures, losses, position

__all__ = ["Loss", "OutletState", "Problem", "Role", "Solution", "Trouble"]

Trouble = Literal[
    "no_flow", "hot_too_weak", "cold_too_weak", "hot_too_cool", "cold_too_warm", "heater_too_small",
    "reverse_hot", "reverse_cold", "drawn_back", "outlet_dry", "uncertain",
]  # fmt: skip


class Problem(NamedTuple):
    """Something that keeps the result from being what was wanted, in one sentence."""

    kind: Trouble
    message: str
    parts: tuple[str, ...] = ()
    """The outlets or pieces concerned."""


class OutletState(NamedTuple):
    """What comes out of one outlet."""

    name: str
    flow: float
    mass: float
    """kg/s."""
    pressure: float
    """bar just before its head."""


class Solution(Record, frozen=True, kw_only=True, dict=True):
    """A network with some of its outlets open."""

    ways: Ways
    state: State
    reasons: tuple[Problem, ...]
    """Why it does not run as it was set, as the solver says."""

    @cached_property
    def outlets(self) -> tuple[OutletState, ...]:
        """What comes out of the open outlets."""
        mixed = self.state.mixed
        return tuple(
            OutletState(
                outlet.name, litre_flow(mass, mixed), mass,
                Path((outlet.head,), mixed).loses(mass) if mass else 0.0,
            )
            for outlet, mass in zip(self.ways.outlets, self.state.flows, strict=True)
        )  # fmt: skip

    @property
    def temperature(self) -> float | None:
        """Of the mixed water; None where none of the supplied water comes out."""
        supplied = self.hot_mass > 0.0 or self.cold_mass > 0.0
        return self.state.mixed if supplied and max(self.state.flows, default=0.0) > 0.0 else None

    @property
    def hot_temperature(self) -> float:
        """Of the hot water as it reaches the valve."""
        return self.state.hot_temperature

    @property
    def hot_mass(self) -> float:
        """Hot water into the valve, in kg/s; below zero flows back."""
        return self.state.hot

    @property
    def cold_mass(self) -> float:
        """Cold water into the valve, in kg/s; below zero flows back."""
        return self.state.cold

    @property
    def hot_flow(self) -> float:
        """Hot water into the valve, in l/min."""
        return litre_flow(self.hot_mass, self.hot_temperature)

    @property
    def cold_flow(self) -> float:
        """Cold water into the valve, in l/min."""
        return litre_flow(self.cold_mass, self.ways.cold.temperature)

    @property
    def _inlets(self) -> tuple[float, float]:
        return inlet_pressures(self.ways, self.state)

    @property
    def hot_pressure(self) -> float:
        """At the valve's hot inlet, in bar."""
        return self._inlets[0]

    @property
    def cold_pressure(self) -> float:
        """At the valve's cold inlet, in bar."""
        return self._inlets[1]

    @property
    def mixed_pressure(self) -> float:
        """Behind the valve at its height, in bar."""
        return self.state.pressure

    @property
    def position(self) -> float | None:
        """Of the valve's shuttle, 0 all cold to 1 all hot; None where nothing flows."""
        return position(self.ways, self.state)

    @cached_property
    def losses(self) -> tuple[Loss, ...]:
        """What each piece takes."""
        return tuple(losses(self.ways, self.state))

    @property
    def troubles(self) -> tuple[Problem, ...]:
        """Why less or other water runs than was wanted: all problems but those of certainty."""
        return (*self.reasons, *_dry(self.outlets))

    @cached_property
    def problems(self) -> tuple[Problem, ...]:
        """All that keeps the result from being what was wanted."""
        return (*self.troubles, *_uncertain(self.losses))

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
        low, high = sorted(self._inlets)
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


def _dry(outlets: tuple[OutletState, ...]) -> Iterator[Problem]:
    for outlet in outlets:
        if outlet.flow == 0.0 and any(other.flow > 0.0 for other in outlets):
            message = f"Nothing comes out of {outlet.name}: the pressure behind the valve does not reach it."
            yield Problem("outlet_dry", message, (outlet.name,))


def _uncertain(losses: tuple[Loss, ...]) -> Iterator[Problem]:
    doubtful = [loss for loss in losses if loss.uncertain]
    if doubtful:
        names, taken = tuple(loss.name for loss in doubtful), sum(abs(loss.pressure) for loss in doubtful)
        where = ", ".join(names)
        message = f"Between laminar and turbulent in {where}: the {taken:.3f} bar lost there are an estimate."
        yield Problem("uncertain", message, names)
