"""The nearest place of a thing at which a finding is gone and nothing is worse.

Places are tried nearest first. A place that fails says how much farther the thing must go at least; the
places on the way, and as many on the other side, are left out. Where nothing is known, a place that fails
stands for the whole mm up to the next whole 5 mm.
"""

from bisect import bisect_left, bisect_right
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


class _Open:
    """The places of a track at one step, and which of them are still to be tried."""

    def __init__(self, track: Track, step: float, barred: Sequence[_Barred]) -> None:
        self.places = track.places(step)
        self.grounds = [track.ground(place) for place in self.places]
        self._marks = [place in track.marks for place in self.places]
        self._open, self._is_last = [True] * len(self.places), step == STEPS[-1]
        for one in barred:
            self.bar(one)

    def bar(self, one: _Barred) -> None:
        """Leave out what lies on a stretch, but for the marks."""
        if one.whole_mm and not self._is_last:
            return
        first, last = bisect_right(self.places, one.low), bisect_left(self.places, one.high)
        for number in range(first, last):
            if self.grounds[number] == one.ground:
                self._open[number] = self._marks[number]

    def holds(self, number: int) -> bool:
        """Return whether a place is to be tried."""
        return self._open[number]


def nearest(trial: Trial, tracks: Sequence[Track]) -> tuple[Found, ...]:
    """Return the nearest cure on some tracks of one thing; two if they are equally near, or none.

    The best places count first: a cure on a whole 10 mm, however far, comes before one between.
    """
    barred: list[list[_Barred]] = [[] for _ in tracks]
    for step in STEPS:
        found: list[Found] = []
        still = [_Open(track, step, known) for track, known in zip(tracks, barred, strict=True)]
        for distance, index, number in _in_order(tracks, still):
            track, place = tracks[index], still[index].places[number]
            if found and distance > found[0].distance + EPSILON:
                break
            if not still[index].holds(number):
                continue
            job = track.to(place)
            short = trial.outcome(job, track.thing)
            if short == CURED:
                found.append(Found(distance, track.title(place), job))
            else:
                room = short or COARSE
                ground = still[index].grounds[number]
                barred[index].append(_Barred(place - room, place + room, ground, whole_mm=short == 0))
                still[index].bar(barred[index][-1])
        if found:
            return tuple(found)
    return ()


def _in_order(tracks: Sequence[Track], still: Sequence[_Open]) -> list[tuple[float, int, int]]:
    """Return how far away each open place is, its track's index and its number there: the nearest first."""
    return sorted(
        (round(abs(place - track.at), 4), index, number)
        for index, (track, open_on_it) in enumerate(zip(tracks, still, strict=True))
        for number, place in enumerate(open_on_it.places)
        if open_on_it.holds(number)
    )
