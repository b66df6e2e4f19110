"""Drags on a canvas, timed step by step, with all checks and without any.

Steps are real mouse events on a canvas of 1200 x 900 pixels, each painted before the next. Times are of the
processor, where other work on the machine does not count; where there is none the clock says the same.
"""

import statistics
import time
from collections.abc import Callable, Iterator
from itertools import count, islice
from typing import NamedTuple

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

import app.document
from app.canvas.canvas import Canvas
from app.canvas.highlight import Highlights
from app.canvas.layout import Layout
from app.canvas.scene import Scene
from app.document import Document
from app.selection import Selection
from geometry.edits.refs import Ref
from geometry.edits.routes import corners
from geometry.model import XY, Job
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from tests.samples import SAMPLES, sample_job

STEPS = 80
MEDIAN, SLOWEST = 16.0, 33.0
"""ms a step: a frame, and two, of a screen that shows 60 a second; guides, not judged."""
CHECKED = 2.0
"""With all checks a step takes at most so many times as long as without any."""
ROUNDS = 2
"""The best of so many counts."""
WAY = [(6, 0), (13, 4), (21, 9), (30, 3), (22, -6), (11, -2), (-4, 5), (-15, 8), (-22, 1), (-9, -5)]
"""Pixels from where a drag began; the next round is a pixel farther right, so that no place is known."""


class Steps(NamedTuple):
    """What the steps of a drag took, in ms."""

    median: float
    slowest: float
    """The 99th percentile."""


Grip = Callable[[Canvas], XY]
"""Chooses what is to be dragged, and tells where it is held, in mm on the wall."""


def by_fitting(name: str) -> Grip:
    """Return the grip of a fitting 150 mm above its place."""

    def grip(canvas: Canvas) -> XY:
        canvas.selection.choose([Ref("fitting", name)])
        x, y = canvas.document.job.fitting(name).at
        return x, y + 150.0

    return grip


def by_corner(pipe: str, index: int) -> Grip:
    """Return the grip of a pipe's corner, the pieces of all pipes named on the wall."""

    def grip(canvas: Canvas) -> XY:
        canvas.set_stage("piped")
        canvas.selection.choose([Ref("pipe", pipe)])
        return corners(canvas.document.state.plan, pipe)[index]

    return grip


def by_tiles(canvas: Canvas) -> XY:
    """Hold the tiles by their first corner."""
    tiling = canvas.document.job.finish.tiling
    assert tiling is not None
    return tiling.start_x, tiling.start_y


def largest() -> Job:
    """Return the sample with the most things."""
    return max(
        map(sample_job, SAMPLES), key=lambda job: len(job.fittings) + len(job.pipes) + len(job.services)
    )


def places() -> Iterator[QPoint]:
    """Go through the steps of a drag, in pixels from where it began."""
    for number in count():
        x, y = WAY[number % len(WAY)]
        yield QPoint(x + number // len(WAY), y)


def forget_pictures(canvas: Canvas) -> None:
    """Make a canvas draw everything anew."""
    canvas._scene, canvas._layout, canvas._highlights, canvas._backdrop = (
        Scene(),
        Layout(),
        Highlights(),
        None,
    )


def shown(qtbot: QtBot, job: Job) -> Canvas:
    """Return a canvas of 1200 x 900 pixels on which a job is seen."""
    document = Document(job, generic_parts(), standard_rules())
    canvas = Canvas(document, Selection(document))
    qtbot.addWidget(canvas)
    canvas.resize(1200, 900)
    with qtbot.waitExposed(canvas):
        canvas.show()
    return canvas


def dragged(qtbot: QtBot, job: Job, grip: Grip, *, all_anew: bool = False) -> Steps:
    """Return what the steps of a drag take, painting what moved or all of it anew."""
    canvas = shown(qtbot, job)
    x, y = canvas.view.to_screen(grip(canvas))
    start, times, moves = QPoint(round(x), round(y)), [], 0
    QTest.mousePress(canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    for place in islice(places(), STEPS):
        if all_anew:
            forget_pictures(canvas)
        before = canvas.document.job
        begun = time.process_time()
        QTest.mouseMove(canvas, start + place)
        canvas.repaint()
        times.append((time.process_time() - begun) * 1e3)
        moves += canvas.document.job != before
    assert moves > STEPS / 2  # the others stayed where they had snapped
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    assert canvas.document.job == job
    times = sorted(times[len(WAY) :])
    return Steps(statistics.median(times), times[round(0.99 * (len(times) - 1))])


def checked_against_unchecked(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, job: Job, grip: Grip) -> float:
    """Print how long a step takes with all checks and without any; return how many times as long that is."""
    found = Document(job, generic_parts(), standard_rules()).state.findings
    rounds: list[tuple[Steps, ...]] = []
    for _ in range(ROUNDS):
        checked = dragged(qtbot, job, grip)
        with monkeypatch.context() as patched:
            patched.setattr(app.document, "check", lambda _plan: found)
            bare = dragged(qtbot, job, grip), dragged(qtbot, job, grip, all_anew=True)
        rounds.append((checked, *bare))
    with_checks, without, anew = (min(each[kind] for each in rounds) for kind in range(3))
    ratio, to_anew = with_checks.median / without.median, with_checks.median / anew.median
    print(
        f"\n{job.about.title}: a step takes {with_checks.median:.1f} ms (99 of 100 within"
        f" {with_checks.slowest:.1f}; guides {MEDIAN:g} and {SLOWEST:g} ms). Without any check it takes"
        f" {without.median:.1f} ms where only what moved is painted: {ratio:.2f} times (at most {CHECKED:g});"
        f" and {anew.median:.1f} ms where the whole scene is painted anew: {to_anew:.2f} times"
    )
    return ratio
