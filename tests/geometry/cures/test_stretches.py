"""Stretches that are left out become one where they overlap, and a track leaves out no place that is open."""

import pytest

from geometry.cures.stretches import Stretches
from geometry.cures.tracks import STEPS, WAYS, Track, named_tracks
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.cures.brute_force import places
from tests.geometry.cures.faulty import plan_of


def stretches(*ends: tuple[float, float]) -> Stretches:
    held = Stretches()
    for low, high in ends:
        held.add(low, high)
    return held


@pytest.mark.parametrize(
    ("place", "stretch"),
    [
        (0, None),  # the ends of a stretch are not in it
        (4, (0, 9)),
        (9, None),
        (10, None),  # between two that only touch
        (12, (10, 15)),
        (15, None),
        (16, (15, 20)),
        (21, None),
    ],
)
def test_stretches_that_overlap_are_one_and_those_that_touch_are_not(
    place: float, stretch: tuple[float, float] | None
) -> None:
    assert stretches((10, 15), (0, 5), (15, 20), (6, 8), (4, 9)).about(place) == stretch


def tracks() -> list[Track]:
    plan = plan_of(suggested_job(760, 760, "left"))
    things = named_tracks(plan, ("rail", "head", "riser"))
    return [track for found in things for track in found]


@pytest.mark.parametrize("step", STEPS)
def test_all_places_are_come_by_each_way_nearest_first(step: float) -> None:
    for track in tracks():
        down, up = (list(track.outwards(step, way, lambda _: None)) for way in WAYS)
        assert (*reversed(down), *up) == places(track, step)


def test_what_is_left_out_is_passed_by_and_the_marks_are_not() -> None:
    track = next(track for track in tracks() if track.thing == "rail" and track.axis == "x")
    held = stretches((track.at - 95, track.at + 45), (track.at + 40, track.at + 105))
    found = [q for way in WAYS for q in track.outwards(10.0, way, held.about)]
    left = {q for q in places(track, 10.0) if q in track.marks or not -95 < q - track.at < 105}
    assert set(found) == left
    assert len(found) == len(left) < len(places(track, 10.0))
