"""How long one step of a drag takes: every check of the job, the drawing of it, and the picture.

Run with `python -m pytest tests/benchmarks/test_canvas_speed.py -s`; the machines differ, the ratios should
not. Steps are real mouse events on a canvas of 1200 x 900 pixels, each painted before the next. Times are of
the processor, where other work on the machine does not count; where there is none the clock says the same.
"""

import statistics
import time
from collections.abc import Iterator
from itertools import count, islice
from pathlib import Path
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
from app.files import open_job
from app.selection import Selection
from geometry.edits.refs import Ref
from geometry.finding import Finding
from geometry.model import Enclosure, Fitting, Head, Hose, HoseOutlet, Job, Pipe, Rail, Valve, Wall
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules

SAMPLES = sorted((Path(__file__).parents[2] / "samples").glob("*.json"))
STEPS = 80
MEDIAN, SLOWEST = 16.0, 33.0
"""ms a step: a frame, and two, of a screen that shows 60 a second; guides, not judged."""
CHECKED = 2.0
"""With all checks a step takes at most so many times as long as without any."""
ROUNDS = 2
"""The best of so many counts."""
GROWTH = 12.0
"""Ten times the parts may take so many times as long."""
WAY = [(6, 0), (13, 4), (21, 9), (30, 3), (22, -6), (11, -2), (-4, 5), (-15, 8), (-22, 1), (-9, -5)]
"""Pixels from where a drag began; the next round is a pixel farther right, so that no place is known."""


class Steps(NamedTuple):
    """What the steps of a drag took, in ms."""

    median: float
    slowest: float
    """The 99th percentile."""


def bays(count: int) -> Job:
    """Return showers side by side, each with four fittings, a hose and four pipes."""
    fittings: list[Fitting] = []
    hoses: list[Hose] = []
    pipes: list[Pipe] = []
    for bay in range(count):
        x = 700.0 * bay + 400.0
        fittings += [
            Valve(id=f"valve{bay}", part="valve-two-round", x=x, height=1030),
            Head(id=f"head{bay}", part="head-wall-200", x=x, height=2190),
            HoseOutlet(id=f"outlet{bay}", part="outlet-round", x=x + 190, height=1030),
            Rail(id=f"rail{bay}", part="rail-700", x=x + 190, height=1120),
        ]
        hoses.append(Hose(id=f"hose{bay}", part="hose-1500", outlet=f"outlet{bay}", rail=f"rail{bay}"))
        pipes += [
            Pipe(id=f"hot{bay}", service="hot", end=f"valve{bay}.hot", route=((x - 45, 0.0),)),
            Pipe(id=f"cold{bay}", service="cold", end=f"valve{bay}.cold", route=((x + 45, 0.0),)),
            Pipe(id=f"riser{bay}", service="mixed", start=f"valve{bay}.out1", end=f"head{bay}.in"),
            Pipe(id=f"branch{bay}", service="mixed", start=f"valve{bay}.out2", end=f"outlet{bay}.in"),
        ]
    return Job(
        wall=Wall(width=20000, height=2400, thickness=140),
        enclosure=Enclosure(left=0, width=20000, projection=900),
        fittings=tuple(fittings),
        hoses=tuple(hoses),
        pipes=tuple(pipes),
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


def dragged(qtbot: QtBot, job: Job, part: str, *, all_anew: bool = False) -> Steps:
    """Return what the steps of dragging a part take, painting what moved or all of it anew."""
    canvas = shown(qtbot, job)
    document = canvas.document
    fitting = job.fitting(part)
    canvas.selection.choose([Ref("fitting", part)])
    x, y = canvas.view.to_screen((fitting.x, fitting.height + 150.0))
    start = QPoint(round(x), round(y))
    QTest.mousePress(canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    times = []
    for place in islice(places(), STEPS):
        if all_anew:
            forget_pictures(canvas)
        begun = time.process_time()
        QTest.mouseMove(canvas, start + place)
        canvas.repaint()
        times.append((time.process_time() - begun) * 1e3)
    assert document.job.fitting(part).at != fitting.at
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    assert document.job == job
    times = sorted(times[len(WAY) :])
    return Steps(statistics.median(times), times[round(0.99 * (len(times) - 1))])


@pytest.fixture
def largest() -> Job:
    return max(map(open_job, SAMPLES), key=lambda job: len(job.fittings) + len(job.pipes) + len(job.services))


def test_a_step_of_a_drag_against_the_same_without_any_check(
    qtbot: QtBot, largest: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = Document(largest, generic_parts(), standard_rules()).state.findings

    def unchecked(_plan: Plan) -> tuple[Finding, ...]:
        return found

    rounds = []
    for _ in range(ROUNDS):
        checked = dragged(qtbot, largest, "rail")
        with monkeypatch.context() as patched:
            patched.setattr(app.document, "check", unchecked)
            bare = dragged(qtbot, largest, "rail"), dragged(qtbot, largest, "rail", all_anew=True)
        rounds.append((checked, *bare))
    with_checks, without, anew = (min(each) for each in zip(*rounds, strict=True))
    ratio, to_anew = with_checks.median / without.median, with_checks.median / anew.median
    print(
        f"\n{largest.about.title}: a step takes {with_checks.median:.1f} ms (99 of 100 within"
        f" {with_checks.slowest:.1f}; guides {MEDIAN:g} and {SLOWEST:g} ms). Without any check it takes"
        f" {without.median:.1f} ms where only what moved is painted: {ratio:.2f} times (at most {CHECKED:g});"
        f" and {anew.median:.1f} ms where the whole scene is painted anew: {to_anew:.2f} times"
    )
    assert ratio <= CHECKED


def test_ten_times_the_parts_take_at_most_twelve_times_as_long(qtbot: QtBot) -> None:
    few, many = dragged(qtbot, bays(2), "rail0"), dragged(qtbot, bays(20), "rail0")
    print(f"\n2 bays {few.median:.1f} ms, 20 bays {many.median:.1f} ms: {many.median / few.median:.1f} times")
    assert many.median <= GROWTH * few.median


def test_ten_times_the_parts_are_painted_within_twelve_times_as_long(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(app.document, "check", lambda _plan: ())
    few, many = dragged(qtbot, bays(2), "rail0"), dragged(qtbot, bays(20), "rail0")
    print(f"\nwithout checks: 2 bays {few.median:.1f} ms, 20 bays {many.median:.1f} ms")
    assert many.median <= GROWTH * few.median
