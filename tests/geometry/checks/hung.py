"""The suggested job with its hose hung elsewhere, by other parts, and what the checks of hoses say of it."""

from hypothesis import strategies as st

from geometry.checks.hose import hose
from geometry.finding import Finding
from geometry.model import Job
from geometry.parts.catalogue import Catalogue, generic_parts
from geometry.parts.records import HosePart, OutletPart, ValvePart
from geometry.plan import Plan
from geometry.rules import Rulebook, standard_rules
from geometry.setting_out.arrangement import suggested_job

RULES = {"hose.valve", "hose.length", "hose.bend", "hose.floor", "hose.reach"}
JOB = suggested_job(760, 760, "left")
FLUSH = (
    OutletPart(id="outlet-round", name="", depth_least=40, depth_most=60, nozzle_y=-30, nozzle_out=95),
    HosePart(id="limp", name="", length=1500, least_bend=0.001),
)
"""Nozzle and nut stand out equally far, so that a hose under its rail hangs in two upright legs."""
lengths = st.sampled_from(["hose-1250", "hose-1500", "hose-1750"])


def flush() -> Catalogue:
    """Return the parts with those in place of the usual outlet."""
    return generic_parts().with_own(FLUSH)


def findings(job: Job, parts: Catalogue | None = None, rules: Rulebook | None = None) -> dict[str, Finding]:
    """Return what the checks of hoses say, by rule."""
    plan = Plan(job, parts or generic_parts(), rules or standard_rules())
    return {finding.rule: finding for finding in hose(plan)}


def measured(job: Job, parts: Catalogue | None = None) -> dict[str, float | None]:
    return {rule: finding.measured for rule, finding in findings(job, parts).items()}


def with_hose(job: Job, part: str) -> Job:
    return job.but(hoses=tuple(held.but(part=part) for held in job.hoses))


def with_valve(**changes: object) -> Catalogue:
    valve = generic_parts().find("valve-two-round", ValvePart)
    return generic_parts().with_own([valve.but(**changes)])
