"""The job as a whole, on the suggested job: a tray of 760 on a wall of 760 x 2400."""

import pytest

from geometry.checks.job import job as job_check
from geometry.finding import Finding
from geometry.model import Job, Opening, Waste
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")


def found(job: Job, rule: str) -> tuple[Finding, ...]:
    plan = Plan(job, generic_parts(), standard_rules())
    return tuple(finding for finding in job_check(plan) if finding.rule == rule)


def place_of(job: Job, name: str) -> Finding:
    (finding,) = (held for held in found(job, "job.place") if held.parts == (name,))
    return finding


def on_wall(**changes: object) -> Job:
    return JOB.but(wall=JOB.wall.but(**changes))


def with_enclosure(**changes: object) -> Job:
    return JOB.but(enclosure=JOB.enclosure.but(**changes))


def test_suggested_job_is_clear_throughout() -> None:
    plan = Plan(JOB, generic_parts(), standard_rules())
    assert {finding.status for finding in job_check(plan)} == {"clear"}


def test_bare_wall_is_unchecked() -> None:
    (finding,) = found(JOB.but(fittings=(), hoses=(), pipes=()), "job.fittings")
    assert (finding.status, finding.message) == ("unchecked", "Nothing is fitted to the wall yet.")


@pytest.mark.parametrize(
    ("x", "height", "inside", "edge"),
    [(-10, 1000, -10, "left edge"), (775, 1000, -15, "right edge"), (380, -5, -5, "finished floor"),
     (380, 2420, -20, "ceiling")],
)  # fmt: skip
def test_fitting_beyond_an_edge_of_the_wall_is_a_clash(
    x: float, height: float, inside: float, edge: str
) -> None:
    finding = place_of(JOB.moved("valve", x, height), "valve")
    assert (finding.status, finding.measured, finding.limit) == ("clash", inside, 0)
    assert f"valve lies {-inside} mm beyond the {edge}" in finding.message


def test_fitting_exactly_on_the_edge_is_on_the_wall() -> None:
    assert place_of(JOB.moved("valve", 760, 1000), "valve").status == "clear"


def test_both_ends_of_a_rail_lie_on_the_wall() -> None:
    # foot at 1701, the rail is 700 long: its top stands 1 above 2400
    finding = place_of(JOB.moved("rail", 570, 1701), "rail")
    assert (finding.status, finding.measured) == ("clash", -1)
    assert place_of(JOB.moved("rail", 570, 1700), "rail").status == "clear"


def test_ceiling_arm_away_from_the_ceiling_is_tight() -> None:
    arm = JOB.fitting("head").but(part="head-ceiling-250", height=2300)
    (finding,) = found(JOB.with_fitting(arm), "job.ceiling")
    assert (finding.status, finding.measured) == ("tight", 100)
    (finding,) = found(JOB.with_fitting(arm.but(height=2400)), "job.ceiling")
    assert finding.status == "clear"


def test_wall_arm_is_not_asked_for_the_ceiling() -> None:
    assert found(JOB, "job.ceiling") == ()


@pytest.mark.parametrize(("foot", "status"), [(39, "clash"), (40, "tight"), (59, "tight"), (60, "clear")])
def test_foot_of_a_rail_stands_above_the_rim(foot: float, status: str) -> None:
    (finding,) = found(JOB.moved("rail", 570, foot), "job.rail")  # the rim lies at 40
    assert (finding.status, finding.measured) == (status, foot - 40)


@pytest.mark.parametrize(("side", "left", "parted"), [("left", -30, -30), ("right", 50, -50)])
def test_enclosure_past_a_corner_is_a_clash(side: str, left: float, parted: float) -> None:
    statuses = [
        (finding.measured, finding.status)
        for finding in found(with_enclosure(left=left), "job.enclosure")
        if f"past the {side} corner" in finding.message
    ]
    assert statuses == [(parted, "clash")]


def test_enclosure_past_a_free_end_is_tight() -> None:
    job = with_enclosure(left=50.0)
    job = job.but(wall=job.wall.but(right="free_end"))
    (finding,) = (held for held in found(job, "job.enclosure") if held.status != "clear")
    assert (finding.status, finding.measured) == ("tight", -50)
    assert "50 mm past the right free end of the wall" in finding.message


def test_enclosure_of_odd_size_that_fills_its_wall_is_clear() -> None:
    job = with_enclosure(left=0.1, width=0.2)  # 0.1 + 0.2 is a little above 0.3 in binary
    job = job.but(wall=job.wall.but(width=0.3))
    assert {finding.status for finding in found(job, "job.enclosure")} == {"clear"}


@pytest.mark.parametrize(
    ("x", "z", "inside", "status"),
    [(380, 380, 380, "clear"), (-20, 380, -20, "clash"), (380, 800, -40, "clash"), (760, 380, 0, "clear")],
)
def test_waste_lies_inside_the_enclosure(x: float, z: float, inside: float, status: str) -> None:
    (finding,) = found(with_enclosure(waste=Waste(x=x, z=z)), "job.waste")
    assert (finding.measured, finding.status) == (inside, status)


def test_waste_without_a_place_is_not_judged() -> None:
    assert found(JOB, "job.waste") == ()


def test_opening_beyond_the_wall_is_a_clash() -> None:
    window = Opening(id="window", x=500, y=1500, width=300, height=600)  # 500 + 300 = 800 on 760
    (finding,) = found(on_wall(openings=(window,)), "job.opening")
    assert (finding.status, finding.measured, finding.parts) == ("clash", -40, ("window",))
    (finding,) = found(on_wall(openings=(window.but(x=460.0),)), "job.opening")
    assert finding.status == "clear"


def test_wall_higher_than_its_storey_is_tight() -> None:
    (finding,) = found(on_wall(height=2700.0), "job.storey")  # storey 2400
    assert (finding.status, finding.measured) == ("tight", -300)
    (finding,) = found(on_wall(height=2700.0, storey_height=2700.0), "job.storey")
    assert finding.status == "clear"


def test_every_rule_is_in_the_list_of_limits() -> None:
    named = {limit.rule for limit in standard_rules()}
    window = Opening(id="window", x=0, y=1500, width=300, height=600)
    job = on_wall(openings=(window,)).but(enclosure=JOB.enclosure.but(waste=Waste(x=380, z=380)))
    plan = Plan(job, generic_parts(), standard_rules())
    assert {finding.rule for finding in job_check(plan)} <= named
