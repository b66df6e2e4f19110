"""How long routes, cut list, stock and the drag of a route's corner take, on the largest sample.

Run with `python -m pytest tests/benchmarks/test_routes_speed.py -s`.
"""

import statistics
import time
from collections.abc import Callable

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

import app.document
from app.document import Document
from geometry.edits.refs import Ref
from geometry.edits.routes import corners
from geometry.model import Job
from geometry.parts.catalogue import generic_parts
from geometry.pipework.cut_list import pieces
from geometry.pipework.proposal import proposals
from geometry.pipework.stock import cuttings
from geometry.rules import standard_rules
from tests.benchmarks.test_canvas_speed import CHECKED, MEDIAN, SLOWEST, Steps, shown
from tests.export.jobs import sample

PROPOSAL, LIST = 0.25, 0.05
"""Seconds: a proposal while the user waits, and a new cut list while a point is dragged."""
STEPS = 60
"""Of a drag."""


def seconds(action: Callable[[], object]) -> float:
    best = 10.0
    for _ in range(5):
        began = time.perf_counter()
        action()
        best = min(best, time.perf_counter() - began)
    return best


def test_a_proposal_takes_less_than_a_quarter_of_a_second() -> None:
    plan = sample("corner-1200x800")
    took = seconds(lambda: proposals(plan, "hot", "above"))
    print(f"\nproposal: {took * 1000:.0f} ms")
    assert took < PROPOSAL


def test_a_cut_list_keeps_up_with_a_dragged_point() -> None:
    plan = sample("corner-1200x800")
    took = seconds(lambda: cuttings(plan, pieces(plan)))
    print(f"\ncut list and stock: {took * 1000:.1f} ms")
    assert took < LIST


def dragged(qtbot: QtBot, job: Job) -> Steps:
    """Return what the steps of dragging a corner of the hot pipe take, its pieces named on the wall."""
    canvas = shown(qtbot, job)
    document = canvas.document
    canvas.set_stage("piped")
    canvas.selection.choose([Ref("pipe", "hot")])
    x, y = canvas.view.to_screen(corners(document.state.plan, "hot")[1])
    start, times = QPoint(round(x), round(y)), []
    QTest.mousePress(canvas, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    for step in range(1, STEPS + 1):
        begun = time.perf_counter()
        QTest.mouseMove(canvas, start + QPoint(step, (7 * step) % 23))
        canvas.repaint()
        times.append((time.perf_counter() - begun) * 1e3)
    assert document.job != job
    QTest.keyClick(canvas, Qt.Key.Key_Escape)
    times = sorted(times[STEPS // 4 :])
    return Steps(statistics.median(times), times[round(0.99 * (len(times) - 1))])


def test_a_dragged_corner_is_checked_and_its_pieces_counted_in_time(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = sample("corner-1200x800").job
    with_checks = dragged(qtbot, job)
    found = Document(job, generic_parts(), standard_rules()).state.findings
    monkeypatch.setattr(app.document, "check", lambda _plan: found)
    without = dragged(qtbot, job)
    ratio = with_checks.median / without.median
    print(
        f"\na step of a dragged corner: {with_checks.median:.1f} ms (99 of 100 within"
        f" {with_checks.slowest:.1f}; guides {MEDIAN:g} and {SLOWEST:g} ms), without any check"
        f" {without.median:.1f} ms: {ratio:.2f} times (at most {CHECKED:g})"
    )
    assert ratio <= CHECKED
