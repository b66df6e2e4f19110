"""Runs every check on a plan."""

from geometry.checks.backflow import backflow
from geometry.checks.behind import behind
from geometry.checks.buried import buried
from geometry.checks.chases import chases
from geometry.checks.dry_hands import dry_hands
from geometry.checks.electricity import electricity
from geometry.checks.face import face
from geometry.checks.fixings import fixings
from geometry.checks.front import front
from geometry.checks.hose import hose
from geometry.checks.job import job
from geometry.checks.memory import Check, Memory
from geometry.checks.people import people
from geometry.checks.pieces import pieces
from geometry.checks.recesses import recesses
from geometry.checks.spray import spray
from geometry.checks.strength import strength
from geometry.checks.studs import studs
from geometry.checks.supply import supply
from geometry.checks.tiling import tiling
from geometry.finding import Finding, attention
from geometry.plan import Plan

CHECKS: tuple[Check, ...] = (
    hose,
    front,
    spray,
    face,
    behind,
    recesses,
    chases,
    pieces,
    strength,
    studs,
    electricity,
    fixings,
    tiling,
    backflow,
    buried,
    people,
    dry_hands,
    supply,
    job,
)
"""Every check there is, in the order in which a list shows what is clear."""
_MEMORIES = {run: Memory(run) for run in CHECKS}


def check(plan: Plan) -> tuple[Finding, ...]:
    """Return the findings of all checks, those that want attention first.

    A check is not run again while nothing that it reads has changed. One that fails on geometry that it
    cannot handle is itself a finding, `unchecked`, with the reason.
    """
    return attention(tuple(finding for run in CHECKS for finding in _safely(run, plan)))


def _safely(run: Check, plan: Plan) -> tuple[Finding, ...]:
    from shapely.errors import ShapelyError

    try:
        return _MEMORIES[run].findings(plan)
    except (ShapelyError, ArithmeticError) as problem:
        reason = " ".join(str(problem).split())
        return (
            Finding(
                rule=f"{run.__name__}.all",
                status="unchecked",
                parts=(),
                message=f"The {run.__name__} checks could not be computed: {reason}. Check this by hand.",
            ),
        )


def passes(findings: tuple[Finding, ...]) -> bool:
    """Return whether nothing clashes and nothing was left unchecked."""
    return not any(finding.status in ("clash", "unchecked") for finding in findings)
