"""Datum lines of a tray, a bath or a wet floor, wherever it stands on the wall."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.model import Enclosure
from geometry.setting_out.lines import Lines, lines


def tray(left: float, width: float, floor: float = 30) -> Enclosure:
    return Enclosure(left=left, width=width, projection=760, floor=floor, rim=floor + 10)


@pytest.mark.parametrize(
    ("left", "width", "quarters"),
    [
        (0, 760, (190, 380, 570)),  # the middle, and midway between it and each edge
        (0, 800, (200, 400, 600)),
        (0, 1200, (300, 600, 900)),
        (0, 1700, (425, 850, 1275)),
        (150, 760, (340, 530, 720)),  # 150 further along the wall
        (-20, 900, (205, 430, 655)),
        (0, 765, (191.25, 382.5, 573.75)),
    ],
)
def test_the_centre_line_and_the_quarter_lines(
    left: float, width: float, quarters: tuple[float, ...]
) -> None:
    found = lines(tray(left, width))
    assert (found.quarter_left, found.centre, found.quarter_right) == quarters
    assert (found.left, found.right) == (left, left + width)


def test_heights_count_from_the_floor_of_the_tray_and_not_from_its_rim() -> None:
    assert lines(tray(0, 760, floor=45)).floor == 45


def test_a_bath_and_a_wet_floor_are_set_out_alike() -> None:
    base = tray(0, 1700)
    assert lines(base) == lines(base.but(kind="bath")) == lines(base.but(kind="wet_floor"))
    assert lines(base) == Lines(0, 425, 850, 1275, 1700, 30)


@given(st.integers(-5000, 5000), st.integers(1, 20_000))
def test_the_lines_stand_in_order_and_evenly(left: int, width: int) -> None:
    found = lines(tray(left / 10, width / 10))
    plumb = found[:5]
    steps = [b - a for a, b in pairwise(plumb)]
    assert all(step == pytest.approx(width / 40, abs=1e-9) for step in steps)
