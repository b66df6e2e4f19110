"""How long the water of the samples takes, and as a ratio to the independent solver in the same run.

Run with `python -m pytest tests/benchmarks/test_supply_speed.py -s`.
"""

import time
from collections.abc import Callable
from functools import partial

import pytest

import geometry.supply.solve as solve_module
from geometry.checks.supply import supply
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.supply.from_plan import Shower, showers
from geometry.supply.report import feed_losses
from geometry.supply.results import results
from geometry.supply.solve import solve
from tests.geometry.supply.test_against_independent_solver import independent
from tests.samples import SOUND, sample_job

MOST = 5e-3
"""Seconds for all findings about water that was seen before: what a drag can follow."""
MOST_SOLVE = 1e-3
"""Seconds for one solve; a step of a drag asks for a dozen."""
LEAST_RATIO = 10.0
"""The independent solver takes at least so many times as long."""


def best(run: Callable[[], object], times: int = 7) -> float:
    """Return the shortest of several times in seconds, the first one left out."""
    run()
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        run()
        taken.append(time.perf_counter() - start)
    return min(taken)


def plan_of(name: str) -> Plan:
    return Plan(sample_job(name), generic_parts(), standard_rules())


def water(name: str) -> Shower:
    found = showers(plan_of(name))[0]
    assert isinstance(found, Shower)
    return found


@pytest.mark.parametrize("name", SOUND)
def test_one_solve_follows_a_drag(name: str) -> None:
    network = water(name).network
    timed = [(best(partial(solve, network, *names)), names) for names, _ in results(network).running]
    slowest = max(timed)
    print(f"\n{name}: {slowest[0] * 1e3:.2f} ms with {' and '.join(slowest[1])}")
    assert slowest[0] < MOST_SOLVE


@pytest.mark.parametrize("name", ["alcove-760", "corner-1200x800", "wet-room-thick-wall"])
def test_the_independent_solver_takes_far_longer(name: str) -> None:
    network = water(name).network
    names = max(results(network).running, key=lambda one: len(one[0]))[0]
    ours = best(lambda: solve(network, *names))
    others = best(lambda: independent(network, names), 2)
    print(f"\n{name}: {ours * 1e3:.2f} ms, the other {others * 1e3:.0f} ms: {others / ours:.0f} times")
    assert others > LEAST_RATIO * ours


@pytest.mark.parametrize("name", SOUND)
def test_all_findings_about_the_water_of_a_job_that_was_seen_before(name: str) -> None:
    job = sample_job(name)
    seen = best(lambda: tuple(supply(Plan(job, generic_parts(), standard_rules()))))

    def fresh() -> None:
        memories = (solve_module._solved, solve_module._thermostat, solve_module.shared_out, feed_losses)
        for memory in (results, *memories):
            memory.cache_clear()
        tuple(supply(Plan(job, generic_parts(), standard_rules())))

    print(f"\n{name}: seen {seen * 1e3:.2f} ms, not seen {best(fresh) * 1e3:.2f} ms")
    assert seen < MOST
