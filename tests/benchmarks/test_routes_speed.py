"""How long routes, cut list and stock take, on the largest sample.

Run with `python -m pytest tests/benchmarks/test_routes_speed.py -s`.
"""

import time
from collections.abc import Callable

from geometry.pipework.cut_list import pieces
from geometry.pipework.proposal import proposals
from geometry.pipework.stock import cuttings
from tests.export.jobs import sample

PROPOSAL, LIST = 0.25, 0.05
"""Seconds: a proposal while the user waits, and a new cut list while a point is dragged."""


def seconds(action: Callable[[], object]) -> float:
    best = 10.0
    for _ in range(5):
        began = time.perf_counter()
        action()
        best = min(best, time.perf_counter() - began)
    return best


def test_a_proposal_takes_less_than_a_quarter_of_a_second() -> None:
    plan = sample("corner-1200x800")
    took = seconds(lambda: proposals(plan, "hot", "above"))
    print(f"\nproposal: {took * 1000:.0f} ms")
    assert took < PROPOSAL


def test_a_cut_list_keeps_up_with_a_dragged_point() -> None:
    plan = sample("corner-1200x800")
    took = seconds(lambda: cuttings(plan, pieces(plan)))
    print(f"\ncut list and stock: {took * 1000:.1f} ms")
    assert took < LIST
