"""Cures found the slow way, without leaving a place out, and what a cure promises said again."""

from collections.abc import Iterator, Sequence

from geometry.checks.memory import Check
from geometry.checks.runner import CHECKS
from geometry.cures.offers import moved_things
from geometry.cures.tracks import Track
from geometry.cures.trial import owners
from geometry.finding import Finding, Status
from geometry.model import Job
from geometry.pipework.routes import ALIGNED
from geometry.plan import Plan
from geometry.units import on_grid
from tests.geometry.cures.faulty import plan_of

ORDER: tuple[Status, ...] = ("clash", "unchecked", "refer", "tight", "clear")
"""The worst first."""


def still_there(target: Finding, findings: Sequence[Finding]) -> list[Finding]:
    """Return what is left of a finding: its rule, not clear, on the same parts, on more or on some."""
    parts = set(target.parts)
    return [
        found
        for found in findings
        if found.rule == target.rule
        and found.status != "clear"
        and (set(found.parts) <= parts or set(found.parts) >= parts)
    ]


def new_clashes(before: Sequence[Finding], after: Sequence[Finding]) -> list[Finding]:
    """Return the clashes and unchecked findings that had no like before on the same parts."""
    grave = ("clash", "unchecked")
    return [
        found
        for found in after
        if found.status in grave
        and not any(
            old.rule == found.rule
            and ORDER.index(old.status) <= ORDER.index(found.status)
            and set(old.parts) >= set(found.parts)
            for old in before
        )
    ]


def worse_parts(before: Sequence[Finding], after: Sequence[Finding]) -> set[tuple[str, str]]:
    """Return the rules and parts whose worst status is worse than before."""
    old, new = _worst(before), _worst(after)
    return {key for key, rank in new.items() if rank < old.get(key, len(ORDER) - 1)}


def _worst(findings: Sequence[Finding]) -> dict[tuple[str, str], int]:
    worst: dict[tuple[str, str], int] = {}
    for found in findings:
        for part in found.parts or ("",):
            key = found.rule, part
            worst[key] = min(worst.get(key, len(ORDER)), ORDER.index(found.status))
    return worst


def is_cure(
    plan: Plan, before: Sequence[Finding], target: Finding, job: Job, order: list[Check] | None = None
) -> bool:
    """Return whether a job is a cure; `order` is that in which checks are run, those that refuse first."""
    changed = plan_of(job)
    if still_there(target, [found for run in owners(target.rule) for found in run(changed)]):
        return False
    checks = list(CHECKS) if order is None else order
    for run in checks:
        after = tuple(run(changed))
        if new_clashes(before, after) or worse_parts(before, after):
            checks.remove(run)
            checks.insert(0, run)
            return False
    return True


def places(track: Track, step: float) -> tuple[float, ...]:
    """Return the places of a track on whole so many mm within reach; on whole 10 mm the marks too."""
    low, high = track.reach
    found = set(track.marks) if step == 10.0 else set()
    if track.whole:
        first, last = int((low - track.origin) // step), int((high - track.origin) // step) + 1
        found |= {on_grid(track.origin + number * step) for number in range(first, last + 1)}
    return tuple(sorted(q for q in found if low <= q <= high and abs(q - track.at) >= ALIGNED))


def places_at_5_mm(plan: Plan, target: Finding) -> Iterator[tuple[Track, float]]:
    """Go through every whole 5 mm of everything that may be moved for a finding."""
    for things in moved_things(plan, target):
        for track in (track for tracks in things for track in tracks):
            yield from ((track, place) for place in places(track, 5.0))


def any_at_5_mm(plan: Plan, before: Sequence[Finding], target: Finding) -> list[str]:
    """Return the titles of all moves to a whole 5 mm that cure."""
    order = list(CHECKS)
    return [
        track.title(place)
        for track, place in places_at_5_mm(plan, target)
        if is_cure(plan, before, target, track.to(place), order)
    ]
