"""Which ends of a pipe's legs stay while a thing moves, and how long a leg lies beside a place: hand sums."""

import math

import pytest

from geometry.cures.still import Ends, Leg, still_by_fitting, still_by_leg
from geometry.model import Head, Pipe
from geometry.plan import Plan
from tests.geometry.checks.walls import bare
from tests.geometry.cures.faulty import plan_of

LEVEL = ((100.0, 500.0), (400.0, 500.0))


def plan() -> Plan:
    """Return a pipe that goes up, right, up to its head, and one that goes straight up to another head."""
    around = Pipe(id="around", service="mixed", end="far.in", route=((100, 0), (100, 900), (600, 900)))
    upright = Pipe(id="upright", service="mixed", end="near.in", route=((900, 0),))
    near, far = (
        Head(id=name, part="head-wall-200", x=x, height=1500) for name, x in (("near", 900), ("far", 600))
    )
    return plan_of(bare(near, far, pipes=[around, upright]))


@pytest.mark.parametrize(
    ("axis", "ends"),
    [
        (0, Ends(2, 0)),  # the last corner goes along to stay below the head
        (1, Ends(3, 0)),  # it stays, and the last leg grows
    ],
)
def test_a_fitting_takes_along_no_more_than_the_corner_in_line_with_it(axis: int, ends: Ends) -> None:
    assert still_by_fitting(plan(), "far", axis) == {"around": ends, "upright": Ends(2, 0)}


@pytest.mark.parametrize(
    ("leg", "ends"),
    [
        (0, Ends(0, 2)),  # from the feed: its other end and what follows
        (1, Ends(1, 1)),
        (2, Ends(2, 2)),  # to the head: the stub before it stays with its port
    ],
)
def test_a_leg_takes_along_its_own_ends_only_and_leaves_a_stub_at_a_port(leg: int, ends: Ends) -> None:
    assert still_by_leg(plan(), "around", leg) == {"around": ends, "upright": Ends(2, 0)}


@pytest.mark.parametrize(
    ("still", "axis", "lasts"),
    [
        ((True, True), 0, math.inf),
        ((True, True), 1, math.inf),
        ((True, False), 0, 250),  # its right end comes back to 150
        ((False, True), 0, 50),
        ((False, False), 0, 50),
        ((True, False), 1, 0),  # it goes sideways
    ],
)
def test_a_leg_lies_beside_a_place_until_an_end_has_come_to_it(
    still: tuple[bool, bool], axis: int, lasts: float
) -> None:
    assert Leg(LEVEL, 20.0, still).lasts(axis, (150.0, 530.0)) == lasts


def test_a_place_that_moves_along_a_leg_leaves_it_at_the_nearer_end() -> None:
    leg = Leg(LEVEL, 20.0, (True, True))
    assert leg.lasts(0, (150.0, 530.0), moves=True) == 50
    assert leg.lasts(1, (150.0, 530.0), moves=True) == 0


def test_beyond_its_ends_nothing_lies_beside_a_leg() -> None:
    leg = Leg(LEVEL, 20.0, (True, True))
    assert leg.off((250.0, 530.0)) == 30
    assert math.isinf(leg.off((401.0, 530.0)))
