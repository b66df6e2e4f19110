"""The plot of flow against pressure: where points lie on paper, and letters that never touch."""

import pytest

from export.drawings.supply_plot import LEFT, LOW, PATTERNS, RIGHT, TOP, draw_supply_plot, letter
from export.recorder import Recorder
from geometry.supply.sweep import Sweep
from tests.export.measured import touching, words

WIDE, TALL = 170.0, 75.0


def sweep(name: str, share: float = 1.0, enough: float | None = 2.0) -> Sweep:
    """A straight line: 4 l/min for each bar, times a share."""
    points = tuple((quarter / 4, share * quarter) for quarter in range(25))
    return Sweep(name, points, (3.0, 12.0 * share), 8.0 * share, enough)


def drawn(*sweeps: Sweep) -> Recorder:
    pen = Recorder()
    draw_supply_plot(sweeps, pen, WIDE, TALL)
    return pen


def test_a_line_runs_from_the_corner_to_its_value_at_the_highest_pressure() -> None:
    (line,) = [stroke for stroke in drawn(sweep("head")).strokes if stroke.layer == PATTERNS[0]]
    points = line.values["points"]
    assert points[0] == (LEFT, LOW)
    # 24 l/min of 25 on the axis, which has a line every 5
    assert points[-1] == pytest.approx((WIDE - RIGHT, LOW + (TALL - LOW - TOP) * 24 / 25))


def test_the_measured_pressure_stands_upright_at_its_place() -> None:
    (line,) = drawn(sweep("head")).on("centre-line")
    x = LEFT + (WIDE - LEFT - RIGHT) * 3 / 6
    assert [line.values[end][0] for end in ("start", "end")] == [pytest.approx(x)] * 2


def test_a_need_that_is_not_reached_has_no_ring() -> None:
    circles = [s for s in drawn(sweep("head", enough=None)).strokes if s.verb == "circle"]
    assert circles == []


@pytest.mark.parametrize("many", [1, 2, 4, 6])
def test_letters_and_numbers_never_touch(many: int) -> None:
    found = words(drawn(*(sweep(str(index), 1.0 - index / 10) for index in range(many))))
    assert touching(found) == []
    assert {letter(index) for index in range(many)} <= {text.text for text in found}
    for text in found:
        x0, y0, x1, y1 = text.bounds
        assert -0.01 <= x0 <= x1 <= WIDE
        assert 0.0 <= y0 <= y1 <= TALL


def test_equal_lines_keep_their_letters_apart() -> None:
    assert touching(words(drawn(sweep("a"), sweep("b"), sweep("c")))) == []


def test_nothing_at_all_still_has_axes() -> None:
    pen = drawn(sweep("head", 0.0, None)._replace(need=0.0))
    assert "bar with all taps shut" in [text.text for text in words(pen)]
