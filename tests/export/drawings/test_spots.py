"""Marks take the first free place, never on each other, never outside, and on as few lines as can be."""

from hypothesis import given
from hypothesis import strategies as st

from export.drawings.spots import Spot, Spots
from export.recorder import Recorder

WINDOW = (0.0, 0.0, 100.0, 100.0)


def drawing() -> Recorder:
    pen = Recorder()
    pen.line("pipe-hot", (50, 0), (50, 100))
    pen.line("spray", (20, 0), (20, 100))
    return pen


def test_the_first_place_that_covers_no_line_is_taken() -> None:
    spots = Spots(drawing(), WINDOW)
    offered = [Spot((50, 50)), Spot((20, 50)), Spot((70, 50)), Spot((80, 50))]
    assert spots.take(offered, 4, 4) == Spot((70, 50))


def test_a_faint_line_may_be_covered() -> None:
    spots = Spots(drawing(), WINDOW, {"spray"})
    assert spots.take([Spot((50, 50)), Spot((20, 50)), Spot((70, 50))], 4, 4) == Spot((20, 50))


def test_where_every_place_covers_lines_the_one_with_the_fewest_is_taken() -> None:
    pen = drawing()
    pen.line("pipe-cold", (51, 0), (51, 100))
    assert Spots(pen, WINDOW).take([Spot((50, 50)), Spot((20, 50))], 4, 4) == Spot((20, 50))


def test_a_circle_counts_as_its_rim() -> None:
    pen = Recorder()
    pen.circle("plate", (50, 50), 30)
    spots = Spots(pen, WINDOW)
    assert spots.take([Spot((79, 50)), Spot((50, 50))], 4, 4) == Spot((50, 50))


def test_no_mark_stands_outside_the_drawing() -> None:
    assert Spots(drawing(), WINDOW).take([Spot((99, 50)), Spot((50, -1))], 4, 4) is None


def test_a_leader_does_not_cross_another_mark() -> None:
    spots = Spots(Recorder(), WINDOW)
    assert spots.take([Spot((50, 50))], 4, 4)
    behind, beside = Spot((60, 50), tied_to=(40, 50)), Spot((60, 60), tied_to=(40, 60))
    assert spots.take([behind, beside], 4, 4) == beside


@given(st.lists(st.tuples(st.floats(0, 100), st.floats(0, 100)), max_size=30), st.floats(1, 20))
def test_marks_never_touch(middles: list[tuple[float, float]], size: float) -> None:
    spots = Spots(drawing(), WINDOW)
    taken = [spot.middle for middle in middles if (spot := spots.take([Spot(middle)], size, size))]
    for i, (x0, y0) in enumerate(taken):
        assert all(max(abs(x1 - x0), abs(y1 - y0)) >= size - 1e-6 for x1, y1 in taken[:i])
