"""The search for the best start against its budgets: 100 ms on the largest sample, 20 times the slow way."""

from time import perf_counter

from geometry.tiling.best_start import best_starts, offsets
from geometry.tiling.setting import setting_of
from tests.geometry.checks.walls import plan_of
from tests.geometry.tiling.starts import slowly
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


def _least(plan: object) -> float:
    times = []
    for _ in range(3):
        start = perf_counter()
        best_starts(plan)  # type: ignore[arg-type]
        times.append(perf_counter() - start)
    return min(times)
