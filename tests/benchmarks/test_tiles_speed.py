"""How long one step of dragging the tiles by their start takes: tiles cut anew, checks, and the picture.

Run with `python -m pytest tests/benchmarks/test_tiles_speed.py -n 0 -s`; steps are those of
`test_canvas_speed.py`, and the same holds of ratios.
"""

import statistics
import time
from itertools import cycle, islice

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

import app.document
from app.document import Document
from app.files import open_job
from geometry.model import Job
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from tests.benchmarks.test_canvas_speed import CHECKED, MEDIAN, SAMPLES, SLOWEST, STEPS, WAY, Steps, shown


def dragged(qtbot: QtBot, job: Job) -> Steps:
    """Return what the steps of dragging the tiles take; no two rounds are the same."""
    canvas = shown(qtbot, job)
    document = canvas.document
    tiling = job.finish.tiling
    assert tiling is not None
    start = QPoint(*map(round, canvas.view.to_screen((tiling.start_x, tiling.start_y))))
    QTest.mousePress(canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    times, seen = [], set()
    for number, (dx, dy) in enumerate(islice(cycle(WAY), STEPS)):
        begun = time.perf_counter()
        QTest.mouseMove(canvas, start + QPoint(dx + number // len(WAY), dy))
        canvas.repaint()
        times.append((time.perf_counter() - begun) * 1e3)
        seen.add(document.job.finish.tiling)
    assert len(seen) > STEPS / 2
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    assert document.job == job
    times = sorted(times[len(WAY) :])
    return Steps(statistics.median(times), times[round(0.99 * (len(times) - 1))])


def tiles_of(job: Job) -> float:
    tiling = job.finish.tiling
    return job.wall.width * job.wall.height / (tiling.wide * tiling.high) if tiling else 0.0


def test_a_step_of_dragging_the_tiles_against_the_same_without_any_check(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    jobs = list(map(open_job, SAMPLES))
    largest = max(jobs, key=lambda job: len(job.fittings) + len(job.pipes) + len(job.services))
    most = max(jobs, key=tiles_of)
    for job in dict.fromkeys((largest, most)):
        with monkeypatch.context() as patch:
            with_checks = dragged(qtbot, job)
            found = Document(job, generic_parts(), standard_rules()).state.findings
            patch.setattr(app.document, "check", lambda _plan, found=found: found)
            without = dragged(qtbot, job)
        print(
            f"\n{job.about.title}: a step takes {with_checks.median:.1f} ms (99 of 100 within"
            f" {with_checks.slowest:.1f}), {without.median:.1f} ms without checks:"
            f" {with_checks.median / without.median:.1f} times (wanted: {CHECKED:g});"
            f" guides {MEDIAN:g} and {SLOWEST:g} ms"
        )
        assert with_checks.median < CHECKED * without.median
