"""A job file that cannot be used gets one line with its name, and with path and value where there are any."""

import json
from pathlib import Path
from typing import Any

import pytest

from tests.app.commanding import refused
from tests.samples import sample_path

BAD_FILES = {
    "empty": b"",
    "truncated": b'{"format": "chasewright job", "version": 2, "wall": {"wid',
    "not a job": b"{}",
    "binary": bytes(range(256)) * 40,
    "not a number": b'{"format": "chasewright job", "version": 2, "wall": {"width": NaN}}',
    "nested": b"[" * 100_000,
}


@pytest.mark.parametrize("name", BAD_FILES)
@pytest.mark.parametrize("command", ["check", "pack"])
def test_a_bad_file_gets_one_line_with_its_name(
    command: str, name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "bad.json"
    path.write_bytes(BAD_FILES[name])
    more = ["-o", tmp_path / "out"] if command == "pack" else []
    assert "bad.json" in refused(capsys, command, path, *more)
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("place", "value", "said"),
    [
        (("fittings", 0, "height"), "high", "$.fittings[0].height"),
        (("fittings", 0, "height"), 1e9, "$.fittings[0].height"),
        (("fittings", 0, "part"), "no-such-part", "$.fittings[0].part"),
        (("wall", "thickness"), -5, "$.wall.thickness"),
        (("wall", "make_up"), "cheese", "$.wall.make_up"),
        (("pipes", 0, "end"), "valve.steam", "$.pipes[0].end"),
        (("hoses", 0, "rail"), "ladder", "$.hoses[0].rail"),
        (("version",), 99, "$.version"),
    ],
)
def test_a_bad_value_is_named_with_its_path(
    place: tuple[str | int, ...], value: object, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = json.loads(sample_path("alcove-760").read_text())
    inner: Any = job
    for key in place[:-1]:
        inner = inner[key]
    inner[place[-1]] = value
    path = tmp_path / "job.json"
    path.write_text(json.dumps(job))
    line = refused(capsys, "check", path)
    assert said in line
    assert str(path) in line
    assert str(value).rstrip("0").rstrip(".") in line or f"{value:g}" in line


def test_fifty_megabytes_of_brackets_are_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "deep.json"
    path.write_bytes(b"[" * 50_000_000)
    assert "too large" in refused(capsys, "check", path)


@pytest.mark.parametrize("path", ["no-such-file.json", ".", "nul\0.json", "a" * 5000])
def test_a_file_that_cannot_be_read_gets_one_line(path: str, capsys: pytest.CaptureFixture[str]) -> None:
    refused(capsys, "check", path)
