"""No bytes make `check` raise: it lists findings, or says in one line what cannot be used."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.cli import main
from geometry.checks.runner import check
from geometry.jobfile import read_job, write_job
from geometry.model import Job
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from tests.samples import SAMPLES, sample_path
from tests.strategies import jobs

HERE = settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
STRANGE = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**30), 10**30),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(max_size=8),
    st.just([]),
    st.just({}),
    st.floats(-3000, 3000).map(lambda value: round(value, 1)),
)


def places(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """The path of every value in a document."""
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(place for key, held in inner for place in places(held, (*path, key)))]


def judged(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code = main(["check", str(path)])
    out, err = capsys.readouterr()
    assert code in (0, 1, 2)
    if code == 2:
        assert out == ""
        assert err.count("\n") == 1
    else:
        assert err == ""


@HERE
@given(data=st.binary(max_size=400))
def test_any_bytes_are_judged_or_refused(
    data: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "job.json"
    path.write_bytes(data)
    judged(path, capsys)


@HERE
@given(data=st.data(), name=st.sampled_from(SAMPLES))
def test_a_sample_with_one_value_changed_is_judged_or_refused(
    data: st.DataObject, name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = json.loads(sample_path(name).read_text())
    place = data.draw(st.sampled_from(places(job)[1:]))
    inner: Any = job
    for key in place[:-1]:
        inner = inner[key]
    inner[place[-1]] = data.draw(STRANGE)
    path = tmp_path / "job.json"
    path.write_text(json.dumps(job))
    judged(path, capsys)


@HERE
@given(data=st.data(), name=st.sampled_from(SAMPLES))
def test_a_sample_cut_or_smudged_is_judged_or_refused(
    data: st.DataObject, name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    whole = bytearray(sample_path(name).read_bytes())
    at = data.draw(st.integers(0, len(whole) - 1))
    whole[at : at + data.draw(st.integers(0, 20))] = data.draw(st.binary(max_size=4))
    path = tmp_path / "job.json"
    path.write_bytes(bytes(whole[: data.draw(st.integers(0, len(whole)))]))
    judged(path, capsys)


@given(job=jobs())
def test_every_valid_job_is_judged_and_survives_its_file(job: Job) -> None:
    assert read_job(write_job(job)) == job
    findings = check(Plan(job, generic_parts(), standard_rules()))
    assert findings
