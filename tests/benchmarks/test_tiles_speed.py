"""How long one step of dragging the tiles by their start takes: tiles cut anew, checks, and the picture.

Run with `python -m pytest tests/benchmarks/test_tiles_speed.py -n 0 -s`.
"""

import pytest
from pytestqt.qtbot import QtBot

from geometry.model import Job
from tests.benchmarks.drags import CHECKED, by_tiles, checked_against_unchecked, largest
from tests.samples import SAMPLES, sample_job


def tiles_of(job: Job) -> float:
    tiling = job.finish.tiling
    return job.wall.width * job.wall.height / (tiling.wide * tiling.high) if tiling else 0.0


def test_a_step_of_dragging_the_tiles_against_the_same_without_any_check(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    most = max(map(sample_job, SAMPLES), key=tiles_of)
    for job in dict.fromkeys((largest(), most)):
        assert checked_against_unchecked(qtbot, monkeypatch, job, by_tiles) <= CHECKED
