"""How long one step of a drag takes: every check of the job, the drawing of it, and the picture.

Run with `python -m pytest tests/benchmarks/test_canvas_speed.py -s`; the machines differ, the ratios should
not.
"""

import pytest
from pytestqt.qtbot import QtBot

import app.document
from geometry.model import Enclosure, Fitting, Head, Hose, HoseOutlet, Job, Pipe, Rail, Valve, Wall
from tests.benchmarks.drags import CHECKED, by_fitting, checked_against_unchecked, dragged, largest

GROWTH = 12.0
"""Ten times the parts may take so many times as long."""


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


def test_a_step_of_a_drag_against_the_same_without_any_check(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert checked_against_unchecked(qtbot, monkeypatch, largest(), by_fitting("rail")) <= CHECKED


def test_ten_times_the_parts_take_at_most_twelve_times_as_long(qtbot: QtBot) -> None:
    few, many = (dragged(qtbot, bays(count), by_fitting("rail0")) for count in (2, 20))
    print(f"\n2 bays {few.median:.1f} ms, 20 bays {many.median:.1f} ms: {many.median / few.median:.1f} times")
    assert many.median <= GROWTH * few.median


def test_ten_times_the_parts_are_painted_within_twelve_times_as_long(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(app.document, "check", lambda _plan: ())
    few, many = (dragged(qtbot, bays(count), by_fitting("rail0")) for count in (2, 20))
    print(f"\nwithout checks: 2 bays {few.median:.1f} ms, 20 bays {many.median:.1f} ms")
    assert many.median <= GROWTH * few.median
