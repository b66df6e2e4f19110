"""What a shower asks of the hot water: waiting for it, heating it, storing it.

Litres, l/min, seconds, kW, Celsius.
"""

import math
from collections.abc import Iterable

from geometry.supply.pieces import Piece, Stretch
from geometry.supply.water import heat_capacity, water

USABLE_STORE = 0.8
"""Part of a cylinder that comes out hot before it turns tepid; common practice, no source."""


def dead_leg(pieces: Iterable[Piece]) -> float:
    """Return the litres that stand in the pipes, and have to run off before hot water comes."""
    return sum(
        math.pi / 4.0 * piece.bore**2 * piece.length * 1e-6 for piece in pieces if isinstance(piece, Stretch)
    )


def wait(litres: float, flow: float) -> float:
    """Return the least seconds until hot water comes through a dead leg; the pipe's own warming comes on top.

    Args:
        litres: that stand in the dead leg.
        flow: of the hot water through it, in l/min.

    Raises:
        ValueError: the flow is not above zero, so it never comes.
    """
    if not flow > 0.0:
        raise ValueError(f"hot water does not come at a flow of {flow:g} l/min")
    return 60.0 * litres / flow


def heater_flow(power: float, cold: float, warm: float) -> float:
    """Return the l/min that `power` kW warms from `cold` to `warm`, measured at the cold inlet.

    Raises:
        ValueError: warm is not above cold.
    """
    return 60.0 * power / _litre_heat(cold, warm)


def heater_power(flow: float, cold: float, warm: float) -> float:
    """Return the kW that warm `flow` l/min, measured at the cold inlet, from `cold` to `warm`.

    Raises:
        ValueError: warm is not above cold.
    """
    return flow * _litre_heat(cold, warm) / 60.0


def stored_minutes(litres: float, hot_flow: float, usable: float = USABLE_STORE) -> float:
    """Return how many minutes a full cylinder lasts; what is heated meanwhile is not counted.

    Args:
        litres: the cylinder holds.
        hot_flow: drawn from it, in l/min: the hot side's share, not the whole shower.
        usable: part of it that comes out hot.

    Raises:
        ValueError: nothing is drawn, or the usable part is not between 0 and 1.
    """
    if not hot_flow > 0.0:
        raise ValueError(f"no hot water is drawn at {hot_flow:g} l/min")
    if not 0.0 < usable <= 1.0:
        raise ValueError(f"the usable part of a cylinder must be above 0 and at most 1, got {usable:g}")
    return litres * usable / hot_flow


def hot_share(mixed: float, cold: float, hot: float) -> float:
    """Return the hot water's share by mass in water mixed to a temperature.

    Raises:
        ValueError: the mixed temperature does not lie between the two.
    """
    if not (cold < hot and cold <= mixed <= hot):
        raise ValueError(f"{cold:g} °C and {hot:g} °C do not mix to {mixed:g} °C")
    return (mixed - cold) / (hot - cold)


def _litre_heat(cold: float, warm: float) -> float:
    """Return the kJ that warm a litre, measured cold."""
    if not warm > cold:
        raise ValueError(f"water at {cold:g} °C is not warmed to {warm:g} °C")
    return water(cold).density / 1000.0 * heat_capacity((cold + warm) / 2.0) / 1000.0 * (warm - cold)
