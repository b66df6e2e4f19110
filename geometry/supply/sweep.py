"""How much comes out if the house's pressure were another: flow over the pressure with all taps shut.

bar and l/min. Hot keeps its difference to cold, and each falls with the flow as it was measured.
"""

from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from geometry.supply.from_plan import Shower
from geometry.supply.network import Network
from geometry.supply.solve import solve
from geometry.supply.what_if import with_static

STEPS = 24
LEAST_TOP = 6.0
"""bar; every plot reaches this far, so that two of them compare."""

MOST = 20.0
"""bar; a curve holds no more."""


class Sweep(NamedTuple):
    """One outlet alone at many pressures of the cold supply."""

    outlet: str
    points: tuple[tuple[float, float], ...]
    """bar with all taps shut, l/min."""
    now: tuple[float, float]
    """As it was measured."""
    need: float
    enough: float | None
    """Least pressure at which it gets its need; None where none of those tried is enough."""


def sweeps(shower: Shower) -> tuple[Sweep, ...]:
    """Return the flow of each outlet alone at pressures from nothing to well above the measured one."""
    static = shower.network.cold.curve.static
    top = min(max(LEAST_TOP, float(int(static) + 2)), MOST)
    found = []
    for outlet in shower.network.outlets:
        points = tuple((bar, _flow(shower.network, outlet.name, bar)) for bar in _steps(top))
        need = shower.needs[outlet.name].flow
        now = (static, _flow(shower.network, outlet.name, static))
        found.append(Sweep(outlet.name, points, now, need, _enough(points, need)))
    return tuple(found)


def _steps(top: float) -> tuple[float, ...]:
    return tuple(top * step / STEPS for step in range(STEPS + 1))


def _enough(points: tuple[tuple[float, float], ...], need: float) -> float | None:
    """Return where the points reach the need, along the straight between the two beside it."""
    for (bar, flow), (higher, more) in pairwise(points):
        if flow < need <= more:
            return bar + (higher - bar) * (need - flow) / (more - flow)
    return points[0][0] if points[0][1] >= need else None


@lru_cache(maxsize=1024)
def _flow(network: Network, outlet: str, bar: float) -> float:
    between = network.hot.curve.static - network.cold.curve.static
    hot = min(max(bar + between, 0.0), MOST)
    changed = with_static(with_static(network, bar, "cold"), hot, "hot")
    return solve(changed, outlet).flow
