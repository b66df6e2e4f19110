"""Running dimensions: every mark counts from the one datum."""

from hypothesis import given

from geometry.model import Head, Job, Rail
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from geometry.setting_out.chains import Mark, across, upward
from tests.strategies import jobs


def plan_of(job: Job) -> Plan:
    return Plan(job, generic_parts(), standard_rules())


ALCOVE = suggested_job(760, 760, "left")


def test_across_the_wall_from_the_left_edge_of_the_tray() -> None:
    assert across(plan_of(ALCOVE)) == (
        Mark(0, 0, ("tray edge",)),
        Mark(190, 190, ("quarter line",)),
        Mark(380, 380, ("centre line", "head", "valve")),
        Mark(570, 570, ("outlet", "quarter line", "rail")),
        Mark(760, 760, ("tray edge",)),
    )


def test_up_the_wall_from_the_floor_of_the_tray() -> None:
    # tray floor at 30: valve and outlet 1000 above it, rail foot at 1120 with fixings 25 and 675 up, and
    # the head's hole 2100 + 60 above it
    assert upward(plan_of(ALCOVE)) == (
        Mark(30, 0, ("tray floor",)),
        Mark(1030, 1000, ("outlet", "valve")),
        Mark(1145, 1115, ("rail low fixing",)),
        Mark(1795, 1765, ("rail high fixing",)),
        Mark(2190, 2160, ("head",)),
    )


def test_a_tray_that_stands_off_the_corner_counts_from_its_own_edge() -> None:
    job = ALCOVE.but(enclosure=ALCOVE.enclosure.but(left=150), wall=ALCOVE.wall.but(width=1200))
    found = {label: mark for mark in across(plan_of(job)) for label in mark.labels}
    assert (found["centre line"].at, found["centre line"].distance) == (530, 380)
    assert (found["valve"].at, found["valve"].distance) == (380, 230)


def test_a_fitting_left_of_the_tray_counts_backwards() -> None:
    job = ALCOVE.but(enclosure=ALCOVE.enclosure.but(left=500))
    assert across(plan_of(job))[0] == Mark(380, -120, ("head", "valve"))


def test_marks_are_not_added_up_step_by_step() -> None:
    # three thirds of 100 mm rounded and added would end at 99.9
    rails = tuple(Rail(id=f"r{n}", part="rail-700", x=100 * n / 3, height=0) for n in (1, 2, 3))
    job = ALCOVE.but(fittings=rails, hoses=(), pipes=())
    found = {label: mark.distance for mark in across(plan_of(job)) for label in mark.labels}
    assert (found["r1"], found["r2"], found["r3"]) == (33.3, 66.7, 100)


def test_what_falls_on_the_same_tenth_is_one_mark() -> None:
    # quarter line of a 761 tray at 190.25, where the rail is kept at 190.2: one pencil mark on the wall
    found = across(plan_of(suggested_job(761, 761, "right")))
    assert [mark.at for mark in found] == [0, 190.2, 380.5, 570.8, 761]
    assert found[1].labels == ("outlet", "quarter line", "rail")


def test_two_heads_a_tenth_apart_are_two_marks() -> None:
    heads = tuple(Head(id=f"h{n}", part="head-wall-200", x=300 + n / 10, height=2100) for n in (1, 2))
    found = across(plan_of(ALCOVE.but(fittings=heads, hoses=(), pipes=())))
    assert [mark.labels for mark in found if 300 < mark.at < 301] == [("h1",), ("h2",)]


@given(jobs())
def test_every_chain_rises_and_each_distance_is_from_the_datum(job: Job) -> None:
    plan = plan_of(job)
    for chain, datum in ((across(plan), job.enclosure.left), (upward(plan), job.enclosure.floor)):
        places = [mark.at for mark in chain]
        assert places == sorted(set(places))
        # what is drawn at and what is written beside it differ by the datum, tenth by tenth
        assert all(round(mark.distance * 10) == round(mark.at * 10) - round(datum * 10) for mark in chain)
    labels = [label for mark in across(plan) for label in mark.labels]
    assert sorted(labels) == sorted(
        [*("tray edge", "quarter line") * 2, "centre line", *(fitting.id for fitting in job.fittings)]
    )
