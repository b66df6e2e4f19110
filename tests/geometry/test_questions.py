"""The questions that are asked together: those that are open, and that a finding waits for."""

from geometry.checks.runner import check
from geometry.model import Job
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.questions import QUESTIONS, open_questions
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.samples import sample_job


def asked(job: Job) -> list[str]:
    findings = check(Plan(job, generic_parts(), standard_rules()))
    return [question.answer for question in open_questions(job, findings)]


def test_a_fresh_job_asks_what_nobody_has_looked_at() -> None:
    job = suggested_job(760, 760, "left")
    assert asked(job) == [
        "wall.loadbearing",
        "wall.other_face",
        "house.backflow",
        "house.isolation",
        "supply",
    ]


def test_an_answer_is_not_asked_for_again_whatever_it_is() -> None:
    job = suggested_job(760, 760, "left")
    wall, house = job.wall.but(loadbearing="yes", other_face=()), job.house.but(isolation="none")
    assert asked(job.but(wall=wall, house=house)) == ["house.backflow", "supply"]


def test_a_question_that_nothing_waits_for_is_not_asked() -> None:
    job = suggested_job(760, 760, "left").but(pipes=(), hoses=(), fittings=())
    assert "house.backflow" not in asked(job)
    assert "wall.other_face" not in asked(job)


def test_a_measured_supply_asks_for_the_check_valves_where_water_would_cross() -> None:
    assert "supply.hot.check_valves, supply.cold.check_valves" in asked(sample_job("alcove-760"))


def test_every_rule_that_is_named_is_one() -> None:
    rules = [limit.rule for limit in standard_rules()]
    for question in QUESTIONS:
        assert all(any(rule.startswith(named) for rule in rules) for named in question.rules), question.asked
