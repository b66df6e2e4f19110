"""Boxes near one another, by hand and held against every pair of all looked at one by one."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.shape.neighbours import neighbours
from geometry.shape.outline import Bounds

PLACES = st.integers(0, 60)
SIZES = st.integers(0, 20)
BOXES = st.builds(
    lambda x, y, w, h: (float(x), float(y), float(x + w), float(y + h)), PLACES, PLACES, SIZES, SIZES
)
ROW: tuple[Bounds, ...] = ((0, 0, 10, 10), (40, 0, 50, 10), (20, 15, 30, 25))
"""Two side by side 30 apart, and between them one that begins 5 higher, 10 from each."""


def test_boxes_count_up_to_the_distance_and_at_it() -> None:
    assert neighbours(ROW, along=10, up=5) == [(0, 2), (1, 2)]
    assert neighbours(ROW, along=10, up=4.9) == []
    assert neighbours(ROW, along=30) == [(0, 1)]


def test_height_in_common_may_be_asked_for() -> None:
    assert neighbours(ROW, along=30, up=-10) == [(0, 1)]
    assert neighbours(ROW, along=30, up=-10.1) == []


@settings(max_examples=60)
@given(st.lists(BOXES, max_size=12), st.integers(0, 15), st.integers(-5, 15))
def test_all_pairs_are_found_in_order(boxes: list[Bounds], along: int, up: int) -> None:
    def near(a: Bounds, b: Bounds) -> bool:
        return max(a[0] - b[2], b[0] - a[2]) <= along and max(a[1] - b[3], b[1] - a[3]) <= up

    pairs = combinations(range(len(boxes)), 2)
    assert neighbours(boxes, along, up) == [(i, j) for i, j in pairs if near(boxes[i], boxes[j])]
