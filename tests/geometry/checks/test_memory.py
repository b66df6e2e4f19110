"""What the checks remember never differs from what they would say anew."""

from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.checks.memory import Memory, remembered
from geometry.checks.runner import CHECKS
from geometry.edits.moves import moved
from geometry.edits.refs import things
from geometry.finding import Finding
from geometry.model import Job
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.samples import SAMPLES, sample_job
from tests.strategies import jobs


def plan_of(job: Job) -> Plan:
    return Plan(job, generic_parts(), standard_rules())


def anew(plan: Plan) -> list[tuple[Finding, ...]]:
    return [tuple(run(plan)) for run in CHECKS]


@settings(max_examples=25)
@given(data=st.data(), name=st.sampled_from(SAMPLES))
def test_after_any_moves_there_and_back_memory_says_what_a_fresh_check_says(
    data: st.DataObject, name: str
) -> None:
    memories = [Memory(run) for run in CHECKS]
    plan = plan_of(sample_job(name))
    seen = [plan]
    for _ in range(3):
        refs = data.draw(st.lists(st.sampled_from(list(things(plan.job))), min_size=1, max_size=2))
        step = st.integers(-60, 60).map(float)
        plan = plan_of(moved(plan, refs, data.draw(step), data.draw(step)))
        seen += [plan, data.draw(st.sampled_from(seen))]
        for each in seen[-2:]:
            assert [memory.findings(each) for memory in memories] == anew(each)


@given(pair=st.tuples(jobs(), jobs()))
def test_memory_of_one_job_says_nothing_of_another(pair: tuple[Job, Job]) -> None:
    memories = [Memory(run) for run in CHECKS]
    for job in pair:
        plan = plan_of(job)
        assert [memory.findings(plan) for memory in memories] == anew(plan)


def counting(read: str) -> tuple[Memory[Finding], list[Plan]]:
    """A check that reads one attribute of the job, and the plans on which it really ran."""
    ran: list[Plan] = []

    def run(plan: Plan) -> Iterator[Finding]:
        ran.append(plan)
        getattr(plan.job, read)
        return iter(())

    return Memory(run), ran


def test_a_check_runs_once_while_what_it_reads_stays() -> None:
    memory, ran = counting("wall")
    job = suggested_job(760, 760, "left")
    memory.findings(plan_of(job))
    memory.findings(plan_of(job.moved("rail", 500, 1200)))
    assert len(ran) == 1


def test_a_check_runs_again_when_what_it_read_has_changed() -> None:
    memory, ran = counting("wall")
    job = suggested_job(760, 760, "left")
    memory.findings(plan_of(job))
    memory.findings(plan_of(job.but(wall=job.wall.but(thickness=215))))
    assert len(ran) == 2


def test_a_call_is_remembered_with_its_arguments() -> None:
    ran = []

    def run(plan: Plan) -> Iterator[Finding]:
        ran.append(plan.job.fitting("rail"))
        return iter(())

    memory = Memory(run)
    job = suggested_job(760, 760, "left")
    memory.findings(plan_of(job))
    memory.findings(plan_of(job.moved("valve", 385, 1030)))  # another fitting: nothing that was read
    assert len(ran) == 1
    memory.findings(plan_of(job.moved("rail", 500, 1200)))
    assert len(ran) == 2


def test_of_a_check_that_runs_again_only_the_parts_run_that_read_something_else() -> None:
    ran: list[str] = []

    @remembered
    def of_the_wall(plan: Plan) -> Iterator[str]:
        ran.append(f"wall {plan.job.wall.thickness:g}")
        return iter(())

    @remembered
    def of_one(plan: Plan, fitting: str) -> Iterator[str]:
        ran.append(f"{fitting} {plan.job.fitting(fitting).height:g}")
        return iter(())

    def run(plan: Plan) -> Iterator[Finding]:
        for part in (of_the_wall(plan), of_one(plan, "rail"), of_one(plan, "valve")):
            assert part == ()
        return iter(())

    memory, job = Memory(run), suggested_job(760, 760, "left")
    memory.findings(plan_of(job.moved("rail", 500, 1100).moved("valve", 385, 1030)))
    assert sorted(ran) == ["rail 1100", "valve 1030", "wall 140"]
    for step, height in enumerate((1200, 1200, 1300), 2):
        memory.findings(plan_of(job.moved("rail", 500, height).moved("valve", 385, 1030)))
        assert len(ran) == {2: 4, 3: 4, 4: 5}[step]
    assert ran[3:] == ["rail 1200", "rail 1300"]


def test_what_a_part_has_read_counts_for_its_check_even_where_the_part_was_remembered() -> None:
    @remembered
    def thickness(plan: Plan) -> Iterator[float]:
        yield plan.job.wall.thickness

    seen: list[float] = []

    def run(plan: Plan) -> Iterator[Finding]:
        assert plan.job.fittings
        seen.extend(thickness(plan))
        return iter(())

    memory, job = Memory(run), suggested_job(760, 760, "left")
    thicker = job.but(wall=job.wall.but(thickness=215))
    for each in (job, job.moved("rail", 500, 1200), thicker.moved("rail", 500, 1200)):
        memory.findings(plan_of(each))
    assert seen == [140, 140, 215]
