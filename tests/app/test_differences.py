"""Differences between two jobs in words."""

from app.differences import differences
from geometry.edits.contents import removed
from geometry.edits.refs import Ref
from geometry.model import Stud
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")


def test_a_job_does_not_differ_from_itself() -> None:
    assert differences(JOB, JOB) == ()


def test_a_moved_part_is_told_with_both_places() -> None:
    # the rail stands on the quarter line, 570, its foot 1090 above the tray floor at 30
    job = JOB.moved("rail", 512.5, 1120.0)
    assert differences(JOB, job) == ("rail: position from the left was 570 mm, is 512.5 mm",)
    assert differences(JOB, job, "cm") == ("rail: position from the left was 57 cm, is 51.25 cm",)


def test_what_was_added_and_removed_is_named() -> None:
    job = removed(JOB, [Ref("fitting", "rail")])
    job = job.but(services=(Stud(id="stud", x=300.0),))
    assert differences(JOB, job) == ("stud: added", "rail: removed", "hose: removed")


def test_words_of_the_title_block_and_sizes_of_the_wall_are_told() -> None:
    job = JOB.but(
        about=JOB.about.but(place="En suite"), wall=JOB.wall.but(width=800.0, make_up="hollow_block")
    )
    assert differences(JOB, job) == (
        "title block: place was empty, is 'En suite'",
        "wall: width was 760 mm, is 800 mm",
        "wall: make-up was 'dense_block', is 'hollow_block'",
    )


def test_a_reshaped_route_is_told_without_its_points() -> None:
    pipes = tuple(
        pipe.but(route=((300.0, 0.0), (335.0, 400.0))) if pipe.id == "hot" else pipe for pipe in JOB.pipes
    )
    assert differences(JOB, JOB.but(pipes=pipes)) == ("hot: route changed",)


def test_two_wholly_different_jobs_differ_in_every_part() -> None:
    other = suggested_job(1200, 800, "right", 1500, 2600, "Another")
    lines = differences(JOB, other.but(fittings=(), hoses=(), pipes=()))
    for owner in ("title block", "wall", "enclosure", "valve", "rail", "hose", "hot"):
        assert any(line.startswith(f"{owner}: ") for line in lines)
