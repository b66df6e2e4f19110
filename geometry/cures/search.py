"""The nearest place of a thing at which a finding is gone and nothing is worse.

Places are tried nearest first. A place that fails says how much farther the thing must go at least; the
places on the way, and as many on the other side, are left out. Where nothing is known, a place that fails
stands for the whole mm up to the next whole 5 mm.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from functools import partial
from heapq import merge
from math import inf
from typing import NamedTuple

from geometry.build_up import BuildUp
from geometry.cures.stretches import Stretches
from geometry.cures.tracks import STEPS, WAYS, Track
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


class _Barred:
    """Where on a track nothing can cure, and where no whole mm is tried; each on one build-up."""

    def __init__(self, track: Track) -> None:
        self._track = track
        self._sure: dict[BuildUp | None, Stretches] = defaultdict(Stretches)
        self._passed: dict[BuildUp | None, Stretches] = defaultdict(Stretches)

    def bar(self, place: float, short: float) -> None:
        """Leave out what is nearer to a place that failed than is still to go; 0 if that is not known."""
        held, room = (self._sure, short) if short > 0 else (self._passed, COARSE)
        held[self._track.ground_at(place)].add(place - room, place + room)

    def about(self, place: float, step: float) -> tuple[float, float] | None:
        """Return a stretch that is left out and in which a place lies, or None; no mark but for good."""
        ground = self._track.ground_at(place)
        found = self._sure[ground].about(place)
        if step == STEPS[0] and place in self._track.marks:
            return found if found == (-inf, inf) else None
        if found is None and step == STEPS[-1]:
            found = self._passed[ground].about(place)
        return found


def nearest(trial: Trial, tracks: Sequence[Track]) -> tuple[Found, ...]:
    """Return the nearest cure on some tracks of one thing; two if they are equally near, or none.

    The best places count first: a cure on a whole 10 mm, however far, comes before one between.
    """
    barred = [_Barred(track) for track in tracks]
    for step in STEPS:
        found: list[Found] = []
        for distance, index, place in merge(*_outwards(tracks, barred, step)):
            track = tracks[index]
            if found and distance > found[0].distance + EPSILON:
                break
            if barred[index].about(place, step):
                continue
            job = track.to(place)
            short = trial.outcome(job, track)
            if short == CURED:
                found.append(Found(distance, track.title(place), job))
            else:
                barred[index].bar(place, short)
        if found:
            return tuple(found)
    return ()


def _outwards(
    tracks: Sequence[Track], barred: Sequence[_Barred], step: float
) -> Iterator[Iterator[tuple[float, int, float]]]:
    """Go through both ways of each track: how far away each open place is, its track's index, the place."""
    for index, (track, held) in enumerate(zip(tracks, barred, strict=True)):
        for way in WAYS:
            yield _one_way(track, index, track.outwards(step, way, partial(held.about, step=step)))


def _one_way(track: Track, index: int, places: Iterator[float]) -> Iterator[tuple[float, int, float]]:
    return ((round(abs(place - track.at), 4), index, place) for place in places)
