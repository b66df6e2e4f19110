"""Changes worth trying on a job's own water: other tubes, other heads, a pump, a reducing valve.

l/min, bar, mm, Celsius. Each is one change with all else as it is.
"""

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from geometry.parts.catalogue import Catalogue
from geometry.parts.records import HeadPart, TubePart
from geometry.plan import Plan
from geometry.supply.friction import ROUGHEST
from geometry.supply.from_plan import Shower
from geometry.supply.loss import piece_loss
from geometry.supply.network import Network
from geometry.supply.pieces import Device, Pump
from geometry.supply.solution import Loss, Solution
from geometry.supply.solve import solved
from geometry.supply.what_if import Size, with_head, with_pump, with_regulator, with_size
from geometry.units import at_least

COMPARED = (14.0, 23.0)
"""mm outside: between these lie the two usual sizes, 15 and 22, or 16 and 20."""
TRIED_PUMP = (1.5, 40.0)
"""bar at no flow and l/min at no pressure: a usual pump for showers, from memory."""
TRIED_REGULATOR = 3.0
"""bar; common practice, no source."""
LEAST_GAIN = 0.05
"""l/min; less is none."""


class Tryout(NamedTuple):
    """One change: what is changed, to what, and what it gives."""

    what: str
    to: str
    solution: Solution


class Gain(NamedTuple):
    """The stretch on which the next tube size gives most."""

    stretch: str
    tube: TubePart
    gain: float
    """l/min more."""


def best_size(plan: Plan, shower: Shower, running: tuple[str, ...]) -> Gain | None:
    """Return the stretch on which the next wider tube of its material gives most; None where none gives.

    Of stretches that the same water passes only the one that frees most pressure is tried: those of a way,
    or all where water comes from one branch alone and leaves by one outlet.
    """
    before = solved(shower.network, *running)
    in_line = len(running) == 1 and not (before.hot_mass and before.cold_mass)
    freeing = sorted(_widened(plan, shower, before), key=lambda one: one.freed)
    gains = [
        Gain(stretch, tube, solved(_resized(shower, stretch, tube), *running).flow - before.flow)
        for _, stretch, tube, _ in {"" if in_line else one.way: one for one in freeing}.values()
    ]
    best = max(gains, key=lambda gain: gain.gain, default=None)
    return best if best is not None and best.gain >= LEAST_GAIN else None


def bounded(shower: Shower, solution: Solution) -> bool:
    """Return whether the heater's power bounds the flow, so that no tube changes it.

    Where the power is too small even for that, the water comes cooler than it is set and its flow is that
    which the ways let through.
    """
    wanted = min(shower.network.valve.setting, shower.network.hot.temperature)
    came = solution.temperature
    return solution.has("heater_too_small") and came is not None and at_least(came, wanted)


class _Widened(NamedTuple):
    way: str
    stretch: str
    tube: TubePart
    freed: float
    """bar less than now, at the flow of now."""


def _widened(plan: Plan, shower: Shower, before: Solution) -> Iterator[_Widened]:
    """Go through the stretches that water runs through, each in the next wider tube of its material."""
    mixed = before.temperature
    if mixed is None:
        return
    network = shower.network
    warm = {"cold": network.cold.temperature, "hot": before.hot_temperature}
    pieces = {piece.name: piece for _, way in network.ways() for piece in way}
    for loss, tube in _used(shower, before):
        wider = next((one for one in _tubes(plan.catalogue, tube.material) if one.bore > tube.bore), None)
        if wider is not None:
            piece = pieces[loss.name].but(bore=wider.bore, roughness=wider.roughness)
            left = piece_loss(piece, loss.flow, warm.get(loss.way, mixed))
            yield _Widened(loss.way, loss.name, wider, loss.pressure - left)


def sizes(plan: Plan, shower: Shower, running: tuple[str, ...]) -> Iterator[tuple[Tryout, ...]]:
    """Go through the stretches that water runs through, each in the two usual sizes of its material."""
    low, high = COMPARED
    for loss, tube in _used(shower, solved(shower.network, *running)):
        yield tuple(
            Tryout(loss.name, size.name, solved(_resized(shower, loss.name, size), *running))
            for size in _tubes(plan.catalogue, tube.material)
            if low < size.outside < high
        )


def others(plan: Plan, shower: Shower, running: tuple[str, ...]) -> Iterator[Tryout]:
    """Go through other heads in place of the first open one, a pump, and a reducing valve."""
    network, first = shower.network, running[0]
    own = next((head for head in plan.heads if head.fitting.id == first), None)
    outlet = next(outlet for outlet in network.outlets if outlet.name == first)
    if own is not None:
        flows = {(own.part.flow, own.part.pressure)}
        for part in plan.catalogue:
            stated = (part.flow, part.pressure) if isinstance(part, HeadPart) else None
            if isinstance(part, HeadPart) and stated not in flows and part.flow > 0.0:
                flows.add((part.flow, part.pressure))
                head = Device(name=outlet.head.name, flow=part.flow, pressure=part.pressure)
                yield Tryout("Another head", part.name, solved(with_head(network, first, head), *running))
    pressure, flow = TRIED_PUMP
    pumped = network
    for side in ("hot", "cold"):
        name = f"tried {side} pump"
        pumped = with_pump(pumped, side, Pump(name=name, pressure=pressure, flow=flow))
    yield Tryout("Pump on both supplies", f"{pressure:g} bar, {flow:g} l/min", solved(pumped, *running))
    regulated = with_regulator(with_regulator(network, "hot", TRIED_REGULATOR), "cold", TRIED_REGULATOR)
    yield Tryout("Reducing valve on both", f"{TRIED_REGULATOR:g} bar", solved(regulated, *running))


def _used(shower: Shower, solution: Solution) -> list[tuple[Loss, TubePart]]:
    return [
        (loss, shower.tubes[loss.name])
        for loss in solution.losses
        if loss.flow > 0.0 and loss.name in shower.tubes
    ]


@lru_cache(maxsize=32)
def _tubes(catalogue: Catalogue, material: str) -> tuple[TubePart, ...]:
    """Return the tubes of a material through which a loss can be worked out, narrowest first."""
    tubes = [p for p in catalogue if isinstance(p, TubePart) and p.material == material]
    usable = [tube for tube in tubes if tube.bore > 0.0 and tube.roughness <= ROUGHEST * tube.bore]
    return tuple(sorted(usable, key=lambda tube: tube.bore))


def _resized(shower: Shower, stretch: str, tube: TubePart) -> Network:
    return with_size(shower.network, stretch, Size(tube.name, tube.bore, tube.roughness))
