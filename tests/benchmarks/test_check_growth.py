"""How the checks of front, face, behind and spray grow with the number of parts, as a ratio in one run.

Run with `python -m pytest tests/benchmarks -s`. Times are of the processor: other work does not count there.
"""

import time

import pytest

from geometry.checks.behind import behind
from geometry.checks.face import face
from geometry.checks.front import front
from geometry.checks.spray import spray
from geometry.model import (
    Accessory,
    Cable,
    Enclosure,
    Fitting,
    Head,
    HoseOutlet,
    Job,
    Pipe,
    Rail,
    Service,
    Stud,
    Valve,
    Wall,
)
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules

CHECKS = (front, face, behind, spray)
MOST = 12.0
"""Ten times the parts may take so many times as long."""


def bays(count: int, pitch: float) -> Job:
    """Return showers side by side, each with four fittings, four pipes and three services."""
    fittings: list[Fitting] = []
    pipes: list[Pipe] = []
    services: list[Service] = []
    for bay in range(count):
        x, own = pitch * (bay + 0.4), f"{bay}"
        fittings += [
            Valve(id=f"valve{own}", part="valve-two-round", x=x, height=1030),
            Head(id=f"head{own}", part="head-wall-200", x=x, height=2190),
            HoseOutlet(id=f"outlet{own}", part="outlet-round", x=x + 190, height=1030),
            Rail(id=f"rail{own}", part="rail-700", x=x + 190, height=1120),
        ]
        pipes += [
            Pipe(id=f"hot{own}", service="hot", end=f"valve{own}.hot", route=((x - 45, 0.0),)),
            Pipe(id=f"cold{own}", service="cold", end=f"valve{own}.cold", route=((x + 45, 0.0),)),
            Pipe(id=f"riser{own}", service="mixed", start=f"valve{own}.out1", end=f"head{own}.in"),
            Pipe(id=f"branch{own}", service="mixed", start=f"valve{own}.out2", end=f"outlet{own}.in"),
        ]
        services += [
            Cable(id=f"cable{own}", route=((x - 180, 2400.0), (x - 180, 1400.0))),
            Stud(id=f"stud{own}", x=x - 200),
            Accessory(id=f"socket{own}", x=x - 180, height=1400),
        ]
    return Job(
        wall=Wall(width=20000, height=2400, thickness=140),
        enclosure=Enclosure(left=0, width=20000, projection=900),
        fittings=tuple(fittings),
        pipes=tuple(pipes),
        services=tuple(services),
    )


def seconds(job: Job) -> float:
    """Return the best of several times for deriving and checking a job whose parts were seen before."""
    best = float("inf")
    for _ in range(15):
        start = time.process_time()
        plan = Plan(job, generic_parts(), standard_rules())
        for check in CHECKS:
            tuple(check(plan))
        best = min(best, time.process_time() - start)
    return best


@pytest.mark.parametrize("pitch", [1000.0, 600.0, 200.0], ids=["loose", "crowded", "clashing"])
def test_ten_times_the_parts_take_at_most_twelve_times_as_long(pitch: float) -> None:
    few, many = seconds(bays(2, pitch)), seconds(bays(20, pitch))
    print(f"\n2 bays {few * 1e3:.2f} ms, 20 bays {many * 1e3:.2f} ms: {many / few:.1f} times")
    assert many <= MOST * few
