"""What comes out of a network: every outlet alone, every two together, and the valve with all of them shut.

A network holds all that its results depend on, and nothing of where on the wall things are but lengths and
heights; so results are kept by the network, and a move that changes neither costs nothing.
"""

from collections.abc import Mapping
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

from geometry.supply.fixed import crossing
from geometry.supply.network import Network
from geometry.supply.solution import Solution
from geometry.supply.solve import solved


class Results(NamedTuple):
    """Solutions by the names of the outlets that are open."""

    alone: Mapping[str, Solution]
    pairs: Mapping[tuple[str, str], Solution]
    """Whether a valve lets two run together is its maker's word."""
    crossing: float
    """l/min from cold into hot while all outlets are shut; below zero from hot into cold."""

    @property
    def running(self) -> tuple[tuple[tuple[str, ...], Solution], ...]:
        """Every solution with water running, and which outlets are open in it."""
        return (*(((name,), one) for name, one in self.alone.items()), *self.pairs.items())

    @property
    def most(self) -> Mapping[str, tuple[float, tuple[str, ...]]]:
        """The most l/min through every way, "hot", "cold" or an outlet's name, and with what running."""
        most: dict[str, tuple[float, tuple[str, ...]]] = {}
        for running, solution in self.running:
            flows = [("hot", solution.hot_flow), ("cold", solution.cold_flow)]
            for way, flow in (*flows, *((outlet.name, outlet.flow) for outlet in solution.outlets)):
                if way not in most or flow > most[way][0]:
                    most[way] = flow, running
        return most


@lru_cache(maxsize=128)
def results(network: Network) -> Results:
    """Return the solutions of a network.

    Raises:
        ArithmeticError: no solution was found; this should not happen with any network that can be made.
    """
    names = [outlet.name for outlet in network.outlets]
    return Results(
        {name: solved(network, name) for name in names},
        {pair: solved(network, *pair) for pair in combinations(names, 2)},
        crossing(network),
    )
