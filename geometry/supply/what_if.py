"""What would change if: another bore, another head, a pump, a regulating valve, more or less pressure.

Every change makes a new network; nothing else of it is touched. mm, l/min, bar.
"""

from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple, TypeVar

from geometry.supply.network import Feed, Network, Outlet
from geometry.supply.pieces import Device, Pump, Stretch
from geometry.supply.solution import Solution
from geometry.supply.solve import solve

BranchName = Literal["cold", "hot"]
Way = TypeVar("Way", Feed, Outlet)


class Size(NamedTuple):
    """A tube that can be had."""

    name: str
    bore: float
    roughness: float = 0.0015


class Gain(NamedTuple):
    """What one stretch in the next size would give, all else as it is."""

    stretch: str
    size: Size
    flow: float
    """l/min from the open outlets together, with the change."""
    gain: float
    """l/min more than without."""


def with_size(network: Network, stretch: str, size: Size) -> Network:
    """Return the network with one stretch in another tube; its K values are kept.

    Raises:
        ValueError: no stretch has this name.
    """
    if not any(held.name == stretch for held in _stretches(network)):
        raise ValueError(f"no stretch is called {stretch!r}")

    def resized(way: Way) -> Way:
        if all(piece.name != stretch for piece in way.pieces):
            return way
        pieces = tuple(
            piece.but(bore=size.bore, roughness=size.roughness)
            if isinstance(piece, Stretch) and piece.name == stretch
            else piece
            for piece in way.pieces
        )
        return way.but(pieces=pieces)

    return network.but(
        cold=resized(network.cold),
        hot=resized(network.hot),
        outlets=tuple(resized(outlet) for outlet in network.outlets),
    )


def with_head(network: Network, outlet: str, head: Device) -> Network:
    """Return the network with another head or handset at one outlet.

    Raises:
        ValueError: no outlet has this name.
    """
    network.opened((outlet,))
    return network.but(outlets=tuple(o.but(head=head) if o.name == outlet else o for o in network.outlets))


def with_pump(network: Network, branch: BranchName, pump: Pump) -> Network:
    """Return the network with a pump at the start of one branch."""
    feed: Feed = getattr(network, branch)
    return network.but(**{branch: feed.but(pieces=(pump, *feed.pieces))})


def with_regulator(network: Network, branch: BranchName, pressure: float) -> Network:
    """Return the network with a pressure reducing valve, set in bar, where one branch was measured."""
    feed: Feed = getattr(network, branch)
    return network.but(**{branch: feed.but(regulated=pressure)})


def with_static(network: Network, pressure: float, *branches: BranchName) -> Network:
    """Return the network with another static pressure in bar on the branches named; the fall is kept."""
    changed = {}
    for branch in branches:
        feed: Feed = getattr(network, branch)
        changed[branch] = feed.but(curve=feed.curve.but(static=pressure))
    return network.but(**changed)


def next_sizes(network: Network, running: Sequence[str], sizes: Iterable[Size]) -> tuple[Gain, ...]:
    """Return for each stretch that water runs through what the next wider size gives, most first.

    A stretch that is in the widest size already is left out.

    Args:
        network: as it is.
        running: names of the open outlets.
        sizes: what can be had, in any order.
    """
    ladder = sorted(sizes, key=lambda size: size.bore)
    before = solve(network, *running)
    gains = []
    used = {loss.name for loss in before.losses if loss.role == "pipe" and loss.flow > 0.0}
    for stretch in _stretches(network):
        if stretch.name not in used:
            continue
        wider = next((size for size in ladder if size.bore > stretch.bore), None)
        if wider is not None:
            flow = solve(with_size(network, stretch.name, wider), *running).flow
            gains.append(Gain(stretch.name, wider, flow, flow - before.flow))
    return tuple(sorted(gains, key=lambda gain: -gain.gain))


def over_pressure(
    network: Network, running: Sequence[str], pressures: Iterable[float], *branches: BranchName
) -> tuple[tuple[float, Solution], ...]:
    """Return the solution at each static pressure in bar of the branches named, for a plot."""
    return tuple((bar, solve(with_static(network, bar, *branches), *running)) for bar in pressures)


def _stretches(network: Network) -> tuple[Stretch, ...]:
    return tuple(piece for _, pieces in network.ways() for piece in pieces if isinstance(piece, Stretch))
