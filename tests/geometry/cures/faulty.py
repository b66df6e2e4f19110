"""Faulty jobs for the tests of cures: sound ones with one fitting displaced so far that something clashes.

The same every time: a seed chooses the job, the fitting, the way and how far.
"""

import random
from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from geometry.checks.runner import check
from geometry.edits.moves import Axis, moved
from geometry.edits.refs import Ref
from geometry.finding import Finding
from geometry.model import Job
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.samples import SOUND, sample_job

SEED = 1996
TRAYS = ((760, 760, "left"), (900, 900, "right"), (1000, 800, "front"), (1200, 800, "left"))


class Faulty(NamedTuple):
    """A job in which something clashes, its findings, and what was displaced from the sound job."""

    sound: Job
    plan: Plan
    findings: tuple[Finding, ...]
    fitting: str
    axis: Axis
    by: float

    @property
    def clashes(self) -> tuple[Finding, ...]:
        return tuple(finding for finding in self.findings if finding.status == "clash")


def plan_of(job: Job) -> Plan:
    return Plan(job, generic_parts(), standard_rules())


@cache
def sound_jobs() -> tuple[Job, ...]:
    suggested = (suggested_job(w, p, entry, wall_width=w + 400) for w, p, entry in TRAYS)  # type: ignore[arg-type]
    alcoves = (suggested_job(w, p, entry) for w, p, entry in TRAYS)  # type: ignore[arg-type]
    return (*suggested, *alcoves, *map(sample_job, SOUND))


def faulty_jobs(count: int) -> Iterator[Faulty]:
    """Go through so many faulty jobs; each displacement is tried at most once."""
    chance, seen, given = random.Random(SEED), set(), 0
    sound = sound_jobs()
    while given < count:
        job = chance.choice(sound)
        fitting = chance.choice(job.fittings)
        axis: Axis = chance.choice(("x", "y"))
        by = chance.choice((-1, 1)) * chance.randrange(200, 3000) / 10
        key = (sound.index(job), fitting.id, axis, by)
        if key in seen:
            continue
        seen.add(key)
        dx, dy = (by, 0.0) if axis == "x" else (0.0, by)
        plan = plan_of(moved(plan_of(job), (Ref("fitting", fitting.id),), dx, dy))
        findings = check(plan)
        if any(finding.status == "clash" for finding in findings):
            given += 1
            yield Faulty(job, plan, findings, fitting.id, axis, by)
