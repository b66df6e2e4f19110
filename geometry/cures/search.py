"""The nearest place of a thing at which a finding is gone and nothing is worse.

Places are tried nearest first. A place that fails says how much farther the thing must go at least; the
places on the way, and as many on the other side, are left out. Where nothing is known, a place that fails
stands for the whole mm up to the next whole 5 mm.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

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
        places = track.places(step)
        self._numbers = {place: number for number, place in enumerate(places)}
        self._grounds = [track.ground(place) for place in places]
        self._places, self._marks, self._is_last = np.array(places), track.marks, step == STEPS[-1]
        self._open = np.ones(len(places), dtype=np.bool_)
        for one in barred:
            self.bar(one)

    def bar(self, one: _Barred) -> None:
        """Leave out what lies on a stretch, but for the marks."""
        if one.whole_mm and not self._is_last:
            return
        first = int(np.searchsorted(self._places, one.low, side="right"))
        last = int(np.searchsorted(self._places, one.high, side="left"))
        elsewhere = [ground != one.ground for ground in self._grounds[first:last]]
        self._open[first:last] &= np.array(elsewhere, dtype=np.bool_)

    def holds(self, place: float) -> bool:
        """Return whether a place is to be tried."""
        return place in self._marks or bool(self._open[self._numbers[place]])

    def ground(self, place: float) -> BuildUp | None:
        """Return the build-up at a place."""
        return self._grounds[self._numbers[place]]


def nearest(trial: Trial, tracks: Sequence[Track]) -> tuple[Found, ...]:
    """Return the nearest cure on some tracks of one thing; two if they are equally near, or none.

    The best places count first: a cure on a whole 10 mm, however far, comes before one between.
    """
    barred: list[list[_Barred]] = [[] for _ in tracks]
    for step in STEPS:
        found: list[Found] = []
        still = [_Open(track, step, known) for track, known in zip(tracks, barred, strict=True)]
        for distance, index, place in _in_order(tracks, step):
            track = tracks[index]
            if found and distance > found[0].distance + EPSILON:
                break
            if not still[index].holds(place):
                continue
            job = track.to(place)
            short = trial.outcome(job, track.thing)
            if short == CURED:
                found.append(Found(distance, track.title(place), job))
            else:
                room = short or COARSE
                ground = still[index].ground(place)
                barred[index].append(_Barred(place - room, place + room, ground, whole_mm=short == 0))
                still[index].bar(barred[index][-1])
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
