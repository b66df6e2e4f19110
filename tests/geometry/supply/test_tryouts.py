"""Changes worth trying, and flow over pressure: what they say agrees with solving the changed house."""

from typing import Literal

import pytest

from geometry.model import Job, Upstream
from geometry.supply.from_plan import Shower, showers
from geometry.supply.solve import solve
from geometry.supply.sweep import STEPS, sweeps
from geometry.supply.tryouts import best_size, bounded, others, sizes
from tests.geometry.checks.walls import plan_of
from tests.geometry.supply.shower_job import HEAD, JOB, SUPPLY, with_branch

RUNNING = ("head",)
FAR = with_branch(JOB, "hot", upstream=(Upstream(tube="copper-15", length=30_000),))
"""Most is lost on the long hot pipe."""


def shower(job: Job) -> Shower:
    (found,) = showers(plan_of(job))
    assert isinstance(found, Shower)
    return found


def test_the_best_stretch_to_widen_is_the_longest_narrow_one() -> None:
    best = best_size(plan_of(FAR), shower(FAR), RUNNING)
    assert best is not None
    assert (best.stretch, best.tube.id) == ("hot pipe to the wall", "copper-22")
    wider = with_branch(FAR, "hot", upstream=(Upstream(tube="copper-22", length=30_000),))
    gained = solve(shower(wider).network, "head").flow - solve(shower(FAR).network, "head").flow
    assert best.gain == pytest.approx(gained, abs=0.02)  # but for the changes of bore


def test_where_no_wider_tube_is_to_be_had_there_is_no_gain() -> None:
    # the widest copper everywhere
    pipes = tuple(pipe.but(tube="copper-28") for pipe in JOB.pipes)
    job = JOB.but(pipes=pipes)
    assert best_size(plan_of(job), shower(job), RUNNING) is None


def test_every_stretch_is_tried_in_15_and_22_and_wider_never_gives_less() -> None:
    tried = list(sizes(plan_of(FAR), shower(FAR), RUNNING))
    assert [one[0].what for one in tried] == ["hot pipe to the wall", "hot pipe", "cold pipe", "riser pipe"]
    for small, large in tried:
        assert (small.to, large.to) == ("Copper 15 x 0.7", "Copper 22 x 0.9")
        assert large.solution.flow >= small.solution.flow


def test_a_head_for_more_flow_gives_more_and_a_pump_too() -> None:
    now = solve(shower(FAR).network, "head").flow
    tried = {(one.what, one.to): one.solution.flow for one in others(plan_of(FAR), shower(FAR), RUNNING)}
    assert tried["Another head", "Head 300 on a wall arm"] > now  # 14 l/min at 1 bar, not 10
    assert tried["Pump on both supplies", "1.5 bar, 40 l/min"] > now
    assert tried["Reducing valve on both", "3 bar"] == pytest.approx(now)  # no more than 3 bar is there


def test_the_sweep_goes_through_what_was_measured_and_never_falls() -> None:
    head = sweeps(shower(JOB))[0]
    assert len(head.points) == STEPS + 1
    flows = [flow for _, flow in head.points]
    assert flows == sorted(flows)
    assert dict(head.points)[3.0] == pytest.approx(head.now[1])
    assert head.now[1] == pytest.approx(solve(shower(JOB).network, "head").flow)
    assert head.need == 10.0


def test_the_pressure_that_is_enough_gives_what_is_stated() -> None:
    head = sweeps(shower(JOB))[0]
    assert head.enough is not None
    even = {"static": head.enough, "readings": (SUPPLY.cold.readings[0].but(pressure=head.enough),)}
    job = with_branch(with_branch(JOB, "cold", **even), "hot", **even)
    assert solve(shower(job).network, "head").flow == pytest.approx(10.0, abs=0.1)


def test_what_is_never_enough_is_said() -> None:
    # 500 m of 10 mm tube: 6 bar drive some 1.5 l/min of hot water through it
    far = with_branch(JOB, "hot", upstream=(Upstream(tube="copper-10", length=500_000),))
    assert sweeps(shower(far))[0].enough is None


def test_the_head_that_is_fitted_is_not_tried() -> None:
    tried = [one.to for one in others(plan_of(JOB), shower(JOB), RUNNING)]
    assert HEAD.part == "head-wall-200"
    assert "Head 200 on a wall arm" not in tried


def test_a_heater_bounds_the_flow_only_while_the_water_comes_as_warm_as_it_is_set() -> None:
    def heated(power: float, beyond: Literal["slower", "cooler"]) -> bool:
        supply = SUPPLY.but(source="instant_heater", heater_kw=power, beyond_power=beyond)
        one = shower(JOB.but(supply=supply))
        return bounded(one, solve(one.network, "head"))

    # 4.18 kJ/(kg K) x 28 K / 60 s: 38 C from 10 C takes 1.95 kW for each l/min, so 120 kW heat 61 l/min, more
    # than two supplies of 3 bar drive through tubes of 15 (heat of water: any handbook)
    assert not heated(120.0, "slower")
    # 10 kW heat 5.1 l/min: a heater that slows the water holds it at that, however wide the tubes are
    assert heated(10.0, "slower")
    # one that lets it through gives all that the ways let through, less warm: wider tubes give more
    assert not heated(3.0, "cooler")
