"""The holes that are marked on the wall, with their distances from the tray's edge and floor."""

from hypothesis import given

from geometry.model import Head, Job, Spout
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from geometry.setting_out.holes import Hole, holes
from tests.strategies import jobs

JOB = suggested_job(760, 760, "left")


def holes_of(job: Job) -> tuple[Hole, ...]:
    return holes(Plan(job, generic_parts(), standard_rules()))


def test_the_holes_for_water() -> None:
    water = [hole for hole in holes_of(JOB) if hole.kind == "water"]
    # diameters as in the parts; 30 is the height of the tray floor
    assert water == [
        Hole("valve", "centre", "water", (380, 1030), 120, 380, 1000),
        Hole("head", "centre", "water", (380, 2190), 30, 380, 2160),
        Hole("outlet", "centre", "water", (570, 1030), 30, 570, 1000),
    ]


def test_the_screws_of_every_part_are_marked() -> None:
    screws = [(hole.owner, hole.at, hole.diameter) for hole in holes_of(JOB) if hole.kind == "screw"]
    assert screws == [
        ("valve", (325, 970), 6),  # 55 left of 380, 60 below 1030
        ("valve", (435, 1090), 6),
        ("outlet", (550, 1030), 5),
        ("outlet", (590, 1030), 5),
        ("rail", (570, 1145), 6),  # foot at 1120, fixings 25 and 675 up
        ("rail", (570, 1795), 6),
    ]


def test_distances_count_from_the_tray_and_not_from_the_corner() -> None:
    shifted = JOB.but(enclosure=JOB.enclosure.but(left=100, floor=40))
    valve = holes_of(shifted)[0]
    assert (valve.at, valve.across, valve.up) == ((380, 1030), 280, 990)


def test_a_head_on_a_ceiling_arm_has_no_hole_in_the_wall() -> None:
    head = Head(id="head", part="head-ceiling-250", x=380, height=2400)
    job = JOB.but(fittings=(head,), hoses=(), pipes=())
    assert holes_of(job) == ()


def test_a_spout_has_its_hole() -> None:
    job = JOB.but(fittings=(Spout(id="spout", part="spout-170", x=380, height=700),), hoses=(), pipes=())
    assert holes_of(job) == (Hole("spout", "centre", "water", (380, 700), 34, 380, 670),)


@given(jobs())
def test_every_hole_is_where_its_distances_say(job: Job) -> None:
    for hole in holes_of(job):
        assert abs(job.enclosure.left + hole.across - hole.at[0]) <= 0.05 + 1e-9
        assert abs(job.enclosure.floor + hole.up - hole.at[1]) <= 0.05 + 1e-9
        assert hole.diameter > 0
