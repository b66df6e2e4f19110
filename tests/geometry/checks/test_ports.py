"""How pipes meet their ports, on the suggested job: hot, cold, riser to the head, branch to the outlet."""

import pytest

from geometry.checks.chases import chases
from geometry.finding import Finding
from geometry.model import Job, Pipe
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")


def found(job: Job, rule: str) -> tuple[Finding, ...]:
    plan = Plan(job, generic_parts(), standard_rules())
    return tuple(finding for finding in chases(plan) if finding.rule == rule)


def wrong(job: Job, rule: str) -> tuple[Finding, ...]:
    return tuple(finding for finding in found(job, rule) if finding.status != "clear")


def changed(job: Job, name: str, **changes: object) -> Job:
    return job.but(pipes=tuple(pipe.but(**changes) if pipe.id == name else pipe for pipe in job.pipes))


def without(job: Job, name: str) -> Job:
    return job.but(pipes=tuple(pipe for pipe in job.pipes if pipe.id != name))


def test_suggested_job_has_nothing_wrong_at_its_ports() -> None:
    for rule in ("pipe.fed", "pipe.once", "pipe.service", "pipe.port"):
        assert wrong(JOB, rule) == ()
    assert len(found(JOB, "pipe.fed")) == 6  # hot, cold, out1, out2, head.in, outlet.in


@pytest.mark.parametrize(
    ("pipe", "port", "fitting"),
    [
        ("hot", "hot inlet of valve", "valve"),
        ("cold", "cold inlet of valve", "valve"),
        ("riser", "head", "head"),
        ("branch", "outlet", "outlet"),
    ],
)
def test_inlet_that_no_pipe_leads_to_is_unchecked_and_named(pipe: str, port: str, fitting: str) -> None:
    (finding,) = wrong(without(JOB, pipe), "pipe.fed")
    assert finding.status == "unchecked"
    assert finding.message == f"No pipe leads to {port} yet."
    assert finding.parts == (fitting,)


def test_outlet_that_no_pipe_leaves_is_only_to_be_blanked() -> None:
    job = without(JOB, "branch")
    messages = [finding.message for finding in found(job, "pipe.fed") if finding.status == "clear"]
    assert "No pipe leaves outlet 2 of valve: blank it." in messages


def test_job_without_any_pipe_is_unchecked_once() -> None:
    (finding,) = found(JOB.but(pipes=()), "pipe.fed")
    assert finding.status == "unchecked"
    assert finding.parts == ("valve", "head", "outlet")
    assert "No pipe is planned yet" in finding.message


def test_wall_without_fittings_wants_no_pipe() -> None:
    plan = Plan(JOB.but(pipes=(), hoses=(), fittings=()), generic_parts(), standard_rules())
    assert tuple(chases(plan)) == ()


def test_two_pipes_on_one_port_are_a_clash() -> None:
    (finding,) = found(changed(JOB, "branch", start="valve.out1"), "pipe.once")
    assert (finding.status, finding.measured, finding.limit) == ("clash", 2, 1)
    assert finding.parts == ("valve", "riser", "branch")
    assert finding.message == "riser and branch join the one port outlet 1 of valve: it takes one pipe."


def test_hot_pipe_on_a_cold_port_is_a_clash() -> None:
    job = changed(changed(JOB, "hot", end="valve.cold"), "cold", end="valve.hot")
    hot, cold = wrong(job, "pipe.service")
    assert (hot.status, hot.parts) == ("clash", ("hot", "valve"))
    assert hot.message == "hot carries hot water, but cold inlet of valve is for cold water."
    assert cold.message == "cold carries cold water, but hot inlet of valve is for hot water."


def test_hot_pipe_straight_to_a_head_is_a_clash() -> None:
    (finding,) = wrong(changed(JOB, "riser", service="hot"), "pipe.service")
    assert finding.measured == 2  # both ends
    assert "outlet 1 of valve is for mixed water and head is for mixed water" in finding.message


def test_pipe_that_joins_two_inlets_is_a_clash() -> None:
    (finding,) = wrong(changed(JOB, "riser", start="outlet.in"), "pipe.service")
    assert finding.message == "riser joins two inlets, outlet and head."


def test_pipe_that_joins_two_outlets_is_a_clash() -> None:
    (finding,) = wrong(changed(JOB, "riser", end="valve.out2"), "pipe.service")
    assert finding.message == "riser joins two outlets, outlet 1 of valve and outlet 2 of valve."


def test_mixed_pipe_may_be_drawn_from_either_end() -> None:
    assert wrong(changed(JOB, "riser", start="head.in", end="valve.out1"), "pipe.service") == ()


def test_mixed_pipe_may_come_from_a_feed() -> None:
    job = changed(JOB, "riser", start=None, route=((380, 1300),))
    assert wrong(job, "pipe.service") == ()


@pytest.mark.parametrize(
    ("y", "status"), [(930, "tight"), (930.1, "clash"), (920, "clear"), (959, "clash"), (955, "clash")]
)
def test_pipe_leaves_its_port_straight_for_nut_and_elbow(y: float, status: str) -> None:
    job = changed(JOB, "hot", route=((300, 0), (300, y)))  # turns under the port at 960, 960 - y straight
    (finding,) = (held for held in found(job, "pipe.port") if held.parts == ("hot", "valve"))
    assert finding.status == status
    assert finding.measured == pytest.approx(960 - y)
    assert finding.limit == 30


def test_pipe_that_leaves_its_port_sideways_is_a_clash() -> None:
    job = changed(JOB, "hot", route=((300, 0), (300, 960)))
    (finding,) = wrong(job, "pipe.port")
    assert (finding.status, finding.measured) == ("clash", 0)
    assert "leaves hot inlet of valve sideways: the port points downwards" in finding.message


def test_pipe_that_leaves_its_port_backwards_is_a_clash() -> None:
    (finding,) = wrong(changed(JOB, "riser", route=((380, 1080), (300, 1080))), "pipe.port")
    assert (finding.status, finding.measured) == ("clash", -20)  # 1080 - 1100
    assert "leaves outlet 1 of valve backwards: the port points upwards" in finding.message


def test_port_on_the_other_side_points_the_other_way() -> None:
    job = JOB.with_fitting(JOB.fitting("valve").but(side="left"))
    (finding,) = wrong(job, "pipe.port")
    assert finding.parts == ("branch", "valve")
    assert finding.message.endswith("first, or set the side of the valve to right.")
    assert "the port points to the left" in finding.message


def test_elbow_may_be_turned_any_way() -> None:
    job = changed(JOB, "branch", route=((570, 1400),))
    assert all(finding.parts[1] != "outlet" for finding in found(job, "pipe.port"))


def test_cold_feed_to_two_valves_is_counted_at_each() -> None:
    valve = JOB.fitting("valve").but(id="second", x=150)
    job = JOB.with_fitting(valve)
    job = job.but(pipes=(*job.pipes, Pipe(id="cold2", service="cold", end="second.cold", route=((195, 0),))))
    messages = [finding.message for finding in wrong(job, "pipe.fed")]
    assert messages == ["No pipe leads to hot inlet of second yet."]
