from itertools import combinations

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from export.drawings.note_places import Along, Beside
from export.drawings.notes import PlacedNote, place
from export.pen import XY
from export.recorder import Recorder
from export.text import text_width

WINDOW = (0.0, 0.0, 200.0, 250.0)
HAIR = 1e-6  # mm

coordinates = st.tuples(st.integers(0, 2000), st.integers(0, 2500)).map(lambda at: (at[0] / 10, at[1] / 10))
words = st.sampled_from(["380 from tray edge", "H", "1000 up", "valve centre"])
beside = st.builds(
    lambda at, lines: Beside(at, (tuple(lines),), 5.0, clear=7.0),
    coordinates, st.lists(words, min_size=1, max_size=4),
)  # fmt: skip
along = st.builds(
    lambda start, end, needed: Along(start, end, ("cut 39 wide, 33 deep", "H"), 5.0, needed=needed),
    coordinates, coordinates, st.booleans(),
)  # fmt: skip


def box_of(placed: PlacedNote) -> shapely.Polygon:
    return shapely.Polygon(placed.box)


def strokes(*lines: tuple[XY, XY]) -> Recorder:
    drawn = Recorder()
    for start, end in lines:
        drawn.line("chase", start, end)
    return drawn


def test_words_stand_right_beside_their_point_level_with_it() -> None:
    [placed] = place([Beside((100, 100), (("H",),), 5.0, clear=7.0)], WINDOW, Recorder())
    x0, y0, x1, y1 = box_of(placed).bounds
    assert (x0 + x1) / 2 > 100
    assert (y0 + y1) / 2 == pytest.approx(100)
    assert 7 <= box_of(placed).distance(shapely.Point(100, 100)) < 7 + 5
    assert placed.leader is None


def test_words_move_off_a_stroke_that_runs_through_their_place() -> None:
    wall = ((110.0, 0.0), (110.0, 250.0))
    [placed] = place([Beside((100, 100), (("1000 up",),), 5.0, clear=7.0)], WINDOW, strokes(wall))
    assert not placed.crossed
    assert not box_of(placed).intersects(shapely.LineString(wall))


def test_a_circle_is_a_stroke_too_but_not_its_inside() -> None:
    drawn = Recorder()
    drawn.circle("drill", (100, 100), 60)
    [placed] = place([Beside((100, 100), (("1000 up",),), 5.0, clear=7.0)], WINDOW, drawn)
    rim = shapely.Point(100, 100).buffer(60, quad_segs=64).exterior
    assert not box_of(placed).intersects(rim)
    assert box_of(placed).distance(shapely.Point(100, 100)) < 20


def test_words_far_off_are_tied_to_their_point() -> None:
    around = [((80.0, y / 10), (120.0, y / 10)) for y in range(800, 1201, 10)]
    [placed] = place([Beside((100, 100), (("H",),), 5.0, clear=7.0)], WINDOW, strokes(*around))
    assert placed.leader is not None
    start, end = placed.leader
    assert shapely.Point(100, 100).distance(shapely.Point(start)) == pytest.approx(7)
    assert box_of(placed).distance(shapely.Point(end)) == pytest.approx(0)


def test_a_shorter_wording_is_taken_where_the_long_one_does_not_fit() -> None:
    note = Beside((10, 100), (("380 from tray edge, 1000 up",), ("380 from tray edge", "1000 up")), 5.0)
    narrow = (0.0, 0.0, 75.0, 250.0)
    assert text_width("380 from tray edge, 1000 up", 5.0) > 75 > text_width("380 from tray edge", 5.0) + 2
    [placed] = place([note], narrow, Recorder())
    assert [line for _, line in placed.lines] == ["380 from tray edge", "1000 up"]
    assert placed.lines[0][0][1] > placed.lines[1][0][1]


def test_words_that_fit_nowhere_off_the_strokes_get_smaller() -> None:
    # Bands of 9 mm: less than 1.7 + 0.4 heights of 5 mm, more than of 3.5 mm.
    bands = [((0.0, y), (200.0, y)) for y in range(0, 251, 9)]
    [placed] = place([Beside((100, 100), (("H",),), 5.0, clear=2.0)], WINDOW, strokes(*bands))
    assert placed.note.height == 3.5
    assert not placed.crossed


def test_words_along_a_line_run_with_it_and_read_from_the_right_or_the_bottom() -> None:
    for start, end, angle in [
        ((20, 100), (180, 100), 0),
        ((180, 100), (20, 100), 0),
        ((100, 20), (100, 230), 90),
        ((100, 230), (100, 20), 90),
        ((150, 200), (50, 100), 45),
    ]:
        [placed] = place([Along(start, end, ("hot",), 5.0)], WINDOW, strokes((start, end)))
        assert placed.angle == pytest.approx(angle)
        assert not placed.crossed


def test_a_short_line_goes_without_words_unless_they_are_needed() -> None:
    stub = Along((100, 100), (104, 100), ("cut 39 wide",), 5.0)
    assert place([stub], WINDOW, Recorder()) == ()
    [placed] = place([stub._replace(needed=True)], WINDOW, Recorder())
    assert box_of(placed).distance(shapely.Point(102, 100)) < 10


def test_a_point_outside_the_window_has_no_words() -> None:
    assert place([Beside((-1, 100), (("H",),), 5.0)], WINDOW, Recorder()) == ()


def test_equal_notes_are_all_placed() -> None:
    note = Beside((100, 100), (("H",),), 5.0, clear=7.0)
    first, second = place([note, note], WINDOW, Recorder())
    assert not box_of(first).intersects(box_of(second))


@given(st.lists(beside | along, max_size=8), st.lists(st.tuples(coordinates, coordinates), max_size=8))
def test_no_words_cover_others_and_all_stand_in_the_window(
    notes: list[Beside | Along], lines: list[tuple[XY, XY]]
) -> None:
    placed = place(notes, WINDOW, strokes(*lines))
    window = shapely.box(*WINDOW).buffer(HAIR)
    for one in placed:
        assert window.covers(box_of(one))
    for one, other in combinations(placed, 2):
        assert not box_of(one).intersects(box_of(other))


def test_leaders_do_not_cross() -> None:
    # Two points in a thicket: the words of each stand outside it, on the side where their point lies.
    thicket = [((60.0, y / 10), (140.0, y / 10)) for y in range(800, 1201, 10)]
    notes = [
        Beside((90, 100), (("left",),), 5.0, clear=3.0),
        Beside((110, 100), (("right",),), 5.0, clear=3.0),
    ]
    first, second = place(notes, WINDOW, strokes(*thicket))
    assert first.leader
    assert second.leader
    assert not shapely.LineString(first.leader).intersects(shapely.LineString(second.leader))


@given(st.lists(beside, min_size=1, max_size=6), st.lists(st.tuples(coordinates, coordinates), max_size=8))
def test_every_point_in_the_window_gets_its_words(notes: list[Beside], lines: list[tuple[XY, XY]]) -> None:
    placed = place(notes, WINDOW, strokes(*lines))
    wanted = sorted((note.at, note.wordings[0]) for note in notes)
    assert sorted((one.note.at, tuple(line for _, line in one.lines)) for one in placed) == wanted  # type: ignore[union-attr]


@given(beside, st.lists(st.tuples(coordinates, coordinates), max_size=6))
def test_what_is_said_to_be_clear_of_strokes_is(note: Beside, lines: list[tuple[XY, XY]]) -> None:
    for placed in place([note], WINDOW, strokes(*lines)):
        hit = [line for line in lines if box_of(placed).buffer(-HAIR).intersects(shapely.LineString(line))]
        assert placed.crossed or not hit
