"""Cautions follow from what the job does."""

from export.drawings.cautions import cautions
from geometry.model import Accessory, Cable, Job, OldPipe
from tests.export.jobs import planned, usual


def subjects(job: Job) -> list[str]:
    return [caution.subject for caution in cautions(planned(job))]


def text(job: Job, subject: str) -> str:
    return next(caution.text for caution in cautions(planned(job)) if caution.subject == subject)


def test_every_job_warns_of_electricity_structure_dust_pressure_and_scalding() -> None:
    assert subjects(usual().job) == [
        "Measure",
        "Electricity",
        "Structure",
        "Dust",
        "Hot work",
        "Pressure test",
        "Scalding",
    ]


def test_plastic_pipe_alone_needs_no_caution_about_soldering() -> None:
    job = usual().job
    plastic = job.but(pipes=tuple(pipe.but(tube="barrier-15") for pipe in job.pipes))
    assert "Hot work" not in subjects(plastic)


def test_pipes_that_are_there_already_are_drained_first() -> None:
    job = usual().job.but(services=(OldPipe(id="old", route=((0.0, 300.0), (700.0, 300.0))),))
    assert "Old pipes" in subjects(job)


def test_known_cables_do_not_mean_that_there_are_no_others() -> None:
    job = usual().job.but(services=(Cable(id="cable", route=((700.0, 0.0), (700.0, 2400.0))),))
    assert "there may be others" in text(job, "Electricity")
    assert "there may be others" not in text(usual().job, "Electricity")


def test_cuts_in_a_zone_of_cables_are_named() -> None:
    job = usual().job
    valve = job.fitting("valve")
    switch = Accessory(
        id="switch", kind="switch", x=valve.x, height=2300.0
    )  # its zone runs down over the valve
    assert "In a zone where cables run" not in text(job, "Electricity")
    said = text(job.but(services=(switch,)), "Electricity")
    assert "In a zone where cables run" in said
    assert "valve" in said
    assert "prove dead" in said


def test_an_unknown_load_is_said() -> None:
    job = usual().job
    assert "not known whether this wall carries load" in text(job, "Structure")
    bearing = job.but(wall=job.wall.but(loadbearing="yes"))
    assert "This wall carries load" in text(bearing, "Structure")
    partition = job.but(wall=job.wall.but(loadbearing="no"))
    assert "engineer" not in text(partition, "Structure")


def test_a_stud_wall_is_told_about_studs_not_about_chases() -> None:
    job = usual().job
    studs = job.but(wall=job.wall.but(make_up="timber_stud", thickness=89.0))
    assert "stud" in text(studs, "Structure")
    assert "masonry" not in text(studs, "Dust")
