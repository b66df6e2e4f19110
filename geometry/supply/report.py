"""From the flows that a solver found to the full account of a network: each piece, its loss, its velocity."""

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from geometry.supply.hydraulics import Shuttle, Source
from geometry.supply.loss import Path, litre_flow, velocity
from geometry.supply.network import Feed, Network, Outlet
from geometry.supply.pieces import Piece, Pump, Stretch
from geometry.supply.solution import Loss, OutletState, Problem, Role, Solution


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


def report(
    network: Network, outlets: tuple[Outlet, ...], state: State, problems: tuple[Problem, ...]
) -> Solution:
    """Return the account of a state.

    Along every way the losses and heights add up: static pressure less those of a branch and of its side of
    the valve is the pressure behind the valve, and less those of an outlet with its head it is nothing.

    Args:
        network: what it is the state of.
        outlets: the open ones, in the order of the state's flows.
        state: what the solver found.
        problems: what the solver has to say.
    """
    cold, hot, mixed = network.cold.temperature, state.hot_temperature, state.mixed
    pressures = Source(network.hot, hot).pressure(state.hot), Source(network.cold, cold).pressure(state.cold)
    position = state.position
    if position is None:
        position = _position(network, state, pressures[1])
    losses = (
        *feed_losses("hot", network.hot, state.hot, hot),
        *_valve_losses(network, state, pressures[0], position),
        *feed_losses("cold", network.cold, state.cold, cold),
        *_side("cold", litre_flow(state.cold, cold), pressures[1] - state.pressure),
        *(
            loss
            for outlet, mass in zip(outlets, state.flows, strict=True)
            for loss in _outlet_losses(outlet, mass, mixed)
        ),
    )
    states = tuple(
        OutletState(
            name=outlet.name, flow=litre_flow(mass, mixed), mass=mass,
            pressure=Path((outlet.head,), mixed).loses(mass) if mass else 0.0,
        )
        for outlet, mass in zip(outlets, state.flows, strict=True)
    )  # fmt: skip
    return Solution(
        outlets=states, temperature=mixed if _comes_out(state) else None, hot_temperature=hot,
        hot_mass=state.hot, cold_mass=state.cold,
        hot_flow=litre_flow(state.hot, hot), cold_flow=litre_flow(state.cold, cold),
        hot_pressure=pressures[0], cold_pressure=pressures[1], mixed_pressure=state.pressure,
        position=position, losses=losses,
        problems=(*problems, *_dry(states), *_uncertain(losses)),
    )  # fmt: skip


def _comes_out(state: State) -> bool:
    """Return whether supplied water leaves an outlet."""
    return any(mass > 0.0 for mass in state.flows) and (state.hot > 0.0 or state.cold > 0.0)


def _position(network: Network, state: State, cold_pressure: float) -> float | None:
    """Return where the shuttle stands: all that the cold side does not need is the hot side's."""
    if state.hot <= 0.0 and state.cold <= 0.0:
        return None
    shuttle = Shuttle(network.valve, state.hot_temperature, network.cold.temperature)
    return 1.0 - shuttle.way(0.0, state.cold, 0.0, cold_pressure - state.pressure)


def _valve_losses(
    network: Network, state: State, hot_pressure: float, position: float | None
) -> Iterator[Loss]:
    """Return the hot side's loss, and before it what a heater that slows the water takes."""
    flow, over = litre_flow(state.hot, state.hot_temperature), hot_pressure - state.pressure
    slowing = 0.0
    if network.heater is not None and network.heater.beyond == "slower" and position and state.hot > 0.0:
        shuttle = Shuttle(network.valve, state.hot_temperature, network.cold.temperature)
        side = shuttle.hot * (state.hot / position) ** 2
        slowing = over - side if over - side > 1e-9 else 0.0  # bar; less is rounding
    if slowing:
        yield Loss(name="heater", way="hot", role="heater", flow=flow, pressure=slowing)
    yield from _side("hot", flow, over - slowing)


def _side(way: str, flow: float, pressure: float) -> Iterator[Loss]:
    yield Loss(
        name=f"valve, {way} side", way=way, role="valve", flow=flow, pressure=pressure if flow else 0.0
    )


@lru_cache(maxsize=128)
def feed_losses(way: str, feed: Feed, mass: float, temperature: float) -> tuple[Loss, ...]:
    """Return the losses of one branch, from memory where only the other has changed, or it stands still."""
    return tuple(_along(way, feed, mass, temperature))


def _along(way: str, feed: Feed, mass: float, temperature: float) -> Iterator[Loss]:
    flow = litre_flow(mass, temperature)
    held = feed.curve.pressure(flow)
    yield Loss(name=f"{way} supply", way=way, role="supply", flow=flow, pressure=feed.curve.static - held)
    if feed.regulated is not None:
        yield Loss(
            name=f"{way} regulator", way=way, role="regulator", flow=flow,
            pressure=max(held - feed.regulated, 0.0),
        )  # fmt: skip
    for piece in feed.pieces:
        yield _loss(piece, way, _role(piece), mass, temperature)


def _outlet_losses(outlet: Outlet, mass: float, temperature: float) -> Iterator[Loss]:
    for piece in outlet.pieces:
        yield _loss(piece, outlet.name, _role(piece), mass, temperature)
    yield _loss(outlet.head, outlet.name, "head", mass, temperature)


def _role(piece: Piece) -> Role:
    if isinstance(piece, Stretch):
        return "pipe"
    return "pump" if isinstance(piece, Pump) else "device"


def _loss(piece: Piece, way: str, role: Role, mass: float, temperature: float) -> Loss:
    path, flow = Path((piece,), temperature), litre_flow(mass, temperature)
    shut = mass == 0.0 and role in ("device", "head")  # nothing says how much of its opening stands on it
    return Loss(
        name=piece.name, way=way, role=role, flow=flow, pressure=0.0 if shut else path.loses(mass),
        height=path.lift, velocity=velocity(abs(flow), piece.bore) if isinstance(piece, Stretch) else None,
        uncertain=path.in_transition(mass),
    )  # fmt: skip


def _dry(states: tuple[OutletState, ...]) -> Iterator[Problem]:
    running = any(state.flow > 0.0 for state in states)
    for state in states:
        if running and state.flow == 0.0:
            message = f"Nothing comes out of {state.name}: the pressure behind the valve does not reach it."
            yield Problem(kind="outlet_dry", message=message, parts=(state.name,))


def _uncertain(losses: tuple[Loss, ...]) -> Iterator[Problem]:
    doubtful = [loss for loss in losses if loss.uncertain]
    if doubtful:
        names, taken = tuple(loss.name for loss in doubtful), sum(abs(loss.pressure) for loss in doubtful)
        where = ", ".join(names)
        message = f"Between laminar and turbulent in {where}: the {taken:.3f} bar lost there are an estimate."
        yield Problem(kind="uncertain", message=message, parts=names)
