"""Judging what is no distance on the wall: water, its warmth and pressure."""

from geometry.finding import Finding, Status
from geometry.model import XY
from geometry.plan import Plan


def judged(
    plan: Plan,
    rule: str,
    measured: float,
    message: str,
    parts: tuple[str, ...],
    *,
    limit: float | None = None,
    failing: Status = "clash",
) -> Finding:
    """Return the finding for one measured value, as the rulebook judges it.

    Only what keeps the job from passing has a place on the wall: hints about what is no distance on it would
    crowd out those about gaps.
    """
    found = plan.rules.judge(rule, measured, message, parts, limit=limit, failing=failing)
    return found.but(place=place(plan, parts)) if found.status in ("clash", "unchecked") else found


def place(plan: Plan, parts: tuple[str, ...]) -> tuple[XY, ...]:
    """Return where the first of some parts is, if it is a fitting."""
    return tuple(fitting.at for fitting in plan.job.fittings if fitting.id in parts[:1])
