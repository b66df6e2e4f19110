"""Job files: what is written comes back, and a person can read it and compare two of them."""

import pytest
from hypothesis import given

from geometry.jobfile import read_job, write_job
from geometry.model import About, Job
from tests.geometry.job_bytes import GOOD, JOB, changed
from tests.strategies import jobs

# there and back


@given(jobs())
def test_what_is_written_comes_back_the_same(job: Job) -> None:
    assert read_job(write_job(job)) == job


@given(jobs())
def test_writing_again_gives_the_same_bytes(job: Job) -> None:
    data = write_job(job)
    assert write_job(read_job(data)) == data


@pytest.mark.parametrize(
    "title", ["[ 1, 2 ]", "[\n  1.0,\n  2.0\n]", '"', "\\", "</b> & %%c \\P", "دش Łódź 🚿"]
)
def test_a_title_comes_back_as_typed(title: str) -> None:
    assert read_job(write_job(JOB.but(about=About(title=title)))).about.title == title


# how it is written


def test_the_file_says_what_it_is_on_its_first_lines() -> None:
    assert GOOD.startswith(b'{\n  "format": "chasewright job",\n  "version": 2,\n  "about": {\n')
    assert GOOD.endswith(b"\n}\n")


def test_moving_one_fitting_changes_two_lines() -> None:
    before, after = GOOD.splitlines(), write_job(JOB.moved("head", 400.0, 2180.5)).splitlines()
    assert len(before) == len(after)
    differing = [new.strip() for old, new in zip(before, after, strict=True) if old != new]
    assert differing == [b'"x": 400.0,', b'"height": 2180.5,']


def test_a_point_stands_on_one_line() -> None:
    assert b'      "route": [\n        [335.0, 0.0]\n      ],\n' in GOOD


# what is read besides


def test_a_byte_order_mark_is_passed_over() -> None:
    assert read_job(b"\xef\xbb\xbf" + GOOD) == JOB


def test_line_ends_of_another_system_are_read() -> None:
    assert read_job(GOOD.replace(b"\n", b"\r\n")) == JOB


def test_a_whole_number_is_read_as_one_with_a_fraction() -> None:
    assert read_job(changed(lambda job: job["wall"].update(width=760))) == JOB


def test_what_a_file_leaves_out_takes_its_default() -> None:
    assert read_job(changed(lambda job: job.pop("about"))).about == About(title="Concealed shower")
