"""How long two upright chases lie too near one another while a leg of one moves: hand sums."""

import pytest

from geometry.cures.apart import lasting_gap, lasting_web
from geometry.finding import Finding
from geometry.model import Head, Pipe
from geometry.plan import Plan
from tests.geometry.checks.walls import bare
from tests.geometry.cures.faulty import plan_of


def plan() -> Plan:
    """Return two pipes that stand 100 apart, from the floor to their heads."""
    pipes = [
        Pipe(id=name, service="mixed", end=f"head-{name}.in", route=((x, 0),))
        for name, x in (("one", 500), ("two", 600))
    ]
    heads = [
        Head(id=f"head-{name}", part="head-wall-200", x=x, height=1500)
        for name, x in (("one", 500), ("two", 600))
    ]
    return plan_of(bare(*heads, pipes=pipes))


def test_two_chases_are_too_near_until_they_are_far_enough_or_cut_as_one() -> None:
    held = plan()
    (wide, _), top = (chase.width for chase in held.chases), held.recesses["head-one"].bounds[1]
    apart = 100 - wide
    assert lasting_gap(held, "one", 0, 225) == pytest.approx(apart)  # then they are one cut
    assert lasting_gap(held, "one", 0, apart + 10) == pytest.approx(10)
    assert lasting_gap(held, "one", 0, apart) == 0
    assert lasting_gap(held, "one", 1, 225) == pytest.approx(top)  # upwards until they share no height
    assert lasting_gap(held, "another", 0, 225) == 0


def test_a_web_is_too_thin_until_it_is_thicker_or_the_pipes_cross() -> None:
    held = plan()
    chase = held.chases[0]
    web = 100 - chase.width
    at = ((500 + chase.width / 2, 700.0), (600 - chase.width / 2, 700.0))
    thin = Finding(rule="chase.web", status="tight", parts=("one", "two"), message="", measured=web, place=at)
    # the axes are 100 apart, and the pipes with their wrap meet at one wrapped diameter
    assert lasting_web(held, thin, "one", 400) == pytest.approx(100 - chase.lagged)
    assert lasting_web(held, thin, "one", 5) == 5
