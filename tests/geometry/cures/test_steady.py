"""What lets the search leave places out: what is short stays short until a thing has moved that far."""

import math
import random

import pytest

from geometry.checks.runner import check
from geometry.cures.lasting import (
    lasting_crossing,
    lasting_joint,
    lasting_leg,
    lasting_legs,
    lasting_port,
    lasting_straight,
)
from geometry.cures.steady import least_move
from geometry.cures.tracks import Track, named_tracks
from geometry.finding import Finding
from geometry.model import Head, Job, Pipe
from geometry.units import on_grid
from tests.geometry.checks.walls import bare
from tests.geometry.cures.faulty import plan_of, sound_jobs

TRIES = 25
"""Places looked at in each sound job; each is compared with some on the way that may be left out."""


def wanting(job: Job) -> list[Finding]:
    return [finding for finding in check(plan_of(job)) if finding.status != "clear"]


def lasts(finding: Finding, later: list[Finding]) -> bool:
    """Return whether a finding stands later too; of the strength of a wall, on one of its parts at least.

    What lies in a zone of cables may lie in another later: the first part is what lies there.
    """
    parts = set(finding.parts[:1] if finding.rule == "electricity.zone" else finding.parts)
    same = [set(found.parts) for found in later if found.rule == finding.rule]
    if finding.rule.startswith("strength."):
        return any(parts & others for others in same)
    return any(parts <= others for others in same)


def left_out(track: Track, place: float, finding: Finding, chance: random.Random) -> float | None:
    """Return a place that need not be looked at because of a finding at another, or None."""
    far = least_move(plan_of(track.to(place)), finding, track, 0, finding.parts)
    low, high = track.reach
    far = min(far, high - low)
    other = on_grid(place + chance.choice((-1, 1)) * far * chance.choice((0.3, 0.6, 0.97)))
    known = (
        low <= other <= high and other not in track.marks and track.ground_at(other) == track.ground_at(place)
    )
    return other if far > 1 and known else None


@pytest.mark.parametrize("index", range(len(sound_jobs())))
def test_what_is_short_at_a_place_is_short_at_those_that_are_left_out(index: int) -> None:
    chance, job = random.Random(index), sound_jobs()[index]
    things = named_tracks(plan_of(job), tuple(thing.id for thing in (*job.fittings, *job.pipes)))
    for _ in range(TRIES):
        track = chance.choice(chance.choice(things))
        place = on_grid(chance.uniform(*track.reach))
        found = wanting(track.to(place))
        for finding in chance.sample(found, min(3, len(found))):
            other = left_out(track, place, finding, chance)
            if other is not None:
                assert lasts(finding, wanting(track.to(other))), (track.called, place, other, finding.message)


def test_level_leg_lasts_as_long_as_it_is_outside_the_recess() -> None:
    # the outlet 300 right of the valve: from the recess's edge to the pocket's, by their own bounds
    plan = plan_of(sound_jobs()[0])
    outlet, valve = plan.recesses["outlet"].bounds, plan.recesses["valve"].bounds
    assert lasting_leg(plan, ["branch"], "level") == pytest.approx(max(0.0, outlet[0] - valve[2]))
    assert lasting_leg(plan, ["branch"], "upright") == 0.0


def test_a_leg_may_lie_in_a_recess_whole_once_it_has_come_sideways_to_it() -> None:
    # 500 long from x 1000, below the recesses about 1200 and 1500, which take 50 and half of 50 beside it
    plan = plan_of(crossing(1000))
    near, far = (plan.recesses[name].bounds for name in ("near", "far"))
    assert (near[2] - near[0], 1500 - far[0]) == (50, 25)
    assert lasting_leg(plan, ["around"], "level") == pytest.approx(near[1] - 1000)  # 475 up to the first
    # close below it: 500 - 75 lie beside both
    assert lasting_leg(plan_of(crossing(1400)), ["around"], "level") == pytest.approx(425)


def test_no_joint_lasts_no_time() -> None:
    assert lasting_joint(plan_of(sound_jobs()[0]), "riser", ()) == 0.0


def crossing(height: float) -> Job:
    """Return a pipe that goes up to a height, 500 right and up again, and one that stands 200 in its way."""
    around = Pipe(
        id="around", service="mixed", end="far.in", route=((1000, 0), (1000, height), (1500, height))
    )
    upright = Pipe(id="upright", service="mixed", end="near.in", route=((1200, 0),))
    near, far = (
        Head(id=name, part="head-wall-200", x=x, height=y)
        for name, x, y in (("near", 1200, 1500), ("far", 1500, 2000))
    )
    return bare(near, far, pipes=[around, upright])


@pytest.mark.parametrize(
    ("height", "lasts"),
    [
        (1000, 200),  # to the left end of the level leg; 300 to its right, 500 up, 1000 down
        (1400, 100),  # to the upper end of the upright one; its pocket is not the other's
        (1600, 0),  # over the head that the other ends at
    ],
)
def test_pipes_cross_until_one_is_drawn_back(height: float, lasts: float) -> None:
    plan, at = plan_of(crossing(height)), (1200.0, min(height, 1500.0))
    assert lasting_crossing(plan, ("around", "upright"), (at,), 1) == pytest.approx(lasts)


def test_a_pipe_has_its_legs_until_the_shortest_may_be_gone() -> None:
    plan = plan_of(crossing(1000))
    assert (lasting_legs(plan, "around"), lasting_legs(plan, "upright")) == (500, 1500)


def of_around(rule: str, measured: float, *place: tuple[float, float]) -> Finding:
    return Finding(rule=rule, status="clash", parts=("around",), message="", measured=measured, place=place)


@pytest.mark.parametrize(
    ("still", "goes", "lasts"),
    [
        ((4, 0), None, math.inf),
        ((2, 0), None, 400),  # its right end moves: by what it is short
        ((1, 1), 1, 1000),  # it goes up whole, until the upright of 1000 before or after it is gone
        ((1, 1), 0, 400),  # nothing says that it keeps its length
    ],
)
def test_a_straight_is_too_short_until_it_has_grown_or_a_leg_beside_it_is_gone(
    still: tuple[int, int], goes: int | None, lasts: float
) -> None:
    level = of_around("pipe.piece", -400, (1000, 1000), (1500, 1000))
    assert lasting_straight(plan_of(crossing(1000)), level, still, 400, goes) == pytest.approx(lasts)


@pytest.mark.parametrize(
    ("measured", "still", "lasts"),
    [
        (10, (0, 0), 500),  # once the level leg is gone it goes on straight
        (10, (4, 0), 700),
        (-10, (0, 0), 500),
        (0, (3, 0), 700),  # the upright of 1000 to the head moves, and is 1000 long
    ],
)
def test_a_pipe_leaves_its_port_wrongly_until_a_leg_next_to_it_is_gone(
    measured: float, still: tuple[int, int], lasts: float
) -> None:
    plan = plan_of(crossing(1000))
    at_port = of_around("pipe.port", measured, plan.courses["around"].points[-1])
    assert lasting_port(plan, at_port, still, 700) == pytest.approx(lasts)
