"""The search for the best start against its budgets, and against every start of 100 walls tried one by one.

Budgets: 100 ms on the largest sample, and 20 times as fast as the slow way.
"""

from time import perf_counter

import numpy as np
import pytest

from geometry.plan import Plan
from geometry.tiling.best_start import best_starts, offsets
from geometry.tiling.score import points
from geometry.tiling.setting import setting_of
from tests.geometry.checks.walls import plan_of
from tests.geometry.tiling.starts import random_wall, slowly
from tests.samples import SAMPLES, sample_job

BUDGET = 0.100  # s, to follow a drag
TIMES = 20
TRIED = 2000  # starts that the slow way tries; the rest is worked out from these


def test_best_starts_are_found_within_the_budget_and_far_faster_than_one_by_one() -> None:
    plans = [plan_of(sample_job(name)) for name in SAMPLES]
    slowest, plan = max(((_least(plan), plan) for plan in plans), key=lambda one: one[0])
    held = setting_of(plan)
    along, up = offsets(held, along=True), offsets(held, along=False)
    start = perf_counter()
    for number in range(TRIED):
        slowly(held, float(along[number % len(along)]), float(up[number % len(up)]))
    one_by_one = (perf_counter() - start) / TRIED * len(along) * len(up)
    print(f"\nbest start: {slowest * 1000:.0f} ms, one by one {one_by_one:.1f} s")
    assert slowest < BUDGET
    assert one_by_one > TIMES * slowest


@pytest.mark.timeout(1200)
def test_every_start_of_100_walls_earns_what_it_earns_tile_by_tile() -> None:
    fast_time = slow_time = 0.0
    tried = 0
    for seed in range(100):
        setting = setting_of(random_wall(seed))
        along = offsets(setting, along=True, exact=False)
        up = offsets(setting, along=False, exact=False)
        begun = perf_counter()
        fast = points(setting, along, up)
        between = perf_counter()
        slow = np.array([[slowly(setting, float(a), float(b)) for b in up] for a in along])
        slow_time += perf_counter() - between
        fast_time += between - begun
        tried += slow.size
        assert fast == pytest.approx(slow), seed
    print(
        f"\n{tried} starts: {fast_time:.2f} s, one by one {slow_time:.0f} s:"
        f" {slow_time / fast_time:.0f} times"
    )
    assert slow_time > TIMES * fast_time


def _least(plan: Plan) -> float:
    times = []
    for _ in range(3):
        start = perf_counter()
        best_starts(plan)
        times.append(perf_counter() - start)
    return min(times)
