"""Bytes that are no job file are refused at once, and no bytes make the reader raise anything else."""

import json
import time
import tracemalloc
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.jobfile import MOST_BYTES, JobFileError, read_job, write_job
from geometry.model import About
from tests.geometry.job_bytes import GOOD, JOB, complaint

# bytes that are no job

NOT_JSON = "$: not JSON, or cut short: "
BAD_BYTES = {
    b"": NOT_JSON + "Expecting value at line 1 column 1",
    b"\x00": NOT_JSON + "Expecting value at line 1 column 1",
    b"// a job\n{}": NOT_JSON + "Expecting value at line 1 column 1",
    b"[]": "$: must be a table of fields, got a list of 0",
    b"null": "$: must be a table of fields, got null",
    b"{}": "$.format: is missing",
    b"\xff\xfe{\x00}\x00": "$: not UTF-8: byte 0 is 0xff",
    b"{}\n x": NOT_JSON + "Extra data at line 2 column 2",
    GOOD[:30]: NOT_JSON + "Unterminated string starting at line 2 column 13",
}


@pytest.mark.parametrize("data", BAD_BYTES)
def test_bytes_that_are_no_job_are_refused(data: bytes) -> None:
    assert complaint(data) == BAD_BYTES[data]


def test_a_file_cut_short_anywhere_is_refused() -> None:
    for end in range(0, len(GOOD) - 2, 7):
        complaint(GOOD[:end])


# bytes meant to take long

HOSTILE = {
    "50 MB of brackets": b"[" * 50_000_000,
    "brackets": b"[" * MOST_BYTES,
    "objects": b'{"a":' * (MOST_BYTES // 5),
    "open text": b'"' + b"a" * (MOST_BYTES - 1),
    "backslashes": b'"' + b"\\\\" * (MOST_BYTES // 2 - 1),
    "quotes": b'"' * MOST_BYTES,
    "escaped quotes outside a text": b'\\"' * (MOST_BYTES // 2),
    "open and escape": b'"\\' * (MOST_BYTES // 2),
    "escaped line feeds": b'"' + b"\\\n" * (MOST_BYTES // 2 - 1),
    "digits": b'{"version":' + b"9" * (MOST_BYTES - 20) + b"}",
    "pairs of brackets": b"[" + b"[]," * (MOST_BYTES // 3 - 2) + b"[]]",
    "one key many times": b"{" + b'"a":1,' * (MOST_BYTES // 6 - 2) + b'"a":1}',
    "blanks": b" " * MOST_BYTES,
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_bytes_are_refused_at_once(name: str) -> None:
    started = time.process_time()
    complaint(HOSTILE[name])
    assert time.process_time() - started < 2  # seconds; a scan that goes back takes hours


def test_refusing_50_mb_of_brackets_takes_no_memory_of_that_size() -> None:
    data = HOSTILE["50 MB of brackets"]
    tracemalloc.start()
    try:
        assert complaint(data) == f"$: too large for a job: 50000000 bytes, at most {MOST_BYTES}"
        assert tracemalloc.get_traced_memory()[1] < 1_000_000
    finally:
        tracemalloc.stop()


def test_brackets_in_a_text_are_not_nesting() -> None:
    title = "[" * 100 + '\\"' + "{" * 100
    assert read_job(write_job(JOB.but(about=About(title=title)))).about.title == title


# any bytes


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    complaint(data)


@given(st.data())
def test_a_file_with_some_bytes_changed_is_read_or_refused(data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(GOOD)))
    length = data.draw(st.integers(0, 20))
    put = data.draw(
        st.binary(max_size=6) | st.sampled_from([b'"', b"[", b"}", b"\\", b"null", b"1e999", b"-"])
    )
    _read_or_refused(GOOD[:start] + put + GOOD[start + length :])


VALUES = (
    st.none()
    | st.booleans()
    | st.integers(-(10**30), 10**30)
    | st.floats()
    | st.text(st.characters(), max_size=8)
    | st.sampled_from(
        ["valve.hot", "head", "", "x - at `$.y`", "type", 10**400, [], {}, [[]], {"type": "valve"}]
    )
)


@given(st.data())
def test_a_file_with_one_value_changed_is_read_or_refused_with_a_path(data: st.DataObject) -> None:
    plain = json.loads(GOOD)
    place: Any = plain
    while True:  # down to some depth
        keys = list(place) if isinstance(place, dict) else list(range(len(place)))
        key = data.draw(st.sampled_from(keys))
        if not (isinstance(place[key], dict | list) and place[key] and data.draw(st.integers(0, 3))):
            break
        place = place[key]
    how = data.draw(st.sampled_from(["set", "drop", "add"]))
    if how == "drop":
        del place[key]
    elif how == "set" or isinstance(place, list):
        place[key] = data.draw(VALUES)
    else:
        place[data.draw(st.text(st.characters(), max_size=8))] = data.draw(VALUES)
    _read_or_refused(json.dumps(plain).encode())


def _read_or_refused(data: bytes) -> None:
    """Hold a file to its promise: it is read and can be written, or is refused in one line with a path."""
    try:
        job = read_job(data)
    except JobFileError as problem:
        said = str(problem)
    else:
        assert read_job(write_job(job)) == job
        return
    assert said.startswith("$")
    assert len(said.splitlines()) == 1
