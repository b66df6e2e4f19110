"""Trying a changed job: whether a finding is gone and nothing is worse, with as few checks as it takes.

The check that refused the last try comes first, to begin with those that own the finding's rule.
Nothing more is worked out once a reason is found that bars a good stretch.
"""

from typing import Final

from geometry.checks.memory import Check
from geometry.checks.runner import CHECKS
from geometry.cures.heard import heard, planned
from geometry.cures.steady import least_move
from geometry.cures.tracks import Track
from geometry.cures.worse import BADNESS, Before, is_same
from geometry.finding import Finding, Status
from geometry.model import Job
from geometry.plan import Plan

_NAMED: Final[dict[str, tuple[str, ...]]] = {
    "chase": ("chases",),
    "outlet": ("recesses",),
    "people": ("people", "dry_hands"),
    "pipe": ("chases", "pieces"),
    "recess": ("recesses",),
    "water": ("backflow", "buried"),
}
"""The checks by the subject of a rule, its first word; where nothing stands here, the check is called so."""
FAR_ENOUGH: Final = 5.0
"""A reason that bars so many mm on the way will do; a lesser one is held against what else the check says."""
CURED: Final = -1.0
"""What a try comes to that cures."""


def owners(rule: str) -> tuple[Check, ...]:
    """Return the checks that judge a rule; none for what no check knows."""
    subject = rule.partition(".")[0]
    names = _NAMED.get(subject, (subject,))
    return tuple(check for check in CHECKS if check.__name__ in names)


class Trial:
    """One finding of a job, and what is to be no worse; it remembers only which check refused last."""

    def __init__(
        self, plan: Plan, findings: tuple[Finding, ...], finding: Finding, bearable: Status = "clear"
    ) -> None:
        self.plan, self.finding = plan, finding
        self._before = Before(findings, bearable)
        own = owners(finding.rule)
        self._checks = [*own, *(check for check in reversed(CHECKS) if check not in own)] if own else []

    def cures(self, job: Job) -> bool:
        """Return whether a changed job is a cure."""
        return self.outcome(job) == CURED

    def outcome(self, job: Job, track: Track | None = None) -> float:
        """Return `CURED`, or how far a thing must at least go on along its track, in mm."""
        from shapely.errors import ShapelyError

        if not self._checks:
            return 0.0
        try:
            for index, check in enumerate(self._checks):
                short = self._refused(job, check, track)
                if short != CURED:
                    self._checks.insert(0, self._checks.pop(index))
                    return short
        except (ValueError, ShapelyError, ArithmeticError):
            return 0.0  # cannot be worked out, so it is no cure
        return CURED

    def _refused(self, job: Job, check: Check, track: Track | None) -> float:
        """Return `CURED` if a check is content, or else the least way to go on."""
        refused, short, held = False, 0.0, (job, self.plan.catalogue, self.plan.rules)
        for finding in heard(check, *held):
            badness = BADNESS[finding.status]
            if badness == 0:
                continue
            allowed = 0 if is_same(finding, self.finding) else self._before.allows(finding)
            if badness > allowed:
                refused = True
                if track is None:
                    break
                short = max(short, self._least_move(planned(*held), finding, track, allowed))
                if short >= FAR_ENOUGH:
                    break
        return short if refused else CURED

    def _least_move(self, plan: Plan, finding: Finding, track: Track, allowed: int) -> float:
        before, badness = self._before, BADNESS[finding.status]
        worse = [part for part in finding.parts if before.of_part(finding.rule, part) < badness]
        return least_move(plan, finding, track, allowed, worse)
