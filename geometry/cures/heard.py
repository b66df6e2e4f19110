"""What the checks say of changed jobs, heard only as far as it is asked for, and remembered.

The clashes of one job want many of the same moves tried: what a check said of a job is not worked out again.
"""

from collections.abc import Iterator
from functools import lru_cache

from geometry.checks.memory import Check
from geometry.finding import Finding
from geometry.model import Job
from geometry.parts.catalogue import Catalogue
from geometry.plan import Plan
from geometry.rules import Rulebook

KEPT = 1024
"""So many checks of jobs are remembered, each with its plan."""


class Heard:
    """The findings of one check of one job, in order, each worked out when it is first asked for."""

    def __init__(self, coming: Iterator[Finding]) -> None:
        self._coming = coming
        self._told: list[Finding] = []
        self._problem: Exception | None = None

    def __iter__(self) -> Iterator[Finding]:
        """Go through the findings; where working one out fails, it fails for everybody who asks."""
        yield from self._told
        if self._problem is not None:
            raise self._problem
        try:
            for finding in self._coming:
                self._told.append(finding)
                yield finding
        except Exception as problem:
            self._problem = problem
            raise


@lru_cache(maxsize=KEPT)
def heard(check: Check, job: Job, catalogue: Catalogue, rules: Rulebook) -> Heard:
    """Return what a check says of a job.

    Raises:
        ValueError: no plan can be made of the job.
    """
    return Heard(check(planned(job, catalogue, rules)))


@lru_cache(maxsize=64)
def planned(job: Job, catalogue: Catalogue, rules: Rulebook) -> Plan:
    """Return the plan of a job; errors are those of `Plan`."""
    return Plan(job, catalogue, rules)
