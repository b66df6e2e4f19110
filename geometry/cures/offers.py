"""What is offered for a finding: the cures that move nothing, and for each thing named its nearest place.

Only the job's own fittings and pipes are moved, never the wall and what is in it already. What a finding
names is tried first; where nothing of that helps, so are the fittings to which the named pipes lead.
"""

from itertools import islice
from typing import Final, NamedTuple

from geometry.cures.changes import changes
from geometry.cures.search import Found, nearest
from geometry.cures.tracks import Track, named_tracks, tracks_at_ends
from geometry.cures.trial import Trial
from geometry.finding import Finding
from geometry.model import Job
from geometry.plan import Plan

MOST_CHANGES: Final = 3
"""No more changes than this are offered for one finding (own choice: the first suit best)."""
WHEREVER: Final = frozenset(
    ("recess.shallow", "recess.deep", "recess.wall", "recess.range", "outlet.stub", "outlet.hole",
     "chase.wall", "chase.bury", "fixings.hold", "fixings.leaf", "people.hose_seated", "pipe.service",
     "pipe.fed", "pipe.once", "water.isolation", "job.fittings", "job.enclosure", "job.waste",
     "job.opening", "job.storey")
)  # fmt: skip
"""Rules whose value is the same wherever things stand, as long as there is one finish."""


class Cure(NamedTuple):
    """A named edit that cures: a title that reads well after "Undo", and the job after it."""

    title: str
    job: Job


def cures_for(plan: Plan, findings: tuple[Finding, ...], finding: Finding) -> tuple[Cure, ...]:
    """Return what cures a clash, the least change first; nothing for what is no clash.

    Each cure makes its finding clear and adds no clash; a move makes none worse, as `worse` has it.

    Args:
        plan: the job as it is.
        findings: all findings of the job.
        finding: the one to cure.
    """
    if finding.status != "clash":
        return ()
    trial = Trial(plan, findings, finding, bearable="refer")
    offered = (Cure(*change) for change in changes(plan, finding) if trial.cures(change.job))
    moves = (Cure(move.title, move.job) for move in moves_for(Trial(plan, findings, finding)))
    return (*islice(offered, MOST_CHANGES), *moves)


def moves_for(trial: Trial) -> tuple[Found, ...]:
    """Return the nearest cure by each thing that could be moved, the least movement first."""
    for things in moved_things(trial.plan, trial.finding):
        found = [move for tracks in things for move in nearest(trial, tracks)]
        if found:
            return tuple(sorted(found, key=lambda move: move.distance))
    return ()


def moved_things(plan: Plan, finding: Finding) -> tuple[tuple[tuple[Track, ...], ...], ...]:
    """Return the things to move, each with its tracks: first those named, then those at the pipes' ends."""
    if finding.rule in WHEREVER and len(plan.job.finish.areas) < 2:
        return ()
    return named_tracks(plan, finding.parts), tracks_at_ends(plan, finding.parts)
