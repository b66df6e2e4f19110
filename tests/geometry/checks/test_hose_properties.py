"""What holds for every hose: moved, mirrored, by a longer clearance, beside a wider plate."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.model import Job
from geometry.parts.records import Disc, Slab
from geometry.rules import Rulebook, standard_rules
from tests.geometry.checks.hung import JOB, findings, lengths, measured, with_hose, with_valve


def stricter(value: float) -> Rulebook:
    """Return the rules with another clearance of the hose to the valve."""
    return Rulebook(
        {
            limit.rule: limit.but(value=value) if limit.rule == "hose.valve" else limit
            for limit in standard_rules()
        }
    )


places = st.tuples(st.floats(0, 760), st.floats(400, 1900))


def moved_all(job: Job, dx: float) -> Job:
    """Return the job with all that a hose has to do with moved along the wall."""
    fittings = tuple(fitting.but(x=fitting.x + dx) for fitting in job.fittings)
    return job.but(fittings=fittings, enclosure=job.enclosure.but(left=job.enclosure.left + dx), pipes=())


def mirrored(job: Job) -> Job:
    """Return the job as its mirror image in a 760 wall."""
    return job.but(fittings=tuple(fitting.but(x=760 - fitting.x) for fitting in job.fittings), pipes=())


@given(places, lengths, st.floats(-300, 2000))
def test_moving_the_whole_job_along_the_wall_changes_nothing(
    place: tuple[float, float], length: str, dx: float
) -> None:
    job = with_hose(JOB.moved("outlet", *place), length)
    before, after = findings(job), findings(moved_all(job, round(dx, 1)))
    assert set(before) == set(after)
    for rule, finding in before.items():
        assert after[rule].measured == pytest.approx(finding.measured, abs=0.1001)
        assert after[rule].status == finding.status


@given(places, lengths)
def test_mirror_image_measures_the_same(place: tuple[float, float], length: str) -> None:
    job = with_hose(JOB.moved("outlet", *place), length)
    # round plates and controls on the middle line are their own mirror image
    for rule, value in measured(job).items():
        assert measured(mirrored(job))[rule] == pytest.approx(value, abs=0.1001)


@given(places, lengths, st.floats(0, 150), st.floats(0, 100))
def test_longer_clearance_never_clears_a_hose(
    place: tuple[float, float], length: str, value: float, more: float
) -> None:
    job = with_hose(JOB.moved("outlet", *place), length)
    loose, strict = (findings(job, rules=stricter(limit))["hose.valve"] for limit in (value, value + more))
    assert loose.measured == pytest.approx(strict.measured, abs=0.1001)
    if loose.status == "clash":
        assert strict.status == "clash"
    if strict.status == "clear":
        assert loose.status == "clear"


@given(places, lengths, st.floats(60, 300), st.floats(0, 200), st.booleans())
def test_wider_plate_is_never_farther_from_the_hose(
    place: tuple[float, float], length: str, wide: float, more: float, square: bool
) -> None:
    job = with_hose(JOB.moved("outlet", *place), length)

    def gap(width: float) -> float:
        plate = Slab(wide=width, high=170, corner=8) if square else Disc(diameter=width)
        found = measured(job, with_valve(plate=plate, controls=()))["hose.valve"]
        assert found is not None
        return found

    assert gap(wide + more) <= gap(wide) + 0.1001
