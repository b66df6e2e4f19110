"""Questions that a look at the house answers, and that findings wait for: asked together, before all else."""

from collections.abc import Callable
from typing import NamedTuple

from geometry.finding import Finding
from geometry.model import Job


class Question(NamedTuple):
    """One question."""

    asked: str
    answer: str
    """Where in a job file the answer stands."""
    rules: tuple[str, ...]
    """The findings that wait for it: what their rules begin with."""
    is_open: Callable[[Job], bool]


QUESTIONS = (
    Question(
        "does the wall carry load?",
        "wall.loadbearing",
        ("strength.loadbearing",),
        lambda job: job.wall.loadbearing == "not_known",
    ),
    Question(
        "what is cut into its other face?",
        "wall.other_face",
        ("strength.part_a_back_to_back",),
        lambda job: job.wall.other_face is None,
    ),
    Question(
        "how thick is the block before its void?",
        "wall.shell",
        ("strength.void",),
        lambda job: job.wall.shell is None,
    ),
    Question(
        "what keeps used water out of the pipes?",
        "house.backflow",
        ("water.handset_gap", "water.auk3_gap_", "water.auk2_gap_"),
        lambda job: job.house.backflow == "not_known",
    ),
    Question(
        "where are hot and cold shut off?",
        "house.isolation",
        ("water.isolation",),
        lambda job: job.house.isolation == "not_known",
    ),
    Question(
        "what pressure and flow are there?",
        "supply",
        ("supply.flow",),
        lambda job: job.supply is None,
    ),
    Question(
        "which check valves has the shower valve?",
        "supply.hot.check_valves, supply.cold.check_valves",
        ("supply.reverse",),
        lambda job: (
            job.supply is not None
            and "not_known" in (job.supply.hot.check_valves, job.supply.cold.check_valves)
        ),
    ),
)
"""In the order of a walk through the house: the wall, the pipes, the taps."""


def open_questions(job: Job, findings: tuple[Finding, ...]) -> tuple[Question, ...]:
    """Return the questions that the job leaves open and for which a finding, one to refer, waits."""
    waiting = [finding.rule for finding in findings if finding.status == "refer"]
    return tuple(
        question
        for question in QUESTIONS
        if question.is_open(job) and any(rule.startswith(question.rules) for rule in waiting)
    )
