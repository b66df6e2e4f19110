"""Labels beside the wall: spreading moves them least, and no two ever touch."""

import math
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from export.drawings.labels import DENSE, LETTERING, Label, PlacedLabel, draw_labels, label_column, spread
from export.recorder import Recorder
from tests.export.measured import pieces, touching, words

WALL = (0.0, 0.0, 760.0, 2400.0)
places = st.lists(st.floats(-1000, 1000), min_size=1, max_size=40).map(sorted)
gaps = st.floats(0.1, 50)


def test_two_at_one_place_part_evenly() -> None:
    assert spread([0, 0], [10]) == [-5, 5]


def test_three_in_a_heap_keep_their_middle() -> None:
    # less the gaps before them they want 0, -9, -18: their mean is -9
    assert spread([0, 1, 2], [10, 10]) == pytest.approx([-9, 1, 11])


def test_nothing_moves_that_has_room() -> None:
    assert spread([0, 10, 30], [10, 10]) == [0, 10, 30]


def test_gaps_may_differ() -> None:
    # 0 and 4 want to be 10 apart: 3 each way
    assert spread([0, 4], [10]) == [-3, 7]
    assert spread([0, 4, 100], [10, 1]) == [-3, 7, 100]


def test_a_heap_at_the_lower_end_grows_upwards() -> None:
    assert spread([0, 0], [10], low=0) == [0, 10]


def test_a_heap_at_the_upper_end_grows_downwards() -> None:
    assert spread([99, 100], [10], high=100) == [90, 100]


def test_too_little_room_is_refused() -> None:
    with pytest.raises(ValueError, match="3 labels need 20 mm, there are 15 mm"):
        spread([0, 0, 0], [10, 10], low=0, high=15)


def test_no_labels_take_no_places() -> None:
    assert spread([], []) == []


@given(places, gaps)
def test_neighbours_are_never_nearer_than_their_gap_and_keep_their_order(
    wanted: list[float], gap: float
) -> None:
    found = spread(wanted, [gap] * (len(wanted) - 1))
    assert all(b - a >= gap - 1e-6 for a, b in pairwise(found))


@given(places, gaps)
def test_nothing_moves_farther_than_half_a_full_row(wanted: list[float], gap: float) -> None:
    # In a heap from the first to the last of n, what comes before i averages at least as high as the heap
    # and is at most a gap a place higher than its neighbour: i moves by at most (n - 1) / 2 gaps.
    found = spread(wanted, [gap] * (len(wanted) - 1))
    assert all(abs(a - b) <= (len(wanted) - 1) / 2 * gap + 1e-6 for a, b in zip(found, wanted, strict=True))


@given(places, gaps, st.lists(st.floats(0, 30), min_size=40, max_size=40), st.floats(-500, 500))
def test_no_other_arrangement_moves_less(
    wanted: list[float], gap: float, slack: list[float], start: float
) -> None:
    def moved(arrangement: list[float]) -> float:
        return sum((a - b) ** 2 for a, b in zip(arrangement, wanted, strict=True))

    other = [wanted[0] + start]
    for before, after, extra in zip(wanted, wanted[1:], slack, strict=False):
        other.append(max(other[-1] + gap, after) + extra * (after > before))
    assert moved(spread(wanted, [gap] * (len(wanted) - 1))) <= moved(other) + 1e-6


@given(places, gaps, st.floats(0, 100))
def test_bounds_are_kept(wanted: list[float], gap: float, room: float) -> None:
    low = wanted[0]
    high = low + gap * (len(wanted) - 1) + room
    found = spread(wanted, [gap] * (len(wanted) - 1), low, high)
    assert found[0] >= low - 1e-6
    assert found[-1] <= high + 1e-6


# the column


labels = st.builds(
    Label,
    st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), max_size=70),
    st.tuples(st.floats(0, 760), st.floats(0, 2400)),
)


def drawn(column: tuple[PlacedLabel, ...], scale: float) -> Recorder:
    pen = Recorder()
    draw_labels(pen, column, scale)
    return pen


@given(st.lists(labels, max_size=90), st.sampled_from([5.0, 10.0, 20.0, 50.0]))
def test_labels_never_touch_and_stand_clear_of_the_wall(given_labels: list[Label], scale: float) -> None:
    column = label_column(given_labels, WALL, scale, 58.0)
    texts = words(drawn(column, scale))
    assert touching(texts) == []
    assert all(text.bounds[0] > 760 and text.bounds[1] >= -1e-6 for text in texts)
    assert all(text.height in (LETTERING * scale, DENSE * scale) for text in texts)


@pytest.mark.parametrize(("many", "height"), [(11, LETTERING), (40, DENSE), (100, DENSE)])
def test_lettering_gets_smaller_only_when_there_are_many(many: int, height: float) -> None:
    # At 1:20 the wall is 120 mm high; a line of 2.5 takes 5.4 mm with its gap, one of 1.8 takes 3.9 mm,
    # and any paper has 140 mm: 11 lines fit at 2.5, 40 need 155 mm in one column and 78 in two.
    column = label_column([Label(f"label {i}", (380, i * 20)) for i in range(many)], WALL, 20.0, 58.0)
    assert {label.height for label in column} == {height * 20}
    assert len(column) == many


def test_a_label_that_is_too_long_takes_two_lines_then_an_ellipsis() -> None:
    (two,) = label_column(
        [Label("valve: Concealed valve, two outlets, round plate", (0, 500))], WALL, 1.0, 58.0
    )
    assert " ".join(two.lines) == "valve: Concealed valve, two outlets, round plate"
    assert not two.cut
    (cut,) = label_column([Label("word " * 40, (0, 500))], WALL, 1.0, 58.0)
    assert len(cut.lines) == 2
    assert cut.lines[1].endswith("…")
    assert cut.cut


def test_leaders_of_labels_at_different_heights_do_not_cross() -> None:
    features = [(100, 900), (300, 1000), (600, 950), (500, 400), (200, 2000), (700, 1900)]
    pen = drawn(label_column([Label(str(f), f) for f in features], WALL, 20.0, 58.0), 20.0)
    crossings = [(a, b) for a, b in combinations(list(pieces(pen, "leader")), 2) if _cross(*a, *b)]
    assert crossings == []


def _cross(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> bool:
    def side(p: tuple[float, float], q: tuple[float, float], r: tuple[float, float]) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def test_a_leader_begins_at_its_feature_and_ends_before_its_text() -> None:
    (placed,) = label_column([Label("rail", (570, 1300))], WALL, 20.0, 58.0)
    start, _, end = placed.leader
    assert start == (570, 1300)
    assert end[1] == placed.y
    assert 0 < placed.x - end[0] < 2 * 20
    assert math.isclose(placed.y, 1300)
