"""When a finding is gone, and when findings are no worse than before: the two promises of a cure.

A finding is gone when no finding of its rule that is not clear has all of its parts, or only some of them.
Findings are no worse when each that is not clear had its like before: every one of its parts stood under the
same rule with as bad a status, and a clash, or what is unchecked, stood on all of its parts at once. Statuses
count, measured values do not: of two clashes that stay, one may become deeper. So it is for moves. A deeper
cut is often one for an engineer, so other changes may bring what is `tight` or `refer`, but nothing graver.
"""

from collections.abc import Iterable
from typing import NamedTuple

from geometry.finding import Finding, Status

BADNESS: dict[Status, int] = {"clear": 0, "tight": 1, "refer": 2, "unchecked": 3, "clash": 4}


class _Before(NamedTuple):
    parts: frozenset[str]
    badness: int


class Before:
    """The findings of a job before it is changed."""

    def __init__(self, findings: Iterable[Finding], bearable: Status = "clear") -> None:
        """Keep the findings; what is as bad as `bearable`, or less, may come up anywhere."""
        self._least = BADNESS[bearable]
        self._held: dict[str, list[_Before]] = {}
        for finding in findings:
            known = _Before(frozenset(finding.parts), BADNESS[finding.status])
            self._held.setdefault(finding.rule, []).append(known)

    def allows(self, finding: Finding) -> int:
        """Return how bad a finding may be afterwards."""
        if BADNESS[finding.status] >= BADNESS["unchecked"] or not finding.parts:
            held, parts = self._held.get(finding.rule, ()), frozenset(finding.parts)
            return max(self._least, *(known.badness for known in held if known.parts >= parts), 0)
        return min(self.of_part(finding.rule, part) for part in finding.parts)

    def of_part(self, rule: str, part: str) -> int:
        """Return how bad a part was by a rule."""
        held = (known.badness for known in self._held.get(rule, ()) if part in known.parts)
        return max(self._least, *held, 0)


def is_same(finding: Finding, target: Finding) -> bool:
    """Return whether a finding is another one, or what is left of it: of its rule, on its parts or some."""
    if finding.rule != target.rule:
        return False
    parts, wanted = frozenset(finding.parts), frozenset(target.parts)
    return parts >= wanted or parts <= wanted
