"""From the flows that a solver found to the account of a network: each piece and what it takes."""

from collections.abc import Iterator
from functools import lru_cache
from typing import Literal, NamedTuple

from geometry.supply.hydraulics import Source, way_needed
from geometry.supply.loss import Path, litre_flow, velocity
from geometry.supply.network import Feed, Ways
from geometry.supply.pieces import Piece, Pump, Stretch

Role = Literal["supply", "regulator", "heater", "pump", "pipe", "device", "valve", "head"]


class State(NamedTuple):
    """What a solver found: kg/s, Celsius, bar."""

    hot: float
    cold: float
    hot_temperature: float
    mixed: float
    """Temperature of the water behind the valve."""
    pressure: float
    """Behind the valve."""
    flows: tuple[float, ...]
    """Of the open outlets."""
    position: float | None = None
    """Of the shuttle, where it is set and does not follow from the flows."""

    @classmethod
    def at_rest(cls, hot_temperature: float, pressure: float, outlets: int) -> "State":
        """Return the state in which nothing flows."""
        return cls(0.0, 0.0, hot_temperature, hot_temperature, pressure, (0.0,) * outlets)


class Loss(NamedTuple):
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


def sources(ways: Ways, state: State) -> tuple[Source, Source]:
    """Return the hot and the cold branch with the water as it is in a state."""
    return (
        Source(ways.hot, ways.valve.hot_side, state.hot_temperature),
        Source(ways.cold, ways.valve.cold_side, ways.cold.temperature),
    )


def inlet_pressures(ways: Ways, state: State) -> tuple[float, float]:
    """Return the pressures in bar that the hot and the cold branch hold at the valve."""
    hot, cold = sources(ways, state)
    return hot.pressure(state.hot), cold.pressure(state.cold)


def position(ways: Ways, state: State) -> float | None:
    """Return where the shuttle stands, 0 all cold to 1 all hot; None where nothing flows.

    Where it is not set, all that the cold side does not need is the hot side's.
    """
    if state.position is not None or (state.hot <= 0.0 and state.cold <= 0.0):
        return state.position
    if state.cold <= 0.0:
        return 1.0
    _, cold = sources(ways, state)
    return 1.0 - way_needed([(state.cold, cold.pressure(state.cold), cold.resistance)], state.pressure)


def losses(ways: Ways, state: State) -> Iterator[Loss]:
    """Go through the account of a state: hot, cold, then each open outlet.

    Along every way the losses and heights add up: static pressure less those of a branch and of its side of
    the valve is the pressure behind the valve, and less those of an outlet with its head it is nothing.
    """
    hot, cold = inlet_pressures(ways, state)
    yield from feed_losses("hot", ways.hot, state.hot, state.hot_temperature)
    yield from _hot_side(ways, state, hot - state.pressure)
    yield from feed_losses("cold", ways.cold, state.cold, ways.cold.temperature)
    yield _side("cold", litre_flow(state.cold, ways.cold.temperature), cold - state.pressure)
    for outlet, mass in zip(ways.outlets, state.flows, strict=True):
        yield from _along(outlet.name, outlet.pieces, mass, state.mixed)
        yield from _along(outlet.name, (outlet.head,), mass, state.mixed, "head")


@lru_cache(maxsize=128)
def feed_losses(way: str, feed: Feed, mass: float, temperature: float) -> tuple[Loss, ...]:
    """Return the losses of one branch, from memory where only the other has changed, or it stands still."""
    return tuple(_branch(way, feed, mass, temperature))


def _branch(way: str, feed: Feed, mass: float, temperature: float) -> Iterator[Loss]:
    flow = litre_flow(mass, temperature)
    held = feed.curve.pressure(flow)
    yield Loss(f"{way} supply", way, "supply", flow, feed.curve.static - held)
    if feed.regulated is not None:
        yield Loss(f"{way} regulator", way, "regulator", flow, max(held - feed.regulated, 0.0))
    yield from _along(way, feed.pieces, mass, temperature)


def _hot_side(ways: Ways, state: State, over: float) -> Iterator[Loss]:
    """Return the hot side's loss, and before it what a heater that slows the water takes."""
    flow, slowing = litre_flow(state.hot, state.hot_temperature), 0.0
    if ways.heater is not None and ways.heater.beyond == "slower" and state.hot > 0.0:
        stands = position(ways, state)
        if stands:
            side = sources(ways, state)[0].resistance * (state.hot / stands) ** 2
            slowing = over - side if over - side > 1e-9 else 0.0  # bar; less is rounding
    if slowing:
        yield Loss("heater", "hot", "heater", flow, slowing)
    yield _side("hot", flow, over - slowing)


def _side(way: str, flow: float, pressure: float) -> Loss:
    return Loss(f"valve, {way} side", way, "valve", flow, pressure if flow else 0.0)


def _along(
    way: str, pieces: tuple[Piece, ...], mass: float, temperature: float, device: Role = "device"
) -> Iterator[Loss]:
    flow = litre_flow(mass, temperature)
    for piece in pieces:
        path = Path((piece,), temperature)
        if isinstance(piece, Stretch):
            fast, doubtful = velocity(abs(flow), piece.bore), path.in_transition(mass)
            yield Loss(piece.name, way, "pipe", flow, path.loses(mass), path.lift, fast, doubtful)
        elif isinstance(piece, Pump):
            yield Loss(piece.name, way, "pump", flow, path.loses(mass))
        else:  # nothing says how much of its opening stands on it where nothing flows
            yield Loss(piece.name, way, device, flow, path.loses(mass) if mass else 0.0)
