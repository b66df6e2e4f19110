"""A good job file, changed, and what is said of one that is refused."""

import json
from collections.abc import Callable
from typing import Any

import pytest

from geometry.jobfile import JobFileError, read_job, write_job
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")
GOOD = write_job(JOB)
Change = Callable[[Any], object]


def changed(change: Change) -> bytes:
    """Return a good file after one change to its plain data."""
    plain = json.loads(GOOD)
    change(plain)
    return json.dumps(plain).encode()


def complaint(data: bytes) -> str:
    """Return the one line that says why a file is refused."""
    with pytest.raises(JobFileError) as problem:
        read_job(data)
    text = str(problem.value)
    assert len(text.splitlines()) == 1
    assert len(text) < 400
    return text
