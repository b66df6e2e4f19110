"""What is set for all pipes: a file without it reads, one with it keeps it, nonsense is refused."""

import json

import pytest

from geometry.jobfile import read_job, write_job
from geometry.model import Measured, Offcut, Photograph, Pipework
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")
SET = Pipework(
    kerf=0.0,
    offcuts=(Offcut(tube="copper-15", length=640),),
    measured=(Measured(jointing="capillary", outside=15, what="elbow", value=13.5),),
    photographs=(Photograph(file="wall before boarding.jpg", shows="valve and riser"),),
)


def test_a_file_from_before_reads_with_the_usual_values() -> None:
    plain = json.loads(write_job(JOB))
    del plain["pipework"]
    for pipe in plain["pipes"]:
        del pipe["jointing"], pipe["turns"]
    assert read_job(json.dumps(plain).encode()) == JOB


def test_what_is_set_is_kept_in_the_file() -> None:
    job = JOB.but(pipework=SET, pipes=tuple(pipe.but(jointing="press", turns="bends") for pipe in JOB.pipes))
    assert read_job(write_job(job)) == job


def test_an_off_cut_without_length_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^\.length: must be above 0 and at most 20000 mm, got 0$"):
        Offcut(tube="copper-15", length=0)


def test_a_file_name_is_one_line() -> None:
    with pytest.raises(ValueError, match=r"^\.file: must not hold"):
        Photograph(file="a\nb.jpg")
