"""A thing under another name: what hangs on it follows, everything else is the very same."""

import pytest

from geometry.edits.refs import Ref, things
from geometry.edits.renaming import renamed, successor
from geometry.model import Accessory, Opening
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.samples import SAMPLES, sample_job

JOB = suggested_job(760, 760, "left", 1200).but(services=(Accessory(id="socket", x=1000.0, height=450.0),))


@pytest.mark.parametrize("name", SAMPLES)
def test_every_thing_of_a_sample_can_be_called_otherwise_and_back(name: str) -> None:
    job = sample_job(name)
    for ref in things(job):
        there = renamed(job, ref, "another")
        assert Ref(ref.kind, "another") in things(there)
        Plan(there, generic_parts(), standard_rules())  # hoses and pipes find what they hang on
        assert renamed(there, Ref(ref.kind, "another"), ref.id) == job


def test_a_new_name_leaves_the_pipes_of_others_alone() -> None:
    after = renamed(JOB, Ref("fitting", "outlet"), "elbow")
    before = {pipe.id: pipe for pipe in JOB.pipes}
    assert [pipe.id for pipe in after.pipes if pipe is not before[pipe.id]] == ["branch"]


def test_an_opening_is_renamed_within_the_wall() -> None:
    job = JOB.but(wall=JOB.wall.but(openings=(Opening(id="window", x=0, y=0, width=5, height=5),)))
    assert renamed(job, Ref("opening", "window"), "hatch").wall.openings[0].id == "hatch"


def test_a_name_that_stands_already_is_refused() -> None:
    with pytest.raises(ValueError, match="stands twice"):
        renamed(JOB, Ref("service", "socket"), "rail")


def test_the_successor_of_a_renamed_thing_is_found_in_its_place() -> None:
    before = tuple(things(JOB))
    after = tuple(things(renamed(JOB, Ref("fitting", "rail"), "pole")))
    assert successor(before, Ref("fitting", "rail"), after) == Ref("fitting", "pole")
    assert successor(before, Ref("fitting", "valve"), after) == Ref("fitting", "valve")


def test_a_removed_thing_has_no_successor() -> None:
    before = tuple(things(JOB))
    after = tuple(ref for ref in before if ref.id != "socket")
    assert successor(before, Ref("service", "socket"), after) is None
