"""The nearest place of a thing at which a finding is gone and nothing is worse.

Places are tried nearest first. A place that fails says how much farther the thing must go at least; the
places on the way, and as many on the other side, are left out. Where nothing is known, a place that fails
stands for the whole mm up to the next whole 5 mm.
"""

from collections.abc import Sequence
from typing import NamedTuple

from geometry.build_up import BuildUp
from geometry.cures.tracks import STEPS, Track
from geometry.cures.trial import CURED, Trial
from geometry.model import Job
from geometry.units import EPSILON

COARSE = 5.0 - EPSILON
"""Whole mm nearer than this to a place that failed are not tried where nothing else is known, in mm."""


class Found(NamedTuple):
    """A place that cures: how far away it is, in mm, how the move is called, and the job."""

    distance: float
    title: str
    job: Job


class _Barred(NamedTuple):
    """A stretch of a track on which nothing can cure, or no whole mm is tried, on one build-up."""

    low: float
    high: float
    ground: BuildUp | None
    whole_mm: bool

    def holds(self, place: float, ground: BuildUp | None, step: float) -> bool:
        """Return whether a place need not be tried."""
        counts = step == STEPS[-1] or not self.whole_mm
        return counts and self.low < place < self.high and self.ground == ground


def nearest(trial: Trial, tracks: Sequence[Track]) -> tuple[Found, ...]:
    """Return the nearest cure on some tracks of one thing; two if they are equally near, or none.

    The best places count first: a cure on a whole 10 mm, however far, comes before one between.
    """
    barred: list[list[_Barred]] = [[] for _ in tracks]
    for step in STEPS:
        found: list[Found] = []
        for distance, index, place in _in_order(tracks, step):
            track = tracks[index]
            if found and distance > found[0].distance + EPSILON:
                break
            ground = track.ground(place)
            if place not in track.marks and any(one.holds(place, ground, step) for one in barred[index]):
                continue
            job = track.to(place)
            short = trial.outcome(job, track.thing)
            if short == CURED:
                found.append(Found(distance, track.title(place), job))
            else:
                room = short or COARSE
                barred[index].append(_Barred(place - room, place + room, ground, whole_mm=short == 0))
        if found:
            return tuple(found)
    return ()


def _in_order(tracks: Sequence[Track], step: float) -> list[tuple[float, int, float]]:
    """Return how far away each place is, the track's index and the place: the nearest first."""
    return sorted(
        (round(abs(place - track.at), 4), index, place)
        for index, track in enumerate(tracks)
        for place in track.places(step)
    )
