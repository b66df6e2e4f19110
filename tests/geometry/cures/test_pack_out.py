"""The ways out of a recess that does not suit its finish, and the changes that cure it: hand sums."""

import pytest

from geometry.checks.runner import check
from geometry.cures import cures_for, ways_out
from geometry.finding import Finding
from geometry.model import Finish, FinishArea, Job, Layer
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.cures.faulty import plan_of


def tiled(*layers: Layer) -> Job:
    job = suggested_job(760, 760, "left")
    return job.but(finish=Finish(areas=(FinishArea(id="wall", layers=layers),)))


def clash(job: Job, rule: str, part: str) -> Finding:
    (found,) = (f for f in check(plan_of(job)) if f.rule == rule and part in f.parts)
    assert found.status == "clash"
    return found


def test_finish_too_thick_for_the_box_is_thinned_by_what_it_is_too_thick() -> None:
    # the back of the box may lie 85 behind the finished face at most, and 80 + 12 + 2 is 94: 9 mm too much
    job = tiled(Layer(kind="board", thickness=80.0), Layer(kind="tile", thickness=12.0, tolerance=2.0))
    found = clash(job, "recess.range", "valve")
    assert ways_out(plan_of(job), found) == (
        "Pack valve out from the bare wall by 9 mm or more.",
        "Choose a box or an extension kit for valve whose back may lie 9 mm or more deeper.",
        "Thin the finish at valve by 9 mm or more.",
    )
    # with 3 mm to choose from it is clear, not tight: 80 - 9 - 3
    cures = cures_for(plan_of(job), check(plan_of(job)), found)
    assert [cure.title for cure in cures] == ["Thin board of wall from 80 to 68 mm"]


def test_finish_that_may_be_anything_is_held_closer() -> None:
    # 60 - (30 - 14) = 44 at least and 85 - (30 + 14) = 41 at most: 3 missing, 3 to be clear: 3 off each end
    job = tiled(Layer(kind="adhesive", thickness=30.0, tolerance=14.0))
    found = clash(job, "recess.range", "valve")
    assert ways_out(plan_of(job), found)[0].startswith("Choose a box for valve with 3 mm more room")
    titles = [cure.title for cure in cures_for(plan_of(job), check(plan_of(job)), found)]
    assert titles == ["Hold adhesive of wall to 11 mm either way"]


@pytest.mark.parametrize("rule", ["front.parts", "recess.shallow"])
def test_other_findings_have_no_such_ways_out(rule: str) -> None:
    found = Finding(rule=rule, status="clash", parts=("valve",), message="")
    assert ways_out(plan_of(suggested_job(760, 760, "left")), found) == ()
