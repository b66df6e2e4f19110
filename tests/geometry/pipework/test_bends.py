"""Bends against a textbook and against geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.parts.catalogue import generic_parts
from geometry.parts.records import TubePart
from geometry.pipework.bends import arc, gain, is_square, radius, set_back, turn


@pytest.mark.parametrize(
    ("tube", "held", "taken", "saved"),
    [
        # radius 4 D on the axis and the arc of a square bend: a plumbing textbook; gain 2 R - arc by hand
        ("copper-15", 60.0, 94.2, 25.75),
        ("copper-22", 88.0, 138.2, 37.77),
    ],
)
def test_a_square_bend(tube: str, held: float, taken: float, saved: float) -> None:
    bend = radius(generic_parts().find(tube, TubePart))
    assert bend == held
    assert arc(bend, 90) == pytest.approx(taken, abs=0.05)
    assert gain(bend, 90) == pytest.approx(saved, abs=0.005)
    assert set_back(bend, 90) == pytest.approx(held)


@given(st.floats(1, 170), st.floats(10, 300))
def test_a_bend_is_never_longer_than_its_corner_nor_shorter_than_the_chord(angle: float, bend: float) -> None:
    chord = 2 * bend * math.sin(math.radians(angle) / 2)
    assert chord <= arc(bend, angle) + 1e-9
    assert gain(bend, angle) >= -1e-9


@pytest.mark.parametrize(
    ("c", "angle"), [((100, 100), 90), ((100, -100), 90), ((200, 0), 0), ((200, 100), 45), ((0, 0), 180)]
)
def test_how_far_a_way_turns(c: tuple[float, float], angle: float) -> None:
    assert turn((0, 0), (100, 0), c) == pytest.approx(angle)


def test_an_elbow_makes_a_turn_within_a_degree_of_square() -> None:
    assert is_square(89.0)
    assert not is_square(88.9)
